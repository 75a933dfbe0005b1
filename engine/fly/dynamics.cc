#include "engine/fly/dynamics.h"

#include <algorithm>
#include <cmath>

namespace plumbline::fly {

// Symbols: q S dynamic pressure times wing area [N]; L, D, Y, T lift, drag, side force, thrust [N];
// f specific force [m/s2] along x_W, y_W and -z_W (n); g gravity (with the wind-gradient term) in
// W; alpha, beta incidence and sideslip.

double Throttle::at(double t) const {
    // Past 37 time constants what is left is below rounding.
    if (!(lag_s > 0) || from_frac == command_frac || t - start_s > 37 * lag_s) return command_frac;
    return command_frac + (from_frac - command_frac) * std::exp(-(t - start_s) / lag_s);
}

void RollProgram::add(double angle_rad, double rate_radps, double accel_radps2,
                      double pause_before_s) {
    Piece piece;
    piece.start_s = duration_s_ + (pieces_.empty() ? 0.0 : pause_before_s);
    piece.angle_rad = angle_rad;
    double rate = std::fabs(rate_radps);
    const double angle = std::fabs(angle_rad);
    // A smooth step's steepest slope is 1.5 times its mean: that is where the limit holds.
    double ramp = accel_radps2 > 0 ? 1.5 * rate / accel_radps2 : 0;
    if (rate * ramp > angle) {
        rate = std::sqrt(angle * accel_radps2 / 1.5);
        ramp = 1.5 * rate / accel_radps2;
    }
    piece.rate_radps = std::copysign(rate, angle_rad);
    piece.ramp_s = ramp;
    piece.steady_s = rate > 0 ? angle / rate - ramp : 0;
    duration_s_ = piece.start_s + 2 * ramp + piece.steady_s;
    total_rad_ += angle_rad;
    pieces_.push_back(piece);
}

double RollProgram::angle(double time_s) const {
    const double t = time_s - start_s_;
    double angle = 0;
    for (const Piece& p : pieces_) {
        const double u = t - p.start_s;
        if (u <= 0) break;
        if (u >= 2 * p.ramp_s + p.steady_s) {
            angle += p.angle_rad;
            continue;
        }
        if (u < p.ramp_s)
            angle += p.rate_radps * p.ramp_s * smoothStepIntegral(u / p.ramp_s);
        else if (u <= p.ramp_s + p.steady_s)
            angle += p.rate_radps * (0.5 * p.ramp_s + u - p.ramp_s);
        else
            angle +=
                p.angle_rad - p.rate_radps * p.ramp_s *
                                  smoothStepIntegral((2 * p.ramp_s + p.steady_s - u) / p.ramp_s);
    }
    return angle;
}

double RollProgram::rate(double time_s) const {
    const double t = time_s - start_s_;
    for (const Piece& p : pieces_) {
        const double u = t - p.start_s;
        if (u < 0) return 0;
        if (u > 2 * p.ramp_s + p.steady_s) continue;
        if (u < p.ramp_s) return p.rate_radps * smoothStep(u / p.ramp_s);
        if (u <= p.ramp_s + p.steady_s) return p.rate_radps;
        return p.rate_radps * smoothStep((2 * p.ramp_s + p.steady_s - u) / p.ramp_s);
    }
    return 0;
}

void RollProgram::appendBreaks(std::vector<double>& breaks) const {
    for (const Piece& p : pieces_) {
        const double s = start_s_ + p.start_s;
        breaks.push_back(s);
        breaks.push_back(s + p.ramp_s);
        breaks.push_back(s + p.ramp_s + p.steady_s);
        breaks.push_back(s + 2 * p.ramp_s + p.steady_s);
    }
}

Vec3 Fade3::value(double t) const {
    const double u = t - start_s;
    return u >= x.duration_s ? Vec3(0) : Vec3(x.value(u), y.value(u), z.value(u));
}

Vec3 Fade3::rate(double t) const {
    const double u = t - start_s;
    return u >= x.duration_s ? Vec3(0) : Vec3(x.rate(u), y.rate(u), z.rate(u));
}

namespace {

// Incidence below the stall is small: the series to the eleventh power is exact to 1e-15 within
// half a radian.
void sineAndCosine(double x, double& sine, double& cosine) {
    if (std::fabs(x) > 0.5) {
        sine = std::sin(x);
        cosine = std::cos(x);
        return;
    }
    const double q = x * x;
    sine =
        x * (1 - q * (1.0 / 6) *
                     (1 - q * (1.0 / 20) *
                              (1 - q * (1.0 / 42) *
                                       (1 - q * (1.0 / 72) *
                                                (1 - q * (1.0 / 110) * (1 - q * (1.0 / 156)))))));
    cosine =
        1 -
        q * 0.5 *
            (1 - q * (1.0 / 12) *
                     (1 - q * (1.0 / 30) *
                              (1 - q * (1.0 / 56) * (1 - q * (1.0 / 90) * (1 - q * (1.0 / 132))))));
}

constexpr double kGreatestSideslip_rad = 59 * kPi / 180;  // where AeroModel::betaForForce gives up

// A turn's curvature: ramps up by a smooth step over `ramp`, steady over `arc`, down again; peak so
// that it turns `turn`.
struct TurnShape {
    double turn, ramp, arc;
    double peak() const { return ramp + arc > 0 ? turn / (ramp + arc) : 0; }
    double length() const { return 2 * ramp + arc; }
    double curvature(double s) const {
        if (s <= 0 || s >= length()) return 0;
        if (s < ramp) return peak() * smoothStep(s / ramp);
        if (s <= ramp + arc) return peak();
        return peak() * smoothStep((length() - s) / ramp);
    }
    double turned(double s) const {
        if (s <= 0) return 0;
        if (s >= length()) return turn;
        if (s < ramp) return peak() * ramp * smoothStepIntegral(s / ramp);
        if (s <= ramp + arc) return peak() * (0.5 * ramp + s - ramp);
        return turn - peak() * ramp * smoothStepIntegral((length() - s) / ramp);
    }
};

}  // namespace

double PlanCurve::heading_rad(double s) const {
    const TurnShape first{turn1_rad, ramp1_m, arc1_m}, second{turn2_rad, ramp2_m, arc2_m};
    return heading0_rad + first.turned(s) + second.turned(s - first.length() - straight_m) +
           heading_miss.value(s);
}

double PlanCurve::curvature_pm(double s) const {
    const TurnShape first{turn1_rad, ramp1_m, arc1_m}, second{turn2_rad, ramp2_m, arc2_m};
    return first.curvature(s) + second.curvature(s - first.length() - straight_m) +
           heading_miss.rate(s);
}

// The height rises by a quintic in the plan distance; s is the distance along the climbing path,
// taken as the plan distance: what that leaves in height is taken up by the caller's shooting.
double PlanCurve::climb_rad(double s) const {
    const double length = length_m();
    return std::atan(rise_m / length * smootherStepSlope(s / length)) + climb_miss.value(s);
}

double PlanCurve::climbRate_radpm(double s) const {
    const double length = length_m(), u = std::clamp(s / length, 0.0, 1.0);
    const double slope = rise_m / length * smootherStepSlope(u);
    const double bend = rise_m / (length * length) * 60 * u * (1 - u) * (1 - 2 * u);
    return bend / (1 + slope * slope) + climb_miss.rate(s);
}

double turnBank(const Law& law, double t, double& rate_radps) {
    const double ramp = law.bank_ramp_s;
    const double up = (t - law.start_s) / ramp, down = (t - law.bank_down_s) / ramp;
    rate_radps = law.bank_rad * (smootherStepSlope(up) - smootherStepSlope(down)) / ramp;
    return law.bank_rad * (smootherStep(up) - smootherStep(down));
}

double arcCurvature(const Law& law, double distance_m) {
    const double s = distance_m - law.distance0_m;
    const double end = 2 * law.ramp_m + law.plateau_m;
    if (s <= 0 || s >= end) return 0;
    if (s < law.ramp_m) return law.curvature_pm * smoothStep(s / law.ramp_m);
    if (s <= law.ramp_m + law.plateau_m) return law.curvature_pm;
    return law.curvature_pm * smoothStep((end - s) / law.ramp_m);
}

namespace {

Vec3 effectiveGravity(const World& w, double height_m, double climb_mps) {
    Vec3 g(0, 0, -kGravity_mps2);
    if (!w.wind.calm()) g -= w.wind.gradient(height_m) * climb_mps;
    return g;
}

void sharedDerivatives(const World& w, double throttle, double density, double speed,
                       const StateVector& y, StateVector& dy) {
    dy[kMass] = -w.power.fuelFlow_kgps(throttle, density);
    dy[kHead] =
        w.power.headRate_kps(throttle, density, w.temperature_of_height(y[kZ]), speed, y[kHead]);
    dy[kDistance] = speed;
}

// Pitching moment of wing and tail about the centre of gravity. The tail is a plate of its own at
// an arm: the flow it meets includes the pitch rate, so one expression gives static stability and
// damping, forwards and backwards. simplified: no downwash, no elevator, no slipstream over the
// tail.
double pitchMoment_nm(const data::Aircraft& aircraft, double density, double u, double w,
                      double pitch_rate, double normal_force_n) {
    const data::AircraftInertia& i = aircraft.inertia;
    const double w_tail = w + pitch_rate * i.tail_arm_m;
    const double speed2 = u * u + w_tail * w_tail;
    if (!(speed2 > 0)) return 0;
    const double s = w_tail / std::sqrt(speed2);
    const double plate = std::max(aircraft.aero.cn_plate, 1e-3);
    const double ratio = i.tail_lift_slope_prad / plate * s;
    const double cn = i.tail_lift_slope_prad * s / std::sqrt(1 + ratio * ratio);
    const double tail_n = 0.5 * density * speed2 * i.tail_area_m2 * cn;
    return -tail_n * i.tail_arm_m - normal_force_n * i.static_margin_m;
}

}  // namespace

Quat Dynamics::heldAttitude(double t, const StateVector& y) const {
    Quat q = law_.q_SL;
    if (!law_.roll.empty()) q = q * rotationX(law_.roll.angle(t));
    switch (law_.shape) {
        case Shape::Yaw:
            q = q * rotationZ(law_.profile_angle_rad *
                              smootherStep((t - law_.start_s) / law_.profile_s));
            break;
        case Shape::Tilt: {
            // Starts at rest and runs on with its end rate: u^3 (with zero rate and acceleration at
            // the start).
            const double u = std::clamp((t - law_.start_s) / law_.profile_s, 0.0, 1.0);
            q = q * rotationY(law_.profile_angle_rad * u * u * u);
            break;
        }
        case Shape::Free:
            q = q * rotationY(y[kPitch]);
            break;
        default:
            break;
    }
    if (law_.fade.active(t)) q = q * rotationFromVector(law_.fade.value(t));
    const double alpha0 = w_.aero.alpha0_rad();
    return alpha0 == 0 ? q : q * rotationY(alpha0);
}

void Dynamics::held(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    const Vec3 velocity_S(y[kVelocity], y[kVelocity + 1], y[kVelocity + 2]);
    const Quat q_SB = heldAttitude(t, y);
    const Vec3 v_B = unrotate(q_SB, velocity_S);
    const double density = w_.density_kgpm3(y[kZ]);
    const double throttle = law_.throttle.at(t);
    const double thrust = w_.power.thrust_n(throttle, density, v_B.x);
    const double plane2 = v_B.x * v_B.x + v_B.z * v_B.z;
    const double speed = std::sqrt(plane2 + v_B.y * v_B.y);
    Vec3 force_B(thrust, 0, 0);
    double alpha = 0, beta = 0, normal_force = 0;
    if (speed > 1e-9) {
        const double plane = std::sqrt(plane2);
        const double sin_b = v_B.y / speed, cos_b = plane / speed;
        const double sin_a = plane > 0 ? v_B.z / plane : 0, cos_a = plane > 0 ? v_B.x / plane : 1;
        alpha = std::atan2(v_B.z, v_B.x);
        const Coefficients c = w_.aero.atSines(alpha, sin_a, cos_a, sin_b);
        const double qs = 0.5 * density * speed * speed * w_.wing_area_m2;
        const double lift = qs * c.lift, drag = qs * c.drag, side = qs * c.side;
        const Vec3 aero_B = Vec3(-drag * cos_a * cos_b + lift * sin_a - side * cos_a * sin_b,
                                 -drag * sin_b + side * cos_b,
                                 -drag * sin_a * cos_b - lift * cos_a - side * sin_a * sin_b);
        normal_force = -aero_B.z;
        force_B += aero_B;
        if (m) beta = std::atan2(v_B.y, plane);
    }
    const Vec3 f_B = force_B / y[kMass];
    if (dy) {
        const Vec3 wind = w_.wind.at(y[kZ]);
        const double climb = velocity_S.z + wind.z;
        const Vec3 a_S = rotate(q_SB, f_B) + effectiveGravity(w_, y[kZ], climb);
        dy->fill(0);
        (*dy)[kX] = velocity_S.x + wind.x;
        (*dy)[kY] = velocity_S.y + wind.y;
        (*dy)[kZ] = climb;
        for (int i = 0; i < 3; ++i) (*dy)[kVelocity + i] = a_S[i];
        sharedDerivatives(w_, throttle, density, speed, y, *dy);
        if (law_.shape == Shape::Free) {
            (*dy)[kPitch] = y[kPitchRate];
            (*dy)[kPitchRate] =
                pitchMoment_nm(w_.aircraft, density, v_B.x, v_B.z, y[kPitchRate], normal_force) /
                std::max(w_.aircraft.inertia.pitch_inertia_kgm2, 1e-3);
        }
    }
    if (m) {
        m->q_SB = q_SB;
        m->air_velocity_S_mps = velocity_S;
        m->specific_force_B_mps2 = f_B;
        m->alpha_rad = alpha;
        m->beta_rad = beta;
        m->speed_mps = speed;
    }
}

double Dynamics::lagLength_m(const StateVector& y) const {
    const double slope = w_.density_kgpm3(y[kZ]) * w_.wing_area_m2 * w_.aero.liftSlope_prad();
    return slope > 0 ? 2 * y[kMass] / slope : 1e9;
}

void Dynamics::shaped(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    const double speed = std::max(y[kSpeed], 1.0);
    const double mass = y[kMass];
    const double density = w_.density_kgpm3(y[kZ]);
    const double throttle = law_.throttle.at(t);
    const Vec3 wind = w_.wind.at(y[kZ]);
    const double qs = 0.5 * density * speed * speed * w_.wing_area_m2;

    Quat q_SW(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    double roll_rate = 0, f_n = 0, f_y = 0;
    Vec3 tangent, g_S;
    if (law_.shape == Shape::Track) {
        const double s = y[kDistance] - law_.distance0_m;
        const double heading = law_.plan.heading_rad(s), climb = law_.plan.climb_rad(s);
        const double ch = std::cos(heading), sh = std::sin(heading), cc = std::cos(climb),
                     sc = std::sin(climb);
        tangent = Vec3(cc * ch, cc * sh, sc);
        g_S = effectiveGravity(w_, y[kZ], speed * tangent.z + wind.z);
        const double turn = law_.plan.curvature_pm(s), bend = law_.plan.climbRate_radpm(s);
        const Vec3 curvature =
            turn * Vec3(-cc * sh, cc * ch, 0) + bend * Vec3(-sc * ch, -sc * sh, cc);
        Vec3 needed = speed * speed * curvature - g_S;
        needed -= tangent * glm::dot(needed, tangent);
        f_n = glm::length(needed);
        const Vec3 z_axis = -needed / f_n;
        q_SW = quatFromAxes(tangent, glm::cross(z_axis, tangent), z_axis);
    } else {
        q_SW = glm::normalize(q_SW);
        tangent = rotate(q_SW, Vec3(1, 0, 0));
        g_S = effectiveGravity(w_, y[kZ], speed * tangent.z + wind.z);
    }
    const Vec3 g_W = unrotate(q_SW, g_S);
    const PowerModel::Running running = w_.power.running(throttle, density);

    double alpha = 0, beta = 0;
    bool by_force = true;
    double extra_alpha = 0, extra_beta = 0;
    if (law_.fade.active(t)) {
        const double u = t - law_.fade.start_s;
        extra_alpha = law_.fade.z.value(u);
        extra_beta = law_.fade.y.value(u);
        roll_rate = law_.fade.x.rate(u);
    }
    switch (law_.shape) {
        case Shape::LoadArc: {
            const double share =
                law_.onset_s > 0 ? smoothStep((t - law_.start_s) / law_.onset_s) : 1.0;
            const double load = law_.load0_g + (law_.load1_g - law_.load0_g) * share;
            alpha = w_.aero.alphaForNormal(w_.aero.softened(load * mass * kGravity_mps2 / qs));
            by_force = false;
            break;
        }
        case Shape::RadiusArc:
            f_n = arcCurvature(law_, y[kDistance]) * speed * speed + g_W.z;
            f_y = -g_W.y;
            break;
        case Shape::PathLine: {
            const Vec3 line_W = unrotate(q_SW, line_S_);
            f_n = g_W.z;
            f_y = -g_W.y;
            extra_alpha += -line_W.z;
            extra_beta += -line_W.y;
            roll_rate += law_.roll.rate(t);
            break;
        }
        case Shape::LevelTurn: {
            double bank_rate = 0;
            turnBank(law_, t, bank_rate);
            roll_rate += bank_rate;
            const Vec3 up_W = unrotate(q_SW, Vec3(0, 0, 1));
            const double lag = lagLength_m(y);
            const double wanted_up = speed * speed * (-tangent.z) / lag;
            f_n = (wanted_up - g_W.y * up_W.y) / std::max(-up_W.z, 0.05) + g_W.z;
            break;
        }
        default:
            break;
    }
    if (by_force) {
        // Thrust depends on the speed along its axis, that on the incidence sought: a first guess
        // of the angles is enough.
        const double full = w_.power.thrust_n(running, speed);
        const double line = qs * w_.aero.liftSlope_prad() + full;
        const double guess = line > 0 ? mass * f_n / line + w_.aero.alpha0_rad() : 0;
        double cosine = 1 - 0.5 * std::min(guess * guess, 0.2);
        double thrust = w_.power.thrust_n(running, speed * cosine);
        if (f_y != 0) {
            beta = w_.aero.betaForForce(qs, thrust * cosine, mass * f_y);
            cosine *= 1 - 0.5 * std::min(beta * beta, 1.0);
            thrust = w_.power.thrust_n(running, speed * cosine);
        }
        alpha = w_.aero.alphaForForce(qs, thrust, mass * f_n);
    }
    const double wanted_alpha = alpha + extra_alpha;
    alpha = std::clamp(wanted_alpha, w_.aero.alphaMin_rad(), w_.aero.alphaMax_rad());
    // At the edge of what wing, fuselage or structure give, the shape is no longer the one asked.
    bool limited = by_force && (alpha >= w_.aero.alphaMax_rad() || alpha <= w_.aero.alphaMin_rad());
    beta += extra_beta;

    double sin_a, cos_a;
    sineAndCosine(alpha, sin_a, cos_a);
    const double sin_b = beta == 0 ? 0 : std::sin(beta), cos_b = beta == 0 ? 1 : std::cos(beta);
    Coefficients c = w_.aero.atSines(alpha, sin_a, cos_a, sin_b);
    // The structure's limit is never passed, whatever the shape asks.
    const double load = qs * (c.lift * cos_a + c.drag * sin_a) / (mass * kGravity_mps2);
    const data::AircraftLimits& limits = w_.aircraft.limits;
    if (load > limits.load_max_g || load < limits.load_min_g) {
        const double most = load > 0 ? limits.load_max_g : limits.load_min_g;
        alpha = w_.aero.alphaForNormal(most * mass * kGravity_mps2 / qs);
        limited = by_force;
        sineAndCosine(alpha, sin_a, cos_a);
        c = w_.aero.atSines(alpha, sin_a, cos_a, sin_b);
    }
    const double thrust = w_.power.thrust_n(running, speed * cos_a * cos_b);
    const double f_x = (thrust * cos_a * cos_b - qs * c.drag) / mass;
    const double f_side = (qs * c.side - thrust * cos_a * sin_b) / mass;
    const double f_normal = (qs * c.lift + thrust * sin_a) / mass;
    if (dy) {
        const double a_n = f_normal - g_W.z, a_y = f_side + g_W.y;
        dy->fill(0);
        (*dy)[kX] = speed * tangent.x + wind.x;
        (*dy)[kY] = speed * tangent.y + wind.y;
        (*dy)[kZ] = speed * tangent.z + wind.z;
        (*dy)[kSpeed] = f_x + g_W.x;
        (*dy)[kTurned] = a_n / speed;
        if (law_.shape != Shape::Track) {
            const Quat spin = 0.5 * (q_SW * Quat(0, roll_rate, a_n / speed, a_y / speed));
            (*dy)[kQuat] = spin.w;
            (*dy)[kQuat + 1] = spin.x;
            (*dy)[kQuat + 2] = spin.y;
            (*dy)[kQuat + 3] = spin.z;
        }
        sharedDerivatives(w_, throttle, density, speed, y, *dy);
    }
    if (m) {
        const Quat q_WB = rotationZ(-beta) * rotationY(alpha);
        m->q_SB = q_SW * q_WB;
        m->air_velocity_S_mps = tangent * speed;
        m->specific_force_B_mps2 = unrotate(q_WB, Vec3(f_x, f_side, -f_normal));
        m->alpha_rad = alpha;
        m->beta_rad = beta;
        m->speed_mps = speed;
        if (limited) {
            const double wanted = std::fabs(mass * f_n),
                         got = std::fabs(qs * c.lift + thrust * sin_a);
            if (wanted > got) m->wanted_force_short = 1 - got / wanted;
        }
        const double side_wanted = std::fabs(mass * f_y), side_got = std::fabs(mass * f_side);
        if (std::fabs(beta) > kGreatestSideslip_rad && side_wanted > side_got)
            m->wanted_force_short = std::max(m->wanted_force_short, 1 - side_got / side_wanted);
    }
}

void Dynamics::derivative(double t, const StateVector& y, StateVector& dy) const {
    if (law_.form == Form::Held)
        held(t, y, &dy, nullptr);
    else
        shaped(t, y, &dy, nullptr);
}

Moment Dynamics::derivativeAndMoment(double t, const StateVector& y, StateVector& dy) const {
    Moment m;
    if (law_.form == Form::Held)
        held(t, y, &dy, &m);
    else
        shaped(t, y, &dy, &m);
    return m;
}

Moment Dynamics::moment(double t, const StateVector& y) const {
    Moment m;
    if (law_.form == Form::Held)
        held(t, y, nullptr, &m);
    else
        shaped(t, y, nullptr, &m);
    return m;
}

double Dynamics::trimAlpha(double t, const StateVector& y) const {
    const double speed = std::max(y[kSpeed], 1.0);
    const double density = w_.density_kgpm3(y[kZ]);
    const double qs = 0.5 * density * speed * speed * w_.wing_area_m2;
    const Quat q_SW(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    const Vec3 g_W = unrotate(glm::normalize(q_SW), Vec3(0, 0, -kGravity_mps2));
    const double thrust = w_.power.thrust_n(law_.throttle.at(t), density, speed);
    return w_.aero.alphaForForce(qs, thrust, y[kMass] * g_W.z);
}

}  // namespace plumbline::fly
