#pragma once
// Which of the narrator's cues is due.

#include "engine/path/path.h"

namespace plumbline::model {

/// How long a cue's words stay: to be read twice at an easy pace.
double cueStay_s(const path::Cue& cue);

/// The cue whose time has come and whose words still stay; the latest where several do; null when
/// none.
const path::Cue* cueAt(const path::Path& path, double time_s);

}  // namespace plumbline::model
