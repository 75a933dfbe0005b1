#pragma once
// Flown paths put on paper: how a place is seen, and the band that a wing leaves.

#include <vector>

#include "engine/page/document.h"
#include "engine/path/path.h"

namespace plumbline::sheets {

/// How places come to lie on a picture: seen from an eye, or all along one direction.
class Look {
public:
    struct Spot {
        double x = 0, y = 0;  ///< right, up: metres, or tangents from an eye
        double depth = 0;
    };
    /// @param at_S_m  what is looked at: the middle of the picture
    static Look from(const Vec3& eye_S_m, const Vec3& at_S_m);
    /// @param forward_S,right_S  unit, square to each other
    static Look along(const Vec3& forward_S, const Vec3& right_S);

    Spot spotOf(const Vec3& place_S_m) const;
    /// True where a side that faces this way is seen.
    bool sees(const Vec3& place_S_m, const Vec3& outward_S) const;
    const Vec3& forward_S() const { return forward_S_; }

private:
    bool perspective_ = false;
    Vec3 eye_S_m_{0}, right_S_{1, 0, 0}, up_S_{0, 0, 1}, forward_S_{0, 1, 0};
};

/// A stretch of a path as a band, with what to leave out of its going along.
struct Band {
    struct Rung {
        Look::Spot left, right, middle;
        bool canopy = false;  ///< that side is seen
    };
    std::vector<Rung> rungs;
};
/// @param wings  how much wider the wings are drawn than they are
/// @param drift_S_mps  moves later parts aside, so that up and down lines lie apart
Band bandOf(const path::Path& path, double start_s, double stop_s, int steps, double wing_m,
            const Look& look, const Vec3& drift_S_mps = Vec3(0));

/// From a picture's own lengths to paper: all of some spots in a box, in true proportions.
class Fit {
public:
    Fit(const page::Box& box, double margin_mm) : box_(box), margin_mm_(margin_mm) {}
    void take(const Look::Spot& spot);
    void take(const Band& band);
    /// @param least  a picture is never of less than so much, in its own lengths
    void settle(double least);
    page::Point operator()(const Look::Spot& spot) const;
    double perUnit_mm() const { return per_unit_mm_; }

private:
    page::Box box_;
    double margin_mm_;
    double x0_ = 1e300, x1_ = -1e300, y0_ = 1e300, y1_ = -1e300;
    double per_unit_mm_ = 1;
};

struct BandInk {
    page::Colour canopy = page::kPaper, wheels = page::kWheelSide, edge = page::kInk;
    double edge_pt = 0.4;
};
/// A filled band, what is further away first.
void drawBand(page::Document& document, const Band& band, const Fit& fit, const BandInk& ink);

}  // namespace plumbline::sheets
