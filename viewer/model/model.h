#pragma once
// The viewer's whole state between frames, without any UI: what is open, where the clock stands,
// how the window is set up.

#include <memory>
#include <optional>
#include <string>

#include "viewer/model/actions.h"
#include "viewer/model/document.h"
#include "viewer/model/music.h"
#include "viewer/model/playback_clock.h"
#include "viewer/model/session.h"

namespace plumbline::model {

/// One sentence over the picture; leaves by itself unless it reports what is wrong.
struct Message {
    std::string text;
    bool wrong = false;
    double left_s = 0;
};

/// How long a message stays.
inline constexpr double kMessage_s = 6;

struct Model {
    std::shared_ptr<const Shown> shown;  ///< null until something has been opened
    Problems problems;                   ///< why the last wish could not be opened
    bool opening = false;
    double opening_s = 0;  ///< for how long
    std::string opening_name;
    bool start_panel = false;
    PlaybackClock clock;
    std::shared_ptr<const Music> music;  ///< null: none, or not read yet
    Session session;
    Message message;
    std::optional<double> mark_in_s;  ///< where a loop is to begin
    bool quit = false;
    bool full_screen = false;
};

/// Puts a newly opened thing in place: clock, views that it can be seen from, message.
void show(Model& model, OpenResult result);

/// Lets wall time pass: clock, messages, the timeline's window.
void advance(Model& model, double elapsed_s);

/// Applies one action; `Open` only notes the name, the app hands the wish to the Opener.
void apply(Model& model, const Action& action);

/// Some views need what a recording without a site does not have.
bool viewOffered(const Model& model, scene::View view);

/// Span of time the timeline shows until a person chooses another.
inline constexpr double kPreferredSpan_s = 132;

}  // namespace plumbline::model
