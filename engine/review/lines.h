#pragma once
// How true a flown line is.

#include <optional>
#include <vector>

#include "engine/review/match.h"

namespace plumbline::review {

/// What is measured of a line: the attitude of the zero-lift axis against the true direction, in
/// the middle part, where nothing rolls.
///
/// Judged so by the published texts for verticals and 45 deg lines: attitude of the zero-lift axis,
/// wind and track ignored.
/// @accuracy twice `sigma_rad` holds about 95 % of the errors that the recording tells of
struct LineMeasure {
    int piece = -1;       ///< of the flight
    int plan_piece = -1;  ///< of the plan
    double start_s = 0, stop_s = 0;
    double climb_rad = 0;    ///< the true angle: pi/2 up, -pi/2 down, 0 level, pi/4...
    double heading_rad = 0;  ///< of the true direction, from crowd right to the left; 0: vertical
    // Off the true direction. On verticals the two components of the nose's lean: along the show
    // line (crowd right positive) and towards the crowd; else of its climb (steeper positive) and
    // of its heading (to the right positive).
    double along_rad = 0, across_rad = 0;
    double off_rad = 0;  ///< both together
    // The same in the aircraft's own axes: towards the canopy positive; to the right positive.
    double pitch_rad = 0, yaw_rad = 0;
    double steady_rad = 0;  ///< root mean square about the mean
    double path_rad = 0;    ///< climb of the path over the ground, mean
    // One sigma each; 0: not told.
    double sigma_rad = 0;  ///< of off_rad and its parts
    double steady_sigma_rad = 0, path_sigma_rad = 0;
    double before_roll_m = 0, after_roll_m = 0;  ///< 0 without a roll
    double beside_roll_sigma_m = 0;              ///< of either
    bool vertical() const;
};

/// A roll against its plan.
struct RollMeasure {
    int piece = -1, plan_piece = -1;
    double start_s = 0;
    double angle_rad = 0;  ///< flown, right positive
    double planned_rad = 0;
    double rate_radps = 0;        ///< mean
    double sigma_rad = 0;         ///< of the angle; 0: not told
    double rate_sigma_radps = 0;  ///< 0: not told
};

/// How surely the angle of a roll is known; 0: not told.
double rollSigma_rad(const path::Path& flight, const Roll& roll);

/// The roll as it was flown, beside what was asked.
RollMeasure measureRoll(const path::Path& flight, const Roll& roll, double planned_rad);

/// Within how far along its line a roll's end is not blamed on anybody.
double rollEndSigma_m(const path::Path& flight, const LineMeasure& line);

/// A line of the flight by the rule it was planned by; none where it is too short to say.
/// @param zero_lift_rad  incidence at which the wing lifts nothing
std::optional<LineMeasure> measureLine(const path::Path& flight, const Piece& flown,
                                       const Piece& planned, double zero_lift_rad);

/// The rolls of a pair of lines that have equally many, but those into and out of turns.
std::vector<RollMeasure> measureRolls(const path::Path& flight, const path::Path& plan,
                                      const Piece& flown, const Piece& planned);

/// The angle between a straight line and the vertical as an eye sees it, up to a right angle: both
/// laid into the plane across the line of sight to its middle.
double seenFromVertical_rad(const Vec3& eye_S_m, const Vec3& from_S_m, const Vec3& to_S_m);

/// What published texts take off for 5 deg of an angle, points of ten.
/// @source BAeA judging notes (CIVA criteria), 1 point per 5 deg
inline constexpr double kUsualPoints = 1;
/// Published deduction for an angle, to the nearest half.
double pointsFor(double off_rad, double points_for_5_deg = kUsualPoints);

/// Published deduction for a line's two parts beside its roll that are to be alike.
/// @param longer_m,shorter_m  lengths, the shorter may be 0
/// @source BAeA judging rules: 2 points from 2:1 on, 3 from 3:1 on, 4 where one is wanting
double pointsForRollPlace(double longer_m, double shorter_m);

}  // namespace plumbline::review
