#include "viewer/model/prompter_desk.h"

#include <utility>

#include "engine/brief/brief.h"
#include "engine/check/gates.h"
#include "engine/walk/track.h"
#include "viewer/model/beside_frames.h"
#include "viewer/model/model.h"
#include "viewer/model/shown_routine.h"

namespace plumbline::model {
namespace {

std::shared_ptr<const Prompt> makePrompt(const Shown& shown, double words_per_min,
                                         units::DisplayUnits units, bool windows,
                                         const std::atomic<bool>& stop) {
    const variant::Flown flown = flownOf(shown);
    brief::Wishes wishes;
    wishes.units = units;
    wishes.words_per_min = words_per_min;
    wishes.executor = halfTheCores();
    wishes.progress = [&stop](std::uint64_t) { return !stop; };
    if (!windows) wishes.flights = 1;
    const brief::Outline outline = brief::outlineOf(flown, units);
    auto prompt = std::make_shared<Prompt>(
        promptOf(brief::narrate(flown, outline, brief::timeCues(flown, wishes), wishes), outline));
    prompt->revision = shown.revision;
    prompt->windows = windows;
    prompt->title = shown.title;
    return prompt;
}

/// Sound of one channel as the player takes it.
std::shared_ptr<const Music> musicOf(const std::vector<std::int16_t>& samples) {
    auto music = std::make_shared<Music>();
    music->rate_hz = walk::kRate_hz;
    music->stereo.reserve(2 * samples.size());
    for (const std::int16_t s : samples) music->stereo.insert(music->stereo.end(), 2, s);
    return music;
}

/// @param spoken  with the system's voice where there is one, which takes a while
std::shared_ptr<const WalkSound> makeWalk(const Shown& shown, double lead_s,
                                          units::DisplayUnits units, bool spoken,
                                          const std::atomic<bool>& stop) {
    const load::Workspace& workspace = *shown.workspace;
    const path::Path path = shown.solution.samplePath(kSampleRate_hz);
    walk::CallWishes wishes;
    wishes.lead_s = lead_s;
    wishes.units = units;
    auto sound = std::make_shared<WalkSound>();
    sound->revision = shown.revision;
    sound->lead_s = lead_s;
    sound->calls = walk::callsOf(
        workspace.routine, path,
        check::gatesOf(workspace.aircraft, workspace.site, workspace.pilot, shown.solution, path),
        wishes);
    walk::Voice voice;
    if (spoken) {
        const walk::Voice system = walk::systemVoice("en", wishes.words_a_minute);
        sound->spoken = system("ready").has_value();
        if (sound->spoken)
            voice = [system, &stop](const std::string& words) {
                return stop ? std::optional<std::vector<float>>() : system(words);
            };
    }
    sound->track = musicOf(walk::trackOf(sound->calls, path.duration_s(), voice));
    return sound;
}

}  // namespace

Prompt promptOf(const brief::Narration& narration, const brief::Outline& outline) {
    Prompt prompt;
    prompt.title = outline.title;
    prompt.duration_s = outline.path.duration_s();
    for (const brief::Act& act : outline.acts)
        prompt.figures.push_back({act.name, act.start_s, act.stop_s});
    for (const brief::Cue& cue : narration.cues)
        prompt.cues.push_back(
            {cue.act, cue.time_s, cue.early_s, cue.late_s, cue.words, cue.script, cue.beats});
    return prompt;
}

PrompterDesk::~PrompterDesk() { stop_ = true; }

void PrompterDesk::frame(Model& model) {
    if (work_.done()) {
        std::shared_ptr<const Prompt> made = work_.take();
        Prompter& prompter = model.prompter;
        // Under a show that runs only the windows come in.
        const bool same = prompter.prompt && prompter.prompt->revision == made->revision;
        if (model.shown && made->revision == model.shown->revision && (!prompter.live || same))
            prompter.prompt = std::move(made);
    }
    const bool wanted =
        model.prompter.on && model.shown && model.shown->workspace && !model.shown->draft;
    if (!wanted || work_.busy()) return;
    const bool anew = asked_ != model.shown->revision || !model.prompter.prompt;
    if (anew ? model.prompter.live : with_windows_) return;
    asked_ = model.shown->revision;
    with_windows_ = !anew;
    work_ = system::Later<std::shared_ptr<const Prompt>>::begin(
        [this, shown = model.shown, windows = with_windows_, pace = model.session.words_per_min,
         units = displayUnits(model.session.units)] {
            return makePrompt(*shown, pace, units, windows, stop_);
        });
}

void PrompterDesk::finish(Model& model) {
    for (int i = 0; i < 3; ++i) {
        frame(model);
        work_.wait();
    }
    frame(model);
}

WalkDesk::~WalkDesk() { stop_ = true; }

void WalkDesk::frame(Model& model) {
    if (work_.done()) {
        std::shared_ptr<const WalkSound> made = work_.take();
        if (model.shown && made->revision == model.shown->revision)
            model.walk.sound = std::move(made);
    }
    const bool wanted =
        model.walk.on && model.shown && model.shown->workspace && !model.shown->draft;
    if (!wanted || work_.busy()) return;
    const double lead_s = model.session.walk_lead_s;
    const bool anew = asked_ != model.shown->revision || asked_lead_s_ != lead_s;
    if (!anew && spoken_) return;
    // Tones at once, the voice when it has spoken all.
    spoken_ = !anew;
    asked_ = model.shown->revision;
    asked_lead_s_ = lead_s;
    work_ = system::Later<std::shared_ptr<const WalkSound>>::begin(
        [this, shown = model.shown, lead_s, spoken = spoken_,
         units = displayUnits(model.session.units)] {
            return makeWalk(*shown, lead_s, units, spoken, stop_);
        });
}

}  // namespace plumbline::model
