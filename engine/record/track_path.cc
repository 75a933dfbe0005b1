#include "engine/record/track_path.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/record/join_fixes.h"

namespace plumbline::record {

namespace {

// chosen: below a walking pace a fix's scatter decides where the velocity points.
constexpr double kSlowest_mps = 1;
// chosen: half-width of the fit; fast logs (10 Hz and up) get noise down, a pull lasts longer.
constexpr double kHalfWindow_s = 0.4;
// chosen: a hole this many times the usual step is a gap that no fit reaches across.
constexpr double kGapSteps = 3.5;
// chosen: a second derivative needs about four fixes in the second that a corner takes.
constexpr double kLoadStep_s = 0.25;

double medianStep(const std::vector<path::Sample>& samples) {
    if (samples.size() < 2) return 0;
    std::vector<double> steps;
    for (std::size_t i = 1; i < samples.size(); ++i)
        steps.push_back(samples[i].time_s - samples[i - 1].time_s);
    const auto middle = steps.begin() + std::ssize(steps) / 2;
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

struct Derivatives {
    Vec3 velocity_S_mps{0};
    Vec3 acceleration_S_mps2{0};
};

/// Least-squares polynomial of up to third degree through the samples [first, last], seen from the
/// sample `at`: value, first and second derivative there, by the normal equations in scaled time.
Derivatives fitCubic(const std::vector<path::Sample>& samples, std::size_t first, std::size_t last,
                     std::size_t at) {
    const std::size_t terms = std::min<std::size_t>(4, last - first + 1);
    if (terms < 2) return {};
    const double scale_s = std::max(samples[last].time_s - samples[at].time_s,
                                    samples[at].time_s - samples[first].time_s);
    std::array<std::array<double, 4>, 4> normal{};
    std::array<Vec3, 4> right{Vec3(0), Vec3(0), Vec3(0), Vec3(0)};
    for (std::size_t i = first; i <= last; ++i) {
        const double u = (samples[i].time_s - samples[at].time_s) / scale_s;
        const std::array<double, 4> powers = {1, u, u * u, u * u * u};
        const Vec3 offset_m = samples[i].position_S_m - samples[at].position_S_m;
        for (std::size_t r = 0; r < terms; ++r) {
            for (std::size_t c = 0; c < terms; ++c) normal[r][c] += powers[r] * powers[c];
            right[r] += powers[r] * offset_m;
        }
    }
    // Gauss elimination; the matrix is positive definite, since times differ.
    for (std::size_t k = 0; k < terms; ++k)
        for (std::size_t r = k + 1; r < terms; ++r) {
            const double factor = normal[r][k] / normal[k][k];
            for (std::size_t c = k; c < terms; ++c) normal[r][c] -= factor * normal[k][c];
            right[r] -= factor * right[k];
        }
    std::array<Vec3, 4> coefficients{Vec3(0), Vec3(0), Vec3(0), Vec3(0)};
    for (std::size_t k = terms; k-- > 0;) {
        Vec3 rest = right[k];
        for (std::size_t c = k + 1; c < terms; ++c) rest -= normal[k][c] * coefficients[c];
        coefficients[k] = rest / normal[k][k];
    }
    return {coefficients[1] / scale_s, 2.0 * coefficients[2] / (scale_s * scale_s)};
}

/// Along the velocity with wings level; on verticals and at rest the last heading is held.
void attitudeAlongPath(std::vector<path::Sample>& samples) {
    Vec3 level_S(1, 0, 0);
    for (const path::Sample& sample : samples) {  // until the first motion: where that will go
        const Vec3& v = sample.velocity_S_mps;
        if (std::hypot(v.x, v.y) < kSlowest_mps) continue;
        level_S = glm::normalize(Vec3(v.x, v.y, 0));
        break;
    }
    for (path::Sample& sample : samples) {
        const Vec3& v = sample.velocity_S_mps;
        const double speed_mps = glm::length(v);
        if (std::hypot(v.x, v.y) >= kSlowest_mps) level_S = glm::normalize(Vec3(v.x, v.y, 0));
        const Vec3 forward_S = speed_mps < kSlowest_mps ? level_S : v / speed_mps;
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

void differentiate(std::vector<path::Sample>& samples, std::vector<Vec3>* acceleration_S_mps2) {
    const std::size_t count = samples.size();
    const double gap_s = kGapSteps * medianStep(samples);
    if (acceleration_S_mps2) acceleration_S_mps2->assign(count, Vec3(0));
    const auto joined = [&](std::size_t i) {  // sample i follows on the one before
        return samples[i].time_s - samples[i - 1].time_s <= gap_s;
    };
    for (std::size_t at = 0; at < count; ++at) {
        std::size_t first = at, last = at;
        const auto reach = [&](std::size_t i, std::size_t steps) {
            return steps < 2 || std::abs(samples[i].time_s - samples[at].time_s) <= kHalfWindow_s;
        };
        while (first > 0 && joined(first) && reach(first - 1, at - first)) --first;
        while (last + 1 < count && joined(last + 1) && reach(last + 1, last - at)) ++last;
        // At the ends of a stretch five fixes are still wanted, all from one side.
        while (last - first < 4 && first > 0 && joined(first)) --first;
        while (last - first < 4 && last + 1 < count && joined(last + 1)) ++last;
        const Derivatives fit = fitCubic(samples, first, last, at);
        samples[at].velocity_S_mps = fit.velocity_S_mps;
        if (acceleration_S_mps2) (*acceleration_S_mps2)[at] = fit.acceleration_S_mps2;
    }
}

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
    track.path.known = {false, false, false, false, false, false, false};
    std::vector<path::Sample>& samples = track.path.samples;
    const std::vector<Vec3> positions_S_m = positionsOf(log);
    for (std::size_t i = 0; i < log.fixes.size(); ++i) {
        path::Sample sample;
        sample.time_s = log.fixes[i].clock_s - log.fixes.front().clock_s;
        sample.position_S_m = positions_S_m[i];
        samples.push_back(sample);
    }
    std::vector<Vec3> acceleration_S_mps2;
    differentiate(samples, &acceleration_S_mps2);
    attitudeAlongPath(samples);
    track.path.known.load = medianStep(samples) <= kLoadStep_s;
    if (track.path.known.load) loadFromCurve(samples, acceleration_S_mps2);
    ratesFromAttitudes(samples);
    warnOfDepth(log, track);
    return track;
}

}  // namespace plumbline::record
