#pragma once
// Which lanes the timeline shows, and how high they are: chosen by a person, else by what there is
// to show and how much room there is. Figures and ruler are always there.

#include <array>

namespace plumbline::model {

struct Model;

/// Top to bottom.
enum class Lane {
    Cues,
    Height,
    Load,
    Speed,
    Power,
    Apart,
    Heard,
    Smoke,
    Reach,
    Logged,
    Music,
    Findings,
    Remarks
};
inline constexpr int kLaneCount = 13;

/// What a person wants of a lane.
enum class LaneWish { Auto, Shown, Hidden };
using LaneWishes = std::array<LaneWish, kLaneCount>;
using LaneSet = std::array<bool, kLaneCount>;

/// "Height": in the gutter and in the list.
const char* laneName(Lane lane);
/// "the narrator's cues with their words": in the list.
const char* laneAbout(Lane lane);
/// One word, for the session file.
const char* laneWord(Lane lane);

/// What there is to show.
struct LaneSituation {
    bool recording = false;
    bool logged = false;  ///< of a recording: its streams are known
    bool ghost = false;
    bool remarks = false;  ///< something was said
    bool review = false;   ///< of a recording: what is worth mending was told
    bool music = false;
    bool score = false;  ///< that is played from notes: its loudness tells little
    bool power = false;  ///< its setting is known
    bool heard = false;  ///< there is a crowd that hears it
    bool reach = false;  ///< a plan at a site where one could land without the engine
    bool low = false;    ///< the timeline is low: speed and smoke fold away by themselves
};
LaneSituation laneSituation(const Model& model);

/// There is something to show in it.
bool laneOffered(Lane lane, const LaneSituation& situation);
LaneSet shownLanes(const LaneWishes& wishes, const LaneSituation& situation);
/// The wish that turns a lane's showing round.
LaneWish turned(Lane lane, const LaneWishes& wishes, const LaneSituation& situation);

/// Heights that all shown lanes take with their gaps, units of the layout.
float lanesHeight(const LaneSet& shown, bool low);

/// Where each lane lies below the first one's top, units; height 0: not shown.
struct LanePlan {
    std::array<float, kLaneCount> top{};
    std::array<float, kLaneCount> height{};
};
/// In `room` units: what is left over goes to height and load; where it is too little, they shrink
/// and then lanes are left out, those that say least first.
LanePlan planLanes(LaneSet shown, bool low, float room);

}  // namespace plumbline::model
