#include "engine/earth/wind.h"

#include "engine/base/check.h"

namespace plumbline::earth {
namespace {

/// Never more than twice the smaller slope, which keeps the quintic within its end values.
double harmonicMean(double a, double b) { return a * b > 0 ? 2 * a * b / (a + b) : 0; }

}  // namespace

WindProfile::WindProfile(const std::vector<WindPoint>& points) {
    if (points.empty()) return;
    low_m_ = points.front().height_m;
    high_m_ = points.back().height_m;
    low_S_mps_ = points.front().velocity_S_mps;
    high_S_mps_ = points.back().velocity_S_mps;
    for (const WindPoint& point : points) calm_ = calm_ && point.velocity_S_mps == Vec3(0);

    std::vector<Vec3> secants;  // per metre
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const double step_m = points[i + 1].height_m - points[i].height_m;
        PL_EXPECT(step_m > 0);
        secants.push_back((points[i + 1].velocity_S_mps - points[i].velocity_S_mps) / step_m);
    }
    std::vector<Vec3> slopes(points.size(), Vec3(0));  // flat at both ends
    for (std::size_t i = 1; i + 1 < points.size(); ++i)
        for (int axis = 0; axis < 3; ++axis)
            slopes[i][axis] = harmonicMean(secants[i - 1][axis], secants[i][axis]);
    for (std::size_t i = 0; i < secants.size(); ++i) {
        const double step_m = points[i + 1].height_m - points[i].height_m;
        Piece piece;
        piece.start_m = points[i].height_m;
        piece.per_m = 1 / step_m;
        piece.value = points[i].velocity_S_mps;
        piece.slope = step_m * slopes[i];
        piece.slope_change = step_m * (slopes[i + 1] - slopes[i]);
        // What is left for the value at the end, as the integral of u^2 (1-u)^2 is 1/30.
        piece.bump = 30.0 * (step_m * secants[i] - piece.slope - 0.5 * piece.slope_change);
        pieces_.push_back(piece);
    }
}

}  // namespace plumbline::earth
