#pragma once
// Path + view settings + time -> DrawList.

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "engine/check/gates.h"
#include "engine/check/glide.h"
#include "engine/data/aircraft.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/path/path.h"
#include "viewer/scene/draw_list.h"
#include "viewer/scene/fan.h"
#include "viewer/scene/ghost.h"
#include "viewer/scene/quantity_map.h"
#include "viewer/scene/views.h"

namespace plumbline::scene {

/// What the instruments in the panel show in.
enum class DialUnits {
    Metric,    ///< m, km/h, m/s
    Aviation,  ///< m, kt, m/s
    Feet       ///< ft, kt, ft/s
};

/// What is shown besides the world and the aircraft.
struct Marks {
    bool band = true;           ///< the path flown so far as a band
    bool to_come = true;        ///< the path to come as an open ladder
    double band_behind_s = 16;  ///< how much of the past stays
    double to_come_s = 6;
    bool thread = true;         ///< height thread and bob
    bool more_threads = false;  ///< one more each two seconds of what is behind
    bool smoke = true;
    bool lines = true;  ///< show line, crowd line, box
    bool floor = true;
    bool gates = true;     ///< least heights at the tops near the moment
    bool reach = false;    ///< what could be reached without the engine, on the ground
    bool sighting = true;  ///< the sighting frames on the wing tips, from the seat
    Quantity band_quantity = Quantity::Load;
    bool grey = false;  ///< maps by their lightness alone
    DialUnits dial_units = DialUnits::Aviation;
};

/// What frames need to know of a whole path; made once per path.
struct PathShape {
    std::vector<std::int32_t> band_samples;  ///< indices of the samples that the band goes through
    std::array<QuantityRange, kQuantityCount> ranges;  ///< by Quantity
    std::vector<float> least_load_g, most_load_g;      ///< so far, one a sample
};

/// Chooses the samples of the band so that a chord misses the path by less than 3 cm and the wings
/// turn by less than 8 deg from one to the next, at most 0.25 s apart.
std::shared_ptr<const PathShape> makeShape(const path::Path& path);

/// Words that belong to a moment of the path.
struct PathNote {
    double time_s = 0;
    std::string text;
    std::string quiet;
};

/// Everything a frame is made from that does not change from frame to frame; made once per solved
/// path.
struct SceneSource {
    std::shared_ptr<const path::Path> path;
    std::shared_ptr<const data::Aircraft> aircraft;
    std::shared_ptr<const World> world;
    std::shared_ptr<const PathShape> shape;  ///< of the path; null: made anew for each frame (slow)
    std::shared_ptr<const Ghost> ghost;      ///< another path beside it; null: none
    std::shared_ptr<const std::vector<check::Gate>> gates;  ///< of a plan; null: none
    std::shared_ptr<const check::Glide> glide;              ///< of a plan; null: not known
    std::shared_ptr<const std::vector<PathNote>> notes;     ///< in the order of time; null: none
    std::shared_ptr<const std::vector<PathNote>> said;      ///< remarks, likewise
    std::shared_ptr<const Fan> fan;                         ///< imperfect flights; null: none
    double slot_s = 0;  ///< time given for the show; 0: not known
};

/// The world of a site and a day (sun from the site's show time by a published algorithm).
/// @param aerial  what the site's aerial picture shows; null: none
std::shared_ptr<const World> makeWorld(const data::Site& site, const data::Weather& weather,
                                       std::uint64_t revision,
                                       std::shared_ptr<const GroundPicture> aerial = nullptr);

/// One frame. Time is clamped to the path; an empty path draws the world alone.
DrawList buildDrawList(const SceneSource& source, const ViewSettings& view, const Marks& marks,
                       double time_s, int width_px, int height_px);

}  // namespace plumbline::scene
