#include "engine/review/match.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/units/units.h"

namespace plumbline::review {
namespace {

constexpr double kLeftOut = 0.75;  // chosen: two left out cost more than a doubtful pair

double climbOf(const Vec3& way) { return std::asin(std::clamp(way.z, -1.0, 1.0)); }

int figureOfPiece(const path::Path& plan, const Piece& piece) {
    // A level line may run from one figure into the next: what is rolled on it says whose it is.
    const bool rolled = !piece.rolls.empty();
    const double from_s = rolled ? piece.rolls.front().start_s : piece.start_s;
    const double to_s = rolled ? piece.rolls.back().stop_s : piece.stop_s;
    return path::figureAt(plan, 0.5 * (from_s + to_s));
}

/// Pairs of the cheapest way through two sequences, and what it costs. Where `anywhere`, what the
/// second has before and behind costs nothing.
struct Way {
    std::vector<std::pair<int, int>> pairs;
    double cost = 0;
};
Way cheapestWay(const std::vector<const Piece*>& a, const std::vector<const Piece*>& b,
                bool anywhere) {
    const std::size_t rows = a.size() + 1, columns = b.size() + 1;
    std::vector<double> cost(rows * columns, 0);
    std::vector<char> step(rows * columns, 'e');
    const auto at = [columns](std::size_t i, std::size_t j) { return i * columns + j; };
    for (std::size_t i = 1; i < rows; ++i) {
        cost[at(i, 0)] = cost[at(i - 1, 0)] + kLeftOut;
        step[at(i, 0)] = 'a';
    }
    for (std::size_t j = 1; j < columns; ++j) {
        cost[at(0, j)] = anywhere ? 0 : cost[at(0, j - 1)] + kLeftOut;
        step[at(0, j)] = anywhere ? 'e' : 'b';
    }
    for (std::size_t i = 1; i < rows; ++i)
        for (std::size_t j = 1; j < columns; ++j) {
            const double pair = cost[at(i - 1, j - 1)] + unlikeness(*a[i - 1], *b[j - 1]);
            const double skip_a = cost[at(i - 1, j)] + kLeftOut;
            const double skip_b = cost[at(i, j - 1)] + kLeftOut;
            const double least = std::min({pair, skip_a, skip_b});
            cost[at(i, j)] = least;
            step[at(i, j)] = least == pair ? 'p' : least == skip_a ? 'a' : 'b';
        }
    std::size_t i = rows - 1, j = columns - 1;
    if (anywhere)
        for (std::size_t k = 0; k < columns; ++k)
            if (cost[at(i, k)] < cost[at(i, j)]) j = k;
    Way way;
    way.cost = cost[at(i, j)];
    while (step[at(i, j)] != 'e') {
        const char taken = step[at(i, j)];
        if (taken == 'p') way.pairs.emplace_back(i - 1, j - 1);
        if (taken != 'b') --i;
        if (taken != 'a') --j;
    }
    std::reverse(way.pairs.begin(), way.pairs.end());
    return way;
}

std::vector<const Piece*> pointersTo(const std::vector<Piece>& pieces) {
    std::vector<const Piece*> out;
    for (const Piece& piece : pieces) out.push_back(&piece);
    return out;
}

}  // namespace

bool tells(const Piece& piece) {
    return piece.motion != Motion::Line || !piece.rolls.empty() ||
           std::fabs(piece.way_S.z) > std::sin(15 * units::kDegree_rad);
}

double unlikeness(const Piece& a, const Piece& b) {
    constexpr double kOther = 4;
    if (a.motion != b.motion) return kOther;
    double miss = 0;
    const auto add = [&miss](double x, double y, double much) { miss += std::fabs(x - y) / much; };
    if (a.motion == Motion::Line) {
        add(climbOf(a.way_S), climbOf(b.way_S), 30 * units::kDegree_rad);
        add(a.rolled_rad, b.rolled_rad, 120 * units::kDegree_rad);
        add(static_cast<double>(a.rolls.size()), static_cast<double>(b.rolls.size()), 3);
    } else if (a.motion == Motion::Slide) {
        add(a.tail_m, b.tail_m, 150);
    } else if (a.motion == Motion::Spin || a.motion == Motion::Tumble ||
               a.motion == Motion::TorqueRoll) {
        // Stopped a quarter too far it is still the same.
        add(a.turned_rad, b.turned_rad, 240 * units::kDegree_rad);
    } else if (a.motion != Motion::Fall) {
        add(a.turned_rad, b.turned_rad, 60 * units::kDegree_rad);
    }
    // A little for the time it takes, so that of two alike the nearer is taken.
    const double longer = std::max(a.stop_s - a.start_s, b.stop_s - b.start_s);
    const double shorter = std::min(a.stop_s - a.start_s, b.stop_s - b.start_s);
    miss += 0.2 * (1 - shorter / std::max(longer, 0.1));
    return std::min(miss, kOther);
}

double unlikenessInOrder(const std::vector<Piece>& a, const std::vector<Piece>& b) {
    return cheapestWay(pointersTo(a), pointersTo(b), false).cost;
}

std::vector<int> matchInOrder(const std::vector<Piece>& plan, const std::vector<Piece>& flight) {
    std::vector<int> out(plan.size(), -1);
    for (const auto& [i, j] : cheapestWay(pointersTo(plan), pointersTo(flight), false).pairs)
        out[static_cast<std::size_t>(i)] = j;
    return out;
}

namespace {

/// The telling pieces of a figure, by index.
std::vector<int> tellingOf(const std::vector<Piece>& pieces, const std::vector<int>& figure_of,
                           int figure) {
    std::vector<int> out;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (figure_of[i] == figure && tells(pieces[i])) out.push_back(static_cast<int>(i));
    return out;
}

FigureMatch figureFrom(int figure, std::vector<std::pair<int, int>> pairs,
                       const std::vector<Piece>& flight) {
    FigureMatch match;
    match.figure = figure;
    match.start_s = flight[static_cast<std::size_t>(pairs.front().second)].start_s;
    match.stop_s = flight[static_cast<std::size_t>(pairs.back().second)].stop_s;
    match.pieces = std::move(pairs);
    return match;
}

/// Where in the flight a row of pieces fits best: pairs of its own indices and the flight's.
struct Fit {
    std::vector<std::pair<int, int>> pairs;
    double cost = 1e9;
};
/// Run by run of what is not taken.
Fit bestFit(const std::vector<const Piece*>& wanted, const std::vector<Piece>& flight_pieces,
            const std::set<int>& taken) {
    Fit best;
    std::vector<const Piece*> free;
    std::vector<int> index;
    const auto look = [&] {
        if (free.empty()) return;
        Way way = cheapestWay(wanted, free, true);
        if (way.cost < best.cost && !way.pairs.empty()) {
            for (auto& pair : way.pairs) pair.second = index[static_cast<std::size_t>(pair.second)];
            best.pairs = std::move(way.pairs);
            best.cost = way.cost;
        }
        free.clear();
        index.clear();
    };
    for (std::size_t j = 0; j < flight_pieces.size(); ++j) {
        if (taken.count(static_cast<int>(j))) {
            look();
        } else if (tells(flight_pieces[j])) {
            free.push_back(&flight_pieces[j]);
            index.push_back(static_cast<int>(j));
        }
    }
    look();
    return best;
}

/// The same with the plan's indices; its pieces of the flight are taken then.
std::vector<std::pair<int, int>> ofPlan(const Fit& fit, const std::vector<int>& telling,
                                        std::set<int>& taken) {
    std::vector<std::pair<int, int>> pairs;
    for (const auto& [i, j] : fit.pairs) {
        pairs.emplace_back(telling[static_cast<std::size_t>(i)], j);
        taken.insert(j);
    }
    return pairs;
}

constexpr std::size_t kLeastCertain = 3;  // chosen: of one or two pieces every display is full

/// The figure is there as a whole, and much like itself.
bool certain(const FigureMatch& match, std::size_t telling, const std::vector<Piece>& plan_pieces,
             const std::vector<Piece>& flight_pieces) {
    constexpr double kAlike = 0.3;
    double miss = 0;
    std::size_t there = 0;
    for (const auto& [i, j] : match.pieces) {
        const Piece& planned = plan_pieces[static_cast<std::size_t>(i)];
        if (!tells(planned)) continue;
        ++there;
        miss += unlikeness(planned, flight_pieces[static_cast<std::size_t>(j)]);
    }
    return telling >= kLeastCertain && there == telling &&
           miss <= kAlike * static_cast<double>(telling);
}

}  // namespace

Match matchFigures(const path::Path& plan, const std::vector<Piece>& plan_pieces,
                   const std::vector<Piece>& flight_pieces) {
    constexpr double kMostIsThere = 0.6;  // chosen: of the telling pieces
    Match match;
    std::vector<int> figure_of;
    for (const Piece& piece : plan_pieces) figure_of.push_back(figureOfPiece(plan, piece));
    const std::vector<int> flown = matchInOrder(plan_pieces, flight_pieces);
    std::set<int> taken;
    std::vector<int> left;
    const int figures = static_cast<int>(plan.figures.size());
    for (int figure = 0; figure < figures; ++figure) {
        const std::vector<int> telling = tellingOf(plan_pieces, figure_of, figure);
        std::vector<std::pair<int, int>> pairs;
        double there = 0;
        for (std::size_t i = 0; i < plan_pieces.size(); ++i) {
            if (figure_of[i] != figure || flown[i] < 0) continue;
            const auto j = static_cast<std::size_t>(flown[i]);
            if (unlikeness(plan_pieces[i], flight_pieces[j]) > 2 * kLeftOut) continue;
            pairs.emplace_back(static_cast<int>(i), flown[i]);
            there += tells(plan_pieces[i]);
        }
        if (there < kMostIsThere * static_cast<double>(telling.size()) || pairs.empty()) {
            left.push_back(figure);
            continue;
        }
        for (const auto& [i, j] : pairs)
            if (tells(flight_pieces[static_cast<std::size_t>(j)])) taken.insert(j);
        match.figures.push_back(figureFrom(figure, std::move(pairs), flight_pieces));
    }
    const auto wantedOf = [&](const std::vector<int>& telling) {
        std::vector<const Piece*> wanted;
        for (const int i : telling) wanted.push_back(&plan_pieces[static_cast<std::size_t>(i)]);
        return wanted;
    };
    // What is left of the flight, run by run; a figure left over goes where it fits best.
    for (const int figure : left) {
        const std::vector<int> telling = tellingOf(plan_pieces, figure_of, figure);
        if (telling.empty()) {
            // A level line: whether it was flown as a figure or on the way cannot be told.
            continue;
        }
        const Fit fit = bestFit(wantedOf(telling), flight_pieces, taken);
        const double size = static_cast<double>(telling.size());
        if (fit.pairs.empty() || static_cast<double>(fit.pairs.size()) < kMostIsThere * size ||
            fit.cost > (1 - kMostIsThere + 0.3) * kLeftOut * size) {
            match.missing.push_back(figure);
            continue;
        }
        match.figures.push_back(figureFrom(figure, ofPlan(fit, telling, taken), flight_pieces));
        match.figures.back().out_of_order = true;
    }
    // chosen: a figure flown again is there as a whole, and much like itself
    constexpr std::size_t kLeastAgain = 2;
    constexpr double kAlike = 0.3;
    for (std::size_t more = 0; more < flight_pieces.size(); ++more) {
        Fit best;
        int again = -1;
        for (int figure = 0; figure < figures; ++figure) {
            const std::vector<int> telling = tellingOf(plan_pieces, figure_of, figure);
            if (telling.size() < kLeastAgain) continue;
            const Fit fit = bestFit(wantedOf(telling), flight_pieces, taken);
            const double size = static_cast<double>(telling.size());
            if (fit.pairs.size() < telling.size() || fit.cost > kAlike * size) continue;
            if (again >= 0 && fit.cost >= best.cost) continue;
            best = fit;
            again = figure;
        }
        if (again < 0) break;
        const std::vector<int> telling = tellingOf(plan_pieces, figure_of, again);
        match.figures.push_back(figureFrom(again, ofPlan(best, telling, taken), flight_pieces));
        match.figures.back().again = true;
    }
    // Another routine than was flown has pieces like this one's here and there. Turns are in every
    // flight, from taxiing on.
    constexpr double kHalf = 0.5;
    constexpr int kFewTell = 3;  // chosen: with fewer figures of some pieces, any that were found
    const auto counts = [&](int j) {
        const Piece& piece = flight_pieces[static_cast<std::size_t>(j)];
        return tells(piece) && piece.motion != Motion::Turn;
    };
    std::set<int> found, sure, paired;
    int flown_all = 0, asked = 0, asked_for_sure = 0;
    for (const FigureMatch& figure : match.figures) {
        found.insert(figure.figure);
        if (certain(figure, tellingOf(plan_pieces, figure_of, figure.figure).size(), plan_pieces,
                    flight_pieces))
            sure.insert(figure.figure);
        for (const auto& [i, j] : figure.pieces)
            if (counts(j)) paired.insert(j);
    }
    for (std::size_t j = 0; j < flight_pieces.size(); ++j) flown_all += counts(static_cast<int>(j));
    for (int figure = 0; figure < figures; ++figure) {
        const std::size_t telling = tellingOf(plan_pieces, figure_of, figure).size();
        asked += telling > 0;
        asked_for_sure += telling >= kLeastCertain;
    }
    const bool few = asked_for_sure < kFewTell;
    const auto there = static_cast<double>(few ? found.size() : sure.size());
    match.unlike = flown_all > 0 && there < kHalf * (few ? asked : asked_for_sure) &&
                   static_cast<double>(paired.size()) < kHalf * flown_all;
    if (match.unlike) {
        std::erase_if(match.figures, [&](const FigureMatch& figure) {
            return !certain(figure, tellingOf(plan_pieces, figure_of, figure.figure).size(),
                            plan_pieces, flight_pieces);
        });
        match.missing.clear();
        for (int figure = 0; figure < figures; ++figure)
            if (std::none_of(match.figures.begin(), match.figures.end(),
                             [&](const FigureMatch& f) { return f.figure == figure; }) &&
                !tellingOf(plan_pieces, figure_of, figure).empty())
                match.missing.push_back(figure);
    }
    std::sort(match.figures.begin(), match.figures.end(),
              [](const FigureMatch& a, const FigureMatch& b) { return a.start_s < b.start_s; });
    return match;
}

}  // namespace plumbline::review
