#pragma once
// A figure as it was flown over the one that was planned: from the crowd, and from above.

#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// Flown filled and blue, plan an open ladder with a rung each second, a tie between the two each
/// second.
/// @param figure  of the review
void drawFromCrowd(page::Document& document, const page::Box& box, const Sortie& sortie,
                   const review::FigureReview& figure);
void drawFromAbove(page::Document& document, const page::Box& box, const Sortie& sortie,
                   const review::FigureReview& figure);

/// Height of the whole flight and its plan, figures named by their numbers below.
void drawHeights(page::Document& document, const page::Box& box, const Sortie& sortie);
/// Load of the whole flight with the aircraft's limits.
/// The last sorties of what is worth mending, a small plot each.
/// @param box  the title is drawn above its top
void drawLast(page::Document& document, const page::Box& box, const Sortie& sortie);
void drawLoads(page::Document& document, const page::Box& box, const Sortie& sortie);

/// A figure's place in the plan, from 1; 0: not in it.
int numberInPlan(const Sortie& sortie, const std::string& figure);
/// When the plan's figure ends, on the plan's clock.
double plannedStop_s(const Sortie& sortie, const review::FigureReview& figure);

}  // namespace plumbline::sheets
