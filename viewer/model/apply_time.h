#pragma once
// The actions of time: playing, stepping, going to figures and findings, loops.

#include "viewer/model/model.h"

namespace plumbline::model {

/// Clock and timeline to a moment.
void seek(Model& model, double time_s);

/// @return false: an action of another kind
bool applyToTime(Model& model, const Action& action);

}  // namespace plumbline::model
