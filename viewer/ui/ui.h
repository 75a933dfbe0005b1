#pragma once
// The window's panels. Each is a free function: it reads the model, owns only its own state, draws
// through the canvas and pushes actions; nothing is changed here.

#include <string>

#include "viewer/model/handles.h"
#include "viewer/model/model.h"
#include "viewer/scene/caption.h"
#include "viewer/scene/draw_list.h"
#include "viewer/ui/canvas.h"
#include "viewer/ui/layout.h"

namespace plumbline::ui {

class WordSetter;

/// What the app has made of this moment: drawn beneath the panels.
struct PictureInfo {
    const scene::DrawList* list = nullptr;  ///< null: nothing open
    scene::ViewCaption caption;
    bool second = false;  ///< a second view is drawn...
    const scene::DrawList* second_list = nullptr;
    Rect second_rect;            ///< ...here
    std::string second_caption;  ///< "540 mm, follows"
    bool map = false;
    Rect map_rect;
    ImTextureID page = nullptr;    ///< Brief::picture
    WordSetter* setter = nullptr;  ///< for letters that the window's own font lacks
};

/// A figure as a small picture: screen-space ribbon, made once per path.
struct Ribbon {
    struct Quad {
        ImVec2 corner[4];  ///< units from the picture's centre
        bool canopy = true;
    };
    std::vector<Quad> quads;  ///< far ones first
    std::vector<ImVec2> lead_in;
    ImVec2 chevron[3];
};

/// When a seat hears what is flown; made anew for another seat.
struct HeardTimes {
    std::uint64_t revision = 0;
    Vec3 ear_S_m{0};
    std::vector<double> time_s;
};

/// What lives between frames and is nobody's document: hover, scroll, drags.
struct UiState {
    std::uint64_t revision = 0;  ///< of the shown path that `ribbons` belong to
    std::vector<Ribbon> ribbons;
    float sheet_scroll = 0;
    int followed_row = -1;
    bool scrubbing = false;
    bool was_playing = false;  ///< before the scrub began
    int edge = 0;              ///< dragged: 1 sheet's, 2 timeline's
    std::string hint;          ///< what lies under the pointer does this; empty: nothing to say
    bool wants_hand = false;   ///< pointer shape for this frame
    bool wants_resize_across = false;
    bool wants_resize_down = false;
    bool wants_text = false;
    bool number_drag = false;  ///< a number of the text is being dragged
    float drag_x = 0;          ///< where that began
    int drag_steps = 0;        ///< steps done since
    int dragged_row = -1;      ///< of the sheet, on its way to another place
    float row_drag_y = 0;      ///< where it was taken
    int handle = -1;           ///< of the picture, being dragged; as it was when it was taken
    model::Handle handle_taken;
    scene::Camera handle_camera;
    float handle_x = 0, handle_y = 0;
    float text_scroll = 0;  ///< of a file as a whole
    std::size_t followed_caret = 0;
    int list_first = 0;
    float open_top = 0, open_bottom = 0;           ///< of the figure that is open in the sheet
    float mending_scroll = 0, mending_height = 0;  ///< of the column of what is worth mending
    float cues_scroll = 0;
    int followed_cue = -1;               ///< row that the cues were scrolled to
    float trends_scroll = 0;             ///< of the season's plots
    float help_height = 0;               ///< of the sheet that the help takes
    float pressed_x = 0, pressed_y = 0;  ///< where the picture was pressed
    std::vector<Ribbon> shelf_ribbons;
    HeardTimes heard;
};

/// Everything a panel is given.
struct PanelInput {
    const model::Model& model;
    const Layout& layout;
    const PictureInfo& picture;
    const Canvas& canvas;
    model::Actions& actions;
};

/// One frame of the whole window. Between ImGui::NewFrame and ImGui::Render.
void drawUi(const model::Model& model, const Layout& layout, const PictureInfo& picture,
            UiState& state, Glyphs& glyphs, model::Actions& actions);

/// What is written into pictures and films.
struct BurntIn {
    bool cues = false;     ///< the narrator's cue, while it is due
    bool numbers = false;  ///< figure, time, height and the strip of the moment
};

/// One frame of that over the whole picture. Between ImGui::NewFrame and ImGui::Render.
void drawBurntIn(const model::Model& model, const scene::DrawList& list, const BurntIn& burnt,
                 float width_px, float height_px, Glyphs& glyphs, model::Actions& actions);

/// Sets all of the toolkit's own styles to ours, so that nothing of its defaults can show.
void applyStyle(const Theme& theme);

// The panels.
void drawSheet(const PanelInput& in, UiState& state);
void drawReviewColumn(const PanelInput& in, UiState& state);
void drawCueColumn(const PanelInput& in, UiState& state);
void drawBriefPage(const PanelInput& in, UiState& state);
void drawStart(const PanelInput& in, UiState& state);
void drawPictureMarks(const PanelInput& in, UiState& state);
void drawLabels(const PanelInput& in);
void drawStrip(const PanelInput& in);
void drawMapInset(const PanelInput& in, const Rect& rect);
void drawHandles(const PanelInput& in, UiState& state);
void drawLegend(const PanelInput& in, UiState& state);
void drawTimeline(const PanelInput& in, UiState& state);
void drawList(const PanelInput& in, UiState& state);
/// A file as a whole in the place of the script.
void drawFileText(const PanelInput& in, UiState& state, float right);
void drawMessages(const PanelInput& in, UiState& state);
/// The prompter in place of all panels.
void drawPrompter(const PanelInput& in, UiState& state);
void drawWalkWords(const PanelInput& in);
void drawKeyHelp(const PanelInput& in);
void drawHelpCard(const PanelInput& in, UiState& state);
void handleKeys(const model::Model& model, model::Actions& actions);

/// A place that can be clicked. Call in the order: small things first, what lies behind them later.
struct Press {
    bool hovered = false;
    bool held = false;
    bool began = false;
    bool clicked = false;  ///< let go over it
};
Press press(const char* id, const Rect& rect);

Ribbon makeRibbon(const path::Path& path, double start_s, double stop_s, double span_m);
void drawRibbon(const Canvas& canvas, const Ribbon& ribbon, float x, float y, float size = 1);

/// Words, with the part that is a quantity marked: "line up", "120 m".
struct Run {
    std::string words;
    bool quantity = false;
    bool comment = false;
    bool quoted = false;  ///< what is said or named, not flown
};
std::vector<Run> runsOf(const std::string& figure_text_line);

}  // namespace plumbline::ui
