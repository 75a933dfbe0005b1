#include "viewer/model/site_of.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "engine/base/number_text.h"
#include "engine/earth/local_projection.h"
#include "engine/load/load.h"

namespace plumbline::model {
namespace {

// chosen: a show's box and its holds lie within it, the next airfield seldom does
constexpr double kNear_m = 3000;
// chosen: so far the ground may be taken as flat
constexpr double kFarthest_m = 50000;
// chosen: a folder that holds more is no sortie's
constexpr std::size_t kMostFiles = 200;

struct Distance {
    double nearest_m = 0;  ///< of the path from the show centre, over the ground
    double start_m = 0;
};

Distance distanceFrom(const data::Site& site, const record::ImportedTrack& track) {
    // Seen from the recording, whose frame is made already: one conversion for all samples.
    const earth::LocalProjection from(*track.origin, track.path.show_line_bearing_rad);
    const Vec3 centre_m = from.toSite(site.show_centre);
    Distance distance;
    distance.start_m = distance.nearest_m = std::hypot(centre_m.x, centre_m.y);
    for (const path::Sample& sample : track.path.samples) {
        const Vec3 apart_m = sample.position_S_m - centre_m;
        distance.nearest_m = std::min(distance.nearest_m, std::hypot(apart_m.x, apart_m.y));
    }
    return distance;
}

std::vector<std::filesystem::path> siteFilesBeside(const std::filesystem::path& recording) {
    constexpr std::string_view kEnding = ".site.toml";
    std::vector<std::filesystem::path> files;
    const std::filesystem::path folder =
        recording.has_parent_path() ? recording.parent_path() : std::filesystem::path(".");
    std::error_code failed;
    std::filesystem::directory_iterator entry(folder, failed);
    for (; !failed && entry != std::filesystem::directory_iterator(); entry.increment(failed)) {
        const std::string name = entry->path().filename().string();
        if (name.size() > kEnding.size() &&
            std::string_view(name).substr(name.size() - kEnding.size()) == kEnding) {
            files.push_back(entry->path());
            if (files.size() == kMostFiles) break;
        }
    }
    std::sort(files.begin(), files.end());  // a folder's own order differs from machine to machine
    return files;
}

void say(Problems& warnings, std::string what) {
    Problem said;
    said.what = std::move(what);
    warnings.push_back(std::move(said));
}

}  // namespace

std::optional<data::Site> siteOf(const record::ImportedTrack& track,
                                 const std::filesystem::path& recording,
                                 const std::optional<std::string>& named, Problems& warnings) {
    if (!track.origin) return std::nullopt;
    const auto read = [&warnings](const std::filesystem::path& file) -> std::optional<data::Site> {
        auto site = load::loadSite(file);
        if (site) return std::move(*site);
        warnings.insert(warnings.end(), site.error().begin(), site.error().end());
        return std::nullopt;
    };
    if (named) {
        std::optional<data::Site> site = read(*named);
        if (!site) return std::nullopt;
        const double start_m = distanceFrom(*site, track).start_m;
        if (start_m <= kFarthest_m) return site;
        say(warnings, "The site named is " + formatFixed(start_m / 1000, 0) +
                          " km from where the recording begins and is not used");
        return std::nullopt;
    }
    std::optional<data::Site> best;
    std::string best_from;
    double best_m = kNear_m;
    const auto consider = [&](data::Site site, const std::string& from) {
        const Distance distance = distanceFrom(site, track);
        if (distance.start_m > kFarthest_m || distance.nearest_m >= best_m) return;
        best_m = distance.nearest_m;
        best = std::move(site);
        best_from = from;
    };
    for (const std::filesystem::path& file : siteFilesBeside(recording)) {
        if (auto site = read(file)) consider(std::move(*site), file.filename().string());
    }
    if (auto demo = load::loadDemo()) consider(std::move(demo->site), "the demo");
    if (!best) return std::nullopt;
    std::string said = "Shown at " + best->name + " (" + best_from + "), which it comes near";
    if (!best->note.empty()) said += ". " + best->note;
    say(warnings, said);
    return best;
}

}  // namespace plumbline::model
