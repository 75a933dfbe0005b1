#pragma once
// A figure as a small picture, drawn from its path.

#include "engine/page/document.h"
#include "engine/path/path.h"

namespace plumbline::brief {

/// A ribbon as the wings leave it, seen from 19 deg to the right of the crowd and 12 deg above:
/// canopy side white, wheel side grey. Three dots lead in, a chevron leads out.
/// @param span_m  of the wings, which are drawn wider than they are
void drawSmallPicture(page::Document& document, const page::Box& box, const path::Path& path,
                      double start_s, double stop_s, double span_m);

}  // namespace plumbline::brief
