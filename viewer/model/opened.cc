#include <utility>

#include "viewer/model/apply_review.h"
#include "viewer/model/model.h"

namespace plumbline::model {

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
    model.variant = variant::Wish();
    model.effect = EditEffect();
    model.list = List();
    refreshRows(model);
    const scene::View before = model.session.view.view;
    const bool from_the_line = before == scene::View::Crowd || before == scene::View::Judge;
    if (from_the_line && !model.shown->atSite()) {
        // Whoever stands where the recording begins may be far from all that is flown.
        model.session.view.view = scene::View::Chase;
    } else if (!model.shown->recording()) {
        model.session.view.view = scene::View::Crowd;
    }
    model.session.view.orbit_follow = model.shown->recording();
    model.mark_in_s = std::nullopt;
    if (!hasGhost(model) && model.session.marks.band_quantity == scene::Quantity::Apart) {
        model.session.marks.band_quantity = scene::Quantity::Load;
    }
    if (model.shown->review) {
        model.flight = model.shown;
    } else if (!hasGhost(model) || !model.flight ||
               model.shown->source.ghost->path != model.flight->source.path) {
        model.flight = nullptr;
    }
    if (!model.shown->beside.empty()) {
        model.message.text = "Beside it " + model.shown->beside + ", set to the same time";
        model.message.left_s = kMessage_s;
    }
    if (!model.shown->path().known.load &&
        model.session.marks.band_quantity == scene::Quantity::Load) {
        model.session.marks.band_quantity = scene::Quantity::Speed;
    }
    if (!model.shown->variant.empty()) {
        model.message.text = "Flown as " + model.shown->variant;
        model.message.left_s = kMessage_s;
    }
    const path::Known& known = model.shown->path().known;
    if (!known.attitude || !known.side_load || !known.place) {
        model.message.text =
            !known.attitude
                ? "Attitude not recorded: the aircraft is drawn along its path, wings level"
            : !known.place
                ? "Place not recorded: the aircraft turns where it stands"
                : "Attitude not recorded: bank follows from the curve, where that tells it";
        model.message.left_s = kMessage_s;
    }
    model.session.reviewing = model.shown->review && model.shown->review->plan;
    if (model.shown->review) beginReview(model);
}

}  // namespace plumbline::model
