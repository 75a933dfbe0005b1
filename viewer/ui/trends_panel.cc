// How the season goes: a figure, a measure of it, and a plot for each of its elements.

#include <algorithm>
#include <cmath>

#include "engine/season/trend_plot.h"
#include "viewer/ui/fingers.h"
#include "viewer/ui/sheet_parts.h"
#include "viewer/ui/trends_parts.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

constexpr float kList = 252;  ///< width of each list of rows
constexpr float kRow = 30;
constexpr float kLeastPlot = 168, kMostPlot = 380;  ///< heights
constexpr float kWidePlot = 420;                    ///< two stand beside each other from there

void push(const PanelInput& in, int figure, int measure) {
    model::Action action;
    action.kind = ActionKind::ChooseTrend;
    action.index = figure;
    action.value = measure;
    in.actions.push(std::move(action));
}

/// Rows of which one is chosen, moved so that it is in sight.
/// @return the row that was clicked; -1: none
template <class Rows, class Detail>
int drawRows(const PanelInput& in, UiState& state, const char* id, const Rect& region,
             const Rows& rows, int chosen, Detail detail) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float height = c.px(kRow);
    const int room = std::max(1, static_cast<int>(region.height / height));
    const int count = static_cast<int>(rows.size());
    const int first = std::clamp(chosen - room / 2, 0, std::max(0, count - room));
    int clicked = -1;
    for (int i = first; i < std::min(count, first + room); ++i) {
        const Rect row{region.x, region.y + height * static_cast<float>(i - first), region.width,
                       height};
        ImGui::PushID(i);
        const Press pressed = press(id, row);
        ImGui::PopID();
        if (pressed.hovered) state.wants_hand = true;
        if (pressed.clicked) clicked = i;
        if (i == chosen || pressed.hovered) c.fill(row, theme.raised);
        if (i == chosen) c.fill(Rect{row.x, row.y, c.px(3), row.height}, theme.fill);
        const auto& entry = rows[static_cast<std::size_t>(i)];
        const float begins =
            c.textRight(row.right() - c.px(12), row.y + c.px(7), kNote, theme.ink2, detail(entry));
        c.textClipped(row.x + c.px(16), row.y + c.px(6), begins - c.px(8),
                      i == chosen ? kStrong : kName, theme.ink, capitalised(entry.name));
    }
    return clicked;
}

/// Why there is nothing to choose from.
std::string emptyWords(const model::Trends& trends) {
    if (trends.reading || (!trends.all && trends.problem.empty()))
        return "The season\u2019s book is being read";
    if (!trends.problem.empty()) return "The season\u2019s book cannot be read: " + trends.problem;
    return "The season\u2019s book has no figure that was flown twice. A sortie goes into it with "
           "plumbline season add.";
}

void drawPlots(const PanelInput& in, UiState& state, const model::TrendChoice& choice,
               const Rect& region) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const auto count = static_cast<int>(choice.plots.size());
    const int columns = count > 1 && region.width > 2 * c.px(kWidePlot) ? 2 : 1;
    const int rows = (count + columns - 1) / columns;
    const float gap = c.px(24);
    const float width =
        (region.width - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
    const float height = std::clamp(region.height / static_cast<float>(std::max(rows, 1)),
                                    c.px(kLeastPlot), c.px(kMostPlot));
    const float all = height * static_cast<float>(rows);
    targets().scrolled.push_back(region);
    const bool over = ImGui::IsMouseHoveringRect(ImVec2(region.x, region.y),
                                                 ImVec2(region.right(), region.bottom()), false);
    if (over) state.trends_scroll -= ImGui::GetIO().MouseWheel * c.px(48);
    state.trends_scroll =
        std::clamp(state.trends_scroll, 0.0F, std::max(0.0F, all - region.height));
    const Clip clip(c, region);
    for (int i = 0; i < count; ++i) {
        const Rect rect{
            std::round(region.x + static_cast<float>(i % columns) * (width + gap)),
            std::round(region.y - state.trends_scroll + static_cast<float>(i / columns) * height),
            width, height - c.px(12)};
        if (rect.bottom() < region.y || rect.y > region.bottom()) continue;
        drawTrendPlot(in, *choice.plots[static_cast<std::size_t>(i)], rect);
    }
    if (all > region.height) {
        const float length = region.height * region.height / all;
        const float at = region.y + state.trends_scroll / all * region.height;
        c.fill(Rect{region.right() - c.px(4), at, c.px(3), length}, theme.line);
    }
}

}  // namespace

void drawTrends(const PanelInput& in, UiState& state) {
    const model::Trends& trends = in.model.trends;
    if (!trends.open) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& window = in.layout.window;
    c.fill(window, theme.surface);
    const float head = c.px(kHeaderHeight);
    const model::TrendChoice choice = model::trendChoice(trends);

    const std::string back = "Back (Esc)";
    const float back_width = c.textWidth(kBody, back);
    const Rect button{window.right() - c.px(28) - back_width, c.px(14), back_width + c.px(16),
                      c.px(28)};
    const Press pressed = press("back from trends", button);
    if (pressed.hovered) {
        state.wants_hand = true;
        c.fill(button, pressed.held ? theme.line : theme.raised);
    }
    if (pressed.clicked) in.actions.push(ActionKind::ToggleTrends);
    c.text(button.x + c.px(8), button.y + c.px(5), kBody, theme.ink2, back);
    c.text(c.px(20), c.px(18), kHead, theme.ink, "How the season goes");
    c.across(0, window.right(), head, theme.line);

    const float top = head + c.px(44), foot = window.bottom() - c.px(64);
    if (choice.figures.empty()) {
        c.paragraph(c.px(20), head + c.px(20), c.px(560), kBody, theme.ink2, emptyWords(trends));
    } else {
        const Rect figures{0, top, c.px(kList), foot - top};
        const Rect measures{c.px(kList), top, c.px(kList), foot - top};
        c.text(c.px(16), head + c.px(16), kNote, theme.ink3, "Figure");
        c.text(measures.x + c.px(16), head + c.px(16), kNote, theme.ink3, "Measured");
        const int figure = drawRows(
            in, state, "trend figure", figures, choice.figures, choice.figure,
            [](const model::TrendChoice::Figure& f) { return std::to_string(f.times) + "\u00D7"; });
        const int measure =
            drawRows(in, state, "trend measure", measures, choice.measures, choice.measure,
                     [](const model::TrendChoice::Measure& m) -> std::string {
                         const bool said = m.course != season::Course::TooFew &&
                                           m.course != season::Course::NoChange;
                         return said ? season::courseWords(m.course) : "";
                     });
        if (figure >= 0) push(in, figure, 0);
        if (measure >= 0) push(in, choice.figure, measure);
        c.down(measures.x, head, window.bottom(), theme.line);
        c.down(measures.right(), head, window.bottom(), theme.line);
        drawPlots(in, state, choice,
                  Rect{measures.right() + c.px(24), head + c.px(20),
                       window.right() - measures.right() - c.px(48), foot - head - c.px(20)});
        c.paragraph(measures.right() + c.px(24), foot + c.px(8),
                    window.right() - measures.right() - c.px(48), kSmall, theme.ink3,
                    "Disc: flown, its bar holds 95 of 100 errors that the recording tells of. "
                    "Dashes: planned. A line is drawn, and better or worse said, from five times "
                    "on where the slope is beyond twice its own error.");
        c.text(c.px(16), foot + c.px(20), kSmall, theme.ink3,
               "\u2191 \u2193 figure, \u2190 \u2192 measure");
    }
    // Everything behind waits until it is closed.
    press("behind trends", window);
}

}  // namespace plumbline::ui
