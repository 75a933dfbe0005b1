#include "viewer/model/apply_review.h"

#include <algorithm>
#include <utility>

#include "viewer/model/apply_time.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {}  // namespace

void beginReview(Model& model) {
    model.session.mending_folded = false;
    const FlightReview& review = *model.shown->review;
    if (!review.plan) return;
    if (model.session.by_time) model.shown = setByTime(*model.shown, true);
    model.session.marks.band_quantity = scene::Quantity::Apart;
    for (const ToMend& one : review.to_mend) {
        const bool flown = std::find(review.result.missing.begin(), review.result.missing.end(),
                                     one.figure) == review.result.missing.end();
        if (!flown) continue;
        seek(model, one.time_s);
        break;
    }
    std::vector<std::string> found;
    for (const review::FigureReview& figure : review.result.figures) {
        if (std::find(found.begin(), found.end(), figure.name) == found.end())
            found.push_back(figure.name);
    }
    const std::size_t planned = review.plan->path().figures.size();
    say(model, std::to_string(found.size()) + " of " + std::to_string(planned) + " figures of " +
                   review.plan->title + " found" +
                   (review.result.unlike_plan ? ": this flight does not look like this plan" : ""));
}

bool applyToReview(Model& model, const Action& action) {
    Session& session = model.session;
    switch (action.kind) {
        case ActionKind::ToggleMending:
            session.mending_folded = !session.mending_folded;
            return true;
        case ActionKind::ToggleByTime:
            session.by_time = !session.by_time;
            if (model.shown && model.shown->review && model.shown->review->plan) {
                model.shown = setByTime(*model.shown, session.by_time);
                say(model, session.by_time ? "The plan runs by the clock, both begun together"
                                           : "The plan keeps step, figure by figure");
            }
            return true;
        default:
            return false;
    }
}

}  // namespace plumbline::model
