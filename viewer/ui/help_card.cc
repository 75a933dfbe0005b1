// Help in the sheet: what lies under the pointer, or the line that is being written.

#include <algorithm>

#include "viewer/ui/help_topics.h"
#include "viewer/ui/picture_parts.h"
#include "viewer/ui/sheet_parts.h"
#include "viewer/ui/timeline_lanes.h"

namespace plumbline::ui {
namespace {

HelpText helpInSheet(const PanelInput& in, float y) {
    if (in.model.start_panel) return helpOn(HelpTopic::Start);
    const Canvas& c = in.canvas;
    if (y < c.px(kHeaderHeight)) return helpOn(HelpTopic::Header);
    return helpOn(y > in.layout.sheet.bottom() - c.px(kFooterHeight) ? HelpTopic::Footer
                                                                     : HelpTopic::Rows);
}

HelpText helpInTimeline(const PanelInput& in, float y) {
    const Lanes lanes = timelineLanes(in);
    if (y < lanes.ruler.y) return helpOn(HelpTopic::Transport);
    if (y < lanes.figures.y) return helpOn(HelpTopic::Ruler);
    if (y < lanes.figures.bottom() + in.canvas.px(8)) return helpOn(HelpTopic::Figures);
    for (int i = 0; i < model::kLaneCount; ++i) {
        const auto lane = static_cast<model::Lane>(i);
        const Rect& rect = lanes.of(lane);
        if (rect.height > 0 && y >= rect.y && y < rect.bottom()) return helpOn(lane);
    }
    return helpOn(HelpTopic::Ruler);
}

HelpText helpInPicture(const PanelInput& in, const ImVec2& at) {
    const Layout& layout = in.layout;
    if (layout.strip.contains(at.x, at.y)) return helpOn(HelpTopic::Strip);
    if (in.picture.map && in.picture.map_rect.contains(at.x, at.y))
        return helpOn(HelpTopic::MapInset);
    if (in.picture.second && in.picture.second_rect.contains(at.x, at.y))
        return helpOn(HelpTopic::SecondView);
    if (in.model.session.marks.band && legendRect(in).contains(at.x, at.y))
        return helpOn(HelpTopic::Legend);
    if (sightingCardRect(in).contains(at.x, at.y)) return helpOn(HelpTopic::SightingCard);
    const Canvas& c = in.canvas;
    const Rect chooser{layout.picture.x, 0, c.px(460), c.px(92)};
    if (chooser.contains(at.x, at.y)) return helpOn(HelpTopic::Chooser);
    return helpOn(in.model.session.view.view);
}

HelpText helpNow(const PanelInput& in, const UiState& state) {
    const model::Editor& editor = in.model.editor;
    const ImVec2 at = ImGui::GetIO().MousePos;
    const bool in_sheet = in.layout.sheet.contains(at.x, at.y);
    if (editor.writing && editor.active == 0 && !editor.script) {
        const std::string& text = editor.text();
        const std::size_t caret = std::min(editor.caret, text.size());
        const std::size_t before = caret == 0 ? std::string::npos : text.rfind('\n', caret - 1);
        const std::size_t begin = before == std::string::npos ? 0 : before + 1;
        const std::size_t end = std::min(text.find('\n', caret), text.size());
        if (const auto help = helpOnLine(text.substr(begin, end - begin))) return *help;
    }
    if (!in.model.shown) return helpOn(HelpTopic::General);
    if (in.model.prompter.on) return helpOn(HelpTopic::Prompter);
    if (in.model.walk.on && in.layout.picture.contains(at.x, at.y)) return helpOn(HelpTopic::Walk);
    if (in.layout.brief.contains(at.x, at.y)) return helpOn(HelpTopic::BriefPage);
    if (in_sheet && in.layout.brief.width > 0) {
        const bool foot = at.y > in.layout.sheet.bottom() - in.canvas.px(kFooterHeight);
        return helpOn(foot ? HelpTopic::CuePace : HelpTopic::Cues);
    }
    if (in_sheet) {
        const bool open = at.y >= state.open_top && at.y < state.open_bottom;
        return open ? helpOn(HelpTopic::OpenFigure) : helpInSheet(in, at.y);
    }
    if (in.layout.timeline.contains(at.x, at.y)) return helpInTimeline(in, at.y);
    Rect pictures = in.layout.picture;
    pictures.width += in.layout.second.width;
    if (pictures.contains(at.x, at.y)) return helpInPicture(in, at);
    return helpOn(HelpTopic::General);
}

}  // namespace

void drawHelpCard(const PanelInput& in, UiState& state) {
    state.help_height = 0;
    if (!in.model.session.help || in.model.session.picture_only) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& sheet = in.layout.sheet;
    // The folded sheet has no room: beside it then, behind the legend.
    const bool in_sheet = !in.layout.spine && !in.model.start_panel && sheet.width > 0;
    const float width = in_sheet ? sheet.width - 1 : c.px(300);
    const HelpText help = helpNow(in, state);
    const float margin = c.px(16), text_width = width - 2 * margin;
    // As high as the longest, so that nothing jumps while the pointer wanders.
    const float least = c.px(132);
    const float height = std::max(
        least, c.px(38) + c.paragraph(0, 0, text_width, kNote, 0, help.words, false) + c.px(10));
    const float x = in_sheet ? sheet.x : in.layout.picture.x + c.px(in.model.prompter.on ? 20 : 96);
    const float bottom =
        in_sheet ? sheet.bottom() - c.px(kFooterHeight) : in.layout.strip.y - c.px(12);
    const Rect box{x, bottom - height, width, height};
    if (press("help", box).clicked) in.actions.push(model::ActionKind::ToggleHelp);
    c.fill(box, in_sheet ? theme.raised : theme.veil);
    c.across(box.x, box.right(), box.y, theme.line);
    c.text(box.x + margin, box.y + c.px(10), kStrong, theme.ink, help.title);
    c.textRight(box.right() - margin, box.y + c.px(11), kNote, theme.ink3, "F3");
    c.paragraph(box.x + margin, box.y + c.px(34), text_width, kNote, theme.ink2, help.words);
    if (in_sheet) state.help_height = height;
}

}  // namespace plumbline::ui
