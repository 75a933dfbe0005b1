#pragma once
// The checks of a plan: floors, lines, box, obstacles, the crowd, rule sets, airframe, engine,
// fuel, slot, pilot, day, and what could not be flown.

#include <vector>

#include "engine/check/finding.h"
#include "engine/check/gates.h"
#include "engine/data/aircraft.h"
#include "engine/data/pilot.h"
#include "engine/data/rules.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/fly/solve.h"
#include "engine/path/path.h"
#include "engine/routine/routine.h"

namespace plumbline::check {

/// Every finding of a solved routine, by time; one a figure and kind, at its worst moment.
///
/// Limits are the files' own (site, aircraft, routine): the local authority and the aircraft's
/// documents decide.
/// @param path   samples of the solution, 50 a second or more
/// @param pilot  his own limits; what is zero is not checked
/// @param rules  rule sets in force
std::vector<Finding> checkRoutine(const data::Aircraft& aircraft, const data::Site& site,
                                  const data::Weather& weather, const routine::Routine& routine,
                                  const path::Path& path, const std::vector<fly::SolveNote>& notes,
                                  const data::Pilot& pilot = {},
                                  const std::vector<data::RuleSet>& rules = {});

/// The findings of gates: tops that are lower than their way down needs.
std::vector<Finding> checkGates(const std::vector<Gate>& gates, const path::Path& path);
/// Findings added to others, by time.
void addFindings(std::vector<Finding>& findings, std::vector<Finding> more);

/// The worst grade present; Note when there is none.
Grade worstGrade(const std::vector<Finding>& findings);

/// Push then pull, for plans and flights alike. chosen: a stretch below so much counts as negative
/// when it lasts so long, and what is pulled so soon after it is borne less
/// (order of seconds: from memory).
inline constexpr double kNegative_g = -0.5, kNegative_s = 1, kAfterNegative_s = 8;

/// The caution that every printed result carries.
const char* caution();

}  // namespace plumbline::check
