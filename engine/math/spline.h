#pragma once
// A twice continuously differentiable function tabulated on an even grid.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace plumbline {

/// Natural or clamped cubic spline through values at x0, x0 + dx, ...; outside the grid the end
/// cubic goes on.
class UniformSpline {
public:
    UniformSpline() = default;
    /// @param values  at least three
    UniformSpline(double x0, double dx, const std::vector<double>& values);

    double operator()(double x) const {
        const Piece& p = pieceAt(x);
        const double u = (x - x0_) * inverse_dx_ - p.index;
        return p.a + u * (p.b + u * (p.c + u * p.d));
    }
    double derivative(double x) const {
        const Piece& p = pieceAt(x);
        const double u = (x - x0_) * inverse_dx_ - p.index;
        return (p.b + u * (2 * p.c + u * 3 * p.d)) * inverse_dx_;
    }
    bool empty() const { return pieces_.empty(); }

    /// The cubic that holds at x, as value and derivatives there divided by their factorials:
    /// f(x + e) = a + e (b + e (c + e d)) as long as x + e is in the same piece, and to the
    /// spline's own accuracy a little beyond.
    struct Cubic {
        double a = 0, b = 0, c = 0, d = 0;
        double operator()(double e) const { return a + e * (b + e * (c + e * d)); }
    };
    Cubic cubicAt(double x) const {
        const Piece& p = pieceAt(x);
        const double u = (x - x0_) * inverse_dx_ - p.index, s = inverse_dx_;
        return {p.a + u * (p.b + u * (p.c + u * p.d)), s * (p.b + u * (2 * p.c + u * 3 * p.d)),
                s * s * (p.c + 3 * u * p.d), s * s * s * p.d};
    }

private:
    template <int K>
    friend class UniformSplines;
    struct Piece {
        double index, a, b, c, d;
    };
    const Piece& pieceAt(double x) const {
        const double position = (x - x0_) * inverse_dx_;
        const double top = static_cast<double>(pieces_.size()) - 1;
        return pieces_[static_cast<std::size_t>(std::clamp(position, 0.0, top))];
    }
    double x0_ = 0, inverse_dx_ = 1;
    std::vector<Piece> pieces_;
};

/// K functions of one variable on one grid: one look-up for all.
template <int K>
class UniformSplines {
public:
    UniformSplines() = default;
    /// @param values  of each function, equally many, at least three
    UniformSplines(double x0, double dx, const std::array<std::vector<double>, K>& values)
        : x0_(x0), inverse_dx_(1 / dx) {
        for (int k = 0; k < K; ++k) {
            const UniformSpline one(x0, dx, values[k]);
            pieces_.resize(one.pieces_.size());
            for (std::size_t i = 0; i < pieces_.size(); ++i) {
                pieces_[i].index = one.pieces_[i].index;
                pieces_[i].of[k] = {one.pieces_[i].a, one.pieces_[i].b, one.pieces_[i].c,
                                    one.pieces_[i].d};
            }
        }
    }
    std::array<double, K> operator()(double x) const {
        const double position = (x - x0_) * inverse_dx_;
        const double top = static_cast<double>(pieces_.size()) - 1;
        const Piece& p = pieces_[static_cast<std::size_t>(std::clamp(position, 0.0, top))];
        const double u = position - p.index;
        std::array<double, K> out;
        for (int k = 0; k < K; ++k) out[k] = p.of[k](u);
        return out;
    }

private:
    struct Piece {
        double index = 0;
        std::array<UniformSpline::Cubic, K> of;
    };
    double x0_ = 0, inverse_dx_ = 1;
    std::vector<Piece> pieces_;
};

/// A wanted quantity, zero and more, as it comes near a limit that it never passes: the last `room`
/// before the limit takes twice as much wanting; slope and curvature are continuous.
inline double towardsLimit(double wanted, double limit, double room) {
    const double past = wanted - (limit - room);
    if (past <= 0) return wanted;
    const double v = past / (2 * room);
    return v >= 1 ? limit : limit - room + 2 * room * v * (1 + v * v * (-1 + 0.5 * v));
}

/// 0 below 0, 1 above 1, 3 u^2 - 2 u^3 between: value and slope continuous.
inline double smoothStep(double u) {
    u = std::clamp(u, 0.0, 1.0);
    return u * u * (3 - 2 * u);
}
/// Integral of smoothStep from 0 to u (u in 0..1): u^3 - u^4/2.
inline double smoothStepIntegral(double u) {
    u = std::clamp(u, 0.0, 1.0);
    return u * u * u * (1 - 0.5 * u);
}
/// 0 below 0, 1 above 1, quintic between: value, slope and curvature continuous.
inline double smootherStep(double u) {
    u = std::clamp(u, 0.0, 1.0);
    return u * u * u * (10 + u * (-15 + 6 * u));
}
inline double smootherStepSlope(double u) {
    if (u <= 0 || u >= 1) return 0;
    const double v = u * (1 - u);
    return 30 * v * v;
}

/// A quantity that goes from a given value and rate to zero value, rate and acceleration in a given
/// time.
struct Fade {
    double duration_s = 0;
    double value0 = 0, rate0 = 0;

    /// Quintic with zero acceleration at the start.
    double value(double t) const {
        if (!(t < duration_s)) return 0;
        const double u = t / duration_s, r = rate0 * duration_s;
        const double u3 = u * u * u;
        return value0 * (1 - u3 * (10 + u * (-15 + 6 * u))) + r * (u + u3 * (-6 + u * (8 - 3 * u)));
    }
    double rate(double t) const {
        if (t >= duration_s) return 0;
        const double u = t / duration_s;
        const double u2 = u * u;
        return (value0 * (-30 * u2 * (1 + u * (-2 + u)))) / duration_s +
               rate0 * (1 + u2 * (-18 + u * (32 - 15 * u)));
    }
};

}  // namespace plumbline
