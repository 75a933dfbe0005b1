// Figures of a plan in a flight.

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/review/match.h"
#include "engine/review/match_way.h"

namespace plumbline::review {
namespace {

int figureOfPiece(const path::Path& plan, const Piece& piece) {
    // A level line may run from one figure into the next: what is rolled on it says whose it is.
    const bool rolled = !piece.rolls.empty();
    const double from_s = rolled ? piece.rolls.front().start_s : piece.start_s;
    const double to_s = rolled ? piece.rolls.back().stop_s : piece.stop_s;
    return path::figureAt(plan, 0.5 * (from_s + to_s));
}

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
    const auto isCertain = [&](const FigureMatch& figure) {
        return certain(figure, tellingOf(plan_pieces, figure_of, figure.figure).size(), plan_pieces,
                       flight_pieces);
    };
    // One figure wanting at an end was left out; with more the flight began later or ended sooner.
    constexpr int kWanting = 2;
    std::vector<int> score(static_cast<std::size_t>(figures), 0);
    const auto scoreAll = [&] {
        for (int f = 0; f < figures; ++f)
            score[static_cast<std::size_t>(f)] =
                tellingOf(plan_pieces, figure_of, f).empty() ? 0 : -1;
        for (const FigureMatch& figure : match.figures)
            if (!figure.out_of_order && !figure.again)
                score[static_cast<std::size_t>(figure.figure)] = 1;
    };
    const auto wanting = [&](int from, int to) {
        return std::count(score.begin() + from, score.begin() + to, -1);
    };
    scoreAll();
    match.flown = flownStretch(score);
    const bool part =
        match.flown.size() > 0 && (wanting(0, match.flown.first) >= kWanting ||
                                   wanting(match.flown.last + 1, figures) >= kWanting);
    // Of a long plan some figure is always like something that was flown.
    if (part && 2 * match.flown.size() < figures) {
        std::erase_if(match.figures, [&](const FigureMatch& figure) {
            if (match.flown.holds(figure.figure) || isCertain(figure)) return false;
            match.missing.push_back(figure.figure);
            return true;
        });
        std::sort(match.missing.begin(), match.missing.end());
        match.missing.erase(std::unique(match.missing.begin(), match.missing.end()),
                            match.missing.end());
        scoreAll();
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
        if (isCertain(figure)) sure.insert(figure.figure);
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
    // Some figures in a row, each as a whole, are no chance: the rest of the flight was another
    // practice.
    constexpr int kInARow = 3;
    const int in_a_row = static_cast<int>(
        std::count_if(sure.begin(), sure.end(), [&](int f) { return match.flown.holds(f); }));
    const bool row = part && in_a_row >= kInARow && 2 * in_a_row > match.flown.size();
    const bool others = flown_all == 0 || static_cast<double>(paired.size()) < kHalf * flown_all;
    match.unlike = !row && others && there < kHalf * (few ? asked : asked_for_sure);
    if (match.unlike) {
        std::erase_if(match.figures, [&](const FigureMatch& figure) { return !isCertain(figure); });
        match.missing.clear();
        for (int figure = 0; figure < figures; ++figure)
            if (std::none_of(match.figures.begin(), match.figures.end(),
                             [&](const FigureMatch& f) { return f.figure == figure; }) &&
                !tellingOf(plan_pieces, figure_of, figure).empty())
                match.missing.push_back(figure);
    }
    // From the first to the last that is left, and all of the plan where no end is wanting.
    match.flown = {0, figures - 1};
    if (part && !match.unlike) {
        const auto was = [](int one) { return one == 1; };
        const auto first = std::find_if(score.begin(), score.end(), was);
        const auto last = std::find_if(score.rbegin(), score.rend(), was);
        const int from = static_cast<int>(first - score.begin());
        const int to = figures - 1 - static_cast<int>(last - score.rbegin());
        if (wanting(0, from) >= kWanting) match.flown.first = from;
        if (wanting(to + 1, figures) >= kWanting) match.flown.last = to;
    }
    std::sort(match.figures.begin(), match.figures.end(),
              [](const FigureMatch& a, const FigureMatch& b) { return a.start_s < b.start_s; });
    return match;
}

}  // namespace plumbline::review
