#pragma once
// Steady wind by height, smooth enough for the integrator.

#include <cstddef>
#include <vector>

#include "engine/math/frames.h"

namespace plumbline::earth {

/// Where the air moves to, at one height above show centre.
struct WindPoint {
    double height_m = 0;
    Vec3 velocity_S_mps{0};
};

/// Wind between given points.
///
/// Model: each component is a quintic between neighbouring points, with the harmonic mean of the
/// neighbouring slopes (zero where they differ in sign) and no curvature at the points. So it goes
/// through the points, never overshoots them, is straight where they lie on a straight line, flat
/// beyond the ends, and twice continuously differentiable everywhere.
/// simplified: steady, the same over the whole site.
class WindProfile {
public:
    /// Calm.
    WindProfile() = default;
    /// @param points  of rising height; none: calm; one: the same at all heights
    explicit WindProfile(const std::vector<WindPoint>& points);

    /// Velocity of the air, site axes.
    Vec3 at(double height_m) const {
        const Piece* const piece = pieceAt(height_m);
        if (piece == nullptr) return height_m < low_m_ ? low_S_mps_ : high_S_mps_;
        const double u = (height_m - piece->start_m) * piece->per_m;
        const double u3 = u * u * u;
        return piece->value + u * piece->slope + (u3 - 0.5 * u3 * u) * piece->slope_change +
               (u3 / 3 + u3 * u * (-0.5 + 0.2 * u)) * piece->bump;
    }
    /// Change of the wind with height [(m/s)/m], site axes.
    Vec3 gradient(double height_m) const {
        const Piece* const piece = pieceAt(height_m);
        if (piece == nullptr) return Vec3(0);
        const double u = (height_m - piece->start_m) * piece->per_m;
        const double w = u * (1 - u);
        return piece->per_m *
               (piece->slope + u * u * (3 - 2 * u) * piece->slope_change + w * w * piece->bump);
    }
    /// Both at the cost of one.
    Vec3 at(double height_m, Vec3& gradient_S_ps) const {
        const Piece* const piece = pieceAt(height_m);
        if (piece == nullptr) {
            gradient_S_ps = Vec3(0);
            return height_m < low_m_ ? low_S_mps_ : high_S_mps_;
        }
        const double u = (height_m - piece->start_m) * piece->per_m;
        const double u2 = u * u, u3 = u2 * u, w = u * (1 - u);
        gradient_S_ps = piece->per_m * (piece->slope + u2 * (3 - 2 * u) * piece->slope_change +
                                        w * w * piece->bump);
        return piece->value + u * piece->slope + (u3 - 0.5 * u3 * u) * piece->slope_change +
               (u3 / 3 + u3 * u * (-0.5 + 0.2 * u)) * piece->bump;
    }
    bool calm() const { return calm_; }

private:
    /// Over u = 0..1: slope + (3u^2 - 2u^3) slope_change + u^2 (1-u)^2 bump, and its integral.
    struct Piece {
        double start_m, per_m;
        Vec3 value, slope, slope_change, bump;
    };
    /// Null outside the points.
    const Piece* pieceAt(double height_m) const {
        if (!(height_m >= low_m_ && height_m < high_m_)) return nullptr;
        std::size_t i = pieces_.size() - 1;
        while (height_m < pieces_[i].start_m) --i;
        return &pieces_[i];
    }

    std::vector<Piece> pieces_;
    double low_m_ = 0, high_m_ = 0;
    Vec3 low_S_mps_{0}, high_S_mps_{0};
    bool calm_ = true;
};

}  // namespace plumbline::earth
