#pragma once
// The walk-through: the routine called out in real time, to be walked on the ground with the hands.

#include <memory>

#include "engine/walk/calls.h"
#include "viewer/model/music.h"

namespace plumbline::model {

struct Action;
struct Model;

/// index of an ActionKind::WalkThrough.
enum class WalkDo { OnOff, LeadLonger, LeadShorter };

/// The calls of a routine and how they sound.
struct WalkSound {
    std::uint64_t revision = 0;  ///< of the shown routine that they are of
    double lead_s = 0;
    walk::Calls calls;
    std::shared_ptr<const Music> track;  ///< begins walk::kRunIn_s before the show
    bool spoken = false;                 ///< else tones
};

struct Walk {
    bool on = false;
    double run_in_s = 0;                     ///< until the show begins; the clock waits for it
    std::shared_ptr<const WalkSound> sound;  ///< null: being made
};

/// chosen: shorter leaves no time to move the hands, longer runs into the call before
inline constexpr double kShortestLead_s = 0.5, kLongestLead_s = 5, kLeadStep_s = 0.5;

/// The call that is heard now or was last; -1: none yet. @param time_s  before 0 in the run-in
int callAt(const walk::Calls& calls, double time_s);

/// The moment walked: before 0 in the run-in.
double walkTime_s(const Model& model);

void applyToWalk(Model& model, const Action& action);
/// Lets wall time pass: the run-in, then the clock in real time.
void advanceWalk(Model& model, double elapsed_s);

}  // namespace plumbline::model
