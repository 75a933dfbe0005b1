#pragma once
// How far a line is off, in words.

#include <string>
#include <vector>

#include "engine/review/lines.h"

namespace plumbline::review {

/// "2.1 deg", without its sign.
std::string degreesText(double angle_rad);

/// The same no finer than it is known.
std::string degreesText(double angle_rad, double sigma_rad);

/// "12 m", no finer than it is known.
std::string metresText(double length_m, double sigma_m);
/// " (+- 0.8)" of twice a sigma; empty: not told.
std::string plusMinus(double sigma, int most_decimals);
/// The same in degrees.
std::string degreesDoubt(double sigma_rad);

/// False where a roll on the line has turned canopy and wheels about, so that what it leans by is
/// lost in their mean: such a line is told by the show line and the crowd.
bool ownAxesTell(const LineMeasure& measure);

/// "2.1 deg off the vertical (+- 0.8): too far towards the canopy"; +- holds 19 times of 20.
std::string lineWords(const LineMeasure& measure);

/// What is taken off for a line, points of ten, by the least and the greatest angle that the
/// measure's doubt (95 of 100) allows: "0.5 to 1.0"; "0.0" where both are the same.
std::string deductionText(const LineMeasure& measure, double points_for_5_deg);

/// "1 for each 5 deg (BAeA judging notes, CIVA criteria)".
std::string deductionWords(double points_for_5_deg);

/// Says so where a recording does not tell how sure it is of its places.
void noteUntold(const path::Path& flight, std::vector<std::string>& notes);

/// What the pilot would do about it, a sentence.
std::string lineAdvice(const LineMeasure& m);

}  // namespace plumbline::review
