#include "engine/review/instants.h"

#include <algorithm>
#include <cmath>

#include "engine/units/units.h"

namespace plumbline::review {
namespace {

constexpr int kReach = 6;             // a slope looks so many steps to both sides
constexpr double kAlong_cos = 0.866;  // chosen: nose within 30 deg of the way
constexpr double kSnaps_radps = 150 * units::kDegree_rad,
                 kSnaps_cos = 0.966;  // nose 15 deg off the way

/// What a roll turns about.
Vec3 axisOf(const Instant& now) { return now.speed_mps > kSlow_mps ? now.way : now.nose; }

/// Angle of the canopy about the axis from one instant to another, -pi..pi, right positive; the
/// axis itself carried along the shortest way.
double rolledBetween(const Instant& a, const Instant& b) {
    const Vec3 axis_a = axisOf(a), axis_b = axisOf(b);
    const Vec3 turn = glm::cross(axis_a, axis_b);
    const double cosine = glm::dot(axis_a, axis_b);
    if (cosine < -0.9) return 0;  // turned round: nothing to compare
    // Rodrigues' rotation of the canopy by the axis's own turn.
    const Vec3 carried = a.canopy * cosine + glm::cross(turn, a.canopy) +
                         turn * (glm::dot(turn, a.canopy) / (1 + cosine));
    const auto across = [&](const Vec3& v) { return v - axis_b * glm::dot(axis_b, v); };
    const Vec3 before = across(carried), after = across(b.canopy);
    return std::atan2(glm::dot(axis_b, glm::cross(before, after)), glm::dot(before, after));
}

}  // namespace

double angleBetween(const Vec3& a, const Vec3& b) {
    return std::atan2(glm::length(glm::cross(a, b)), glm::dot(a, b));
}

std::vector<Instant> instantsOf(const path::Path& path) {
    const auto count = static_cast<std::size_t>(path.duration_s() / kStep_s);
    std::vector<Instant> out;
    out.reserve(count + 1);
    for (std::size_t i = 0; i <= count; ++i) {
        const path::Sample s = path::sampleAt(path, static_cast<double>(i) * kStep_s);
        Instant now;
        now.nose = rotate(s.q_SB, Vec3(1, 0, 0));
        now.canopy = rotate(s.q_SB, Vec3(0, 0, -1));
        now.rate_B = s.rate_B_radps;
        const double ground = glm::length(s.velocity_S_mps);
        now.way = ground > 1 ? s.velocity_S_mps / ground : now.nose;
        now.speed_mps = ground;
        if (path.known.airspeed) {
            now.speed_mps = s.airspeed_mps;
            if (path.known.incidence)
                now.way = rotate(s.q_SB, Vec3(std::cos(s.aoa_rad) * std::cos(s.sideslip_rad),
                                              std::sin(s.sideslip_rad),
                                              std::sin(s.aoa_rad) * std::cos(s.sideslip_rad)));
        }
        const double along = glm::dot(now.nose, now.way);
        now.backwards_mps = std::max(0.0, -along * now.speed_mps);
        now.flies = now.speed_mps > kSlow_mps && along > kAlong_cos;
        out.push_back(now);
    }
    for (std::size_t i = 0; i < out.size(); ++i) {
        const std::size_t from = i >= kReach ? i - kReach : 0;
        const std::size_t to = std::min(out.size() - 1, i + kReach);
        const double time = static_cast<double>(to - from) * kStep_s;
        Instant& now = out[i];
        if (!(time > 0)) continue;
        // A line is straight as soon as the nose is still, though its path has yet to follow; and
        // while the path is, though a slow roll leads the nose round it.
        const double nose = std::hypot(now.rate_B.y, now.rate_B.z);
        now.way_bends_radps = now.flies ? angleBetween(out[from].way, out[to].way) / time : nose;
        const Vec3 rate_S = now.nose * now.rate_B.x +
                            glm::cross(-now.canopy, now.nose) * now.rate_B.y -
                            now.canopy * now.rate_B.z;
        now.about_up_radps = rate_S.z;
        now.about_way_radps = glm::dot(rate_S, now.speed_mps > kSlow_mps ? now.way : now.nose);
        // A snap is a roll on a line, though nose and path go round it.
        now.snaps = now.flies && std::fabs(now.about_way_radps) > kSnaps_radps &&
                    glm::dot(now.nose, now.way) < kSnaps_cos;
        now.bends_radps = now.snaps ? 0 : std::min(nose, now.way_bends_radps);
    }
    return out;
}

std::vector<Roll> rollsOf(const std::vector<Instant>& instants, std::size_t from, std::size_t to) {
    constexpr double kLeast_rad = 20 * units::kDegree_rad, kPause_s = 0.12;
    constexpr double kStill_radps = 2 * units::kDegree_rad;  // chosen: the roll has come to rest
    constexpr std::size_t kEdge = 15;  // chosen: its rate comes and goes so long
    constexpr double kLikely_rad = 40 * units::kDegree_rad;  // chosen: rates are never so far off
    struct Span {
        std::size_t from, to;
        double angle_rad, snapped_rad;
    };
    std::vector<Span> spans;
    for (std::size_t i = from; i < to; ++i) {
        const double rate = instants[i].about_way_radps;
        if (std::fabs(rate) < kRolls_radps) continue;
        const bool goes_on = !spans.empty() && (rate > 0) == (spans.back().angle_rad > 0) &&
                             static_cast<double>(i - spans.back().to) * kStep_s < kPause_s;
        if (!goes_on) spans.push_back({i, i, 0, 0});
        spans.back().to = i + 1;
        spans.back().angle_rad += rate * kStep_s;
        if (instants[i].snaps) spans.back().snapped_rad += rate * kStep_s;
    }
    std::erase_if(spans, [](const Span& s) { return std::fabs(s.angle_rad) < kLeast_rad; });
    std::vector<Roll> rolls;
    for (std::size_t i = 0; i < spans.size(); ++i) {
        const Span& span = spans[i];
        Roll roll{static_cast<double>(span.from) * kStep_s, static_cast<double>(span.to) * kStep_s,
                  span.angle_rad, std::fabs(span.snapped_rad) > 0.5 * std::fabs(span.angle_rad)};
        // From rest to rest, as far as nothing else begins there.
        const auto turns_so = [&](std::size_t at) {
            const double rate = instants[at].about_way_radps;
            return (rate > 0) == (span.angle_rad > 0) && std::fabs(rate) > kStill_radps;
        };
        const std::size_t first = std::max(
            {from, i > 0 ? spans[i - 1].to : from, span.from > kEdge ? span.from - kEdge : 0});
        const std::size_t last =
            std::min({to - 1, i + 1 < spans.size() ? spans[i + 1].from : to - 1, span.to + kEdge});
        std::size_t a = span.from, b = std::min(span.to, to - 1);
        double more = 0;
        while (a > first && turns_so(a - 1)) more += instants[--a].about_way_radps * kStep_s;
        while (b < last && turns_so(b)) more += instants[b++].about_way_radps * kStep_s;
        const double by_rate = span.angle_rad + more;
        const double off =
            std::remainder(rolledBetween(instants[a], instants[b]) - by_rate, 2 * kPi);
        roll.angle_rad = std::fabs(off) < kLikely_rad ? by_rate + off : by_rate;
        rolls.push_back(roll);
    }
    return rolls;
}

}  // namespace plumbline::review
