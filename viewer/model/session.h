#pragma once
// How a person has set up the window: kept from one start to the next, never undone.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "engine/brief/script.h"
#include "viewer/model/lane_choice.h"
#include "viewer/model/time_axis.h"
#include "viewer/scene/build.h"
#include "viewer/scene/views.h"

namespace plumbline::model {

/// Files that are remembered.
inline constexpr std::size_t kMostRecent = 8;
/// Font files; chosen: more scripts than a routine has readers.
inline constexpr std::size_t kMostFonts = 6;

enum class ThemeChoice { Dark, Light };

/// Units that numbers are shown in. Load is in g and time in minutes and seconds in both.
enum class UnitChoice {
    Metric,    ///< m, km/h, m/s
    Aviation,  ///< m, kt, m/s: heights in metres as display sites give them
    Feet       ///< ft, kt, ft/min
};

/// Where the second view is.
enum class SecondPlace { Inset, Beside, None };

inline constexpr double kLeastScale = 0.75;
inline constexpr double kGreatestScale = 3;

/// Of the narrator.
inline constexpr double kSlowestPace = 40, kFastestPace = 300;  // chosen: beyond nobody speaks

/// Of the timeline, units, where a person drags its edge.
inline constexpr double kLowestTimeline = 110, kHighestTimeline = 480;

struct Session {
    ThemeChoice theme = ThemeChoice::Dark;
    UnitChoice units = UnitChoice::Aviation;
    double ui_scale = 1;
    int window_width = 1600;
    int window_height = 900;
    bool sheet_folded = false;
    bool timeline_folded = false;
    bool mending_folded = false;  ///< what is worth mending in a flight
    bool coach = false;           ///< who speaks: remarks are the coach's, else the pilot's
    bool by_time = false;         ///< a flight's plan in step by time, not by figure
    double sheet_width = 0;       ///< at scale 1; 0: by the window's size
    double timeline_height = 0;   ///< at scale 1; 0: by the window's size
    double prompt_size = 1;       ///< of the prompter's words beside the design's
    double walk_lead_s = 1.5;     ///< of the walk-through's calls
    LaneWishes lane_wishes{};
    scene::ViewSettings view;
    SecondPlace second_place = SecondPlace::Inset;
    bool second_chosen = false;  ///< false: what goes well with the first
    scene::ViewSettings second;  ///< when chosen
    scene::Marks marks;

    bool letter_paper = false;  ///< of briefs: letter and half-letter, else A4 and A5
    double words_per_min = brief::kWordsPerMin;  ///< of the narrator
    std::vector<std::string> fonts;  ///< files for scripts that the built-in font lacks, UTF-8

    std::vector<std::string> recent;  ///< files opened, newest first, UTF-8

    // Of this run only.
    bool picture_only = false;
    bool key_help = false;
    bool help = false;  ///< on what lies under the pointer
    bool music_off = false;
    bool low_timeline = false;  ///< as the window is now
    bool reviewing = false;     ///< a flight over its plan is shown
    TimeWindow lanes;
};

/// `name = value` lines, a subset of TOML.
/// The second view as it is shown: the chosen one, or a long lens beside the crowd's and the
/// judge's, the crowd's beside the others; of a reviewed flight the judge's beside all but that.
scene::ViewSettings secondViewOf(const Session& session);

/// A file comes first in the list of those opened.
void remember(Session& session, const std::filesystem::path& file);

std::string sessionText(const Session& session);

/// Reads what sessionText writes. Names that are not known and values out of range are passed over:
/// a session file is a convenience and never an error.
Session sessionFromText(std::string_view text);

}  // namespace plumbline::model
