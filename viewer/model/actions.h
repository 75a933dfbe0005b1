#pragma once
// What a person can do, as data. Panels push actions; the app applies them after all panels are
// drawn, in one place (apply.h).

#include <filesystem>
#include <string>
#include <vector>

namespace plumbline::model {

enum class ActionKind {
    // Time.
    TogglePlay,
    Seek,        ///< value: seconds
    SeekBy,      ///< value: seconds
    StepFrames,  ///< value: frames of 1/25 s, negative: back
    ToStart,
    NextFigure,
    PreviousFigure,
    GoToFigure,  ///< index: outline row
    NextFinding,
    PreviousFinding,
    ToggleMusic,
    SetSpeed,    ///< index into kSpeeds
    SpeedBy,     ///< index: steps
    ToggleLoop,  ///< loops the figure flown now
    MarkIn,      ///< a loop begins here
    MarkOut,     ///< and ends here
    // Views.
    SetView,  ///< index: scene::View
    // index 1: of the second view
    TurnView,  ///< x, y: pixels dragged, scaled to 1 per 100 px
    PanView,   ///< x, y: as TurnView
    ZoomView,  ///< value: notches, positive nearer
    LookTo,    ///< index: Look; in the cockpit
    ResetView,
    CycleQuantity,
    ToggleGrey,     ///< maps by lightness alone
    CycleSecond,    ///< second view: inset, beside, none
    SetSecondView,  ///< index: scene::View
    ToggleFollow,
    ToggleSighting,
    ToggleThreads,  ///< more height threads
    // Timeline.
    ZoomLanes,  ///< value: factor of the span, x: seconds that stay in place
    PanLanes,   ///< value: seconds
    // Window.
    ToggleTheme,
    CycleUnits,
    SetScale,  ///< value
    ScaleBy,   ///< index: steps of an eighth
    ToggleSheet,
    ToggleTimeline,
    SetSheetWidth,      ///< value at scale 1; 0: by the window
    SetTimelineHeight,  ///< value at scale 1; 0: by the window
    TogglePictureOnly,
    ToggleKeyHelp,
    ToggleFullScreen,
    CloseStart,
    DismissMessage,
    Open,  ///< files
    Quit
};

/// Where a pilot looks most.
enum class Look { Ahead, Left, Right, Up };

struct HeadTurn {
    double right_rad = 0;
    double up_rad = 0;
};
/// chosen: the wings fully abeam and a little down to their tips; up as far as a neck goes.
HeadTurn headTurn(Look look);

struct Action {
    ActionKind kind = ActionKind::TogglePlay;
    double value = 0;
    int index = 0;
    double x = 0;
    double y = 0;
    std::vector<std::filesystem::path> files;
};

/// The actions of one frame, in the order they were asked for.
class Actions {
public:
    void push(ActionKind kind) { push(kind, 0.0); }
    void push(ActionKind kind, double value) {
        Action action;
        action.kind = kind;
        action.value = value;
        list_.push_back(std::move(action));
    }
    void pushIndex(ActionKind kind, int index) {
        Action action;
        action.kind = kind;
        action.index = index;
        list_.push_back(std::move(action));
    }
    void push(Action action) { list_.push_back(std::move(action)); }

    const std::vector<Action>& list() const { return list_; }
    void clear() { list_.clear(); }

private:
    std::vector<Action> list_;
};

}  // namespace plumbline::model
