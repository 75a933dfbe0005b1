#pragma once
// The prompter as it stands: rehearsed with the replay's clock, or live on a clock of its own.

#include <memory>
#include <vector>

#include "viewer/model/prompter.h"

namespace plumbline::model {

struct Action;
struct ActionEntry;
struct Model;

/// What a person does with the prompter; index of an ActionKind::Prompter.
enum class PrompterDo {
    OnOff,
    Live,     ///< the show's clock runs from the moment shown on
    EndLive,  ///< back to rehearsing
    Now,      ///< see Retiming
    NextCue,  ///< live: it happens now; else the replay goes there
    CueBefore,
    LeaveOut,
    Again,
    TakeBack,  ///< the last re-timing
    Hold,      ///< the show's clock stands, or goes on
    Window,    ///< the text in a window of its own
    Larger,
    Smaller,
    Faster,  ///< the narrator's pace
    Slower,
    Count
};

struct Prompter {
    bool on = false;
    std::shared_ptr<const Prompt> prompt;  ///< null: not made yet
    bool window = false;                   ///< the text in a window of its own as well
    bool live = false, held = false;
    double live_from_s = 0;  ///< the show's clock...
    double wall_from_s = 0;  ///< ...when the wall's stood here
    std::vector<Retiming> retimings;

    /// The show's clock. @param wall_s  see Model::wall_s
    double live_s(double wall_s) const {
        return held ? live_from_s : live_from_s + wall_s - wall_from_s;
    }
};

/// How large the words are beside those of the design.
inline constexpr double kSmallestPrompt = 0.6, kLargestPrompt = 2;

/// The time that the prompter's words are at: the show's clock or the replay's.
double promptTime_s(const Model& model);
/// Everything to come as it is known now.
Running promptRunning(const Model& model);

bool prompterOffers(const Model& model, PrompterDo what);
/// What else can be done while the prompter is open: it has the keyboard for itself.
bool offeredBesidePrompter(const Model& model, const ActionEntry& entry);
void applyToPrompter(Model& model, const Action& action);
/// Live: the picture follows the show.
void advancePrompter(Model& model);

}  // namespace plumbline::model
