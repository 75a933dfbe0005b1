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
    SitOrStand,  ///< the crowd's seat
    ToggleSighting,
    ToggleThreads,  ///< more height threads
    ToggleGates,    ///< least heights at the tops
    ToggleReach,    ///< ground in gliding reach
    // The routine flown imperfectly.
    ToggleMargins,
    LookAtFlight,  ///< value: its number; beside the plan
    // A flight and its plan.
    ToggleReview,   ///< the flight over its plan, or the plan with the flight beside it
    ToggleByTime,   ///< the plan in step by figure, or by time
    ToggleMending,  ///< folds or opens what is worth mending
    WriteRemark,    ///< index: of the remarks, -1: a new one at the moment shown
    KeepRemark,     ///< index: as WriteRemark; value: seconds; x 1: the coach's; text: its words
    DeleteRemark,   ///< index: of the remarks
    WriteDebrief,   ///< two pages and the tables, beside the logs
    // The brief: its pages beside the picture, the narrator's words beside their cues.
    ToggleBrief,
    ShowSheet,    ///< index: brief::SheetKind
    TurnPage,     ///< index: pages
    TogglePaper,  ///< A4 and A5, or letter and half-letter
    ZoomPage,     ///< value: notches, positive nearer; x, y: what stays, 0..1 of the room
    PanPage,      ///< x, y: shares of the room dragged
    WholePage,
    PaceBy,       ///< index: steps of the narrator's words a minute
    WriteScript,  ///< index: row of the sheet; -1: the one open
    WriteBrief,   ///< all pages, beside the routine
    AddFont,      ///< files: for scripts that the built-in font lacks
    ForgetFonts,
    // Timeline.
    ZoomLanes,  ///< value: factor of the span, x: seconds that stay in place
    PanLanes,   ///< value: seconds
    TurnLane,   ///< index: Lane; shows it, or leaves it out
    ResetLanes,
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
    ToggleTrends,  ///< how the season goes
    ChooseTrend,   ///< index: its figure; value: its measure
    ToggleHelp,    ///< on what lies under the pointer
    ToggleFullScreen,
    CloseStart,
    DismissMessage,
    Open,  ///< files
    Quit,
    // Writing. Files: 0 the routine, 1 aircraft, 2 site, 3 weather.
    WriteFigure,  ///< index: row of the sheet
    WriteFile,    ///< index: which file, as a whole
    StopWriting,
    TypeText,    ///< text: put in place of what is selected
    TakeOut,     ///< index -1: before the caret, 1: behind it
    MoveCaret,   ///< index: CaretMove; x 1: selects on the way
    PlaceCaret,  ///< value: byte; x 1: selects up to there
    StepNumber,  ///< index: steps; x 1: a tenth of a step; the number at the caret
    SetNumber,   ///< value: byte it stands at; text: the new digits
    TakeOffer,   ///< index: of the words offered
    Copy,
    Cut,
    Paste,
    Undo,
    Redo,
    ToggleCompare,  ///< the path as saved beside the new one
    AddFigure,      ///< text: its name on the shelf, empty: a line of one's own
    DoubleFigure,   ///< index: row; -1: the one open
    RemoveFigure,   ///< index: as DoubleFigure
    MirrorFigure,   ///< index: as DoubleFigure
    MoveFigure,     ///< index: row; value: the row it comes to
    MoveFigureBy,   ///< index: rows down; the one open
    // Files and variants.
    NewRoutine,
    Save,
    SaveAs,      ///< files: one
    Export,      ///< files: one; its ending tells the format
    OpenAnyway,  ///< files: what was asked for; changes are put aside
    QuitAnyway,
    TakeTheirs,  ///< what is on the disk in place of mine
    KeepMine,
    FlyAs,  ///< text: show; value: ceiling m (0: none); x: floor m (0: none); index 1: mirrored
    ToggleMirror,
    // Before and at the show.
    Prompter,     ///< index: PrompterDo
    WalkThrough,  ///< index: WalkDo
    // A list to choose from, with words typed to narrow it.
    ShowList,  ///< index: ListKind
    ListType,  ///< text: added to the words
    ListTakeOut,
    ListMove,  ///< index: rows
    ListTake,  ///< index: row; -1: the chosen one
    CloseList,
    Count
};

enum class CaretMove {
    Left,
    Right,
    Up,
    Down,
    LineStart,
    LineEnd,
    WordLeft,
    WordRight,
    Start,
    End,
    All  ///< selects the whole
};

/// What a list offers.
enum class ListKind {
    None,
    Anything,
    Shelf,
    OpenFile,
    SaveFile,
    Shows,
    Lanes,
    Worst,
    ExportFile,
    FontFile,
    Remark,
    Remarks
};

/// Where a pilot looks most.
enum class Look { Ahead, Left, Right, Up, Panel };

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
    std::string text;
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
    void pushText(ActionKind kind, std::string text) {
        Action action;
        action.kind = kind;
        action.text = std::move(text);
        list_.push_back(std::move(action));
    }
    void push(Action action) { list_.push_back(std::move(action)); }

    const std::vector<Action>& list() const { return list_; }
    void clear() { list_.clear(); }

private:
    std::vector<Action> list_;
};

}  // namespace plumbline::model
