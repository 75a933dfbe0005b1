// Our stepper beside a general one of the same method on the same equations: a loop by radius, at
// several tolerances. Compare lines of equal error_m.

#include <cmath>
#include <cstdio>
#include <cstdlib>

#include <benchmark/benchmark.h>
#if __has_include(<boost/numeric/odeint.hpp>)
#include <boost/numeric/odeint.hpp>
#define PLUMBLINE_ODEINT 1
#endif

#include "engine/fly/corner.h"
#include "engine/fly/flight.h"
#include "engine/load/load.h"

namespace {

using namespace plumbline;
using fly::StateVector;

constexpr double kDuration_s = 12;

// A loop of 118 m from level flight at 82 m/s, in the demo's aircraft and weather.
struct Loop {
    fly::World world;
    fly::Flight flight;
    fly::Law law;
    StateVector y0{};

    explicit Loop(const load::Workspace& w)
        : world(w.aircraft, w.site, w.weather), flight(world, {}) {
        fly::Joint& j = flight.joint;
        j.position_S_m = Vec3(0, 0, 300);
        j.q_SB = j.q_SL = Quat(0, 1, 0, 0);
        j.air_velocity_S_mps = Vec3(82, 0, 0);
        j.mass_kg = w.aircraft.mass.empty_kg + w.aircraft.mass.pilot_kg + 30;
        j.head_k = 400;
        law = flight.lawFrom(fly::Form::Shaped, fly::Shape::RadiusArc);
        fly::shapeCorner(118, 2 * kPi, law);
        y0 = flight.startOf(law, fly::Dynamics(world, law));
    }
    StateVector fly(double relative, std::int64_t& evaluations) const {
        ode::Tolerance<fly::kStates> tolerance = flight.shaped_tolerance;
        tolerance.relative = relative;
        std::vector<ode::DenseStep<fly::kStates>> steps;
        steps.reserve(200);
        return fly::Dynamics(world, law)
            .integrate([](double, const StateVector&) { return 1.0; }, 0, y0, kDuration_s, 0.1,
                       tolerance, steps, evaluations)
            .state;
    }
};

const Loop& loop() {
    static const auto work = load::loadDemo();
    if (!work) {
        std::fprintf(stderr, "%s\n", describe(work.error()).c_str());
        std::exit(2);
    }
    static const Loop made(*work);
    return made;
}

double errorOf(const StateVector& y) {
    std::int64_t evaluations = 0;
    static const StateVector exact = loop().fly(1e-13, evaluations);
    return std::hypot(y[fly::kX] - exact[fly::kX], y[fly::kY] - exact[fly::kY],
                      y[fly::kZ] - exact[fly::kZ]);
}

void loopByOurStepper(benchmark::State& state) {
    const double relative = std::pow(10.0, -static_cast<double>(state.range(0)));
    std::int64_t evaluations = 0;
    StateVector end{};
    for (auto _ : state) {
        evaluations = 0;
        end = loop().fly(relative, evaluations);
        benchmark::DoNotOptimize(&end);
    }
    state.counters["evaluations"] = static_cast<double>(evaluations);
    state.counters["error_m"] = errorOf(end);
}
BENCHMARK(loopByOurStepper)->DenseRange(6, 10)->Unit(benchmark::kMicrosecond);

#ifdef PLUMBLINE_ODEINT
void loopByOdeint(benchmark::State& state) {
    namespace odeint = boost::numeric::odeint;
    const double relative = std::pow(10.0, -static_cast<double>(state.range(0)));
    std::int64_t evaluations = 0;
    StateVector end{};
    const fly::Dynamics dynamics(loop().world, loop().law);
    const auto f = [&](const StateVector& y, StateVector& dy, double t) {
        ++evaluations;
        dynamics.derivative(t, y, dy);
    };
    for (auto _ : state) {
        evaluations = 0;
        end = loop().y0;
        auto stepper = odeint::make_dense_output(relative, relative,
                                                 odeint::runge_kutta_dopri5<StateVector>());
        stepper.initialize(end, 0.0, 0.1);
        while (stepper.current_time() < kDuration_s) stepper.do_step(f);
        stepper.calc_state(kDuration_s, end);
        benchmark::DoNotOptimize(&end);
    }
    state.counters["evaluations"] = static_cast<double>(evaluations);
    state.counters["error_m"] = errorOf(end);
}
BENCHMARK(loopByOdeint)->DenseRange(5, 10)->Unit(benchmark::kMicrosecond);
#endif

}  // namespace
