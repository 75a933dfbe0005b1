#pragma once
// Makes what the prompter and the walk-through show of a routine, beside the frames.

#include <atomic>
#include <memory>

#include "engine/brief/narration.h"
#include "engine/brief/outline.h"
#include "engine/system/worker.h"
#include "viewer/model/document.h"
#include "viewer/model/prompter.h"
#include "viewer/model/walk_state.h"

namespace plumbline::model {

struct Model;

/// The narrator's cues as the prompter has them.
Prompt promptOf(const brief::Narration& narration, const brief::Outline& outline);

/// Cues at once, their windows seconds later; anew when the routine changes, but not under a show
/// that runs.
class PrompterDesk {
public:
    ~PrompterDesk();
    /// Each frame: asks for what is missing, takes what is there.
    void frame(Model& model);
    /// Waits for the cues and their windows (pictures).
    void finish(Model& model);

private:
    std::atomic<bool> stop_{false};
    std::uint64_t asked_ = 0;  ///< revision
    bool with_windows_ = false;
    system::Later<std::shared_ptr<const Prompt>> work_;  ///< last: waited for first
};

/// The calls and their sound: tones at once where the system has no voice.
class WalkDesk {
public:
    ~WalkDesk();
    void frame(Model& model);

private:
    std::atomic<bool> stop_{false};
    std::uint64_t asked_ = 0;
    double asked_lead_s_ = 0;
    bool spoken_ = false;  ///< what was asked for last
    system::Later<std::shared_ptr<const WalkSound>> work_;
};

}  // namespace plumbline::model
