#include "engine/estimate/mounting.h"

#include <cmath>

namespace plumbline::estimate {

namespace {

// chosen: slower the wind and the hand that carries it decide where it goes
constexpr double kFast_mps = 15;
// chosen: half the way between two square positions is 45 deg; incidence and slack stay below this
constexpr double kSquare_rad = 15 * kPi / 180;

/// The nearest of the 24 rotations that map axes onto axes.
Quat nearestSquare(const Quat& q, double& angle_rad) {
    Quat best{1, 0, 0, 0};
    double best_dot = -1;
    for (int x = 0; x < 6; ++x)
        for (int y = 0; y < 6; ++y) {
            if (x / 2 == y / 2) continue;
            Vec3 x_axis(0), y_axis(0);
            x_axis[x / 2] = x % 2 == 0 ? 1 : -1;
            y_axis[y / 2] = y % 2 == 0 ? 1 : -1;
            const Quat candidate = quatFromAxes(x_axis, y_axis, glm::cross(x_axis, y_axis));
            const double dot = std::abs(glm::dot(candidate, q));
            if (dot <= best_dot) continue;
            best_dot = dot;
            best = candidate;
        }
    angle_rad = 2 * std::acos(std::min(1.0, best_dot));
    return best;
}

}  // namespace

Mounting findMounting(const Solution& solution) {
    MountingSearch search;
    for (const State& state : solution.states) search.add(state, solution.has_position);
    return search.find();
}

void MountingSearch::add(const State& state, bool has_position) {
    all_load_I_ += state.force_I_mps2;
    const double speed = glm::length(state.velocity_S_mps);
    if (!has_position || speed < kFast_mps) return;
    forward_I_ += unrotate(state.q_SI, state.velocity_S_mps / speed);
    load_I_ += state.force_I_mps2;
    ++fast_;
}

Mounting MountingSearch::find() const {
    Mounting mounting;
    // chosen: ten times the fewest samples that a smooth second has
    const bool moved = fast_ > 500 && glm::length(forward_I_) > 0.5 * static_cast<double>(fast_);
    if (!moved) {
        // On the table only down is told: the sensor lies on one of its sides.
        const double size = glm::length(all_load_I_);
        if (size <= 0) return mounting;
        const Vec3 down_I = -all_load_I_ / size;
        int axis = 0;
        for (int a = 1; a < 3; ++a)
            if (std::abs(down_I[a]) > std::abs(down_I[axis])) axis = a;
        Vec3 z(0), x(0);
        z[axis] = down_I[axis] > 0 ? 1 : -1;
        x[axis == 0 ? 1 : 0] = 1;
        mounting.q_BI = glm::conjugate(quatFromAxes(x, glm::cross(z, x), z));
        return mounting;
    }
    const Vec3 x = glm::normalize(forward_I_);
    const Vec3 down = -load_I_ + glm::dot(load_I_, x) * x;
    if (glm::length(down) <= 0) return mounting;
    const Vec3 z = glm::normalize(down);
    const Quat q_IB = quatFromAxes(x, glm::cross(z, x), z);
    const Quat square_IB = nearestSquare(q_IB, mounting.off_square_rad);
    mounting.known = true;
    mounting.square = mounting.off_square_rad < kSquare_rad;
    mounting.q_BI = glm::conjugate(mounting.square ? square_IB : q_IB);
    return mounting;
}

}  // namespace plumbline::estimate
