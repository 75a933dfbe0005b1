#include "viewer/scene/ghost.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#include "engine/base/number_text.h"
#include "viewer/scene/band.h"
#include "viewer/scene/build.h"
#include "viewer/scene/path_lookup.h"
#include "viewer/scene/pose.h"

namespace plumbline::scene {

namespace {

constexpr double kReach_s = 6;  // chosen: a flight further out of step is at another place
constexpr double kFar_m = 300;  // chosen: distances beyond say nothing about the shift
constexpr double kLeastOverlap = 1.0 / 3;
constexpr float kGhostOpacity = 0.45F;
constexpr glm::vec4 kFlight{0x6d / 255.0F, 0xb4 / 255.0F, 0xea / 255.0F, 0.9F};
constexpr glm::vec4 kTie{0xe6 / 255.0F, 0xde / 255.0F, 0xca / 255.0F, 0.7F};

/// Mean distance at one shift; infinite where they overlap too little.
double meanDistance(const path::Path& shown, const path::Path& ghost, double offset_s,
                    double step_s) {
    const double overlap_s =
        std::min(shown.duration_s(), ghost.duration_s() - offset_s) - std::max(0.0, -offset_s);
    if (overlap_s < kLeastOverlap * std::min(shown.duration_s(), ghost.duration_s())) {
        return std::numeric_limits<double>::infinity();
    }
    double sum_m = 0;
    int count = 0;
    PathWalker shown_walker(shown), ghost_walker(ghost);
    for (double t = std::max(0.0, -offset_s);
         t <= std::min(shown.duration_s(), ghost.duration_s() - offset_s); t += step_s) {
        const Vec3 between =
            shown_walker.at(t).position_S_m - ghost_walker.at(t + offset_s).position_S_m;
        sum_m += std::min(glm::length(between), kFar_m);
        ++count;
    }
    return count > 0 ? sum_m / count : std::numeric_limits<double>::infinity();
}

constexpr double kWarpStep_s = 0.5;
constexpr double kWarpReach_s = 60;

/// The ghost's time for each step of the shown path's, by the least sum of distances.
std::vector<double> warp(const path::Path& shown, const path::Path& ghost, double offset_s) {
    const auto rows = static_cast<std::int64_t>(shown.duration_s() / kWarpStep_s) + 1;
    const auto half = static_cast<std::int64_t>(kWarpReach_s / kWarpStep_s);
    const std::int64_t width = 2 * half + 1;
    const auto shift = static_cast<std::int64_t>(std::lround(offset_s / kWarpStep_s));
    const auto last = static_cast<std::int64_t>(ghost.duration_s() / kWarpStep_s);
    std::vector<Vec3> there(static_cast<std::size_t>(last + 1));
    for (std::int64_t j = 0; j <= last; ++j) {
        there[static_cast<std::size_t>(j)] =
            placeAt(ghost, static_cast<double>(j) * kWarpStep_s).position_S_m;
    }
    const float never = std::numeric_limits<float>::max() / 4;
    std::vector<float> cost(static_cast<std::size_t>(width), 0), next;
    std::vector<std::int8_t> from(static_cast<std::size_t>(rows * width));
    for (std::int64_t i = 0; i < rows; ++i) {
        const Vec3 here = placeAt(shown, static_cast<double>(i) * kWarpStep_s).position_S_m;
        next.assign(static_cast<std::size_t>(width), never);
        for (std::int64_t k = 0; k < width; ++k) {
            const std::int64_t j = i + shift + k - half;
            if (j < 0 || j > last) {
                next[static_cast<std::size_t>(k)] =
                    cost[static_cast<std::size_t>(k)] + static_cast<float>(kFar_m);
                continue;
            }
            // In step, the ghost waiting, the ghost twice as fast; out of step costs a little.
            float best = cost[static_cast<std::size_t>(k)];
            std::int8_t way = 0;
            constexpr float kOutOfStep_m = 2;
            for (const std::int8_t step : {std::int8_t{1}, std::int8_t{-1}}) {
                const std::int64_t before = k + step;
                if (before < 0 || before >= width) continue;
                const float candidate = cost[static_cast<std::size_t>(before)] + kOutOfStep_m;
                if (candidate >= best) continue;
                best = candidate;
                way = step;
            }
            const double away_m = glm::length(there[static_cast<std::size_t>(j)] - here);
            next[static_cast<std::size_t>(k)] = best + static_cast<float>(std::min(away_m, kFar_m));
            from[static_cast<std::size_t>(i * width + k)] = way;
        }
        cost.swap(next);
    }
    std::int64_t k = std::min_element(cost.begin(), cost.end()) - cost.begin();
    std::vector<double> times(static_cast<std::size_t>(rows));
    for (std::int64_t i = rows - 1; i >= 0; --i) {
        times[static_cast<std::size_t>(i)] =
            static_cast<double>(i + shift + k - half) * kWarpStep_s;
        k = std::clamp<std::int64_t>(k + from[static_cast<std::size_t>(i * width + k)], 0,
                                     width - 1);
    }
    return times;
}

/// Middle value of what lies within ten seconds of each.
std::vector<double> evened(const std::vector<double>& values, double step_s) {
    constexpr double kHalf_s = 10;
    const auto half = static_cast<std::ptrdiff_t>(kHalf_s / step_s);
    const auto count = static_cast<std::ptrdiff_t>(values.size());
    std::vector<double> out(values.size()), window;
    for (std::ptrdiff_t i = 0; i < count; ++i) {
        window.assign(values.begin() + std::max<std::ptrdiff_t>(0, i - half),
                      values.begin() + std::min(count, i + half + 1));
        const auto middle = window.begin() + static_cast<std::ptrdiff_t>(window.size() / 2);
        std::nth_element(window.begin(), middle, window.end());
        out[static_cast<std::size_t>(i)] = *middle;
    }
    return out;
}

/// Offsets every kApartStep_s.
std::vector<float> offsetsOf(const path::Path& shown, const path::Path& ghost) {
    std::vector<double> offsets = warp(shown, ghost, bestOffset(shown, ghost));
    for (std::size_t i = 0; i < offsets.size(); ++i) {
        offsets[i] -= static_cast<double>(i) * kWarpStep_s;
    }
    offsets = evened(offsets, kWarpStep_s);
    std::vector<float> out;
    for (double t = 0; t <= shown.duration_s() + kApartStep_s; t += kApartStep_s) {
        const auto i = static_cast<std::size_t>(t / kWarpStep_s);
        out.push_back(static_cast<float>(offsets[std::min(i, offsets.size() - 1)]));
    }
    return out;
}

/// Distances for an offset that stands.
void fillApart(const path::Path& shown, Ghost& ghost) {
    std::vector<float> known_m;
    for (double t = 0; t <= shown.duration_s() + kApartStep_s; t += kApartStep_s) {
        const Apart apart = apartAt(shown, ghost, std::min(t, shown.duration_s()));
        ghost.apart_m.push_back(apart.known ? static_cast<float>(apart.distance_m)
                                            : std::numeric_limits<float>::quiet_NaN());
        if (apart.known) known_m.push_back(ghost.apart_m.back());
    }
    constexpr double kRange_m = 24, kRound_m = 5;
    ghost.apart_range = {0, kRange_m};
    if (!known_m.empty()) {
        std::sort(known_m.begin(), known_m.end());
        const double most_m = static_cast<double>(known_m[known_m.size() * 95 / 100]);
        if (most_m > kRange_m) ghost.apart_range.high = std::ceil(most_m / kRound_m) * kRound_m;
    }
}

double ghostAt(const std::vector<Together>& together, double time_s) {
    if (together.empty()) return time_s;
    auto next = std::upper_bound(together.begin(), together.end(), time_s,
                                 [](double t, const Together& one) { return t < one.shown_s; });
    if (next == together.begin()) return time_s - next->shown_s + next->ghost_s;
    const Together& before = *std::prev(next);
    const double in_step_s = time_s - before.shown_s + before.ghost_s;
    if (next == together.end()) return in_step_s;
    constexpr double kSlowest = 0.5, kFastest = 2;
    const double pace =
        (next->ghost_s - before.ghost_s) / std::max(next->shown_s - before.shown_s, 1e-6);
    if (pace < kSlowest || pace > kFastest) return in_step_s;
    return before.ghost_s + pace * (time_s - before.shown_s);
}

}  // namespace

double ghostTime(const Ghost& ghost, double time_s) {
    if (ghost.offset_s.empty()) return time_s;
    const double at = std::max(time_s, 0.0) / kApartStep_s;
    const std::size_t last = ghost.offset_s.size() - 1;
    const std::size_t i = std::min(static_cast<std::size_t>(at), last);
    const std::size_t next = std::min(i + 1, last);
    const double part = std::min(at - static_cast<double>(i), 1.0);
    return time_s + static_cast<double>(ghost.offset_s[i]) +
           part * static_cast<double>(ghost.offset_s[next] - ghost.offset_s[i]);
}

double bestOffset(const path::Path& shown, const path::Path& ghost) {
    if (shown.samples.empty() || ghost.samples.empty()) return 0;
    double best_s = 0;
    double least_m = meanDistance(shown, ghost, 0, 1);
    const auto tryAt = [&](double offset_s, double step_s) {
        const double mean_m = meanDistance(shown, ghost, offset_s, step_s);
        if (mean_m < least_m) {
            least_m = mean_m;
            best_s = offset_s;
        }
    };
    // Some fifteen hundred shifts over the whole, then ever finer about the best.
    const double span_s = shown.duration_s() + ghost.duration_s();
    const double coarse_s = std::max(0.5, span_s / 1500);
    for (double s = -shown.duration_s(); s <= ghost.duration_s(); s += coarse_s) {
        tryAt(s, std::max(1.0, span_s / 400));
    }
    least_m = meanDistance(shown, ghost, best_s, 0.5);
    for (double step_s = coarse_s / 2; step_s > 0.01; step_s /= 2) {
        const double middle_s = best_s;
        tryAt(middle_s - step_s, 0.5);
        tryAt(middle_s + step_s, 0.5);
    }
    return best_s;
}

Apart apartAt(const path::Path& shown, const Ghost& ghost, double time_s) {
    Apart apart;
    const path::Path& other = *ghost.path;
    const double middle_s = ghostTime(ghost, time_s);
    const double from_s = std::max(0.0, middle_s - kReach_s);
    const double to_s = std::min(other.duration_s(), middle_s + kReach_s);
    if (shown.samples.empty() || other.samples.empty() || from_s >= to_s) return apart;
    const Vec3 here_S_m = placeAt(shown, time_s).position_S_m;
    const auto away = [&](double at_s) {
        return glm::length(placeAt(other, at_s).position_S_m - here_S_m);
    };
    constexpr double kStep_s = 0.2;
    apart.known = true;
    apart.distance_m = std::numeric_limits<double>::infinity();
    PathWalker walker(other);
    for (double at_s = from_s; at_s <= to_s; at_s += kStep_s) {
        const double distance_m = glm::length(walker.at(at_s).position_S_m - here_S_m);
        if (distance_m >= apart.distance_m) continue;
        apart.distance_m = distance_m;
        apart.ghost_time_s = at_s;
    }
    double low_s = std::max(from_s, apart.ghost_time_s - kStep_s);
    double high_s = std::min(to_s, apart.ghost_time_s + kStep_s);
    for (int i = 0; i < 20; ++i) {
        const double a = low_s + (high_s - low_s) / 3, b = high_s - (high_s - low_s) / 3;
        (away(a) < away(b) ? high_s : low_s) = away(a) < away(b) ? b : a;
    }
    apart.ghost_time_s = (low_s + high_s) / 2;
    apart.distance_m = away(apart.ghost_time_s);
    apart.late_s = apart.ghost_time_s - middle_s;
    return apart;
}

std::shared_ptr<const Ghost> makeGhost(const path::Path& shown,
                                       std::shared_ptr<const path::Path> ghost) {
    auto made = std::make_shared<Ghost>();
    made->path = std::move(ghost);
    made->shape = makeShape(*made->path);
    if (shown.samples.empty() || made->path->samples.empty()) return made;
    made->offset_s = offsetsOf(shown, *made->path);
    // The steps are coarse: what the two are still out of step on the whole is taken out as well.
    std::vector<double> late_s;
    for (double t = 0; t <= shown.duration_s() + kApartStep_s; t += kApartStep_s) {
        late_s.push_back(apartAt(shown, *made, std::min(t, shown.duration_s())).late_s);
    }
    late_s = evened(late_s, kApartStep_s);
    for (std::size_t i = 0; i < made->offset_s.size() && i < late_s.size(); ++i) {
        made->offset_s[i] += static_cast<float>(late_s[i]);
    }
    fillApart(shown, *made);
    return made;
}

std::shared_ptr<const Ghost> makeGhostInStep(const path::Path& shown,
                                             std::shared_ptr<const path::Path> ghost,
                                             const std::vector<Together>& together) {
    auto made = std::make_shared<Ghost>();
    made->path = std::move(ghost);
    made->shape = makeShape(*made->path);
    if (shown.samples.empty() || made->path->samples.empty()) return made;
    for (double t = 0; t <= shown.duration_s() + kApartStep_s; t += kApartStep_s) {
        made->offset_s.push_back(static_cast<float>(ghostAt(together, t) - t));
    }
    fillApart(shown, *made);
    return made;
}

float keptApart(const Ghost& ghost, double time_s) {
    if (ghost.apart_m.empty()) return std::numeric_limits<float>::quiet_NaN();
    const double at = std::max(time_s, 0.0) / kApartStep_s;
    const auto last = ghost.apart_m.size() - 1;
    const std::size_t i = std::min(static_cast<std::size_t>(at), last);
    const std::size_t next = std::min(i + 1, last);
    const auto part = static_cast<float>(std::min(at - static_cast<double>(i), 1.0));
    return ghost.apart_m[i] + part * (ghost.apart_m[next] - ghost.apart_m[i]);
}

void addGhost(const SceneSource& source, const Marks& marks, double time_s, double width_m,
              DrawList& list) {
    const Ghost& ghost = *source.ghost;
    if (ghost.path->samples.empty()) return;
    const bool flown = ghost.path->origin == path::Origin::Recording;
    const double ghost_s = ghostTime(ghost, time_s);
    const double last_s = ghost.path->duration_s();
    const double from_s = std::max(0.0, ghost_s - marks.band_behind_s);
    const double to_s = std::min(last_s, ghost_s + marks.to_come_s);
    const glm::vec4 colour = flown ? kFlight : glm::vec4(glm::vec3(kTie), 0.9F);
    if (to_s > from_s + 0.01) addLadder(source, from_s, to_s, width_m, colour, list);
    if (ghost_s >= 0 && ghost_s <= last_s) {
        list.show_ghost = true;
        list.ghost = poseAt(*ghost.path, *source.aircraft, ghost_s);
        list.ghost.opacity = kGhostOpacity;
        list.ghost.span_m = std::max(list.ghost.span_m, list.aircraft.span_m);
    }
    constexpr int kTies = 8;
    for (int i = 0; i < kTies; ++i) {
        const double at_s = std::floor(time_s) - i;
        if (at_s < 0) break;
        const Apart apart = apartAt(*source.path, ghost, at_s);
        constexpr double kFarthest_m = 400;
        if (!apart.known || apart.distance_m > kFarthest_m) continue;
        Polyline tie;
        tie.points_S_m = {placeAt(*source.path, at_s).position_S_m,
                          placeAt(*ghost.path, apart.ghost_time_s).position_S_m};
        tie.colour = kTie;
        tie.colour.a *= 1 - static_cast<float>(i) / kTies;
        tie.width_px = 1;
        list.lines.push_back(std::move(tie));
    }
    const Apart now = apartAt(*source.path, ghost, time_s);
    if (!now.known) return;
    Label label;
    label.position_S_m = 0.5 * (placeAt(*source.path, time_s).position_S_m +
                                placeAt(*ghost.path, now.ghost_time_s).position_S_m);
    label.text = formatFixed(now.distance_m, 0) + (source.notes ? " m off plan" : " m apart");
    label.offset_x_px = 24;
    list.labels.push_back(std::move(label));
}

}  // namespace plumbline::scene
