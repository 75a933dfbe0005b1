// The routine as rows on the thread; the figure flown now unfolds to its text and findings.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/ui/fingers.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/review_parts.h"
#include "viewer/ui/sheet_parts.h"

namespace plumbline::ui {

void drawBead(const PanelInput& in, const model::OutlineRow& row, float y, bool now) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const ImVec2 centre(c.px(kThread), y);
    ImDrawList* list = c.list();
    if (now) {
        list->AddCircleFilled(centre, 5.5F * c.scale(), theme.fill, 24);
        if (theme.light) list->AddCircle(centre, 5.5F * c.scale(), theme.now, 24, c.scale());
    } else if (row.stop_s <= in.model.clock.time_s()) {
        list->AddCircleFilled(centre, 4 * c.scale(), theme.ink2, 20);
    } else {
        list->AddCircleFilled(centre, 4 * c.scale(), theme.surface, 20);
        list->AddCircle(centre, 3.5F * c.scale(), theme.ink3, 20, 1.5F * c.scale());
    }
}

namespace {

using model::ActionKind;
using model::OutlineRow;
using model::SheetRow;

void drawRow(const PanelInput& in, const UiState& state, std::size_t i, float y, float right,
             bool now, bool hovered) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const SheetRow& sheet = in.model.rows[i];
    const OutlineRow& row = sheet.figure;
    const float middle = y + c.px(kRowHeight / 2);
    if (hovered && !now) c.fill(Rect{0, y, right, c.px(kRowHeight)}, theme.raised);
    drawBead(in, row, middle, now);
    const auto picture = static_cast<std::size_t>(std::max(0, sheet.outline));
    if (sheet.outline >= 0 && picture < state.ribbons.size()) {
        drawRibbon(c, state.ribbons[picture], c.px(60), middle);
    }
    const float text_y = middle - c.px(9);
    const std::string at_right = in.model.shown->review ? reviewRowText(in, sheet)
                                 : sheet.outline < 0    ? "\u2013"
                                                        : timeText(row.start_s);
    float end = c.textRight(right - c.px(kMargin), text_y, kBody, theme.ink3, at_right);
    const std::string entry = now ? std::string() : entryWords(in, row.name);
    if (!entry.empty()) {
        end = c.textRight(right - c.px(84), text_y + c.px(1), kNote, theme.now, entry);
    }
    if (!row.findings.empty()) {
        const check::Finding& worst =
            in.model.shown->findings[static_cast<std::size_t>(row.findings.front())];
        const float mark = right - c.px(66);
        c.mark(markOf(worst.grade), mark, middle, markColour(theme, worst.grade), 11);
        end = std::min(end, mark) - c.px(8);
    }
    c.textClipped(c.px(kNameLeft), text_y, end - c.px(6), now ? kStrong : kName, theme.ink,
                  row.name);
    drawMarginBar(in, row.name, y + c.px(kRowHeight - 4), right);
}

/// What belongs to no figure: which variant is flown and why, fuel, slot.
float drawWhole(const PanelInput& in, float y, float right, bool draw) {
    const Canvas& c = in.canvas;
    const model::Shown& shown = *in.model.shown;
    float at = y;
    const auto heading = [&] {
        if (at > y) return;
        at += c.px(12);
        if (draw) c.text(c.px(kTextLeft), at, kNoteStrong, c.theme().ink, "The routine as a whole");
        at += c.px(22);
    };
    const model::EditEffect& effect = in.model.effect;
    if (!effect.nothing()) {
        heading();
        std::string words = "Since it was saved: ";
        words += (effect.time_s < 0 ? "\u2212" : "+") + formatFixed(std::abs(effect.time_s), 1) +
                 " s in all, fuel left " + (effect.fuel_kg < 0 ? "\u2212" : "+") +
                 formatFixed(std::abs(effect.fuel_kg), 1) + " kg";
        if (!effect.figures.empty()) {
            words += ", entry of " + std::to_string(effect.figures.size()) +
                     (effect.figures.size() == 1 ? " figure" : " figures");
        }
        at += c.paragraph(c.px(kTextLeft), at, right - c.px(kMargin + kTextLeft), kNote,
                          c.theme().now, words, draw) +
              c.px(4);
        for (const auto& [list, word] :
             {std::pair{&effect.appeared, "New: "}, std::pair{&effect.gone, "Gone: "}}) {
            for (const std::string& finding : *list) {
                at += c.paragraph(c.px(kTextLeft), at, right - c.px(kMargin + kTextLeft), kNote,
                                  c.theme().ink2, word + finding, draw) +
                      c.px(4);
            }
        }
    }
    for (const std::string& remark : shown.remarks) {
        heading();
        at += c.paragraph(c.px(kTextLeft), at, right - c.px(kMargin + kTextLeft), kNote,
                          c.theme().ink2, capitalised(remark), draw) +
              c.px(4);
    }
    for (std::size_t i = 0; i < shown.findings.size(); ++i) {
        const auto number = static_cast<std::int32_t>(i);
        const bool placed = std::any_of(
            shown.outline.begin(), shown.outline.end(), [number](const OutlineRow& row) {
                return std::find(row.findings.begin(), row.findings.end(), number) !=
                       row.findings.end();
            });
        if (placed) continue;
        heading();
        at += drawFinding(c, shown.findings[i], displayUnits(in.model.session.units),
                          c.px(kTextLeft), at, right - c.px(kMargin), draw);
    }
    return at - y;
}

void drawHeader(const PanelInput& in, float right) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float x = c.px(kThread);
    const float w = std::max(1.0F, std::round(1.5F * c.scale()));
    c.fill(Rect{x - w / 2, c.px(10), w, c.px(16)}, theme.light ? theme.ink : theme.ink2);
    c.bob(x, c.px(25), theme.fill, 1.05F);
    const model::Shown& shown = *in.model.shown;
    const std::string title = model::titleOf(in.model);
    const bool unsaved = in.model.editor.open() && in.model.editor.changed();
    c.textClipped(c.px(kTextLeft), c.px(10), right - c.px(unsaved ? 84 : kMargin), kHead, theme.ink,
                  title);
    if (unsaved) {
        c.textRight(right - c.px(kMargin), c.px(13), kNote, theme.now, "not saved");
    }
    if (!in.model.editor.stand_in.empty()) return;   // the rest is not this routine's
    std::string facts = capitalised(shown.variant);  // first: what follows may be cut off
    const auto add = [&facts](const std::string& words) {
        if (!words.empty()) facts += (facts.empty() ? "" : ", ") + words;
    };
    add(shown.place);
    if (shown.review && shown.review->plan) {
        facts = "Over \u201C" + shown.review->plan->title + "\u201D";
    } else if (shown.recording()) {
        add("Recording");
    }
    add(shown.when);
    if (shown.wind_mps) {
        add(*shown.wind_mps < 0.5 ? "calm"
                                  : speedText(*shown.wind_mps, in.model.session.units).joined());
    }
    c.textClipped(c.px(kTextLeft), c.px(30), right - c.px(kMargin), kNote, theme.ink2, facts);
}

void drawFooter(const PanelInput& in, UiState& state, float right) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float top = in.layout.sheet.bottom() - c.px(kFooterHeight);
    const float middle = top + c.px(kFooterHeight / 2);
    c.across(0, right, top, theme.line);
    const auto clicked = [&](const char* id, const Rect& rect) {
        const Press pressed = press(id, rect);
        if (pressed.hovered) {
            state.wants_hand = true;
            c.fill(rect, pressed.held ? theme.line : theme.raised);
        }
        return pressed.clicked;
    };
    const auto button = [&](const char* id, const Rect& rect, ActionKind kind) {
        if (clicked(id, rect)) in.actions.push(kind);
    };
    const float height = c.px(28);
    const float y = middle - height / 2;
    const float moon = right - c.px(42);
    button("theme", Rect{moon, y, c.px(32), height}, ActionKind::ToggleTheme);
    c.icon(theme.light ? Icon::Moon : Icon::Sun, moon + c.px(16), middle, theme.ink2);
    const char* units = unitsWord(in.model.session.units);
    const float units_width = c.textWidth(kBody, units) + c.px(16);
    const float units_x = moon - c.px(6) - units_width;
    button("units", Rect{units_x, y, units_width, height}, ActionKind::CycleUnits);
    c.text(units_x + c.px(8), middle - c.px(9), kBody, theme.ink2, units);
    float x = c.px(8);
    const auto list = [&](const char* words, model::ListKind kind) {
        const float width = c.textWidth(kName, words) + c.px(16);
        if (clicked(words, Rect{x, y, width, height}))
            in.actions.pushIndex(ActionKind::ShowList, static_cast<int>(kind));
        c.text(x + c.px(8), middle - c.px(9), kName, theme.ink, words);
        x += width + c.px(2);
    };
    if (in.model.editor.open()) list("Add", model::ListKind::Shelf);
    list("Find", model::ListKind::Anything);
    button("keys", Rect{x, y, c.px(30), height}, ActionKind::ToggleKeyHelp);
    c.icon(Icon::Keys, x + c.px(15), middle, theme.ink2);
}

/// Heights of all rows with the open one unfolded; the script scrolls so that it stays in sight.
void drawScript(const PanelInput& in, UiState& state, float right) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect region{
        0, c.px(kHeaderHeight), right,
        in.layout.sheet.bottom() - c.px(kHeaderHeight + kFooterHeight) - state.help_height};
    const int now = openRow(in.model);
    const float row_height = c.px(kRowHeight);
    const float lead = c.px(8) + drawMarginsHead(in, 0, right, false);
    float open_height = 0;
    if (now >= 0) open_height = drawOpen(in, state, now, 0, right, false);
    const float rows_height =
        lead + row_height * static_cast<float>(in.model.rows.size()) + open_height;
    const float total = rows_height + drawWhole(in, 0, right, false) + c.px(16);

    const float open_top = lead + row_height * static_cast<float>(std::max(now, 0));
    if (state.followed_row != now) {
        state.followed_row = now;
        // One row above stays in sight, and as much of the open figure as there is room for.
        const float above = std::max(0.0F, open_top - row_height);
        const float below = open_top + row_height + open_height + row_height - region.height;
        state.sheet_scroll = std::clamp(state.sheet_scroll, std::min(below, above), above);
    }
    targets().scrolled.push_back(region);
    const bool over = ImGui::IsMouseHoveringRect(ImVec2(region.x, region.y),
                                                 ImVec2(region.right(), region.bottom()), false);
    if (over && !in.model.session.key_help && in.model.list.kind == model::ListKind::None) {
        state.sheet_scroll -= ImGui::GetIO().MouseWheel * row_height * 2;
    }
    state.sheet_scroll =
        std::clamp(state.sheet_scroll, 0.0F, std::max(0.0F, total - region.height));

    state.open_top = state.open_bottom = 0;
    const Clip clip(c, region);
    const float top = std::round(region.y - state.sheet_scroll);
    drawMarginsHead(in, top + c.px(8), right, true);
    float y = top + lead;
    const float thread_w = std::max(1.0F, std::round(c.scale()));
    const float thread_x = c.px(kThread) - std::floor(thread_w / 2);
    c.fill(Rect{thread_x, top + lead - c.px(8), thread_w, rows_height - lead - row_height / 2},
           theme.edge);
    const float pointer_y = ImGui::GetIO().MousePos.y;
    int target = -1;  // the row that the dragged one would come to
    for (std::size_t i = 0; i < in.model.rows.size(); ++i) {
        const bool is_now = static_cast<int>(i) == now;
        const float height = row_height + (is_now ? open_height : 0);
        if (y + height >= region.y && y < region.bottom()) {
            if (is_now) {
                c.fill(Rect{0, y, right, height}, theme.raised);
                c.across(0, right, y, theme.line);
                c.across(0, right, y + height, theme.line);
            }
            const float from = std::max(y, region.y);
            const float to = std::min(y + row_height, region.bottom());
            ImGui::PushID(static_cast<int>(i));
            const Press row = press("row", Rect{0, from, right - c.px(4), to - from});
            ImGui::PopID();
            if (row.hovered) state.wants_hand = true;
            if (row.began) {
                state.dragged_row = static_cast<int>(i);
                state.row_drag_y = pointer_y;
            }
            const bool moving =
                state.dragged_row >= 0 && std::abs(pointer_y - state.row_drag_y) > c.px(8);
            if (row.clicked && !moving) {
                if (in.model.editor.writing) in.actions.push(ActionKind::StopWriting);
                in.actions.pushIndex(ActionKind::GoToFigure, static_cast<int>(i));
            }
            if (row.hovered && ImGui::IsMouseDoubleClicked(0)) {
                in.actions.pushIndex(ActionKind::WriteFigure, static_cast<int>(i));
            }
            if (moving && pointer_y >= y && pointer_y < y + height) {
                target = static_cast<int>(i);
                const bool below = target > state.dragged_row;
                c.fill(Rect{0, y + (below ? height : 0) - c.px(1), right, c.px(2)}, c.theme().now);
            }
            drawRow(in, state, i, y, right, is_now, row.hovered);
            if (is_now) {
                state.open_top = y + row_height;
                state.open_bottom = y + height;
                drawOpen(in, state, static_cast<int>(i), y + row_height, right, true);
            }
        }
        y += height;
    }
    if (state.dragged_row >= 0 && !ImGui::IsMouseDown(0)) {
        if (target >= 0 && target != state.dragged_row) {
            model::Action move;
            move.kind = ActionKind::MoveFigure;
            move.index = state.dragged_row;
            move.value = target;
            in.actions.push(std::move(move));
        }
        state.dragged_row = -1;
    }
    drawWhole(in, y, right, true);
    if (total > region.height) {  // how far down one is
        const float length = region.height * region.height / total;
        const float at = region.y + state.sheet_scroll / total * region.height;
        c.fill(Rect{right - c.px(4), at, c.px(3), length}, theme.line);
    }
}

/// The folded sheet: thread and beads, the name of the one under the pointer.
void drawSpine(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float top = c.px(kHeaderHeight);
    const float room = in.layout.sheet.height - top - c.px(20);
    const auto count = static_cast<float>(in.model.rows.size());
    const float step = std::min(c.px(kRowHeight), room / std::max(1.0F, count));
    const int now = openRow(in.model);
    const float w = std::max(1.0F, std::round(c.scale()));
    c.bob(c.px(kThread), c.px(25), theme.fill, 1.05F);
    c.fill(Rect{c.px(kThread), top, w, step * (count - 0.5F)}, theme.edge);
    for (std::size_t i = 0; i < in.model.rows.size(); ++i) {
        const float y = top + step * (static_cast<float>(i) + 0.5F);
        ImGui::PushID(static_cast<int>(i));
        const Press bead = press("bead", Rect{0, y - step / 2, in.layout.sheet.width, step});
        ImGui::PopID();
        if (bead.clicked) in.actions.pushIndex(ActionKind::GoToFigure, static_cast<int>(i));
        drawBead(in, in.model.rows[i].figure, y, static_cast<int>(i) == now);
        if (!bead.hovered) continue;
        state.wants_hand = true;
        const std::string& name = in.model.rows[i].figure.name;
        const Rect label{in.layout.sheet.right() + c.px(4), y - c.px(13),
                         c.textWidth(kName, name) + c.px(20), c.px(26)};
        c.fill(label, theme.raised);
        c.text(label.x + c.px(10), y - c.px(9), kName, theme.ink, name);
    }
}

}  // namespace

void drawSheet(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Rect& sheet = in.layout.sheet;
    c.fill(sheet, c.theme().surface);
    const float right = sheet.right() - 1;
    c.down(right, 0, sheet.bottom(), c.theme().line);
    if (!in.model.shown) return;
    if (in.layout.spine) {
        drawSpine(in, state);
        return;
    }
    drawHeader(in, right);
    if (in.model.editor.writing && in.model.editor.figure < 0) {
        drawFileText(in, state, right);
    } else {
        drawScript(in, state, right);
    }
    drawFooter(in, state, right);
}

}  // namespace plumbline::ui
