// The list over the picture: words typed narrow it, Enter takes the chosen row.

#include <algorithm>

#include "viewer/ui/fingers.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

/// Pictures of the shelf's figures, made once.
void refreshShelf(const model::Model& model, UiState& state) {
    if (!model.shelf || state.shelf_ribbons.size() == model.shelf->size()) return;
    constexpr double kSpan_m = 8;  // chosen: the demo's aircraft
    state.shelf_ribbons.clear();
    for (const model::ShelfFigure& figure : *model.shelf) {
        state.shelf_ribbons.push_back(
            makeRibbon(figure.path, 0, figure.path.duration_s(), kSpan_m));
    }
}

}  // namespace

void drawList(const PanelInput& in, UiState& state) {
    const model::List& list = in.model.list;
    if (list.kind == model::ListKind::None) return;
    refreshShelf(in.model, state);
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const std::vector<model::ListRow> rows = model::listRows(in.model);
    const bool pictures = list.kind == model::ListKind::Shelf;
    const float row_height = c.px(pictures ? 56 : 34);
    const Rect& window = in.layout.window;
    const float width = std::min(c.px(620), window.width - c.px(48));
    const Rect box{std::round((window.width - width) / 2), c.px(64), width,
                   std::min(window.height - c.px(128), c.px(600))};
    const float head = c.px(84);
    const auto room = static_cast<int>((box.height - head) / row_height);
    const int count = static_cast<int>(rows.size());
    const int chosen = std::clamp(list.chosen, 0, std::max(0, count - 1));
    state.list_first = std::clamp(state.list_first, chosen - room + 1, chosen);
    state.list_first = std::clamp(state.list_first, 0, std::max(0, count - room));

    for (int i = 0; i < std::min(room, count - state.list_first); ++i) {
        const int number = state.list_first + i;
        const Rect row{box.x, box.y + head + row_height * static_cast<float>(i), width, row_height};
        ImGui::PushID(number);
        const Press pressed = press("list row", row);
        ImGui::PopID();
        if (pressed.hovered) state.wants_hand = true;
        if (pressed.clicked) in.actions.pushIndex(ActionKind::ListTake, number);
    }
    press("list", box);
    targets().scrolled.push_back(box);
    if (press("behind list", window).clicked) in.actions.push(ActionKind::CloseList);
    const float wheel = ImGui::GetIO().MouseWheel;
    if (wheel != 0) in.actions.pushIndex(ActionKind::ListMove, wheel > 0 ? -3 : 3);

    c.fill(window, faded(theme.under, 0.6));
    c.fill(box, theme.raised);
    c.textClipped(box.x + c.px(20), box.y + c.px(14), box.right() - c.px(20), kNote, theme.ink2,
                  model::listTitle(in.model));
    const float words_end =
        c.text(box.x + c.px(20), box.y + c.px(40), kSubhead, theme.ink, list.words);
    c.fill(Rect{words_end + 1, box.y + c.px(40), c.px(1.5F), c.px(20)}, theme.now);
    if (list.words.empty()) {
        c.text(box.x + c.px(28), box.y + c.px(41), kBody, theme.ink3,
               model::asksName(list.kind) ? "type a name" : "type to narrow");
    }
    c.across(box.x, box.right(), box.y + head - c.px(8), theme.line);
    if (count == 0) {
        c.text(box.x + c.px(20), box.y + head + c.px(8), kBody, theme.ink2,
               pictures && !in.model.shelf ? "The shelf is being flown"
                                           : "Nothing has these words; take some out");
    }
    for (int i = 0; i < std::min(room, count - state.list_first); ++i) {
        const int number = state.list_first + i;
        const model::ListRow& entry = rows[static_cast<std::size_t>(number)];
        const Rect row{box.x, box.y + head + row_height * static_cast<float>(i), width, row_height};
        if (number == chosen) {
            c.fill(row, theme.line);
            c.fill(Rect{row.x, row.y, c.px(3), row.height}, theme.fill);
        }
        const float middle = row.y + row.height / 2;
        float x = row.x + c.px(20);
        if (pictures && entry.picture >= 0 &&
            entry.picture < static_cast<int>(state.shelf_ribbons.size())) {
            drawRibbon(c, state.shelf_ribbons[static_cast<std::size_t>(entry.picture)],
                       x + c.px(34), middle, 1.6F);
            x += c.px(84);
        }
        const float right =
            c.textRight(row.right() - c.px(20), middle - c.px(8), kNote, theme.ink3, entry.key) -
            c.px(12);
        if (entry.detail.empty()) {
            c.textClipped(x, middle - c.px(9), right, kName, theme.ink, entry.title);
        } else if (pictures) {
            c.textClipped(x, middle - c.px(18), right, kName, theme.ink, entry.title);
            c.textClipped(x, middle + c.px(1), right, kNote, theme.ink2, entry.detail);
        } else {
            const float end = c.text(x, middle - c.px(9), kName, theme.ink, entry.title);
            c.textClipped(end + c.px(14), middle - c.px(8), right, kNote, theme.ink2, entry.detail);
        }
    }
}

}  // namespace plumbline::ui
