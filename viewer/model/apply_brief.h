#pragma once
// The actions of the brief but those that write words or files.

#include "viewer/model/model.h"

namespace plumbline::model {

/// @return false: an action of another kind
bool applyToBrief(Model& model, const Action& action);

}  // namespace plumbline::model
