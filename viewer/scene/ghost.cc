#include "viewer/scene/ghost.h"

#include <algorithm>
#include <cmath>
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

}  // namespace

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
    const double middle_s = time_s + ghost.offset_s;
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
    made->offset_s = bestOffset(shown, *made->path);
    std::vector<float> known_m;
    for (double t = 0; t <= shown.duration_s() + kApartStep_s; t += kApartStep_s) {
        const Apart apart = apartAt(shown, *made, std::min(t, shown.duration_s()));
        made->apart_m.push_back(apart.known ? static_cast<float>(apart.distance_m)
                                            : std::numeric_limits<float>::quiet_NaN());
        if (apart.known) known_m.push_back(made->apart_m.back());
    }
    constexpr double kRange_m = 24, kRound_m = 5;
    made->apart_range = {0, kRange_m};
    if (!known_m.empty()) {
        std::sort(known_m.begin(), known_m.end());
        const double most_m = static_cast<double>(known_m[known_m.size() * 95 / 100]);
        if (most_m > kRange_m) made->apart_range.high = std::ceil(most_m / kRound_m) * kRound_m;
    }
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
    const double ghost_s = time_s + ghost.offset_s;
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
    label.text = formatFixed(now.distance_m, 0) + " m apart";
    label.offset_x_px = 24;
    list.labels.push_back(std::move(label));
}

}  // namespace plumbline::scene
