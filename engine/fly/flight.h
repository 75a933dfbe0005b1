#pragma once
// The flight as it grows: segments end to end, each started from where the last one ended,
// continuous in position, velocity, attitude and, by fades, in the body rates. The element files
// (line.cc, arc.cc, ...) fly with it.

#include <limits>
#include <string>
#include <vector>

#include "engine/fly/dynamics.h"
#include "engine/fly/solve.h"

namespace plumbline::fly {

/// One stretch under one law; its dense steps lie in Flight::steps.
struct Segment {
    Law law;
    std::int32_t element = -1;
    double start_s = 0, stop_s = 0;
    std::size_t first_step = 0, step_count = 0;
};

/// Where the flight stands: what every element starts from.
struct Joint {
    double time_s = 0;
    Vec3 position_S_m{0};
    Vec3 air_velocity_S_mps{0};
    Quat q_SB{0, 1, 0, 0};
    Vec3 rate_B_radps{0};
    Vec3 specific_force_B_mps2{0};
    double normal_g = 1;
    double mass_kg = 0, head_k = 0, distance_m = 0;
    Throttle throttle;
    double wanted_power_frac = 1;  ///< what the text last set
    Quat q_SL{0, 1, 0, 0};         ///< nominal line: x along it, z to the wheels, bank exact
    double pitch_rad = 0, pitch_rate_radps = 0;  ///< what a law with free pitch starts from
};

/// Which law a line is flown by: the attitude held (verticals and 45s) or the path.
bool holdsAttitude(const Quat& q_SL);

class Flight {
public:
    Flight(const World& world, const SolveOptions& options);

    const World& world;
    ode::Tolerance<kStates> held_tolerance, shaped_tolerance;
    std::vector<Segment> segments;
    std::vector<ode::DenseStep<kStates>> steps;
    std::vector<SolveNote> notes;
    Joint joint;
    std::int64_t evaluations = 0;
    bool grounded = false;

    // The element being flown, for notes.
    std::int32_t figure = 0, element = 0, source_line = 0;

    /// A point to come back to when a trial was not the one to keep.
    struct Mark {
        std::size_t segments, steps, notes;
        Joint joint;
        bool grounded;
    };
    Mark mark() const { return {segments.size(), steps.size(), notes.size(), joint, grounded}; }
    void rewind(const Mark& mark);

    struct Result {
        ode::Stop stop = ode::Stop::Time;
        double time_s = 0;
        StateVector state{};
    };
    using Event = Dynamics::Event;
    /// Flies the law from the joint until the event falls to zero, the ground, or `longest_s`;
    /// moves the joint there.
    Result run(const Law& law, const Event& event, double longest_s);

    /// State vector of a form at the joint; a shaped one without bank (P = W).
    StateVector stateAt(Form form) const;
    /// The same for a law, whose bank is taken out of the path frame.
    StateVector startOf(const Law& law, const Dynamics& dynamics) const;
    /// A law that starts at the joint with the joint's throttle lever and line.
    Law lawFrom(Form form, Shape shape) const;
    /// Lets a held law start with the joint's attitude and rates: its mismatch fades in
    /// `duration_s`.
    void fadeHeld(Law& law, double duration_s) const;
    /// The same for a shaped law's incidence and sideslip.
    void fadeShaped(Law& law, double duration_s) const;
    /// The law of a straight line along q_SL, its mismatch fading.
    Law lineLaw(const Quat& q_SL, bool held, double fade_s) const;
    /// Settles on a line after an arc: line law for the capture time.
    void capture(const Quat& q_SL, double fade_s);

    /// Load the meter reads, greatest magnitude over a segment's steps (signed), and greatest share
    /// of lift that was missing.
    struct Extremes {
        double most_g = -std::numeric_limits<double>::infinity();
        double least_g = std::numeric_limits<double>::infinity();
        double short_share = 0;
    };
    Extremes extremes(const Segment& segment) const;
    /// True when the load at one of a segment's steps is beyond the one given, in its own sense.
    bool reaches(const Segment& segment, double load_g) const;
    /// True when a straight path-held segment is surely fast enough for wing and fuselage in any
    /// bank.
    bool hasLiftToSpare(const Segment& segment) const;

    void setPower(double frac);
    void note(SolveNote::Kind kind, std::string what, std::string value, std::string limit,
              std::string remedy);

    /// State of a segment at a time within it.
    StateVector stateOf(const Segment& segment, double time_s) const;
    Vec3 positionOf(const Segment& segment, double time_s) const;
    /// @param dynamics  of the segment's law
    Vec3 bodyRate(const Dynamics& dynamics, const Segment& segment, double time_s) const;

private:
    const ode::DenseStep<kStates>& stepOf(const Segment& segment, double time_s) const;
    void moveJoint(const Segment& segment, const Result& result);
};

/// Numbers in notes.
std::string speedText(double speed_mps);
std::string heightText(double height_m);
std::string lengthText(double length_m);
std::string loadText(double load_g);
std::string angleText(double angle_rad);

}  // namespace plumbline::fly
