#include <algorithm>
#include <cmath>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

constexpr double kFrame_s = 1.0 / 25;  // chosen: one film frame a step

void seek(Model& model, double time_s) {
    model.clock.seek(time_s);
    Session& session = model.session;
    session.lanes = fitted(session.lanes, model.clock.duration_s(), kPreferredSpan_s);
    session.lanes = following(session.lanes, model.clock.time_s(), model.clock.duration_s());
}

void goToFigure(Model& model, std::int32_t row) {
    if (!model.shown || row < 0 || row >= static_cast<std::int32_t>(model.shown->outline.size())) {
        return;
    }
    seek(model, model.shown->outline[static_cast<std::size_t>(row)].start_s);
    // A loop stays with the figure it was made for.
    if (model.clock.loop() && (model.clock.time_s() < model.clock.loop()->start_s ||
                               model.clock.time_s() >= model.clock.loop()->stop_s)) {
        model.clock.setLoop(std::nullopt);
    }
}

void goToNeighbour(Model& model, int step) {
    if (!model.shown) return;
    const std::int32_t row = rowAt(model.shown->outline, model.clock.time_s());
    // Back goes to this figure's own start first, as players of recorded sound do.
    constexpr double kJustStarted_s = 1;
    if (step < 0 && row >= 0 &&
        model.clock.time_s() >
            model.shown->outline[static_cast<std::size_t>(row)].start_s + kJustStarted_s) {
        goToFigure(model, row);
    } else {
        goToFigure(model, std::max(0, row + step));
    }
}

void goToFinding(Model& model, int step) {
    if (!model.shown || model.shown->findings.empty()) return;
    constexpr double kSame_s = 0.01;
    const double now_s = model.clock.time_s();
    std::optional<double> best_s;
    for (const check::Finding& finding : model.shown->findings) {
        const double away_s = (finding.time_s - now_s) * step;
        if (away_s > kSame_s && (!best_s || away_s < (*best_s - now_s) * step)) {
            best_s = finding.time_s;
        }
    }
    if (best_s) seek(model, *best_s);
}

void toggleLoop(Model& model) {
    if (model.clock.loop()) {
        model.clock.setLoop(std::nullopt);
        return;
    }
    if (!model.shown) return;
    const std::int32_t row = rowAt(model.shown->outline, model.clock.time_s());
    if (row < 0) return;
    const OutlineRow& figure = model.shown->outline[static_cast<std::size_t>(row)];
    Loop loop;
    loop.start_s = figure.start_s;
    loop.stop_s = figure.stop_s;
    model.clock.setLoop(loop);
}

void turnView(scene::ViewSettings& view, double x, double y) {
    constexpr double kTurn = 0.35;  // chosen: rad for 100 px
    switch (view.view) {
        case scene::View::Crowd:
        case scene::View::Judge: {
            // The scene behind the pointer follows it; a longer lens turns slower.
            const double turn = kTurn * 37 / view.lens_mm;
            view.follow = false;
            view.crowd_azimuth_rad = std::clamp(view.crowd_azimuth_rad - x * turn, -kPi, kPi);
            view.crowd_elevation_rad = std::clamp(view.crowd_elevation_rad + y * turn, -0.3, 1.5);
            break;
        }
        case scene::View::Cockpit:
            view.head_right_rad = std::clamp(view.head_right_rad + x * kTurn, -2.6, 2.6);
            view.head_up_rad = std::clamp(view.head_up_rad - y * kTurn, -0.9, 1.5);
            break;
        case scene::View::Chase:
            view.chase_azimuth_rad = std::remainder(view.chase_azimuth_rad - x * kTurn, 2 * kPi);
            view.chase_elevation_rad = std::clamp(view.chase_elevation_rad + y * kTurn, -1.2, 1.5);
            break;
        case scene::View::Map:
            break;
        case scene::View::Free:
            view.orbit_azimuth_rad = std::remainder(view.orbit_azimuth_rad - x * kTurn, 2 * kPi);
            view.orbit_elevation_rad = std::clamp(view.orbit_elevation_rad + y * kTurn, 0.02, 1.55);
            break;
    }
}

void panView(scene::ViewSettings& view, double x, double y) {
    switch (view.view) {
        case scene::View::Map: {
            const double half_m = view.map_half_height_m > 0 ? view.map_half_height_m : 600;
            view.map_x_m -= x * half_m * 0.3;
            view.map_y_m += y * half_m * 0.3;
            break;
        }
        case scene::View::Free: {
            const double step_m = view.orbit_distance_m * 0.12;
            const double c = std::cos(view.orbit_azimuth_rad);
            const double s = std::sin(view.orbit_azimuth_rad);
            view.orbit_target_S_m.x -= x * step_m * c;
            view.orbit_target_S_m.y -= x * step_m * s;
            view.orbit_target_S_m.z = std::clamp(view.orbit_target_S_m.z + y * step_m, 0.0, 5000.0);
            view.orbit_follow = false;
            break;
        }
        case scene::View::Crowd:
            view.seat_x_m = std::clamp(view.seat_x_m - x * 20, -3000.0, 3000.0);
            break;
        case scene::View::Judge:
        case scene::View::Cockpit:
        case scene::View::Chase:
            turnView(view, x, y);
            break;
    }
}

void zoomView(scene::ViewSettings& view, double notches) {
    const double nearer = std::pow(0.88, notches);
    switch (view.view) {
        case scene::View::Crowd:
        case scene::View::Judge:
            view.lens_mm = std::clamp(view.lens_mm / nearer, 24.0, 400.0);
            break;
        case scene::View::Cockpit:
            break;
        case scene::View::Chase:
            view.chase_distance_m = std::clamp(view.chase_distance_m * nearer, 8.0, 500.0);
            break;
        case scene::View::Map: {
            const double half_m = view.map_half_height_m > 0 ? view.map_half_height_m : 600;
            view.map_half_height_m = std::clamp(half_m * nearer, 50.0, 20000.0);
            break;
        }
        case scene::View::Free:
            view.orbit_distance_m = std::clamp(view.orbit_distance_m * nearer, 20.0, 20000.0);
            break;
    }
}

/// The view as it is at first; the other views keep what was set.
void resetView(scene::ViewSettings& view) {
    const scene::ViewSettings fresh;
    switch (view.view) {
        case scene::View::Crowd:
        case scene::View::Judge:
            view.seat_x_m = fresh.seat_x_m;
            view.lens_mm = fresh.lens_mm;
            view.follow = true;
            break;
        case scene::View::Cockpit:
            view.head_right_rad = 0;
            view.head_up_rad = 0;
            break;
        case scene::View::Chase:
            view.chase_distance_m = fresh.chase_distance_m;
            view.chase_azimuth_rad = fresh.chase_azimuth_rad;
            view.chase_elevation_rad = fresh.chase_elevation_rad;
            break;
        case scene::View::Map:
            view.map_half_height_m = 0;
            view.map_x_m = 0;
            view.map_y_m = 0;
            break;
        case scene::View::Free:
            view.orbit_target_S_m = fresh.orbit_target_S_m;
            view.orbit_distance_m = fresh.orbit_distance_m;
            view.orbit_azimuth_rad = fresh.orbit_azimuth_rad;
            view.orbit_elevation_rad = fresh.orbit_elevation_rad;
            view.orbit_follow = fresh.orbit_follow;
            break;
    }
}

bool applyToTime(Model& model, const Action& action) {
    PlaybackClock& clock = model.clock;
    switch (action.kind) {
        case ActionKind::TogglePlay:
            if (model.start_panel) {  // the demo goes on, now with everything in sight
                model.start_panel = false;
                clock.play();
            } else if (clock.playing()) {
                clock.pause();
            } else {
                clock.play();
            }
            return true;
        case ActionKind::Seek:
            seek(model, action.value);
            return true;
        case ActionKind::SeekBy:
            seek(model, clock.time_s() + action.value);
            return true;
        case ActionKind::StepFrames:
            clock.pause();
            seek(model, clock.time_s() + action.value * kFrame_s);
            return true;
        case ActionKind::ToStart:
            seek(model, clock.loop() ? clock.loop()->start_s : 0);
            return true;
        case ActionKind::NextFigure:
            goToNeighbour(model, 1);
            return true;
        case ActionKind::PreviousFigure:
            goToNeighbour(model, -1);
            return true;
        case ActionKind::GoToFigure:
            goToFigure(model, action.index);
            return true;
        case ActionKind::NextFinding:
            goToFinding(model, 1);
            return true;
        case ActionKind::PreviousFinding:
            goToFinding(model, -1);
            return true;
        case ActionKind::SetSpeed:
            clock.setSpeedIndex(action.index);
            return true;
        case ActionKind::SpeedBy:
            clock.setSpeedIndex(clock.speedIndex() + action.index);
            return true;
        case ActionKind::ToggleLoop:
            toggleLoop(model);
            return true;
        default:
            return false;
    }
}

bool applyToView(Model& model, const Action& action) {
    Session& session = model.session;
    switch (action.kind) {
        case ActionKind::SetView: {
            const auto view = static_cast<scene::View>(action.index);
            if (viewOffered(model, view)) session.view.view = view;
            return true;
        }
        case ActionKind::TurnView:
            turnView(session.view, action.x, action.y);
            return true;
        case ActionKind::PanView:
            panView(session.view, action.x, action.y);
            return true;
        case ActionKind::ZoomView:
            zoomView(session.view, action.value);
            return true;
        case ActionKind::LookTo: {
            const HeadTurn turn = headTurn(static_cast<Look>(action.index));
            session.view.head_right_rad = turn.right_rad;
            session.view.head_up_rad = turn.up_rad;
            return true;
        }
        case ActionKind::ResetView:
            resetView(session.view);
            return true;
        case ActionKind::ToggleFollow:
            if (session.view.view == scene::View::Free) {
                session.view.orbit_follow = !session.view.orbit_follow;
            } else {
                session.view.follow = !session.view.follow;
            }
            return true;
        case ActionKind::ToggleSighting:
            session.marks.sighting = !session.marks.sighting;
            return true;
        case ActionKind::CycleQuantity:
            session.marks.band_quantity = static_cast<scene::Quantity>(
                (static_cast<int>(session.marks.band_quantity) + 1) % 3);
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
            session.timeline_height = action.value > 0 ? std::clamp(action.value, 176.0, 320.0) : 0;
            break;
        case ActionKind::TogglePictureOnly:
            session.picture_only = !session.picture_only;
            break;
        case ActionKind::ToggleKeyHelp:
            session.key_help = !session.key_help;
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
    constexpr double kDegree_rad = kPi / 180;
    switch (look) {
        case Look::Left:
            return {-90 * kDegree_rad, -5 * kDegree_rad};
        case Look::Right:
            return {90 * kDegree_rad, -5 * kDegree_rad};
        case Look::Up:
            return {0, 55 * kDegree_rad};
        case Look::Ahead:
            break;
    }
    return {};
}

void apply(Model& model, const Action& action) {
    if (applyToTime(model, action) || applyToView(model, action)) return;
    applyToWindow(model, action);
}

bool viewOffered(const Model& model, scene::View view) {
    if (!model.shown || !model.shown->recording()) return true;
    return view != scene::View::Crowd && view != scene::View::Judge;
}

void show(Model& model, OpenResult result) {
    model.opening = false;
    model.problems = std::move(result.problems);
    if (!result.shown) {
        model.start_panel = false;
        return;
    }
    model.shown = std::move(result.shown);
    model.message = Message();
    model.clock.pause();
    model.clock.setDuration(model.shown->path().duration_s());
    model.clock.seek(0);
    model.session.lanes = TimeWindow();
    if (!viewOffered(model, model.session.view.view)) {
        model.session.view.view = scene::View::Chase;
    } else if (!model.shown->recording()) {
        model.session.view.view = scene::View::Crowd;
    }
    model.session.view.orbit_follow = model.shown->recording();
    if (!model.shown->path().known.load &&
        model.session.marks.band_quantity == scene::Quantity::Load) {
        model.session.marks.band_quantity = scene::Quantity::Speed;
    }
    if (!model.shown->variant.empty()) {
        model.message.text = "Flown as " + model.shown->variant;
        model.message.left_s = kMessage_s;
    }
    if (!model.shown->path().known.attitude) {
        model.message.text =
            "Attitude not recorded: the aircraft is drawn along its path, wings level";
        model.message.left_s = kMessage_s;
    }
}

void advance(Model& model, double elapsed_s) {
    const double before_s = model.clock.time_s();
    model.clock.advance(elapsed_s);
    Session& session = model.session;
    session.lanes = fitted(session.lanes, model.clock.duration_s(), kPreferredSpan_s);
    if (model.clock.time_s() != before_s) {
        session.lanes = following(session.lanes, model.clock.time_s(), model.clock.duration_s());
    }
    if (model.opening) model.opening_s += elapsed_s;
    if (model.message.left_s > 0) {
        model.message.left_s -= elapsed_s;
        if (model.message.left_s <= 0) model.message = Message();
    }
}

}  // namespace plumbline::model
