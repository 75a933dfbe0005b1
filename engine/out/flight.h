#pragma once
// What is exported: a path, where and when it was flown, what flies it.

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "engine/data/site.h"
#include "engine/load/load.h"
#include "engine/path/path.h"
#include "engine/record/track.h"

namespace plumbline::out {

/// The aircraft that is drawn.
struct FlownModel {
    std::string file;                    ///< glTF or GLB; empty: the built-in one
    std::string nose = "+z", up = "+y";  ///< the file's axes to the nose and to the canopy
    double span_m = 0;                   ///< it is scaled to; 0: as it is
};

struct Flight {
    std::shared_ptr<const path::Path> path;  ///< with samples
    std::string title;
    std::optional<data::Site> site;  ///< whose lines are drawn; none: a bare field
    /// Of the path's frame, whose bearing stands in the path; none: nobody knows where it was.
    std::optional<data::GeoPoint> origin;
    std::optional<double> start_utc_s;  ///< at time_s = 0; none: the day is not known
    FlownModel model;
};

/// A routine's path, at the show time of its site.
Flight flightOf(const load::Workspace& workspace, std::shared_ptr<const path::Path> path);

/// A recording, in the axes of a site or, without one, in its own.
Flight flightOf(record::ImportedTrack track, const std::optional<data::Site>& site,
                const std::string& title);

/// The recording's first moment, in seconds since 1970; nothing where its file has no date.
std::optional<double> startOf(const record::ImportedTrack& track);

/// The model file that a routine's aircraft names, from where the program runs; empty: none.
std::string modelFileOf(const load::Workspace& workspace);

/// The built-in model, "aircraft.glb".
std::optional<std::string_view> embeddedModel(std::string_view name);

}  // namespace plumbline::out
