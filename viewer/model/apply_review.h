#pragma once
// A flight over its plan: where looking at it begins, and the actions on it.

#include "viewer/model/model.h"

namespace plumbline::model {

/// Something is flown beside what is shown: the plan of a flight, another flight.
inline bool hasGhost(const Model& model) { return model.shown && model.shown->source.ghost; }

/// A flight begins where it is most worth mending, coloured by how far it is off its plan.
/// @pre the shown has a review
void beginReview(Model& model);

/// @return false: an action of another kind
bool applyToReview(Model& model, const Action& action);

}  // namespace plumbline::model
