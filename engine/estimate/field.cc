#include "engine/estimate/field.h"

#include <algorithm>
#include <cmath>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

namespace plumbline::estimate {

void meanFields(const std::vector<FieldSample>& field, const Inertial& inertial, std::size_t nodes,
                const std::function<std::size_t(std::size_t)>& sample_of,
                const std::function<void(std::size_t, const Vec&)>& found) {
    // chosen: at fast turns a mean over longer would smear the field
    constexpr double kHalf_s = 0.012;
    std::size_t at = 0;
    for (std::size_t k = 0; k < nodes; ++k) {
        const double t = inertial.time_s[sample_of(k)];
        while (at < field.size() && field[at].time_s < t - kHalf_s) ++at;
        Vec sum = Vec::Zero();
        int count = 0;
        for (std::size_t i = at; i < field.size() && field[i].time_s <= t + kHalf_s; ++i) {
            sum += toEigen(field[i].field_I);
            ++count;
        }
        if (count > 0 && sum.allFinite()) found(k, sum / count);
    }
}

FieldFit fitEarthField(const std::vector<Mat3>& attitudes, const std::vector<Vec>& fields) {
    FieldFit fit;
    if (fields.size() < 20) return fit;
    using Six = Eigen::Matrix<double, 6, 6>;
    Eigen::Matrix<double, 6, 1> x = Eigen::Matrix<double, 6, 1>::Zero();
    std::vector<double> left(fields.size());
    double c = 1e30;
    const double strength = [&] {
        double sum = 0;
        for (const Vec& f : fields) sum += f.norm();
        return sum / static_cast<double>(fields.size());
    }();
    // chosen: an offset of a few hundredths of the field is no sign of iron at the sensor: a field
    // that differs from place to place looks the same. A real one is larger.
    constexpr double kSmallestOffset = 0.05;
    for (const bool with_offset : {true, false}) {
        for (int round = 0; round < 12; ++round) {
            Six h = Six::Zero();
            Eigen::Matrix<double, 6, 1> right = Eigen::Matrix<double, 6, 1>::Zero();
            for (std::size_t i = 0; i < fields.size(); ++i) {
                const double q = 1 + left[i] * left[i] / (3 * c * c);
                const double w = 1 / (q * q);
                Eigen::Matrix<double, 3, 6> j;
                j.leftCols<3>() = attitudes[i].transpose();
                j.rightCols<3>().setIdentity();
                h.noalias() += w * j.transpose() * j;
                right.noalias() += w * j.transpose() * fields[i];
            }
            // chosen: where attitudes hardly differ the offset stays small, or nothing
            const double n = static_cast<double>(fields.size());
            h.bottomRightCorner<3, 3>().diagonal().array() += (with_offset ? 0.003 : 1e6) * n;
            x = h.ldlt().solve(right);
            std::vector<double> sorted(fields.size());
            for (std::size_t i = 0; i < fields.size(); ++i) {
                left[i] = (fields[i] - attitudes[i].transpose() * x.head<3>() - x.tail<3>()).norm();
                sorted[i] = left[i];
            }
            std::nth_element(sorted.begin(), sorted.begin() + std::ssize(sorted) / 2, sorted.end());
            // median of the length of three equal normals is 1.54 of one's deviation
            fit.scatter = sorted[sorted.size() / 2] / 1.54;
            c = std::max(1.5 * fit.scatter, 0.02 * strength);
        }
        if (x.tail<3>().norm() > kSmallestOffset * strength) break;
    }
    fit.earth_S = x.head<3>();
    fit.offset_I = x.tail<3>();
    const double level = std::hypot(fit.earth_S.x(), fit.earth_S.y());
    fit.usable = level > 3 * fit.scatter && level > 0.1 * strength;
    return fit;
}

}  // namespace plumbline::estimate
