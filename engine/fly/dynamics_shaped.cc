// Shaped: the path's curvature is given; the attitude that gives the needed force is recovered.

#include <algorithm>
#include <cmath>

#include "engine/fly/dynamics_parts.h"

namespace plumbline::fly {
namespace {

// A track where it is flown now: the ground velocity is `forward` times `ground_mps`, forward being
// level but for its climb; `bend` is how forward changes per metre.
struct TrackPoint {
    Vec3 forward, bend;
    double ground_mps;
    Vec3 tangent;  ///< of the air velocity
};
TrackPoint trackAt(const Law& law, double distance_m, double speed, const Vec3& wind) {
    const double s = distance_m - law.distance0_m;
    const double heading = law.plan.heading_rad(s), turn = law.plan.curvature_pm(s);
    const double ch = std::cos(heading), sh = std::sin(heading);
    TrackPoint p;
    p.forward = Vec3(ch, sh, law.plan.slope(s));
    p.bend = Vec3(-sh * turn, ch * turn, law.plan.slopeRate_pm(s));
    // The air velocity is the ground's less the wind, and has the air speed's length.
    const double a = glm::dot(p.forward, p.forward), b = glm::dot(p.forward, wind);
    const double rest = speed * speed - glm::dot(wind, wind);
    p.ground_mps = std::max((b + std::sqrt(std::max(b * b + a * rest, 0.0))) / a, 1.0);
    p.tangent = glm::normalize(p.forward * p.ground_mps - wind);
    return p;
}

}  // namespace

template <Shape kShape>
double Dynamics::bankOf(double t, const StateVector& y) const {
    double bank = 0;
    if (law_.fade.active(t)) bank = law_.fade.x.value(t - law_.fade.start_s);
    if constexpr (kShape == Shape::PathLine) {
        if (!law_.roll.empty()) bank += law_.roll.angle(t);
    } else if constexpr (kShape == Shape::RadiusArc) {
        bank += law_.spread_rad_per_rad * y[kTurned];
    } else if constexpr (kShape == Shape::LevelTurn) {
        bank += turnBank(law_, t);
    } else if constexpr (kShape == Shape::RollingTurn || kShape == Shape::Autorotation) {
        bank += law_.roll.angle(t);
    }
    return bank;
}

double Dynamics::bank_rad(double t, const StateVector& y) const {
    switch (law_.shape) {
        case Shape::PathLine:
            return bankOf<Shape::PathLine>(t, y);
        case Shape::RadiusArc:
            return bankOf<Shape::RadiusArc>(t, y);
        case Shape::LevelTurn:
            return bankOf<Shape::LevelTurn>(t, y);
        case Shape::LoadArc:
            return bankOf<Shape::LoadArc>(t, y);
        case Shape::RollingTurn:
            return bankOf<Shape::RollingTurn>(t, y);
        case Shape::Autorotation:
            return bankOf<Shape::Autorotation>(t, y);
        default:
            return 0;
    }
}

// Where the aircraft is in the air, for the forces.
struct Dynamics::Flow {
    double speed, mass, per_mass, qs;
    PowerModel::Running running;
};

// What a shape asks of them: specific force, or (of a commanded load) the incidence; what the
// path's miss asks comes on top, and what is left of a mismatch at the joint, whatever the wing
// gives.
struct Dynamics::Asked {
    double n = 0, y = 0;
    double alpha_rad = 0;
    double extra_alpha_rad = 0, extra_beta_rad = 0;
    double fading_alpha_rad = 0;
};

struct Dynamics::Had {
    double x = 0, y = 0, n = 0;  ///< specific force
    double alpha_rad = 0, wanted_alpha_rad = 0, sin_beta = 0, cos_beta = 1;
    bool limited = false;       ///< by wing or structure
    bool side_limited = false;  ///< by the rudder
};

// The attitude that gives the force asked, and the force that it gives.
template <bool kByForce>
Dynamics::Had Dynamics::forces(const Flow& flow, const Asked& asked) const {
    const AeroModel& aero = w_.aero;
    const double speed = flow.speed, mass = flow.mass, qs = flow.qs;
    Had had;
    double alpha = asked.alpha_rad, sin_b = 0, cos_b = 1;
    // Thrust depends on the speed along its axis, that on the incidence sought: one look-up at the
    // speed itself, then its own cubic at better ones.
    const PowerModel::Near thrust_near = w_.power.near(flow.running, speed);
    if constexpr (kByForce) {
        const double line = qs * aero.liftSlope_prad(), whole = line + thrust_near.at(speed);
        alpha = whole > 0 ? (mass * asked.n + line * aero.alpha0_rad()) / whole : 0;
    }
    const double cosine = smallCosine(alpha);
    if (asked.y != 0) {
        sin_b = aero.sideslipSineForForce(
            qs, [&](double cos_beta) { return thrust_near.at(speed * cosine * cos_beta) * cosine; },
            mass * asked.y);
        const double held = aero.heldSideslipSine(sin_b);
        had.side_limited = held != sin_b;
        sin_b = held;
        const double square = sin_b * sin_b;
        cos_b = square < 1e-4 ? 1 - square * (0.5 + 0.125 * square) : std::sqrt(1 - square);
    }
    if constexpr (kByForce)
        alpha =
            aero.alphaForForce(qs, thrust_near.at(speed * cosine * cos_b), mass * asked.n, alpha);
    had.wanted_alpha_rad = alpha + asked.extra_alpha_rad;
    // A commanded load comes softened already.
    if constexpr (kByForce) alpha = aero.eased(had.wanted_alpha_rad);
    // At the edge of what wing, fuselage or structure give, the shape is no longer the one asked.
    had.limited = kByForce && alpha != had.wanted_alpha_rad;
    alpha += asked.fading_alpha_rad;
    if (asked.extra_beta_rad != 0) {
        double s, c;
        sineAndCosine(asked.extra_beta_rad, s, c);
        const double turned = sin_b * c + cos_b * s;
        cos_b = cos_b * c - sin_b * s;
        sin_b = turned;
    }

    double sin_a, cos_a;
    sineAndCosine(alpha, sin_a, cos_a);
    Coefficients c = aero.atSines(alpha, sin_a, cos_a, sin_b);
    // The structure's limit is never passed, whatever the shape asks.
    const double weight = mass * kGravity_mps2;
    const double normal = qs * (c.lift * cos_a + c.drag * sin_a);
    const data::AircraftLimits& limits = w_.aircraft.limits;
    if (normal > limits.load_max_g * weight || normal < limits.load_min_g * weight) {
        const double most = normal > 0 ? limits.load_max_g : limits.load_min_g;
        alpha = aero.alphaForNormal(most * weight / qs);
        had.limited = kByForce;
        sineAndCosine(alpha, sin_a, cos_a);
        c = aero.atSines(alpha, sin_a, cos_a, sin_b);
    }
    const double thrust = thrust_near.at(speed * cos_a * cos_b);
    had.x = (thrust * cos_a * cos_b - qs * c.drag) * flow.per_mass;
    had.y = (qs * c.side - thrust * cos_a * sin_b) * flow.per_mass;
    had.n = (qs * c.lift + thrust * sin_a) * flow.per_mass;
    had.alpha_rad = alpha;
    had.sin_beta = sin_b;
    had.cos_beta = cos_b;
    return had;
}

template <Shape kShape>
void Dynamics::shaped(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    constexpr bool kLevelFrame = kShape == Shape::LevelTurn || kShape == Shape::RollingTurn;
    const AeroModel& aero = w_.aero;
    const double speed = std::max(y[kSpeed], 1.0);
    const double mass = y[kMass], per_mass = 1 / mass, per_speed = 1 / speed;
    const World::Air air = w_.air(y[kZ]);
    const double density = air.density_kgpm3;
    const PowerModel::Lever lever = leverAt(t);
    const PowerModel::Running running = w_.power.running(lever, density, air.unit_speed_mps);
    const double qs = 0.5 * density * speed * speed * w_.wing_area_m2;

    Quat q_SP(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    double f_n = 0, f_y = 0, bank = 0, sin_r = 0, cos_r = 1;
    bank = bankOf<kShape>(t, y);
    if (bank != 0) {
        sin_r = std::sin(bank);
        cos_r = std::cos(bank);
    }
    Vec3 tangent, g_S(0, 0, -kGravity_mps2), g_W, wind(0), gradient(0);
    Vec3 line_W;
    double up_y = 0, up_z = 0;  // site's up in W
    [[maybe_unused]] Vec3 own_y, own_z, level_y, level_z;
    double way_mps = speed;  // at which the distance counts
    Rotation axes(q_SP);
    tangent = axes.x;
    if (!w_.wind.calm()) {
        wind = w_.wind.at(y[kZ], gradient);
        if constexpr (kShape != Shape::Track) g_S -= gradient * (speed * tangent.z + wind.z);
    }
    const Flow flow{speed, mass, per_mass, qs, running};
    if constexpr (kShape == Shape::Track) {
        const TrackPoint p = trackAt(law_, y[kDistance], speed, wind);
        tangent = p.tangent;
        way_mps = p.ground_mps;
        // Coordinated, but for what is left of another bank at the start.
        Vec3 y_P, z_P;
        const auto ask = [&](double gain) {
            Vec3 needed = p.forward * gain + p.bend * (way_mps * way_mps) - g_S;
            needed -= tangent * glm::dot(needed, tangent);
            const double force = std::max(std::sqrt(glm::dot(needed, needed)), 1e-6);
            z_P = needed * (-1 / force);
            y_P = glm::cross(z_P, tangent);
            f_n = force * cos_r;
            f_y = -force * sin_r;
        };
        ask(0);
        // In a wind the ground speed's gain has a part across the air velocity, and follows from
        // the forces: a fixed point that one look from a plain polar settles.
        if (!w_.wind.calm()) {
            const double along = glm::dot(p.forward, tangent);
            const double rest =
                glm::dot(g_S, tangent) - way_mps * way_mps * glm::dot(p.bend, tangent);
            const double lift = qs > 0 ? mass * f_n / qs : 0;
            const double polar = w_.power.near(running, speed).at(speed) - qs * aero.drag(lift);
            ask((polar * per_mass + rest) / along);
            Asked asked;
            asked.n = f_n;
            asked.y = f_y;
            ask((forces<true>(flow, asked).x + rest) / along);
            g_S -= gradient * (way_mps * p.forward.z);
        }
        if (m) q_SP = quatFromAxes(tangent, y_P, z_P);
        const Vec3 z_W = z_P * cos_r - y_P * sin_r, y_W = y_P * cos_r + z_P * sin_r;
        g_W = Vec3(glm::dot(g_S, tangent), glm::dot(g_S, y_W), glm::dot(g_S, z_W));
    } else {
        if constexpr (kLevelFrame) {
            // The path frame is the level one of this tangent; the state's own may lie rolled
            // about it.
            own_y = axes.y;
            own_z = axes.z;
            const double level =
                std::max(std::sqrt(tangent.x * tangent.x + tangent.y * tangent.y), 1e-3);
            axes.y = Vec3(tangent.y / level, -tangent.x / level, 0);
            axes.z = glm::cross(tangent, axes.y);
            level_y = axes.y;
            level_z = axes.z;
            if (m) q_SP = quatFromAxes(tangent, axes.y, axes.z);
        }
        if constexpr (kShape == Shape::RollingTurn) {
            double rate = 0;
            const double heading = rollingHeading(law_, t, rate);
            const double miss = std::remainder(heading - std::atan2(tangent.y, tangent.x), 2 * kPi);
            const double per_lag =
                0.5 * density * w_.wing_area_m2 * aero.liftSlope_prad() * per_mass;
            // To the left along -y_P; up along -z_P.
            const double side = -speed * (rate + speed * per_lag * miss) - glm::dot(axes.y, g_S);
            const double n = -speed * speed * tangent.z * per_lag + glm::dot(axes.z, g_S);
            f_n = n * cos_r + side * sin_r;
            f_y = side * cos_r - n * sin_r;
        }
        if constexpr (kShape == Shape::RadiusArc) {
            // Needed in the path frame, turned into the wind axes.
            Vec3 wanted_S = axes.z * (-arcCurvature(law_, y[kDistance]) * speed * speed);
            if (law_.over_ground)
                wanted_S = groundCurve(speed, tangent, wind, arcCurvature(law_, y[kDistance]), g_S,
                                       way_mps);
            const double n = glm::dot(axes.z, g_S - wanted_S),
                         side = glm::dot(axes.y, wanted_S - g_S);
            f_n = n * cos_r + side * sin_r;
            f_y = side * cos_r - n * sin_r;
        }
        if (bank != 0) {
            const Vec3 y_P = axes.y;
            axes.y = y_P * cos_r + axes.z * sin_r;
            axes.z = axes.z * cos_r - y_P * sin_r;
        }
        g_W = axes.from(g_S);
        if constexpr (kShape == Shape::PathLine)
            line_W = axes.from(law_.over_ground ? groundLine(y, speed, wind) : line_S_);
        up_y = axes.y.z;
        up_z = axes.z.z;
    }

    Asked asked;
    if (law_.fade.active(t)) {
        const double u = t - law_.fade.start_s;
        asked.fading_alpha_rad = law_.fade.z.value(u);
        asked.extra_beta_rad = law_.fade.y.value(u);
    }
    if constexpr (kShape == Shape::LoadArc) {
        asked.alpha_rad = aero.alphaForDemand(law_.load_g(t) * mass * kGravity_mps2 / qs);
        // A barrel keeps its axis: the fuselage carries the weight's part across.
        if (law_.spread_rad_per_rad != 0) f_y = -g_W.y;
    } else if constexpr (kShape == Shape::PathLine) {
        f_n = g_W.z;
        f_y = -g_W.y;
        asked.extra_alpha_rad -= line_W.z;
        asked.extra_beta_rad -= line_W.y;
    } else if constexpr (kShape == Shape::LevelTurn) {
        const double per_lag = 0.5 * density * w_.wing_area_m2 * aero.liftSlope_prad() * per_mass;
        const double share = law_.turn_climb_rad != 0
                                 ? smootherStep((t - law_.start_s) / law_.climb_ramp_s) -
                                       smootherStep((t - law_.climb_down_s) / law_.climb_ramp_s)
                                 : 0;
        const double wanted_up =
            speed * speed * (std::sin(law_.turn_climb_rad * share) - tangent.z) * per_lag;
        f_n = (wanted_up - g_W.y * up_y) / std::max(-up_z, 0.05) + g_W.z;
    }
    constexpr bool kByForce = kShape != Shape::LoadArc;
    asked.n = f_n;
    asked.y = f_y;
    const Had had = forces<kByForce>(flow, asked);
    if (dy) {
        StateVector& d = *dy;
        const double a_n = had.n - g_W.z, a_y = had.y + g_W.y;
        double q = (a_n * cos_r - a_y * sin_r) * per_speed,
               r = (a_y * cos_r + a_n * sin_r) * per_speed;
        if constexpr (kLevelFrame) {
            const Vec3 turning_S = level_y * q + level_z * r;
            q = glm::dot(own_y, turning_S);
            r = glm::dot(own_z, turning_S);
        }
        const double p = kShape == Shape::LoadArc ? law_.spread_rad_per_rad * q : 0;
        for (int i = 0; i < 3; ++i) d[kX + i] = speed * tangent[i] + wind[i];
        d[kMass] = -w_.power.fuelFlow_kgps(lever, density);
        d[kHead] = w_.power.headRate_kps(lever.share, density, air.temperature_k, speed, y[kHead]);
        d[kDistance] = way_mps;
        d[kSpeed] = had.x + g_W.x;
        d[kTurned] = q;
        if constexpr (kShape == Shape::Track) {
            for (int i = 0; i < 4; ++i) d[kQuat + i] = 0;
        } else {
            d[kQuat] = -0.5 * (q_SP.x * p + q_SP.y * q + q_SP.z * r);
            d[kQuat + 1] = 0.5 * (q_SP.w * p + q_SP.y * r - q_SP.z * q);
            d[kQuat + 2] = 0.5 * (q_SP.w * q + q_SP.z * p - q_SP.x * r);
            d[kQuat + 3] = 0.5 * (q_SP.w * r + q_SP.x * q - q_SP.y * p);
        }
    }
    if (m) {
        const double beta = std::atan2(had.sin_beta, had.cos_beta);
        const Quat q_WB = rotationZ(-beta) * rotationY(had.alpha_rad);
        m->q_SB = glm::normalize(q_SP) * (bank != 0 ? rotationX(bank) * q_WB : q_WB);
        m->air_velocity_S_mps = tangent * speed;
        m->specific_force_B_mps2 = unrotate(q_WB, Vec3(had.x, had.y, -had.n));
        m->alpha_rad = had.alpha_rad;
        m->wanted_alpha_rad = had.wanted_alpha_rad;
        m->beta_rad = beta;
        m->speed_mps = speed;
        const double wanted = std::fabs(f_n), got = std::fabs(had.n);
        if (had.limited && wanted > got) m->wanted_force_short = 1 - got / wanted;
        const double side_wanted = std::fabs(f_y), side_got = std::fabs(had.y);
        if (had.side_limited && side_wanted > side_got)
            m->wanted_force_short = std::max(m->wanted_force_short, 1 - side_got / side_wanted);
    }
}

void Dynamics::eitherShaped(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    switch (law_.shape) {
        case Shape::LoadArc:
            return shaped<Shape::LoadArc>(t, y, dy, m);
        case Shape::RadiusArc:
            return shaped<Shape::RadiusArc>(t, y, dy, m);
        case Shape::LevelTurn:
            return shaped<Shape::LevelTurn>(t, y, dy, m);
        case Shape::RollingTurn:
            return shaped<Shape::RollingTurn>(t, y, dy, m);
        case Shape::Autorotation:
            return autorotation(t, y, dy, m);
        case Shape::Track:
            return shaped<Shape::Track>(t, y, dy, m);
        default:
            return shaped<Shape::PathLine>(t, y, dy, m);
    }
}

ode::Outcome<kStates> Dynamics::integrateShaped(const Event& event,
                                                const IntegrationTask& task) const {
    const auto with = [&](auto equations) { return integrateEquations(equations, event, task); };
    switch (law_.shape) {
        case Shape::LoadArc:
            return with([this](double t, const StateVector& y, StateVector& dy) {
                shaped<Shape::LoadArc>(t, y, &dy, nullptr);
            });
        case Shape::RadiusArc:
            return integrateEquations(
                [this](double t, const StateVector& y, StateVector& dy) {
                    shaped<Shape::RadiusArc>(t, y, &dy, nullptr);
                },
                event, task, Kinks(law_));
        case Shape::LevelTurn:
            return with([this](double t, const StateVector& y, StateVector& dy) {
                shaped<Shape::LevelTurn>(t, y, &dy, nullptr);
            });
        case Shape::RollingTurn:
            return with([this](double t, const StateVector& y, StateVector& dy) {
                shaped<Shape::RollingTurn>(t, y, &dy, nullptr);
            });
        case Shape::Track:
            return integrateEquations(
                [this](double t, const StateVector& y, StateVector& dy) {
                    shaped<Shape::Track>(t, y, &dy, nullptr);
                },
                event, task, Kinks(law_));
        case Shape::PathLine:
            return with([this](double t, const StateVector& y, StateVector& dy) {
                shaped<Shape::PathLine>(t, y, &dy, nullptr);
            });
        default:
            return with([this](double t, const StateVector& y, StateVector& dy) {
                eitherShaped(t, y, &dy, nullptr);
            });
    }
}

}  // namespace plumbline::fly
