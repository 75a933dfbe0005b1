#include "viewer/model/quality_steps.h"

#include <algorithm>

namespace plumbline::model {
namespace {

constexpr int kWorst = 3;
constexpr int kWindow = 24;            // chosen: frames that one judgement is made from
constexpr int kFewest = 4;             // chosen: of frames so slow that nobody waits for more
constexpr double kLongEnough_s = 1.5;  // chosen: more than the usual frames take
constexpr double kSlow_s = 1.0 / 30;   // chosen: slower than this shows as jerks
constexpr double kQuick_s = 1.0 / 50;  // chosen: so quick that a better step may hold
constexpr int kLongestWait = 64;
constexpr float kSmallerScale = 0.75F, kSmallestScale = 0.5F;

}  // namespace

void QualitySteps::frameTook(double elapsed_s) {
    sum_s_ += elapsed_s;
    if (++frames_ < kWindow && (frames_ < kFewest || sum_s_ < kLongEnough_s)) return;
    const double mean_s = sum_s_ / frames_;
    frames_ = 0;
    sum_s_ = 0;
    if (mean_s > kSlow_s && step_ < kWorst) {
        // A step that had to be taken back so soon is tried again later and later.
        if (good_ == 0) wait_ = std::min(2 * wait_, kLongestWait);
        ++step_;
        good_ = 0;
    } else if (mean_s < kQuick_s && step_ > 0) {
        if (++good_ < wait_) return;
        --step_;
        good_ = 0;
    } else if (mean_s <= kSlow_s) {
        good_ = std::max(good_, 1);
    }
}

void QualitySteps::applyTo(scene::DrawList& list) const {
    if (step_ == 0) return;
    list.quality = scene::Quality::Low;
    if (step_ == 2) list.render_scale = kSmallerScale;
    if (step_ == kWorst) list.render_scale = kSmallestScale;
}

}  // namespace plumbline::model
