#pragma once
// Errors of an estimated attitude.

#include <cmath>
#include <cstddef>
#include <vector>

#include "engine/math/frames.h"

namespace plumbline::figures {

/// Mean squares as they come in.
struct Mean {
    double sum = 0, most = 0;
    std::size_t count = 0;
    void add(double error) {
        sum += error * error;
        most = std::max(most, std::abs(error));
        ++count;
    }
    double rms() const { return count ? std::sqrt(sum / static_cast<double>(count)) : NAN; }
};

/// The errors of Laidig, Caruso, Cereatti, Seel, "BROAD", Data 6(7):72 (2021), of an attitude
/// estimate against a reference, both to a frame with z up: e = q_est conj(q_ref); total
/// 2 acos|w|, heading 2 atan|z/w|, inclination 2 acos sqrt(w^2 + z^2). Radians.
struct AttitudeError {
    double total_rad, heading_rad, inclination_rad;
};
inline AttitudeError attitudeError(const Quat& estimate, const Quat& reference) {
    const Quat e = glm::normalize(estimate * glm::conjugate(reference));
    const auto acosClamped = [](double c) { return std::acos(std::min(1.0, std::abs(c))); };
    return {2 * acosClamped(e.w), 2 * std::atan(std::abs(e.z / e.w)),
            2 * acosClamped(std::hypot(e.w, e.z))};
}

}  // namespace plumbline::figures
