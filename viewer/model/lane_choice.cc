#include "viewer/model/lane_choice.h"

#include <algorithm>
#include <cmath>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

struct LaneKind {
    const char* word;
    const char* name;
    const char* about;
    float height;  ///< units
    float gap;     ///< below it
    bool tall;     ///< takes what room is left, gives some up where it is scarce
};

constexpr float kLeastTall = 20;  ///< chosen: a curve still reads

constexpr std::array<LaneKind, kLaneCount> kKinds{{
    {"cues", "Cues", "the narrator's cues with their words", 16, 8, false},
    {"height", "Height", "height, with the floor", 30, 8, true},
    {"load", "Load", "load, towards the seat upwards", 30, 8, true},
    {"speed", "Speed", "airspeed; of a recording without it the speed over the ground", 16, 8,
     false},
    {"power", "Power", "the engine's power setting", 16, 8, false},
    {"apart", "Apart", "how far the two that are shown are apart", 16, 8, false},
    {"heard", "Heard", "the power as the crowd's seat hears it, late by the sound's way", 16, 8,
     false},
    {"smoke", "Smoke", "smoke on", 5, 3, false},
    {"reach", "Reach", "where no landing strip could be reached without the engine", 5, 8, false},
    {"logged", "Logged", "when each of the recording's streams ran", 24, 8, false},
    {"music", "Music", "the music's loudness", 20, 8, false},
    {"findings", "Findings", "what the checks found", 16, 8, false},
    {"remarks", "Remarks", "what coach and pilot said", 16, 8, false},
}};

/// Left out first where the room is too small.
constexpr std::array kLeastFirst{Lane::Heard, Lane::Smoke,   Lane::Power,    Lane::Cues,
                                 Lane::Music, Lane::Reach,   Lane::Speed,    Lane::Apart,
                                 Lane::Load,  Lane::Remarks, Lane::Findings, Lane::Logged};

const LaneKind& kindOf(int lane) { return kKinds[static_cast<std::size_t>(lane)]; }

float heightOf(int lane, bool low) {
    constexpr float kLowLogged = 16;
    return low && static_cast<Lane>(lane) == Lane::Logged ? kLowLogged : kindOf(lane).height;
}

/// Without a wish.
bool shownByItself(Lane lane, const LaneSituation& situation) {
    switch (lane) {
        case Lane::Height:
        case Lane::Load:
        case Lane::Apart:
        case Lane::Logged:
        case Lane::Findings:
        case Lane::Remarks:
            return true;
        case Lane::Music:
            return !situation.score;
        case Lane::Speed:  // gives its place to the distance from a ghost
            return !situation.low && !situation.ghost;
        case Lane::Smoke:
            return !situation.low;
        case Lane::Reach:
        case Lane::Cues:
        case Lane::Power:
        case Lane::Heard:
            break;
    }
    return false;
}

}  // namespace

const char* laneName(Lane lane) { return kindOf(static_cast<int>(lane)).name; }
const char* laneAbout(Lane lane) { return kindOf(static_cast<int>(lane)).about; }
const char* laneWord(Lane lane) { return kindOf(static_cast<int>(lane)).word; }

LaneSituation laneSituation(const Model& model) {
    LaneSituation out;
    out.low = model.session.low_timeline;
    out.music = model.music != nullptr;
    if (!model.shown) return out;
    out.score = isScore(model.shown->music_file);
    const Shown& shown = *model.shown;
    out.recording = shown.recording();
    out.logged = !shown.streams.empty();
    out.remarks = !model.remarks.list.empty();
    out.review = shown.review != nullptr;
    out.ghost = !shown.lanes.apart_m.values.empty();
    out.power = shown.path().known.power;
    out.heard = out.power && shown.atSite();
    out.reach = !shown.reaches.empty();
    return out;
}

bool laneOffered(Lane lane, const LaneSituation& situation) {
    switch (lane) {
        case Lane::Power:
            return situation.power;
        case Lane::Heard:
            return situation.heard;
        case Lane::Reach:
            return situation.reach;
        case Lane::Apart:
            return situation.ghost;
        case Lane::Logged:
            return situation.logged;
        case Lane::Cues:
        case Lane::Smoke:
            return !situation.recording;
        case Lane::Findings:
            return !situation.recording || situation.review;
        case Lane::Remarks:
            return situation.remarks;
        case Lane::Music:
            return situation.music;
        case Lane::Height:
        case Lane::Load:
        case Lane::Speed:
            break;
    }
    return true;
}

LaneSet shownLanes(const LaneWishes& wishes, const LaneSituation& situation) {
    LaneSet out{};
    for (int i = 0; i < kLaneCount; ++i) {
        const auto lane = static_cast<Lane>(i);
        const LaneWish wish = wishes[static_cast<std::size_t>(i)];
        const bool wanted =
            wish == LaneWish::Shown || (wish == LaneWish::Auto && shownByItself(lane, situation));
        out[static_cast<std::size_t>(i)] = wanted && laneOffered(lane, situation);
    }
    return out;
}

LaneWish turned(Lane lane, const LaneWishes& wishes, const LaneSituation& situation) {
    const auto i = static_cast<std::size_t>(lane);
    const bool shown = shownLanes(wishes, situation)[i];
    // Back to what it does by itself where that is the same: the session then says nothing of it.
    if (shownByItself(lane, situation) != shown) return LaneWish::Auto;
    return shown ? LaneWish::Hidden : LaneWish::Shown;
}

float lanesHeight(const LaneSet& shown, bool low) {
    float height = 0, gap = 0;
    for (int i = 0; i < kLaneCount; ++i) {
        if (!shown[static_cast<std::size_t>(i)]) continue;
        height += gap + heightOf(i, low);
        gap = kindOf(i).gap;
    }
    return height;
}

LanePlan planLanes(LaneSet shown, bool low, float room) {
    const auto tallOnes = [&shown] {
        int count = 0;
        for (int i = 0; i < kLaneCount; ++i)
            count += shown[static_cast<std::size_t>(i)] && kindOf(i).tall ? 1 : 0;
        return count;
    };
    const auto least = [&] {
        constexpr float kGives = 30 - kLeastTall;
        return lanesHeight(shown, low) - kGives * static_cast<float>(tallOnes());
    };
    for (const Lane lane : kLeastFirst) {
        if (least() <= room) break;
        shown[static_cast<std::size_t>(lane)] = false;
    }
    const int tall = tallOnes();
    const float spare = room - lanesHeight(shown, low);
    const float each = tall > 0 ? std::floor(spare / static_cast<float>(tall)) : 0;
    LanePlan plan;
    float at = 0;
    for (int i = 0; i < kLaneCount; ++i) {
        const auto lane = static_cast<std::size_t>(i);
        if (!shown[lane]) continue;
        const float height =
            heightOf(i, low) + (kindOf(i).tall ? std::max(each, kLeastTall - 30) : 0);
        plan.top[lane] = at;
        plan.height[lane] = height;
        at += height + kindOf(i).gap;
    }
    return plan;
}

}  // namespace plumbline::model
