#include "engine/record/in_site.h"

#include <utility>

#include "engine/earth/local_projection.h"

namespace plumbline::record {

path::Path inSite(ImportedTrack track, const data::Site& site) {
    path::Path path = std::move(track.path);
    if (!track.origin) return path;
    const earth::LocalProjection from(*track.origin, path.show_line_bearing_rad);
    const earth::LocalProjection to(site.show_centre, site.show_line_bearing_rad);
    // Angles about z run against bearings, so turning the show line to the right turns components
    // to the left.
    const Quat turn = rotationZ(site.show_line_bearing_rad - path.show_line_bearing_rad);
    for (path::Sample& sample : path.samples) {
        sample.position_S_m = to.toSite(from.toGeodetic(sample.position_S_m));
        sample.velocity_S_mps = rotate(turn, sample.velocity_S_mps);
        sample.q_SB = turn * sample.q_SB;
    }
    path.show_line_bearing_rad = site.show_line_bearing_rad;
    return path;
}

}  // namespace plumbline::record
