#pragma once
// The engine stops: what can still be reached.

#include <string>
#include <vector>

#include "engine/data/aircraft.h"
#include "engine/data/pilot.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/earth/atmosphere.h"
#include "engine/earth/wind.h"
#include "engine/path/path.h"

namespace plumbline::check {

/// What one could still reach from a moment, best first by spare height.
struct Reach {
    double time_s = 0;
    double energy_height_m = 0;  ///< after the time to react, of height and speed above the glide's
    std::string strip;           ///< best one; "" where there is none at the site
    double spare_m = 0;          ///< height left at its threshold; below zero: not reached
    double heading_rad = 0;      ///< true bearing of landing there
};

/// The glide of an aircraft with its propeller windmilling.
///
/// Model: after the time to react, flown on with the drag of level flight at the speed it has, the
/// speed above that of the best glide is height; then a gliding turn of 45 deg of bank, straight at
/// the best glide, and another such turn into the landing direction, whichever of the four ways
/// round is shortest, in air that moves with the wind near the ground.
/// simplified: the attitude at the failure, the climb back to a glide and the flare cost nothing;
/// obstacles and the crowd are not considered. An indication, no promise.
/// @source parabolic polar: best glide at cd0 = k CL^2 (Anderson, Aircraft Performance and Design,
///   1999, chapter 5); shortest path of bounded curvature: L. Dubins, Am. J. Math. 79 (1957)
///   497-516
class Glide {
public:
    Glide(const data::Aircraft& aircraft, const data::Site& site, const data::Weather& weather,
          const data::Pilot& pilot);

    /// Best glide ratio, in still air, and its calibrated airspeed at a mass.
    double ratio() const { return ratio_; }
    double speed_mps(double mass_kg) const;

    Reach reach(const path::Sample& sample) const;
    /// Outline on the ground of what can be reached from a moment, turn included, `corners` points
    /// round; empty where the energy is used up by the time to react.
    std::vector<Vec3> outline(const path::Sample& sample, std::size_t corners) const;

private:
    struct Start;
    Start startOf(const path::Sample& sample) const;

    data::Aircraft aircraft_;
    double react_s_ = 0;
    earth::SiteAir air_;
    Vec3 wind_S_mps_{0};
    double ratio_ = 0, lift_ = 0, drag0_ = 0;
    struct Landing {
        std::string strip;
        Vec3 threshold_S_m;
        double angle_rad;  ///< of the landing direction, from +x_S to +y_S
        double heading_rad;
    };
    std::vector<Landing> landings_;
};

// chosen: finer than a person would see it coming
inline constexpr double kReachEvery_s = 0.5;

/// Reach along a path, one each `every_s`.
std::vector<Reach> reachAlong(const Glide& glide, const path::Path& path, double every_s);

/// A while of the flight.
struct Spell {
    double from_s = 0, to_s = 0;
};
/// When no strip can be reached, each stretch up to the moment at which one can be again; empty at
/// a site without any.
std::vector<Spell> outOfReach(const std::vector<Reach>& reaches);

}  // namespace plumbline::check
