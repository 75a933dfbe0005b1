#include <algorithm>
#include <cmath>

#include "engine/units/units.h"
#include "viewer/model/apply_brief.h"
#include "viewer/model/apply_editing.h"
#include "viewer/model/apply_review.h"
#include "viewer/model/apply_time.h"
#include "viewer/model/model.h"
#include "viewer/model/view_motion.h"

namespace plumbline::model {
namespace {

/// The settings that an action of the picture means; a second view that was not chosen until now
/// becomes one's own by being turned.
scene::ViewSettings& viewOf(Session& session, const Action& action) {
    if (action.index != 1) return session.view;
    if (!session.second_chosen) {
        session.second = secondViewOf(session);
        session.second_chosen = true;
    }
    return session.second;
}

/// A camera on the ground that is no longer led by the aircraft goes on looking where it looked.
void letGo(const Model& model, scene::ViewSettings& view) {
    const bool on_ground = view.view == scene::View::Crowd || view.view == scene::View::Judge;
    if (!on_ground || !view.follow || !model.shown || !model.shown->source.world) return;
    const scene::SceneSource& source = model.shown->source;
    constexpr double kAspect = 16.0 / 9;  // any: the direction hardly hangs on it
    const data::Aircraft unknown;
    const scene::Camera camera = scene::cameraAt(view, *source.path, source.world->site,
                                                 source.aircraft ? *source.aircraft : unknown,
                                                 model.clock.time_s(), kAspect);
    view.crowd_azimuth_rad = std::atan2(camera.forward_S.x, camera.forward_S.y);
    view.crowd_elevation_rad = std::asin(std::clamp(camera.forward_S.z, -1.0, 1.0));
}

bool applyToView(Model& model, const Action& action) {
    Session& session = model.session;
    switch (action.kind) {
        case ActionKind::SetView: {
            const auto view = static_cast<scene::View>(action.index);
            session.view.view = view;
            return true;
        }
        case ActionKind::TurnView:
            letGo(model, viewOf(session, action));
            turnView(viewOf(session, action), action.x, action.y);
            return true;
        case ActionKind::PanView:
            if (viewOf(session, action).view == scene::View::Judge) {
                letGo(model, viewOf(session, action));
            }
            panView(viewOf(session, action), action.x, action.y);
            return true;
        case ActionKind::ZoomView:
            zoomView(viewOf(session, action), action.value);
            return true;
        case ActionKind::CycleSecond:
            session.second_place =
                static_cast<SecondPlace>((static_cast<int>(session.second_place) + 1) % 3);
            return true;
        case ActionKind::SetSecondView: {
            const auto view = static_cast<scene::View>(action.index);
            session.second = secondViewOf(session);
            session.second.lens_mm = std::min(session.second.lens_mm, kLongestLens_mm);
            session.second.view = view;
            session.second_chosen = true;
            if (session.second_place == SecondPlace::None) {
                session.second_place = SecondPlace::Inset;
            }
            return true;
        }
        case ActionKind::ToggleGrey:
            session.marks.grey = !session.marks.grey;
            return true;
        case ActionKind::LookTo: {
            const HeadTurn turn = headTurn(static_cast<Look>(action.index));
            // Of the picture that is the cockpit's.
            const bool first = session.view.view == scene::View::Cockpit;
            if (!first && !session.second_chosen) return true;
            scene::ViewSettings& view = first ? session.view : session.second;
            view.head_right_rad = turn.right_rad;
            view.head_up_rad = turn.up_rad;
            return true;
        }
        case ActionKind::ResetView:
            if (action.index == 1) {
                session.second_chosen = false;
            } else {
                resetView(session.view);
            }
            return true;
        case ActionKind::ToggleFollow:
            if (session.view.view == scene::View::Free) {
                session.view.orbit_follow = !session.view.orbit_follow;
            } else {
                letGo(model, session.view);
                session.view.follow = !session.view.follow;
            }
            return true;
        case ActionKind::SitOrStand: {
            scene::ViewSettings& view = session.view;
            view.eye_height_m =
                view.eye_height_m > scene::kSitting_m ? scene::kSitting_m : scene::kStanding_m;
            return true;
        }
        case ActionKind::ToggleThreads:
            session.marks.more_threads = !session.marks.more_threads;
            return true;
        case ActionKind::ToggleSighting:
            session.marks.sighting = !session.marks.sighting;
            return true;
        case ActionKind::ToggleGates:
            session.marks.gates = !session.marks.gates;
            return true;
        case ActionKind::ToggleReach:
            session.marks.reach = !session.marks.reach;
            return true;
        case ActionKind::ToggleMargins:
            model.margins.on = !model.margins.on && model.shown && !model.shown->recording();
            return true;
        case ActionKind::LookAtFlight:
            if (model.margins.on && action.value >= 0)
                model.margins.look_at = static_cast<std::uint64_t>(action.value);
            return true;
        case ActionKind::CycleQuantity:
            // The distance from a ghost only where there is one.
            session.marks.band_quantity = static_cast<scene::Quantity>(
                (static_cast<int>(session.marks.band_quantity) + 1) %
                (hasGhost(model) ? scene::kQuantityCount : scene::kQuantityCount - 1));
            return true;
        default:
            return false;
    }
}

void applyToWindow(Model& model, const Action& action) {
    Session& session = model.session;
    const double duration_s = model.clock.duration_s();
    switch (action.kind) {
        case ActionKind::ZoomLanes:
            session.lanes = zoomed(fitted(session.lanes, duration_s, kPreferredSpan_s), action.x,
                                   action.value, duration_s);
            break;
        case ActionKind::PanLanes:
            session.lanes.start_s += action.value;
            session.lanes = fitted(session.lanes, duration_s, kPreferredSpan_s);
            break;
        case ActionKind::TurnLane: {
            if (action.index < 0 || action.index >= kLaneCount) break;
            const auto lane = static_cast<Lane>(action.index);
            session.lane_wishes[static_cast<std::size_t>(lane)] =
                turned(lane, session.lane_wishes, laneSituation(model));
            break;
        }
        case ActionKind::ResetLanes:
            session.lane_wishes = LaneWishes{};
            session.timeline_height = 0;
            break;
        case ActionKind::ToggleTheme:
            session.theme =
                session.theme == ThemeChoice::Dark ? ThemeChoice::Light : ThemeChoice::Dark;
            break;
        case ActionKind::CycleUnits:
            session.units = static_cast<UnitChoice>((static_cast<int>(session.units) + 1) % 3);
            break;
        case ActionKind::SetScale:
            session.ui_scale = std::clamp(action.value, kLeastScale, kGreatestScale);
            break;
        case ActionKind::ScaleBy:
            session.ui_scale =
                std::clamp(session.ui_scale + 0.125 * action.index, kLeastScale, kGreatestScale);
            break;
        case ActionKind::ToggleSheet:
            session.sheet_folded = !session.sheet_folded;
            break;
        case ActionKind::ToggleTimeline:
            session.timeline_folded = !session.timeline_folded;
            break;
        case ActionKind::SetSheetWidth:
            session.sheet_width = action.value > 0 ? std::clamp(action.value, 240.0, 480.0) : 0;
            break;
        case ActionKind::SetTimelineHeight:
            session.timeline_height =
                action.value > 0 ? std::clamp(action.value, kLowestTimeline, kHighestTimeline) : 0;
            break;
        case ActionKind::TogglePictureOnly:
            session.picture_only = !session.picture_only;
            break;
        case ActionKind::ToggleKeyHelp:
            session.key_help = !session.key_help;
            break;
        case ActionKind::ToggleTrends:
            model.trends.open = !model.trends.open;
            if (model.trends.open) model.clock.pause();
            break;
        case ActionKind::ChooseTrend:
            chooseTrend(model.trends, action.index, static_cast<int>(action.value));
            break;
        case ActionKind::ToggleHelp:
            session.help = !session.help;
            break;
        case ActionKind::ToggleMusic:
            session.music_off = !session.music_off;
            break;
        case ActionKind::ToggleFullScreen:
            model.full_screen = !model.full_screen;
            break;
        case ActionKind::CloseStart:
            model.start_panel = false;
            break;
        case ActionKind::DismissMessage:
            model.message = Message();
            model.problems.clear();
            break;
        case ActionKind::Open:
            model.opening = true;
            model.opening_s = 0;
            model.opening_progress = OpenProgress();
            model.opening_name =
                action.files.empty() ? "the demo" : action.files.front().filename().string();
            break;
        case ActionKind::Quit:
            model.quit = true;
            break;
        default:
            break;
    }
}

}  // namespace

HeadTurn headTurn(Look look) {
    switch (look) {
        case Look::Left:
            return {-90 * units::kDegree_rad, -5 * units::kDegree_rad};
        case Look::Right:
            return {90 * units::kDegree_rad, -5 * units::kDegree_rad};
        case Look::Up:
            return {0, 55 * units::kDegree_rad};
        case Look::Panel:
            return {0, -34 * units::kDegree_rad};
        case Look::Ahead:
            break;
    }
    return {0, scene::kRestingLook_rad};
}

void apply(Model& model, const Action& action) {
    if (action.kind == ActionKind::Prompter) return applyToPrompter(model, action);
    if (action.kind == ActionKind::WalkThrough) return applyToWalk(model, action);
    if (applyToBrief(model, action) || applyToEditing(model, action) ||
        applyToReview(model, action)) {
        return;
    }
    if (applyToTime(model, action) || applyToView(model, action)) return;
    applyToWindow(model, action);
}

void advance(Model& model, double elapsed_s) {
    const double before_s = model.clock.time_s();
    model.wall_s += elapsed_s;
    model.clock.advance(elapsed_s);
    advanceWalk(model, elapsed_s);
    advancePrompter(model);
    Session& session = model.session;
    session.lanes = fitted(session.lanes, model.clock.duration_s(), kPreferredSpan_s);
    if (model.clock.time_s() != before_s) {
        session.lanes = following(session.lanes, model.clock.time_s(), model.clock.duration_s());
    }
    if (model.opening) model.opening_s += elapsed_s;
    if (!model.editor.problems.empty()) model.editor.wrong_s += elapsed_s;
    if (model.message.left_s > 0) {
        model.message.left_s -= elapsed_s;
        if (model.message.left_s <= 0) model.message = Message();
    }
}

}  // namespace plumbline::model
