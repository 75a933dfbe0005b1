#pragma once
// How much the picture may cost: steps down while frames come too slowly, and up again when there
// is room.

#include "viewer/scene/draw_list.h"

namespace plumbline::model {

class QualitySteps {
public:
    /// A frame of a replay that runs has taken so long.
    void frameTook(double elapsed_s);

    /// 0 the best; 1 fewer and simpler things; 2 those at three quarters of the resolution;
    /// 3 at half of it.
    int step() const { return step_; }
    void applyTo(scene::DrawList& list) const;

private:
    int step_ = 0;
    int frames_ = 0;
    double sum_s_ = 0;
    int wait_ = kFirstWait;  ///< windows of good frames until a better step is tried
    int good_ = 0;
    static constexpr int kFirstWait = 4;
};

}  // namespace plumbline::model
