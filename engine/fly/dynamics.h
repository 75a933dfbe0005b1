#pragma once
// The equations of motion in two forms, and what they need to know of the shape that is flown.
//
// Held: the attitude is a given function of time (or follows from pitching moments); the air
// velocity is a Cartesian vector, regular through zero speed. Shaped: the path's curvature is
// given; the state is the speed along it and the wind axes; the attitude that gives the needed
// force is recovered (inverse dynamics).
//
// In a wind that changes with height the frame of the air velocity accelerates; gravity is replaced
// by g - (dW/dh) h' in both forms. The specific force stays what the accelerometer reads.

#include <array>
#include <cstdint>
#include <functional>
#include <vector>

#include "engine/fly/world.h"
#include "engine/math/ode.h"

namespace plumbline::fly {

inline constexpr int kStates = 12;
using StateVector = ode::State<kStates>;

// Layout of the state. Shared: position 0-2, mass 3, head temperature 4, air distance 5.
// Held: air velocity 6-8, pitch from the line 9, pitch rate 10. Shaped: speed 6, q_SP 7-10, turned
// angle 11. The quaternion is q_SP: the path frame P has its x along the air velocity and is
// carried along it without turning about it; the wind axes are P rolled by the bank, which is a
// given function (Dynamics::bank_rad), so a roll costs no steps.
enum StateIndex : int {
    kX = 0,
    kY = 1,
    kZ = 2,
    kMass = 3,
    kHead = 4,
    kDistance = 5,
    kVelocity = 6,
    kPitch = 9,
    kPitchRate = 10,
    kSpeed = 6,
    kQuat = 7,
    kTurned = 11,
};

/// The power lever: first-order lag towards a command.
struct Throttle {
    double start_s = 0;
    double from_frac = 1;
    double command_frac = 1;
    double lag_s = 0;

    double at(double t) const;
    /// From this time on it has arrived: what is left is below rounding.
    double arrived_s() const;
};

/// Rolls about an axis: angle by time, made of pieces with smooth ends.
class RollProgram {
public:
    struct Piece {
        double start_s = 0;     ///< from the program's start
        double angle_rad = 0;   ///< signed
        double rate_radps = 0;  ///< signed, in the steady middle
        double ramp_s = 0;      ///< each end
        double steady_s = 0;
        double angleAt(double since_start_s) const;
    };
    bool empty() const { return pieces_.empty(); }
    double duration_s() const { return duration_s_; }
    double total_rad() const { return total_rad_; }
    double wayTotal_rad() const { return way_total_rad_; }
    double start_s() const { return start_s_; }
    void setStart(double time_s) { start_s_ = time_s; }
    /// Appends a roll after what is there; the ramp is as long as the acceleration limit asks.
    void add(double angle_rad, double rate_radps, double accel_radps2, double pause_before_s);
    double angle(double time_s) const;
    /// Sum of the pieces' angles without their signs, up to a time.
    double way(double time_s) const;
    double rate(double time_s) const;
    /// Times at which the program has a kink in its third derivative.
    void appendBreaks(std::vector<double>& breaks) const;
    const std::vector<Piece>& pieces() const { return pieces_; }
    /// Pieces from the first to before the last alone, at their times.
    RollProgram part(std::size_t first, std::size_t last) const;

private:
    double start_s_ = 0, duration_s_ = 0, total_rad_ = 0, way_total_rad_ = 0;
    std::vector<Piece> pieces_;
};

/// Three fades at once: what is left of an attitude (or incidence) mismatch at a joint.
struct Fade3 {
    double start_s = 0;
    Fade x, y, z;
    bool active(double t) const { return t - start_s < x.duration_s; }
    Vec3 value(double t) const;
    Vec3 rate(double t) const;
};

/// Incidence as a given function of time: smoothly to a held value, and from there on.
struct IncidenceProgram {
    double start_s = 0, onset_s = 0, release_s = 0, release_time_s = 0;
    double from_rad = 0, held_rad = 0, to_rad = 0;
    double at(double t) const;
    void appendBreaks(std::vector<double>& breaks) const;
};

enum class Form : std::uint8_t { Held, Shaped };
enum class Shape : std::uint8_t {
    Hold,          ///< Held: attitude q_SL, rolled by the program about x_L
    Yaw,           ///< Held: Hold turned about z_L by a smooth profile (pivot)
    Tilt,          ///< Held: Hold pitched about y_L by a smooth profile
    Free,          ///< Held: pitch from moments
    PathLine,      ///< Shaped: straight path along x_L
    LoadArc,       ///< Shaped: load by time
    RadiusArc,     ///< Shaped: curvature by air distance
    LevelTurn,     ///< Shaped: bank by time, level or climbing evenly
    RollingTurn,   ///< Shaped: roll by time, heading by the roll, level
    Autorotation,  ///< Shaped: incidence by time, rolled by the program about the path
    Torque,        ///< Held: attitude q_SL, roll from the propeller's torque
    Tumble,        ///< Held: Hold turned about `tumble_axis_L` by the program
    Track,         ///< Shaped: place over the ground by the distance along it, coordinated
};

/// A smooth curve over the ground: two turns with smooth ends joined by a straight, rising or
/// sinking evenly; by the level distance along it.
struct PlanCurve {
    double heading0_rad = 0;              ///< angle about z_S of the start
    double turn1_rad = 0, turn2_rad = 0;  ///< signed, left positive (about z_S)
    double ramp1_m = 0, arc1_m = 0;       ///< each ramp; steady arc
    double ramp2_m = 0, arc2_m = 0;
    double straight_m = 0;
    double rise_m = 0;
    Fade heading_miss, slope_miss;  ///< over distance: what the path's direction and curvature
                                    ///< differ by at the start

    double length_m() const { return 2 * (ramp1_m + ramp2_m) + arc1_m + arc2_m + straight_m; }
    double heading_rad(double s) const;
    double curvature_pm(double s) const;
    /// Climb per level metre, and its change.
    double slope(double s) const;
    double slopeRate_pm(double s) const;
    /// Where the curve has a kink in a higher derivative, in order.
    std::array<double, 8> breaks_m() const;
};

/// The law of one segment.
struct Law {
    Form form = Form::Held;
    Shape shape = Shape::Hold;
    double start_s = 0;
    Throttle throttle;
    Quat q_SL{1, 0, 0, 0};  ///< nominal frame of the line the segment flies on or starts from
    RollProgram roll;
    Fade3 fade;  ///< Held: attitude mismatch in L axes; Shaped: bank (x), sideslip (y), incidence
                 ///< (z) mismatch
    double profile_angle_rad = 0, profile_s = 0;  ///< Yaw, Tilt
    bool profile_runs_on = false;  ///< Tilt: ends with its rate, for Free to take over
    IncidenceProgram incidence;    ///< Autorotation
    Vec3 tumble_axis_L{0, 1, 0};   ///< Tumble
    // LoadArc: load (signed, g) from load0 to load1 by a smooth step over onset_s; what the wing
    // would not give of it comes late, by another after it.
    double load0_g = 0, load1_g = 0, late_g = 0, onset_s = 0;
    // RadiusArc: trapezoid with smooth ends over air distance from distance0.
    double distance0_m = 0, curvature_pm = 0, ramp_m = 0, plateau_m = 0;
    double spread_rad_per_rad = 0;  ///< RadiusArc, LoadArc: roll by turned angle
    // LevelTurn: bank up over ramp, steady, down again from down_s; the climb comes and goes with
    // it.
    double bank_rad = 0, bank_ramp_s = 0, bank_down_s = 0;
    double turn_climb_rad = 0, climb_ramp_s = 0, climb_down_s = 0;
    // RollingTurn: heading about z_S from heading0, turned in all over the program of rolls.
    double heading0_rad = 0, turned_rad = 0;
    // PathLine, RadiusArc: shape over the ground, through this point (of a line).
    bool over_ground = false;
    Vec3 origin_S_m{0};
    PlanCurve plan;

    static constexpr double kLate_s = 1;  ///< chosen
    /// LoadArc: the load commanded, and its rate [g, g/s].
    double load_g(double t) const {
        const double since = t - start_s;
        const double on = onset_s > 0 ? smoothStep(since / onset_s) : 1.0;
        const double load = load0_g + (load1_g - late_g - load0_g) * on;
        return late_g == 0 ? load : load + late_g * smoothStep((since - onset_s) / kLate_s);
    }
    double loadRate_gps(double t) const;

    /// RadiusArc, Track: where along the way there is a kink in a higher derivative, in order.
    std::array<double, 8> breaks_m() const;
};

/// What the equations give at one moment, beyond the derivative.
struct Moment {
    Quat q_SB{1, 0, 0, 0};
    Vec3 air_velocity_S_mps{0};
    Vec3 specific_force_B_mps2{0};
    double alpha_rad = 0, beta_rad = 0, speed_mps = 0;
    double wanted_alpha_rad = 0;    ///< Shaped: before the wing's and the structure's limits
    double wanted_force_short = 0;  ///< share of the wanted lift that could not be had (0: none)
};

/// What ode::integrate is given, in one piece.
struct IntegrationTask {
    double t0;
    const StateVector& y0;
    double t1, h_first;
    const ode::Tolerance<kStates>& tolerance;
    std::vector<ode::DenseStep<kStates>>& steps;
    std::int64_t& evaluations;
    const StateVector* slope;
};

class Dynamics {
public:
    using Event = std::function<double(double, const StateVector&)>;

    /// Keeps references to both.
    Dynamics(const World& world, const Law& law);

    void derivative(double t, const StateVector& y, StateVector& dy) const;
    Moment moment(double t, const StateVector& y) const;
    /// Its attitude alone, cheaper where no force is needed for it.
    Quat attitude(double t, const StateVector& y) const;
    /// Both at the cost of one.
    Moment derivativeAndMoment(double t, const StateVector& y, StateVector& dy) const;

    /// ode::integrate over this law's equations.
    ode::Outcome<kStates> integrate(const Event& event, double t0, const StateVector& y0, double t1,
                                    double h_first, const ode::Tolerance<kStates>& tolerance,
                                    std::vector<ode::DenseStep<kStates>>& steps,
                                    std::int64_t& evaluations,
                                    const StateVector* slope = nullptr) const;

    /// Bank of the wind axes about the path frame (Shaped).
    double bank_rad(double t, const StateVector& y) const;

private:
    struct Rotation;
    struct Flow;
    struct Asked;
    struct Had;
    template <bool kByForce>
    Had forces(const Flow& flow, const Asked& asked) const;
    template <Shape kShape>
    void shaped(double t, const StateVector& y, StateVector* dy, Moment* m) const;
    template <Shape kShape>
    double bankOf(double t, const StateVector& y) const;
    void autorotation(double t, const StateVector& y, StateVector* dy, Moment* m) const;
    template <Shape kShape>
    void held(double t, const StateVector& y, StateVector* dy, Moment* m) const;
    void eitherHeld(double t, const StateVector& y, StateVector* dy, Moment* m) const;
    void eitherShaped(double t, const StateVector& y, StateVector* dy, Moment* m) const;
    ode::Outcome<kStates> integrateHeld(const Event& event, const IntegrationTask& task) const;
    ode::Outcome<kStates> integrateShaped(const Event& event, const IntegrationTask& task) const;
    void either(double t, const StateVector& y, StateVector* dy, Moment* m) const;
    template <Shape kShape>
    Quat heldAttitude(double t, const StateVector& y) const;
    Quat eitherHeldAttitude(double t, const StateVector& y) const;
    Vec3 groundLine(const StateVector& y, double speed, const Vec3& wind) const;
    Vec3 groundCurve(double speed, const Vec3& tangent, const Vec3& wind, double curvature,
                     const Vec3& g_S, double& ground_speed) const;
    PowerModel::Lever leverAt(double t) const {
        return t >= steady_from_s_ ? steady_ : w_.power.lever(law_.throttle.at(t));
    }

    const World& w_;
    const Law& law_;
    Vec3 line_S_, line_right_S_;
    Quat q_rolled_SL_, q_alpha0_;
    double steady_from_s_ = 0;  ///< from here on the throttle has arrived
    PowerModel::Lever steady_;
};

/// Heading of a rolling turn and its rate at a time.
double rollingHeading(const Law& law, double t, double& rate_radps);
/// Bank angle of a level turn's law at a time.
double turnBank(const Law& law, double t);
/// Curvature of a radius arc at an air distance.
double arcCurvature(const Law& law, double distance_m);

}  // namespace plumbline::fly
