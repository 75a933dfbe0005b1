// The narrator's cues in place of the sheet: when each comes, what the figure text says there, and
// the words to say, written in place with the count of those that fit.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/ui/fingers.h"
#include "viewer/ui/keys.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/script_field.h"
#include "viewer/ui/sheet_parts.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;
using model::CueRow;

constexpr float kLetters = 14, kLine = 20;  ///< of the words
constexpr float kSilentRow = 26;            ///< of a figure with nothing to say

class CueColumn {
public:
    CueColumn(const PanelInput& in, UiState& state)
        : in_(in),
          c_(in.canvas),
          theme_(in.canvas.theme()),
          state_(state),
          right_(in.layout.sheet.right()),
          rows_(model::cueRows(in.model)) {}

    void draw() {
        c_.fill(in_.layout.sheet, theme_.surface);
        drawHead();
        drawFoot();
        drawRows();
        press("cue column", in_.layout.sheet);
        c_.down(right_ - 1, 0, in_.layout.sheet.bottom(), theme_.line);
    }

private:
    void drawHead() {
        const float x = c_.px(kThread), w = std::max(1.0F, std::round(1.5F * c_.scale()));
        c_.fill(Rect{x - w / 2, c_.px(10), w, c_.px(16)}, theme_.light ? theme_.ink : theme_.ink2);
        c_.bob(x, c_.px(25), theme_.fill, 1.05F);
        const bool unsaved = in_.model.editor.open() && in_.model.editor.changed();
        c_.textClipped(c_.px(kTextLeft), c_.px(10), right_ - c_.px(unsaved ? 84 : kMargin), kHead,
                       theme_.ink, model::titleOf(in_.model));
        if (unsaved)
            c_.textRight(right_ - c_.px(kMargin), c_.px(13), kNote, theme_.now, "not saved");
        int too_long = 0;
        for (const CueRow& row : rows_) too_long += row.too_many > 0 ? 1 : 0;
        std::string words = "The narrator's cues";
        if (too_long > 0)
            words += too_long == 1 ? ", 1 too long" : ", " + std::to_string(too_long) + " too long";
        c_.textClipped(c_.px(kTextLeft), c_.px(30), right_ - c_.px(kMargin), kNote, theme_.ink2,
                       words);
        c_.across(0, right_, c_.px(kHeaderHeight) - 1, theme_.line);
    }

    bool button(const char* id, const Rect& rect, const char* hint) {
        const Press pressed = press(id, rect);
        if (pressed.hovered) {
            state_.wants_hand = true;
            state_.hint = hint;
            c_.fill(rect, pressed.held ? theme_.line : theme_.raised);
        }
        return pressed.clicked;
    }

    /// How fast the narrator speaks, and the way back to the figures.
    void drawFoot() {
        const float top = in_.layout.sheet.bottom() - c_.px(kFooterHeight);
        const float middle = top + c_.px(kFooterHeight / 2), side = c_.px(28);
        c_.across(0, right_, top, theme_.line);
        float x = c_.px(8);
        const char* back = "Figures";
        const float width = c_.textWidth(kName, back) + c_.px(16);
        if (button("figures", Rect{x, middle - side / 2, width, side},
                   "Back to the figures' text (F6)")) {
            in_.actions.push(ActionKind::ToggleBrief);
        }
        c_.text(x + c_.px(8), middle - c_.px(9), kName, theme_.ink, back);
        x = right_ - c_.px(8) - side;
        if (button("faster", Rect{x, middle - side / 2, side, side}, "The narrator speaks faster"))
            in_.actions.pushIndex(ActionKind::PaceBy, 1);
        c_.text(x + c_.px(9), middle - c_.px(9), kStrong, theme_.ink2, "+");
        const std::string pace =
            formatFixed(in_.model.session.words_per_min, 0) + " words a minute";
        x -= c_.textWidth(kBody, pace) + c_.px(4);
        c_.text(x, middle - c_.px(9), kBody, theme_.ink2, pace);
        x -= side + c_.px(4);
        if (button("slower", Rect{x, middle - side / 2, side, side}, "The narrator speaks slower"))
            in_.actions.pushIndex(ActionKind::PaceBy, -1);
        c_.text(x + c_.px(9), middle - c_.px(9), kStrong, theme_.ink2, "\u2212");
    }

    bool written(const CueRow& row) const {
        const model::Editor& editor = in_.model.editor;
        return editor.writing && editor.script && row.first &&
               in_.model.rows[static_cast<std::size_t>(row.row)].block == editor.figure;
    }
    /// It stands in the routine's text and can be written there.
    bool inText(const CueRow& row) const {
        return row.first && in_.model.editor.open() &&
               in_.model.rows[static_cast<std::size_t>(row.row)].block >= 0;
    }
    /// As it stands in the text, with what is escaped there.
    std::string rawWords(const CueRow& row) const {
        if (!row.has_script) return {};
        if (row.script.begin >= row.script.end || !in_.model.editor.open()) return row.words;
        return in_.model.editor.routineText().substr(row.script.begin,
                                                     row.script.end - row.script.begin);
    }
    ScriptLayout laid(const CueRow& row, float y) const {
        const float x = c_.px(kTextLeft);
        return layoutScript(*in_.model.brief.fonts, rawWords(row), x, y,
                            right_ - c_.px(kMargin) - x, c_.px(kLetters), c_.px(kLine));
    }

    std::string underWords(const CueRow& row) const {
        std::string words;
        if (row.early_s >= 0) {
            const std::string early = timeText(row.early_s), late = timeText(row.late_s);
            words = early == late ? "comes at " + early : "comes " + early + " to " + late;
        }
        if (!row.said.empty())
            words += (words.empty() ? "\u201C" : ", \u201C") + row.said + "\u201D";
        for (const std::string& beat : row.beats) {
            if (row.words.find("[" + beat) != std::string::npos) continue;  // is read in the words
            words += (words.empty() ? "" : ", ") + beat;
        }
        return words;
    }

    struct Placed {
        float y = 0, height = 0;
        ScriptLayout script;
        bool has_script = false;
        std::string under;
        float under_height = 0;
    };

    /// @param y  of the row's top
    Placed place(const CueRow& row, float y) const {
        Placed out;
        out.y = y;
        if (!row.cue && !written(row)) {
            out.height = c_.px(kSilentRow);
            return out;
        }
        out.under = underWords(row);
        const float x = c_.px(kTextLeft);
        float at = y + c_.px(kRowHeight - 4);
        if (!out.under.empty()) {
            out.under_height =
                c_.paragraph(x, at, right_ - c_.px(kMargin) - x, kNote, 0, out.under, false);
            at += out.under_height + c_.px(2);
        }
        if (row.has_script && in_.model.brief.fonts) {
            out.has_script = true;
            out.script = laid(row, at);
            at += out.script.height();
        }
        out.height = at + c_.px(8) - y;
        return out;
    }

    void drawRows() {
        const Rect region{
            0, c_.px(kHeaderHeight), right_,
            in_.layout.sheet.bottom() - c_.px(kHeaderHeight + kFooterHeight) - state_.help_height};
        std::vector<Placed> places;
        float y = c_.px(4);
        for (const CueRow& row : rows_) {
            places.push_back(place(row, y));
            y += places.back().height;
        }
        const float total = y + c_.px(16);
        const int now = openRow(in_.model);
        follow(places, now, region);
        targets().scrolled.push_back(region);
        const bool over = ImGui::IsMouseHoveringRect(
            ImVec2(region.x, region.y), ImVec2(region.right(), region.bottom()), false);
        if (over && !in_.model.session.key_help && in_.model.list.kind == model::ListKind::None)
            state_.cues_scroll -= ImGui::GetIO().MouseWheel * c_.px(64);
        state_.cues_scroll =
            std::clamp(state_.cues_scroll, 0.0F, std::max(0.0F, total - region.height));
        const Clip clip(c_, region);
        const float shift = std::round(region.y - state_.cues_scroll);
        const float w = std::max(1.0F, std::round(c_.scale()));
        if (!places.empty()) {
            const float first = shift + places.front().y + c_.px(kSilentRow / 2);
            const float last = shift + places.back().y + c_.px(kSilentRow / 2);
            c_.fill(Rect{c_.px(kThread) - std::floor(w / 2), first, w, last - first}, theme_.edge);
        }
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            Placed& placed = places[i];
            placed.y += shift;
            placed.script.y += shift;
            if (placed.y + placed.height < region.y || placed.y > region.bottom()) continue;
            drawRow(static_cast<int>(i), placed, rows_[i].row == now, region);
        }
        if (total > region.height) {
            const float length = region.height * region.height / total;
            const float at = region.y + state_.cues_scroll / total * region.height;
            c_.fill(Rect{right_ - c_.px(4), at, c_.px(3), length}, theme_.line);
        }
    }

    /// The row of the moment, or the one being written, stays in sight.
    void follow(const std::vector<Placed>& places, int now, const Rect& region) {
        const std::size_t caret = in_.model.editor.script ? in_.model.editor.caret : 0;
        if (state_.followed_cue == now && state_.followed_caret == caret) return;
        state_.followed_cue = now;
        state_.followed_caret = caret;
        float top = -1, bottom = 0;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            if (rows_[i].row != now) continue;
            if (top < 0) top = places[i].y;
            bottom = places[i].y + places[i].height;
        }
        if (top < 0) return;
        const float lead = c_.px(kSilentRow);  // something of the neighbours as well
        const float least = bottom + lead - region.height, most = std::max(0.0F, top - lead);
        state_.cues_scroll = std::clamp(state_.cues_scroll, std::min(least, most), most);
    }

    void drawRow(int number, const Placed& placed, bool now, const Rect& region) {
        const CueRow& row = rows_[static_cast<std::size_t>(number)];
        const bool writing = written(row);
        if (now) {
            c_.fill(Rect{0, placed.y, right_, placed.height}, theme_.raised);
            c_.across(0, right_, placed.y, theme_.line);
            c_.across(0, right_, placed.y + placed.height, theme_.line);
        }
        ImGui::PushID(number);
        if (placed.has_script && inText(row)) takeScriptPointer(row, placed, writing, region);
        const float from = std::max(placed.y, region.y);
        const float to = std::min(placed.y + placed.height, region.bottom());
        const Press pressed = press("cue", Rect{0, from, right_ - c_.px(4), to - from});
        ImGui::PopID();
        if (pressed.hovered) {
            state_.wants_hand = true;
            if (!now) c_.fill(Rect{0, placed.y, right_, placed.height}, theme_.raised);
            if (inText(row)) state_.hint = "Double-click, or Enter: write the narrator's words";
        }
        if (pressed.clicked) {
            if (in_.model.editor.writing && !writing) in_.actions.push(ActionKind::StopWriting);
            in_.actions.pushIndex(ActionKind::GoToFigure, row.row);
        }
        if (pressed.hovered && ImGui::IsMouseDoubleClicked(0) && inText(row))
            in_.actions.pushIndex(ActionKind::WriteScript, row.row);
        if (row.cue || writing) {
            drawCue(row, placed, now, writing);
        } else {
            drawSilent(row, placed, now, pressed.hovered);
        }
    }

    void drawTimeAndName(const CueRow& row, float middle, bool now, float right, bool silent) {
        const model::OutlineRow& figure = in_.model.rows[static_cast<std::size_t>(row.row)].figure;
        if (row.first) drawBead(in_, figure, middle, now);
        const float text_y = middle - c_.px(9);
        const Colour colour = silent && !now ? theme_.ink3 : theme_.ink;
        c_.text(c_.px(kTextLeft), text_y, silent ? kBody : kStrong, colour,
                row.time_s < 0 ? "\u2013" : timeText(row.time_s));
        if (row.first) drawName(figure.name, text_y, right, silent ? kBody : kName, colour);
    }

    /// Names in scripts that the panels' font lacks are set as the words are.
    void drawName(const std::string& name, float y, float right, const Type& type, Colour colour) {
        const float x = c_.px(kTextLeft + 46);
        constexpr unsigned char kBeyondLatin = 0xCA;  // first byte of U+0280
        const bool other = std::any_of(name.begin(), name.end(), [](char byte) {
            return static_cast<unsigned char>(byte) >= kBeyondLatin;
        });
        if (!other || !in_.model.brief.fonts) {
            c_.textClipped(x, y, right, type, colour, name);
            return;
        }
        const float line_px = c_.lineHeight(type);
        const Clip clip(c_, Rect{x, y, std::max(0.0F, right - x), line_px});
        const double size = static_cast<double>(c_.px(static_cast<float>(type.size)));
        const auto lines =
            in_.model.brief.fonts->set({{name, {size, page::Weight::Regular, page::kInk}}}, 0);
        if (!lines.empty()) c_.setLine(x, y, line_px, lines.front(), colour, colour);
    }

    void drawSilent(const CueRow& row, const Placed& placed, bool now, bool hovered) {
        const float middle = placed.y + placed.height / 2;
        float right = right_ - c_.px(kMargin);
        if ((hovered || now) && inText(row)) {
            right = c_.textRight(right, middle - c_.px(8), kNote, theme_.ink2,
                                 now ? "Enter: add words" : "add words") -
                    c_.px(8);
        }
        drawTimeAndName(row, middle, now, right, true);
    }

    void drawCue(const CueRow& row, const Placed& placed, bool now, bool writing) {
        const float middle = placed.y + c_.px(kRowHeight / 2);
        float right = right_ - c_.px(kMargin);
        const std::string count = row.first || row.fit >= 0 ? model::countWords(row) : "";
        const bool too_long = row.too_many > 0;
        right = c_.textRight(right, middle - c_.px(8), too_long ? kNoteStrong : kNote,
                             too_long ? theme_.alarm : theme_.ink2, count);
        if (too_long) {
            c_.mark(Mark::Filled, right - c_.px(10), middle, theme_.alarm, 11);
            right -= c_.px(20);
        }
        drawTimeAndName(row, middle, now, right - c_.px(6), false);
        const float x = c_.px(kTextLeft);
        if (!placed.under.empty()) {
            c_.paragraph(x, placed.y + c_.px(kRowHeight - 4), right_ - c_.px(kMargin) - x, kNote,
                         theme_.ink2, placed.under);
        }
        if (placed.has_script) drawScript(row, placed, writing);
    }

    void drawScript(const CueRow& row, const Placed& placed, bool writing) {
        const model::Editor& editor = in_.model.editor;
        const ScriptLayout& script = placed.script;
        model::TextRange selected;
        if (writing) {
            const Rect field{script.x - c_.px(6), script.y - c_.px(2), script.width + c_.px(12),
                             script.height() + c_.px(4)};
            c_.fill(field, theme_.surface);
            c_.frame(field, theme_.now);
            const model::TextRange range = model::selection(editor);
            const auto inside = [&row](std::size_t byte) {
                return std::clamp(byte, row.script.begin, row.script.end) - row.script.begin;
            };
            selected = {inside(range.begin), inside(range.end)};
        }
        drawScriptWords(c_, script, theme_.ink, theme_.ink3, selected);
        if (!writing) return;
        const std::size_t caret =
            std::clamp(editor.caret, row.script.begin, row.script.end) - row.script.begin;
        const ImVec2 at = caretAt(script, caret);
        c_.fill(Rect{std::round(at.x), at.y + c_.px(1), std::max(1.0F, c_.px(1.5F)),
                     script.line_px - c_.px(2)},
                theme_.now);
        takeLineKeys(row, script, caret);
    }

    void placeCaret(std::size_t byte, bool selects) {
        model::Action action;
        action.kind = ActionKind::PlaceCaret;
        action.value = static_cast<double>(byte);
        action.x = selects ? 1 : 0;
        in_.actions.push(std::move(action));
    }

    /// Up and down go by the lines as they are wrapped here.
    void takeLineKeys(const CueRow& row, const ScriptLayout& script, std::size_t caret) {
        if (in_.model.list.kind != model::ListKind::None || in_.model.session.key_help) return;
        const ImGuiIO& io = ImGui::GetIO();
        if (io.KeyAlt || io.KeyCtrl) return;
        for (const auto& [key, lines] : {std::pair{kKeyUp, -1}, std::pair{kKeyDown, 1}}) {
            if (!ImGui::IsKeyPressed(static_cast<ImGuiKey>(key), true)) continue;
            placeCaret(row.script.begin + byteLinesAway(script, caret, lines), io.KeyShift);
        }
    }

    void takeScriptPointer(const CueRow& row, const Placed& placed, bool writing,
                           const Rect& region) {
        const ScriptLayout& script = placed.script;
        const float from = std::max(script.y, region.y);
        const float to = std::min(script.y + script.height(), region.bottom());
        const Press pressed =
            press("words", Rect{script.x - c_.px(6), from, script.width + c_.px(12), to - from});
        if (pressed.hovered) state_.wants_text = true;
        const ImGuiIO& io = ImGui::GetIO();
        const auto byte = [&] {
            return row.script.begin + byteAt(script, io.MousePos.x, io.MousePos.y);
        };
        if (pressed.began) {
            if (!writing) in_.actions.pushIndex(ActionKind::GoToFigure, row.row);
            if (!writing) in_.actions.pushIndex(ActionKind::WriteScript, row.row);
            placeCaret(byte(), writing && io.KeyShift);
        } else if (pressed.held && writing && (io.MouseDelta.x != 0 || io.MouseDelta.y != 0)) {
            placeCaret(byte(), true);
        }
    }

    const PanelInput& in_;
    const Canvas& c_;
    const Theme& theme_;
    UiState& state_;
    float right_;
    std::vector<CueRow> rows_;
};

}  // namespace

void drawCueColumn(const PanelInput& in, UiState& state) { CueColumn(in, state).draw(); }

}  // namespace plumbline::ui
