#include "engine/math/spline.h"

#include "engine/base/check.h"

namespace plumbline {

UniformSpline::UniformSpline(double x0, double dx, const std::vector<double>& values)
    : x0_(x0), inverse_dx_(1 / dx) {
    PL_EXPECT(values.size() >= 3 && dx > 0);
    const std::size_t n = values.size();
    // Second derivatives (times dx^2) by the tridiagonal system m[i-1] + 4 m[i] + m[i+1] = 6 second
    // difference; the ends take the second difference beside them, which is exact for a parabola.
    std::vector<double> m(n), upper(n), right(n);
    m[0] = values[2] - 2 * values[1] + values[0];
    m[n - 1] = values[n - 1] - 2 * values[n - 2] + values[n - 3];
    upper[0] = 0;
    right[0] = m[0];
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double rhs = 6 * (values[i + 1] - 2 * values[i] + values[i - 1]);
        const double pivot = 4 - upper[i - 1];
        upper[i] = 1 / pivot;
        right[i] = (rhs - right[i - 1]) / pivot;
    }
    for (std::size_t i = n - 2; i > 0; --i) m[i] = right[i] - upper[i] * m[i + 1];
    pieces_.resize(n - 1);
    for (std::size_t i = 0; i + 1 < n; ++i) {
        const double rise = values[i + 1] - values[i];
        pieces_[i] = {static_cast<double>(i), values[i], rise - (2 * m[i] + m[i + 1]) / 6, m[i] / 2,
                      (m[i + 1] - m[i]) / 6};
    }
}

}  // namespace plumbline
