#pragma once
// How round a flown loop or part loop is, and how far a pivot went aside.

#include <optional>
#include <span>
#include <vector>

#include "engine/review/pieces.h"

namespace plumbline::review {

/// The circle nearest to points of a plane, and how far they are off it.
struct Circle {
    double x = 0, y = 0, radius = 0;
    double least = 0, most = 0;  ///< distance of the points from its middle
    /// (most - least) / radius: 0 round.
    double unround() const { return radius > 0 ? (most - least) / radius : 0; }
};
/// @param xy  at least three points, not in a line
/// @source least squares in the squared radius (I. Kasa, IEEE Trans. IM 25 (1976) 8-14)
std::optional<Circle> circleThrough(std::span<const std::pair<double, double>> xy);

struct ArcMeasure {
    double start_s = 0, stop_s = 0;
    double turned_rad = 0;
    double radius_m = 0, least_m = 0, most_m = 0;  ///< over the ground, in the arc's own plane
    double unround = 0;                            ///< as flown: the span of radii, of the radius
    /// The same as the eye sees it, by angles; nothing where it is seen more than 60 deg from the
    /// side.
    std::optional<double> seen_unround;
    // One sigma each; 0: not told.
    double radius_sigma_m = 0, unround_sigma = 0, seen_sigma = 0;
};
/// A pull or push of more than 150 deg; nothing for less.
/// @param eye_S_m  from where it is seen
std::optional<ArcMeasure> measureArc(const path::Path& flight, const Piece& flown,
                                     const Vec3& eye_S_m);

/// Way over the ground from a pivot's start to its end, in half spans.
double pivotHalfSpans(const path::Path& flight, const Piece& pivot, double span_m);
/// How surely that is known; 0: not told.
double pivotSigma(const path::Path& flight, const Piece& pivot, double span_m);

}  // namespace plumbline::review
