#include "engine/review/match.h"

#include <algorithm>
#include <cmath>

#include "engine/review/match_way.h"
#include "engine/units/units.h"

namespace plumbline::review {
namespace {

double climbOf(const Vec3& way) { return std::asin(std::clamp(way.z, -1.0, 1.0)); }

std::vector<const Piece*> pointersTo(const std::vector<Piece>& pieces) {
    std::vector<const Piece*> out;
    for (const Piece& piece : pieces) out.push_back(&piece);
    return out;
}

}  // namespace

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

}  // namespace plumbline::review
