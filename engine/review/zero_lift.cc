#include "engine/review/zero_lift.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <glm/ext/matrix_double3x3.hpp>
#include <glm/matrix.hpp>

#include "engine/units/units.h"

namespace plumbline::review {
namespace {

// chosen: what counts as such a vertical
constexpr double kSteep = 0.94;  // sine of 70 deg
constexpr double kLeastSpeed_mps = 30, kMostLoad_g = 0.4, kMostRoll_radps = 20 * units::kDegree_rad;
constexpr double kLeast_s = 0.5, kHole_s = 0.3;
// chosen: of the recording's way over the ground; of the wind on each axis
constexpr double kVelocitySigma_mps = 0.2, kWindSigma_mps = 2;

/// Means over one stretch: incidence over the ground less what the load needs, and how a wind
/// along x and y would change it.
struct Vertical {
    double start_s = 0, stop_s = 0;
    double incidence_rad = 0, by_wind_x = 0, by_wind_y = 0, sigma_rad = 0, square = 0;
    int count = 0;
};

std::vector<Vertical> verticalsOf(const path::Path& flight, const data::Aircraft& aircraft,
                                  const earth::SiteAir& air) {
    std::vector<Vertical> out;
    const auto finish = [&] {
        if (!out.empty() && out.back().stop_s - out.back().start_s < kLeast_s) out.pop_back();
    };
    const double lift_area = aircraft.geometry.wing_area_m2 * aircraft.aero.lift_slope_prad;
    for (const path::Sample& s : flight.samples) {
        const Vec3 nose = rotate(s.q_SB, Vec3(1, 0, 0));
        const Vec3 v_B = unrotate(s.q_SB, s.velocity_S_mps);
        const double load_g = loadFactors(s.specific_force_B_mps2).normal_g;
        if (std::fabs(nose.z) < kSteep || v_B.x < kLeastSpeed_mps ||
            std::fabs(load_g) > kMostLoad_g || std::fabs(s.rate_B_radps.x) > kMostRoll_radps)
            continue;
        if (out.empty() || s.time_s - out.back().stop_s > kHole_s) {
            finish();
            out.emplace_back();
            out.back().start_s = s.time_s;
        }
        Vertical& v = out.back();
        v.stop_s = s.time_s;
        const double density = air.at(s.position_S_m.z).density_kgpm3;
        const double mass_kg =
            s.mass_kg > 0 ? s.mass_kg : aircraft.mass.empty_kg + aircraft.mass.pilot_kg;
        const double lift = 0.5 * density * v_B.x * v_B.x * lift_area;
        const double for_load_rad = lift > 0 ? mass_kg * kGravity_mps2 * load_g / lift : 0;
        const Vec3 down = rotate(s.q_SB, Vec3(0, 0, 1));
        const double incidence = std::atan2(v_B.z, v_B.x) - for_load_rad;
        v.incidence_rad += incidence;
        v.square += incidence * incidence;
        v.by_wind_x += down.x / v_B.x;
        v.by_wind_y += down.y / v_B.x;
        v.sigma_rad +=
            std::hypot(static_cast<double>(s.attitude_sigma_rad), kVelocitySigma_mps / v_B.x);
        ++v.count;
    }
    finish();
    for (Vertical& v : out) {
        const double count = v.count;
        v.incidence_rad /= count;
        v.by_wind_x /= count;
        v.by_wind_y /= count;
        const double spread = std::max(0.0, v.square / count - v.incidence_rad * v.incidence_rad);
        // Errors go together for about a second.
        const double independent = std::max(1.0, v.stop_s - v.start_s);
        v.sigma_rad = std::sqrt(v.sigma_rad * v.sigma_rad / (count * count) + spread / independent);
    }
    return out;
}

}  // namespace

std::optional<ZeroLift> zeroLiftOf(const path::Path& flight, const data::Aircraft& aircraft,
                                   const earth::SiteAir& air, const Vec3& wind_S_mps) {
    if (!flight.known.attitude || !flight.known.load || !flight.known.place) return std::nullopt;
    const std::vector<Vertical> verticals = verticalsOf(flight, aircraft, air);
    if (verticals.empty()) return std::nullopt;
    // Unknown: incidence, and the wind's difference from what is believed.
    glm::dmat3 normal(0.0);
    Vec3 right(0);
    const auto add = [&](const Vec3& row, double value, double sigma) {
        normal += glm::outerProduct(row, row) / (sigma * sigma);
        right += row * (value / (sigma * sigma));
    };
    const auto rowOf = [](const Vertical& v) { return Vec3(1, v.by_wind_x, v.by_wind_y); };
    const auto valueOf = [&](const Vertical& v) {
        return v.incidence_rad - v.by_wind_x * wind_S_mps.x - v.by_wind_y * wind_S_mps.y;
    };
    add(Vec3(0, 1, 0), 0, kWindSigma_mps);
    add(Vec3(0, 0, 1), 0, kWindSigma_mps);
    for (const Vertical& v : verticals) add(rowOf(v), valueOf(v), v.sigma_rad);
    const glm::dmat3 covariance = glm::inverse(normal);
    const Vec3 found = covariance * right;
    // Where verticals differ by more than they should, so does the answer.
    double chi_square = 0;
    for (const Vertical& v : verticals) {
        const double miss = (valueOf(v) - glm::dot(rowOf(v), found)) / v.sigma_rad;
        chi_square += miss * miss;
    }
    const double freedom = static_cast<double>(verticals.size()) - 1;
    const double scale = freedom > 0 ? std::max(1.0, std::sqrt(chi_square / freedom)) : 1;
    ZeroLift out;
    out.aoa_rad = found.x;
    out.sigma_rad = std::sqrt(covariance[0][0]) * scale;
    out.verticals = static_cast<int>(verticals.size());
    out.wind_S_mps = wind_S_mps + Vec3(found.y, found.z, 0);
    return out;
}

}  // namespace plumbline::review
