#pragma once
// How far a line is off, in words.

#include <string>

#include "engine/review/lines.h"

namespace plumbline::review {

/// "2.1 deg", without its sign.
std::string degreesText(double angle_rad);

/// The same no finer than it is known: whole degrees where it may be off by two and more.
std::string degreesText(double angle_rad, double sigma_rad);

/// False where a roll on the line has turned canopy and wheels about, so that what it leans by is
/// lost in their mean: such a line is told by the show line and the crowd.
bool ownAxesTell(const LineMeasure& measure);

/// "2.1 deg off the vertical (+- 0.8): too far towards the canopy"; +- holds 19 times of 20.
std::string lineWords(const LineMeasure& measure);

/// "1 for each 5 deg (BAeA judging notes, CIVA criteria)".
std::string deductionWords(double points_for_5_deg);

/// What the pilot would do about it, a sentence.
std::string lineAdvice(const LineMeasure& m);

}  // namespace plumbline::review
