#pragma once
// A review as JSON: SI units and degrees, by the names of its keys.

#include <string>
#include <vector>

#include "engine/review/load_book.h"
#include "engine/review/review.h"

namespace plumbline::review {

/// @param known  of the flight: what is not known is left out
std::string reviewJson(const review::Review& review, const std::string& plan,
                       const review::CrewSheet& sheet, const review::LoadBook& book,
                       const path::Known& known);
/// Of a flight without a plan.
std::string piecesJson(const std::vector<review::FigureReview>& figures,
                       const std::vector<review::Piece>& pieces);

}  // namespace plumbline::review
