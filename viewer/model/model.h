#pragma once
// The viewer's whole state between frames, without any UI: what is open, where the clock stands,
// how the window is set up.

#include <memory>
#include <optional>
#include <string>

#include "engine/season/subject.h"
#include "viewer/model/actions.h"
#include "viewer/model/brief_view.h"
#include "viewer/model/document.h"
#include "viewer/model/edit_effect.h"
#include "viewer/model/editor.h"
#include "viewer/model/list.h"
#include "viewer/model/live_solver.h"
#include "viewer/model/margins_desk.h"
#include "viewer/model/music.h"
#include "viewer/model/playback_clock.h"
#include "viewer/model/prompter_state.h"
#include "viewer/model/session.h"
#include "viewer/model/trends_desk.h"
#include "viewer/model/walk_state.h"

namespace plumbline::model {

/// One sentence over the picture; leaves by itself unless it reports what is wrong.
struct Message {
    std::string text;
    bool wrong = false;
    double left_s = 0;
};

/// How long a message stays.
inline constexpr double kMessage_s = 6;

/// Something only the person can decide; answered by a click or its key.
struct Question {
    std::string text;
    struct Choice {
        std::string words;
        Action action;
    };
    std::vector<Choice> choices;  ///< empty: nothing is asked
};

/// What was said of moments of what is shown.
struct Remarks {
    season::Subject about;                                      ///< no key: of nothing
    std::vector<season::Remark> list;                           ///< by time
    std::shared_ptr<const std::vector<scene::PathNote>> notes;  ///< on the path; null: none
    int written = -1;  ///< the one whose words stand in the list; -1: a new one
};

/// A row of the sheet: a figure as it stands in the text, with what is known of its flight.
struct SheetRow {
    OutlineRow figure;
    int block = -1;    ///< of figureBlocks(); -1: not in the text (a recording, a substitute)
    int outline = -1;  ///< of Shown::outline; -1: not flown
};

struct Model {
    std::shared_ptr<const Shown> shown;  ///< null until something has been opened
    Problems problems;                   ///< why the last wish could not be opened
    bool opening = false;
    double opening_s = 0;  ///< for how long
    std::string opening_name;
    OpenProgress opening_progress;
    bool start_panel = false;
    PlaybackClock clock;
    std::shared_ptr<const Music> music;  ///< null: none, or not read yet
    Session session;
    Message message;
    std::optional<double> mark_in_s;  ///< where a loop is to begin
    bool quit = false;
    Editor editor;
    std::vector<SheetRow> rows;
    Question question;
    List list;
    std::shared_ptr<const std::vector<ShelfFigure>> shelf;  ///< null until flown
    variant::Wish variant;                                  ///< what is flown of the routine
    load::Overrides overrides;                              ///< and where, and in what weather
    Remarks remarks;
    std::shared_ptr<const Shown> flight;  ///< reviewed last; null: none
    Margins margins;
    Trends trends;
    Brief brief;
    EditEffect effect;   ///< of what has changed since it was saved
    std::string copied;  ///< for the clipboard, taken by the app
    bool full_screen = false;
    double wall_s = 0;  ///< of the wall clock since the program began
    Prompter prompter;
    Walk walk;
};

/// Puts a newly opened thing in place: clock, views that it can be seen from, message.
void show(Model& model, OpenResult result);

/// Puts a newly flown text in place of the path before: the moment stays in its figure.
void showLive(Model& model, LiveResult result);

/// What is open, by its name; a text that was never flown by that of its file.
std::string titleOf(const Model& model);

/// The figure that the moment lies in, or is to go to, and how long after its start.
void lookAt(const Model& model, std::string& figure, double& in_it_s);

/// The rows of the sheet, anew after text or path have changed.
void refreshRows(Model& model);
/// The row of the sheet that is open: the figure being written, else the one flown now; -1: none.
int openRow(const Model& model);

/// Lets wall time pass: clock, messages, the timeline's window.
void advance(Model& model, double elapsed_s);

/// Applies one action; `Open` only notes the name, the app hands the wish to the Opener.
void apply(Model& model, const Action& action);

/// Span of time the timeline shows until a person chooses another.
inline constexpr double kPreferredSpan_s = 132;

}  // namespace plumbline::model
