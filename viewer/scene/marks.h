#pragma once
// Lines on the ground and in the air: show line, crowd line, box, floor; thread and bob.

#include "viewer/scene/build.h"

namespace plumbline::scene {

void addSiteLines(const data::Site& site, DrawList& list);

/// Each ribbon between its two poles, across the show line.
void addRibbons(const data::Site& site, DrawList& list);

/// The floor as a hatch round the aircraft, while it is under three times the floor and the eye is
/// above the floor.
void addFloor(const data::Site& site, DrawList& list);

/// Thread from the aircraft to the ground, bob and height.
void addThread(DrawList& list);

/// A faint thread each two seconds of the band behind the aircraft.
void addPastThreads(const path::Path& path, double behind_s, DrawList& list);

/// The path's notes as labels where the path is shown, those near the moment first; from the
/// cockpit there are none.
void addNotes(const SceneSource& source, const Marks& marks, double time_s, DrawList& list);

}  // namespace plumbline::scene
