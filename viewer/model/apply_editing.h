#pragma once
// The actions that write: texts, figures as a whole, variants, lists.

#include "viewer/model/model.h"

namespace plumbline::model {

/// @return false: an action of another kind
bool applyToEditing(Model& model, const Action& action);

}  // namespace plumbline::model
