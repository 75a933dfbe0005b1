#pragma once
// Aerodynamic coefficients of the whole aircraft, at every angle of attack and of sideslip.
//
// Wind axes (math/frames.h). alpha = atan2(w, u), beta = atan2(v, hypot(u, w)), both of the body x
// axis.
//   CL = (1 - S) a (alpha - alpha0) + S C cn sin(alpha) cos(alpha)      lift along -z_W
//   CD = cd0 + (1 - S) k CL^2 + S C cn sin^2(alpha) + B + kb sin^2(beta)        drag along -x_W
//   CY = -c sin(beta) / sqrt(1 + (c sin(beta) / cy_max)^2)             side force along +y_W
// S rises from 0 to 1 over 12 deg from where the lift curve leaves its line; that place is chosen
// so that the curve peaks 2 % above the file's cl_max (below its cl_min): cl_max is what a pilot
// can hold at the buffet, just short of the peak, where incidence still answers lift at a finite
// rate. C = cos^2(beta): a plate feels the flow across its span only; lift curve and side force
// fade out beyond 60 deg of sideslip: so nothing jumps where the air comes straight from the side
// and alpha has no meaning. B takes cd0 to cd_tail_first as
// the fourth power of the cosine between the flow and straight from behind.

#include <algorithm>
#include <cmath>

#include "engine/data/aircraft.h"
#include "engine/math/spline.h"

namespace plumbline::fly {

struct Coefficients {
    double lift = 0;
    double drag = 0;
    double side = 0;
};

class AeroModel {
public:
    AeroModel() = default;
    explicit AeroModel(const data::Aircraft& aircraft);

    Coefficients at(double alpha_rad, double beta_rad) const {
        return atSines(alpha_rad, std::sin(alpha_rad), std::cos(alpha_rad), std::sin(beta_rad));
    }
    Coefficients atSines(double alpha_rad, double sin_alpha, double cos_alpha,
                         double sin_beta) const {
        Coefficients c;
        const double past = stalledShare(alpha_rad - alpha0_rad_);
        double line = slope_prad_ * (alpha_rad - alpha0_rad_);
        const double across = 1 - sin_beta * sin_beta;
        // From the side: no lift and no side force, which then would point anywhere.
        const double fair = across < kBroadside ? smootherStep(across * (1 / kBroadside)) : 1.0;
        line *= fair;
        c.lift = line;
        double polar = 1;
        if (past > 0) {
            c.lift = (1 - past) * line + past * across * cn_plate_ * sin_alpha * cos_alpha;
            polar = 1 - past;
        }
        c.drag = cd0_ + polar * induced_k_ * c.lift * c.lift + sideslip_drag_ * sin_beta * sin_beta;
        if (past > 0) c.drag += past * across * cn_plate_ * sin_alpha * sin_alpha;
        if (cos_alpha < 0) {
            const double back = cos_alpha * cos_alpha * across;
            c.drag += (cd_tail_first_ - cd0_) * back * back;
        }
        c.side = fair * sideCoefficient(sin_beta);
        return c;
    }
    /// Drag at a lift coefficient below the stall, without sideslip.
    double drag(double cl) const { return cd0_ + induced_k_ * cl * cl; }
    double sideCoefficient(double sin_beta) const {
        const double s = side_slope_prad_ * sin_beta, ratio = s * inverse_cy_max_;
        const double square = ratio * ratio;
        // In a straight line there is hardly any: the series is exact to rounding there.
        if (square < kHardlyAny) return -s * (1 - square * (0.5 - 0.375 * square));
        return -s / std::sqrt(1 + square);
    }
    /// Lift alone and its slope, for finding the angle of attack of a wanted force.
    double lift(double alpha_rad) const;
    double liftAndSlope(double alpha_rad, double& slope_prad) const;

    /// Normal-force coefficient in body axes, CL cos(alpha) + CD sin(alpha) at no sideslip: what
    /// the load meter feels.
    double normal(double alpha_rad) const;

    /// A wanted normal-force coefficient as a pilot gets it near the buffet: the last 5 % come in
    /// softly, with a continuous slope, so that incidence does not jerk where the wing gives no
    /// more.
    double softened(double cn) const;
    /// Angle of attack that gives a normal-force coefficient, between alphaMin and alphaMax;
    /// beyond: those.
    double alphaForNormal(double cn) const;
    /// Both in one: alphaForNormal(softened(cn)), tabulated.
    double alphaForDemand(double cn) const {
        if (cn > table_low_cn_ && cn < table_high_cn_) return alpha_of_normal_(cn);
        return (cn > 0 ? upper_edge_ : lower_edge_).alpha(std::fabs(cn));
    }
    /// Angle of attack that gives lift q S CL + T sin(alpha) = force, between alphaMin and
    /// alphaMax.
    /// @param a  near it: (force + q S slope alpha0) / (q S slope + T) at about this thrust
    double alphaForForce(double qs_n, double thrust_n, double force_n, double a) const {
        const double line = qs_n * slope_prad_;
        if (!(line + thrust_n > 0)) return force_n > 0 ? alpha_max_rad_ : alpha_min_rad_;
        // On the straight part of the lift curve only the thrust's sine is not linear: one Newton
        // step ends at 1e-9.
        if (a - alpha0_rad_ < upper_rad_ && a - alpha0_rad_ > lower_rad_) {
            // Sine and cosine by series: under half a radian they are good to 1e-8 of the thrust's
            // part.
            const double q = a * a;
            const double s = a * (1 - q * (1.0 / 6) * (1 - q * (1.0 / 20) * (1 - q * (1.0 / 42))));
            const double c = 1 - q * 0.5 * (1 - q * (1.0 / 12) * (1 - q * (1.0 / 30)));
            a -= (line * (a - alpha0_rad_) + thrust_n * s - force_n) / (line + thrust_n * c);
            if (a - alpha0_rad_ < upper_rad_ && a - alpha0_rad_ > lower_rad_) return a;
        }
        return alphaNearStall(qs_n, thrust_n, force_n, a);
    }
    double alphaForForce(double qs_n, double thrust_n, double force_n) const {
        const double line = qs_n * slope_prad_;
        return alphaForForce(qs_n, thrust_n, force_n,
                             (force_n + line * alpha0_rad_) / (line + thrust_n));
    }
    /// Sine of the sideslip that gives side force q S CY - T cos(alpha) sin(beta) = force; within
    /// 60 deg.
    /// @param thrust_n  of the cosine of the sideslip, already times cos(alpha)
    template <class Thrust>
    double sideslipSineForForce(double qs_n, Thrust&& thrust_n, double force_n) const {
        const double straight = thrust_n(1.0);
        const double line = qs_n * side_slope_prad_, linear = line + straight;
        if (!(linear > 0) || force_n == 0) return 0;
        // In s = sin(beta) the force is monotone: line s / sqrt(1 + (c s)^2) + T cos(alpha) s. The
        // first guess is good to the third power of s, and one Newton step from it to 1e-6 where
        // the fuselage is far from all it can give.
        constexpr double kMost = 0.8660254037844386;  // sine of 60 deg
        constexpr double kFar = 0.3;
        const double per_side = side_slope_prad_ * inverse_cy_max_, s0 = -force_n / linear;
        const double bend = line / linear * per_side * per_side * s0 * s0;
        if (bend < kHardlyAny) return s0 * (1 + 0.5 * bend);
        const double guess = bend < 0.9 ? s0 / std::sqrt(1 - bend) : std::copysign(kMost, s0);
        double s = std::clamp(guess, -kMost, kMost);
        for (int i = 0; i < 12; ++i) {
            const double ratio = per_side * s;
            const double square = 1 + ratio * ratio, inverse = 1 / std::sqrt(square);
            const double thrust = thrust_n(std::sqrt(1 - s * s));
            const double y = line * s * inverse + thrust * s + force_n;
            // The slope leaves out the thrust's own change, a few hundredths.
            const double shift = y / (line * inverse * inverse * inverse + thrust);
            s = std::clamp(s - shift, -kMost, kMost);
            if (bend < kFar || std::fabs(shift) < 1e-7) break;
        }
        return s;
    }

    /// A wanted incidence as it is flown: kept within alphaMin and alphaMax, with a continuous
    /// slope.
    double eased(double alpha_rad) const {
        if (alpha_rad > alpha_max_rad_ - ease_rad_)
            return alpha0_rad_ +
                   towardsLimit(alpha_rad - alpha0_rad_, alpha_max_rad_ - alpha0_rad_, ease_rad_);
        if (alpha_rad < alpha_min_rad_ + ease_rad_)
            return alpha0_rad_ -
                   towardsLimit(alpha0_rad_ - alpha_rad, alpha0_rad_ - alpha_min_rad_, ease_rad_);
        return alpha_rad;
    }

    /// The sine of a wanted sideslip as the rudder holds it, with a continuous slope.
    double heldSideslipSine(double sine) const {
        const double soft = kSoftRudder * sideslip_sine_max_;
        if (std::fabs(sine) <= sideslip_sine_max_ - soft) return sine;
        return std::copysign(towardsLimit(std::fabs(sine), sideslip_sine_max_, soft), sine);
    }

    double alphaMax_rad() const { return alpha_max_rad_; }  ///< of the greatest lift that is held
    double alphaMin_rad() const { return alpha_min_rad_; }
    double alpha0_rad() const { return alpha0_rad_; }
    double liftSlope_prad() const { return slope_prad_; }
    double clMax() const { return cl_max_; }
    double clMin() const { return cl_min_; }

private:
    /// 0 on the line of the lift curve, 1 on the flat plate.
    double stalledShare(double x_rad) const {
        double u = 0;
        if (x_rad > upper_rad_)
            u = (x_rad - upper_rad_) * kInverseWidth;
        else if (x_rad < lower_rad_)
            u = (lower_rad_ - x_rad) * kInverseWidth;
        else
            return 0;
        return u >= 1 ? 1 : u * u * u * (10 + u * (-15 + 6 * u));
    }
    void placeStall(double wanted, double sign);
    double alphaNearStall(double qs_n, double thrust_n, double force_n, double guess_rad) const;
    double usedAlpha(double cl, double alpha_peak_rad) const;
    void tabulateNormal();
    /// Incidence by demanded load where the lift curve rounds off and the demand is softened.
    struct Edge {
        double end = 0, limit_rad = 0;
        UniformSpline table;
        double alpha(double cn) const { return cn < end ? table(cn) : limit_rad; }
    };
    Edge edgeOf(double sign) const;

    // chosen: the lift curve rounds off over 12 deg, as on thick symmetrical sections.
    static constexpr double kWidth_rad = 12 * kPi / 180;
    static constexpr double kInverseWidth = 1 / kWidth_rad;
    static constexpr double kBroadside = 0.25;  // cos^2(60 deg): no shaped path needs more sideslip
    static constexpr double kPeakOverUsed = 1.02;
    static constexpr double kHardlyAny = 1e-4;
    static constexpr double kSoftRudder = 0.15;  // chosen: the last part comes gently
    static constexpr double kSoftShare = 0.05;   // chosen: 1 % less lift at most

    double slope_prad_ = 0, alpha0_rad_ = 0, cd0_ = 0, induced_k_ = 0, side_slope_prad_ = 0,
           inverse_cy_max_ = 0, sideslip_drag_ = 0, cn_plate_ = 0, cd_tail_first_ = 0;
    double upper_rad_ = 0, lower_rad_ = 0;
    double alpha_max_rad_ = 0, alpha_min_rad_ = 0, cl_max_ = 0, cl_min_ = 0;
    double sideslip_sine_max_ = 1;
    double sin_alpha_max_ = 0, sin_alpha_min_ = 0;
    double ease_rad_ = 0;
    double cn_max_ = 0, cn_min_ = 0;
    double table_low_cn_ = 0, table_high_cn_ = 0;
    UniformSpline alpha_of_normal_;
    Edge upper_edge_, lower_edge_;
};

}  // namespace plumbline::fly
