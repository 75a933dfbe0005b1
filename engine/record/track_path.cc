#include "engine/record/track_path.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/record/bank_from_path.h"
#include "engine/record/coverage.h"
#include "engine/record/join_fixes.h"

namespace plumbline::record {

namespace {

// chosen: below a walking pace a fix's scatter decides where the velocity points.
constexpr double kSlowestSeen_mps = 1;
// chosen: a second derivative needs about four fixes in the second that a corner takes.
constexpr double kLoadStep_s = 0.25;
// chosen: bank that comes and goes helps nobody
constexpr double kLeastTold = 0.3;
constexpr std::size_t kFewestTold = 20;

/// Along the velocity with wings level; on verticals and at rest the last heading is held.
void attitudeAlongPath(std::vector<path::Sample>& samples) {
    Vec3 level_S(1, 0, 0);
    for (const path::Sample& sample : samples) {  // until the first motion: where that will go
        const Vec3& v = sample.velocity_S_mps;
        if (std::hypot(v.x, v.y) < kSlowestSeen_mps) continue;
        level_S = glm::normalize(Vec3(v.x, v.y, 0));
        break;
    }
    for (path::Sample& sample : samples) {
        const Vec3& v = sample.velocity_S_mps;
        const double speed_mps = glm::length(v);
        if (std::hypot(v.x, v.y) >= kSlowestSeen_mps) level_S = glm::normalize(Vec3(v.x, v.y, 0));
        const Vec3 forward_S = speed_mps < kSlowestSeen_mps ? level_S : v / speed_mps;
        const Vec3 right_S(level_S.y, -level_S.x, 0);
        // On a held heading the path may lean off the level plane through it: square up.
        const Vec3 down_S = glm::normalize(glm::cross(forward_S, right_S));
        sample.q_SB = quatFromAxes(forward_S, glm::cross(down_S, forward_S), down_S);
    }
}

void loadFromCurve(std::vector<path::Sample>& samples,
                   const std::vector<Vec3>& acceleration_S_mps2) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const Vec3 force_S = acceleration_S_mps2[i] + Vec3(0, 0, kGravity_mps2);
        const Vec3 force_B = unrotate(samples[i].q_SB, force_S);
        samples[i].specific_force_B_mps2 = {force_B.x, 0, -std::hypot(force_B.y, force_B.z)};
    }
}

}  // namespace

void ratesFromAttitudes(std::vector<path::Sample>& samples) {
    const auto rate = [&](std::size_t a, std::size_t b) {
        const Vec3 turn_rad = vectorFromRotation(glm::conjugate(samples[a].q_SB) * samples[b].q_SB);
        // A flip of the level wings at the top of a loop is no rotation that anybody flew.
        if (glm::length(turn_rad) > kPi / 2) return Vec3(0);
        return turn_rad / (samples[b].time_s - samples[a].time_s);
    };
    const std::size_t count = samples.size();
    if (count < 2) return;
    for (std::size_t i = 0; i < count; ++i) {
        const Vec3 before = i > 0 ? rate(i - 1, i) : rate(0, 1);
        const Vec3 after = i + 1 < count ? rate(i, i + 1) : before;
        samples[i].rate_B_radps = 0.5 * (before + after);
    }
}

Expected<ImportedTrack, Problems> trackFromLogs(std::vector<FixLog> logs) {
    Expected<FixLog, Problems> joined = joinFixes(std::move(logs));
    if (!joined) return Unexpected(std::move(joined).error());
    FixLog& log = *joined;
    ImportedTrack track = startTrack(log);
    track.path.known = {false, false, false, false, false, false, false, false, true};
    std::vector<path::Sample>& samples = track.path.samples;
    const std::vector<Vec3> positions_S_m = positionsOf(log);
    for (std::size_t i = 0; i < log.fixes.size(); ++i) {
        path::Sample sample;
        sample.time_s = log.fixes[i].clock_s - log.fixes.front().clock_s;
        sample.position_S_m = positions_S_m[i];
        samples.push_back(sample);
    }
    Accelerations accelerations;
    differentiate(samples, &accelerations);
    const bool told = std::all_of(log.fixes.begin(), log.fixes.end(), [](const Fix& fix) {
        return fix.has_velocity && fix.has_vertical_velocity;
    });
    if (told) {  // what a receiver takes from the shift of frequency is far surer
        for (std::size_t i = 0; i < samples.size(); ++i)
            samples[i].velocity_S_mps = log.fixes[i].velocity_E_mps;
        accelerations = accelerationsOf(samples);
    }
    attitudeAlongPath(samples);
    track.path.known.load = medianStep(samples) <= kLoadStep_s;
    std::vector<path::Sample> along = samples;
    const Banked banked = bankFromPath(samples, accelerations);
    const double share = static_cast<double>(banked.samples) /
                         static_cast<double>(std::max<std::size_t>(banked.flown, 1));
    if (share < kLeastTold || banked.samples < kFewestTold || 10 * banked.flown < samples.size()) {
        samples = std::move(along);
    } else {
        track.path.known.attitude = track.path.known.bank = true;
        track.notes.push_back("No attitude was logged. For " + formatFixed(100 * share, 0) +
                              " % of the fixes in flight the bank follows from how the path "
                              "curves, as if flown upright and "
                              "without sideslip; the nose is taken to point along the path.");
    }
    if (banked.aerobatic)
        track.notes.push_back(
            "Bank is not known: from places alone pulled and pushed flight look alike.");
    if (track.path.known.load) loadFromCurve(samples, accelerations.value_S_mps2);
    ratesFromAttitudes(samples);
    track.streams = coverageOf(log.fixes, {}, log.fixes.front().clock_s);
    warnOfDepth(log, track);
    return track;
}

}  // namespace plumbline::record
