#pragma once
// What those have in common who work beside the frames on what is shown.

#include "engine/system/parallel.h"
#include "engine/units/quantity.h"
#include "engine/variant/variant.h"
#include "viewer/model/session.h"

namespace plumbline::model {

struct Shown;

/// The routine that is shown, as it was flown.
/// @param shown  no recording
variant::Flown flownOf(const Shown& shown);

units::DisplayUnits displayUnits(UnitChoice choice);

/// The other half is the window's.
system::Executor halfTheCores();

}  // namespace plumbline::model
