#pragma once
// Adaptive embedded Runge-Kutta of order 5(4) with dense output and event location.
//
// Method: Dormand & Prince, "A family of embedded Runge-Kutta formulae", J. Comp. Appl. Math. 6
// (1980) 19-26; the continuous extension of order 4 is that of Hairer, Norsett & Wanner, Solving
// Ordinary Differential Equations I, II.6.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <vector>

#include "engine/math/root.h"

namespace plumbline::ode {

template <int N>
using State = std::array<double, N>;

/// One accepted step with its interpolant.
template <int N>
struct DenseStep {
    double start = 0;
    double size = 0;
    State<N> r1, r2, r3, r4, r5;

    State<N> at(double t) const {
        State<N> y;
        for (int i = 0; i < N; ++i) y[i] = component(i, t);
        return y;
    }
    double component(int i, double t) const {
        const double u = size > 0 ? (t - start) / size : 0.0, v = 1.0 - u;
        return r1[i] + u * (r2[i] + v * (r3[i] + u * (r4[i] + v * r5[i])));
    }
    State<N> end() const {
        State<N> y;
        for (int i = 0; i < N; ++i) y[i] = r1[i] + r2[i];
        return y;
    }
    /// The same curve, ended at a share of the step.
    void cutTo(double new_size) {
        const double s = new_size / size, s2 = s * s;
        for (int i = 0; i < N; ++i) {
            // By powers of the place in the step, and back.
            const double b1 = s * (r2[i] + r3[i]), b2 = s2 * (r4[i] + r5[i] - r3[i]),
                         b3 = -s2 * s * (r4[i] + 2 * r5[i]);
            r5[i] *= s2 * s2;
            r4[i] = -b3 - 2 * r5[i];
            r3[i] = r4[i] + r5[i] - b2;
            r2[i] = b1 - r3[i];
        }
        size = new_size;
    }
};

template <int N>
struct Tolerance {
    double relative = 1e-8;
    State<N> scale{};  ///< absolute scale of each component, above zero; its error is held
                       ///< to relative * max(scale, |y|)
};

enum class Stop { Time, Event, Failed };

template <int N>
struct Outcome {
    Stop stop = Stop::Time;
    double time = 0;
    State<N> state{};
    double next_step = 0;  ///< what step control would try next
    State<N> slope{};      ///< derivative at the end (Stop::Time)
};

namespace detail {

/// One trial step: fills k2..k7, the end state and the scaled error.
template <int N, class Rhs>
double trialStep(Rhs& f, double t, const State<N>& y, double h, State<N> (&k)[7], State<N>& y1,
                 const Tolerance<N>& tol) {
    constexpr double c2 = 1.0 / 5, c3 = 3.0 / 10, c4 = 4.0 / 5, c5 = 8.0 / 9;
    State<N> w;
    for (int i = 0; i < N; ++i) w[i] = y[i] + h * (1.0 / 5) * k[0][i];
    f(t + c2 * h, w, k[1]);
    for (int i = 0; i < N; ++i) w[i] = y[i] + h * (3.0 / 40 * k[0][i] + 9.0 / 40 * k[1][i]);
    f(t + c3 * h, w, k[2]);
    for (int i = 0; i < N; ++i)
        w[i] = y[i] + h * (44.0 / 45 * k[0][i] - 56.0 / 15 * k[1][i] + 32.0 / 9 * k[2][i]);
    f(t + c4 * h, w, k[3]);
    for (int i = 0; i < N; ++i)
        w[i] = y[i] + h * (19372.0 / 6561 * k[0][i] - 25360.0 / 2187 * k[1][i] +
                           64448.0 / 6561 * k[2][i] - 212.0 / 729 * k[3][i]);
    f(t + c5 * h, w, k[4]);
    for (int i = 0; i < N; ++i)
        w[i] =
            y[i] + h * (9017.0 / 3168 * k[0][i] - 355.0 / 33 * k[1][i] + 46732.0 / 5247 * k[2][i] +
                        49.0 / 176 * k[3][i] - 5103.0 / 18656 * k[4][i]);
    f(t + h, w, k[5]);
    for (int i = 0; i < N; ++i)
        y1[i] = y[i] + h * (35.0 / 384 * k[0][i] + 500.0 / 1113 * k[2][i] + 125.0 / 192 * k[3][i] -
                            2187.0 / 6784 * k[4][i] + 11.0 / 84 * k[5][i]);
    f(t + h, y1, k[6]);
    State<N> weight;
    for (int i = 0; i < N; ++i) weight[i] = 1 / std::max(tol.scale[i], std::fabs(y[i]));
    double sum = 0;
    for (int i = 0; i < N; ++i) {
        const double e = h * weight[i] *
                         (71.0 / 57600 * k[0][i] - 71.0 / 16695 * k[2][i] + 71.0 / 1920 * k[3][i] -
                          17253.0 / 339200 * k[4][i] + 22.0 / 525 * k[5][i] - 1.0 / 40 * k[6][i]);
        sum += e * e;
    }
    return std::sqrt(sum / N) / tol.relative;
}

template <int N>
DenseStep<N> denseOf(double t, double h, const State<N>& y0, const State<N>& y1,
                     const State<N> (&k)[7]) {
    constexpr double d1 = -12715105075.0 / 11282082432.0, d3 = 87487479700.0 / 32700410799.0,
                     d4 = -10690763975.0 / 1880347072.0, d5 = 701980252875.0 / 199316789632.0,
                     d6 = -1453857185.0 / 822651844.0, d7 = 69997945.0 / 29380423.0;
    DenseStep<N> step;
    step.start = t;
    step.size = h;
    for (int i = 0; i < N; ++i) {
        const double dy = y1[i] - y0[i];
        const double b = h * k[0][i] - dy;
        step.r1[i] = y0[i];
        step.r2[i] = dy;
        step.r3[i] = b;
        step.r4[i] = dy - h * k[6][i] - b;
        step.r5[i] = h * (d1 * k[0][i] + d3 * k[2][i] + d4 * k[3][i] + d5 * k[4][i] + d6 * k[5][i] +
                          d7 * k[6][i]);
    }
    return step;
}

/// When an event that holds at a step's start and no more at its end falls to zero on the
/// interpolant, as time since the start.
template <int N, class Event>
double locate(Event& event, const DenseStep<N>& dense, double g_start, double g_end) {
    const auto g = [&](double since) {
        return event(dense.start + since, dense.at(dense.start + since));
    };
    return zeroBetween(g, 0.0, dense.size, g_start, g_end, 1e-13);
}

/// An event's values at the ends of the last two steps tell whether the next one may pass it.
struct Outlook {
    double before = 0, now = 0;    ///< at the last step's start and end
    double slope = 0, change = 0;  ///< over the last step; of it, by time
    double last_size = 0;

    void move(double g, double size) {
        const double next = (g - now) / size;
        change = last_size > 0 ? 2 * (next - slope) / (size + last_size) : 0;
        slope = next;
        before = now;
        now = g;
        last_size = size;
    }
    bool mayEndWithin(double h) const {
        if (!(last_size > 0)) return false;
        const double ahead = h * (slope + 0.5 * change * (h + last_size));
        return now + ahead < 0.3 * std::fabs(ahead);
    }
};

/// How long after the last step's end its interpolant, gone on with, has the event fall to zero;
/// `h` where that is later. The flight itself does so within about a thousandth of that; this
/// forecast is sought finer, so that last bits do not make another step of it.
template <int N, class Event>
double foretell(Event& event, const DenseStep<N>& last, double g_now, double h) {
    const double t = last.start + last.size;
    const auto g = [&](double since) { return event(t + since, last.at(t + since)); };
    const double g_end = g(h);
    return g_end > 0 ? h : zeroBetween(g, 0.0, h, g_now, g_end, 1e-8 * h);
}

}  // namespace detail

/// Steps are limited by nothing but their error.
struct Unlimited {
    template <class State>
    double operator()(const State&, const State&, double h) const {
        return h;
    }
};

/// Integrates y' = f(t, y) from (t0, y0) until t1 or until event(t, y) falls to zero or below,
/// whichever is first.
///
/// The event is looked for at step ends, then located on the interpolant and landed on by a
/// shortened step of the method itself, to 1e-12 in the event's time. An event already <= 0 at the
/// start ends at once.
/// @param f       void(double t, const State<N>& y, State<N>& dy); smooth between t0 and t1
/// @param event   double(double t, const State<N>& y), continuous
/// @param h_first first step tried
/// @param steps   accepted steps are appended
/// @param slope   derivative at the start where it is known, of the stretch before under the same f
/// @param limit   double(const State<N>& y, const State<N>& slope, double h): the step to try where
///                h is wanted, h or less
/// @accuracy order 5, relative tolerance per step as asked; tested in ode_test
template <int N, class Rhs, class Event, class Limit = Unlimited>
Outcome<N> integrate(Rhs&& f, Event&& event, double t0, const State<N>& y0, double t1,
                     double h_first, const Tolerance<N>& tol, std::vector<DenseStep<N>>& steps,
                     const State<N>* slope = nullptr, Limit&& limit = {}) {
    double t = t0;
    State<N> y = y0;
    detail::Outlook outlook;
    outlook.now = event(t, y);
    if (!(outlook.now > 0)) return {Stop::Event, t, y, h_first, {}};
    if (!(t1 > t0)) return {Stop::Time, t, y, h_first, {}};

    State<N> k[7];
    State<N> y1;
    if (slope)
        k[0] = *slope;
    else
        f(t, y, k[0]);
    double h = std::min(h_first, t1 - t0);
    // Exponents of the control: 3/16 of this step's error, 1/32 of the last one's (which counts as
    // 1e-4 at least).
    constexpr double kLeastSixteenth = 0.5623413251903491;
    double last_sixteenth = kLeastSixteenth;
    // chosen: an event so near a step's end is landed on by the interpolant, which there leaves the
    // method's own curve by the square of this share of its error; a step to an event goes so much
    // past it.
    // A loose tolerance asks no more than the interpolant anywhere.
    constexpr double kPast = 2e-3;
    bool refused = false;  // the step before was too long
    constexpr double kAfter = 1.0;
    const double near = tol.relative < 1e-6 ? 0.03 : 1;
    const double h_min = 1e-12 * std::max(1.0, std::fabs(t1));
    for (std::int64_t count = 0; count < 200000; ++count) {
        const double free = h;
        h = limit(y, k[0], h);
        // Where the event is to come, the step ends just past it, so that the interpolant's end
        // says where.
        bool foretold = false;
        if (outlook.mayEndWithin(h)) {
            const double wait = detail::foretell<N>(event, steps.back(), outlook.now, h);
            foretold = wait < h;
            if (foretold) h = std::min(wait * (1 + kPast), h);
        }
        // What is left is not cut into a whole step and a crumb.
        const bool last = t + h >= t1 - h_min;
        if (last)
            h = t1 - t;
        else if (!foretold && t + 2 * h > t1)
            h = 0.5 * (t1 - t);
        const double error = detail::trialStep<N>(f, t, y, h, k, y1, tol);
        if (!(error <= 1.0)) {
            // NaN lands here too: shrink until it can be told apart from a wall.
            h *= std::isfinite(error) ? std::clamp(0.9 * std::pow(error, -0.2), 0.1, 0.9) : 0.1;
            if (h < h_min) return {Stop::Failed, t, y, h, {}};
            refused = true;
            continue;
        }
        const double g1 = event(t + h, y1);
        if (!(g1 > 0)) {
            DenseStep<N> dense = detail::denseOf<N>(t, h, y, y1, k);
            double size = detail::locate<N>(event, dense, outlook.now, g1);
            if (size > h_min && size < (1 - near) * h) {
                // The method's own shortened step differs from the interpolant by its error. That
                // moves the event by so little that the next interpolant takes it up.
                double longer = std::min(size * (1 + kPast), h);
                detail::trialStep<N>(f, t, y, longer, k, y1, tol);
                double g_longer = event(t + longer, y1);
                if (g_longer > 0) {
                    longer = std::min(size * (1 + 10 * kPast), h);
                    detail::trialStep<N>(f, t, y, longer, k, y1, tol);
                    g_longer = event(t + longer, y1);
                }
                dense = detail::denseOf<N>(t, longer, y, y1, k);
                size =
                    g_longer > 0 ? longer : detail::locate<N>(event, dense, outlook.now, g_longer);
            }
            if (!(size > h_min)) return {Stop::Event, t + size, y, h, {}};
            dense.cutTo(size);
            steps.push_back(dense);
            return {Stop::Event, t + size, dense.end(), h, {}};
        }
        steps.push_back(detail::denseOf<N>(t, h, y, y1, k));
        outlook.move(g1, h);
        t = last ? t1 : t + h;
        y = y1;
        k[0] = k[6];
        // Proportional-integral step control (Gustafsson), which keeps the step from swinging.
        // By square roots, which cost less than powers and round alike everywhere.
        const double eighth = std::sqrt(std::sqrt(std::sqrt(std::max(error, 1e-10))));
        const double sixteenth = std::sqrt(eighth);
        const double grow = 0.9 * std::sqrt(last_sixteenth) / (eighth * sixteenth);
        // A step cut short says little of the next one.
        h = std::max(h * std::clamp(grow, 0.2, refused ? kAfter : 6.0),
                     h < free ? 0.5 * free : 0.0);
        refused = false;
        last_sixteenth = std::max(sixteenth, kLeastSixteenth);
        if (last) return {Stop::Time, t, y, h, k[0]};
    }
    return {Stop::Failed, t, y, h, {}};
}

}  // namespace plumbline::ode
