// A page of the brief beside the picture: which sheet, which page, as large as one likes.

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

constexpr float kPageSide = 16;

class PageColumn {
public:
    PageColumn(const PanelInput& in, UiState& state)
        : in_(in),
          c_(in.canvas),
          theme_(in.canvas.theme()),
          state_(state),
          brief_(in.model.brief),
          column_(in.layout.brief) {}

    void draw() {
        c_.fill(column_, theme_.under);
        if (!page::Document::possible()) {
            drawWithoutPages();
            press("brief column", column_);
            c_.down(column_.x, 0, column_.bottom(), theme_.line);
            drawBusy();
            return;
        }
        drawHead();
        drawFoot();
        const Rect room = pageRoom(in_.layout);
        if (room.width >= 1 && room.height >= 1 && brief_.made) drawPage(room);
        drawFault();
        takePointer(room);
        // The rest of the column is nothing to turn the picture by.
        press("brief column", column_);
        c_.down(column_.x, 0, column_.bottom(), theme_.line);
        drawBusy();
    }

private:
    bool button(const char* id, const Rect& rect, const char* hint, bool can = true) {
        const Press pressed = press(id, rect);
        if (!can) return false;
        if (pressed.hovered) {
            state_.wants_hand = true;
            state_.hint = hint;
            c_.fill(rect, pressed.held ? theme_.line : theme_.raised);
        }
        return pressed.clicked;
    }

    /// In a browser, whose printer takes the cues.
    void drawWithoutPages() {
        const float left = column_.x + c_.px(kPageSide),
                    width = column_.width - c_.px(2 * kPageSide);
        float y = c_.px(16);
        c_.text(left, y, kStrong, theme_.ink, "On paper");
        y += c_.px(28);
        y += c_.paragraph(left, y, width, kBody, theme_.ink2,
                          "The cue sheet goes to this browser's printer, with the words and times "
                          "as they are now. The pilot's card, the director's sheet and captions "
                          "are made by the program on a computer.");
        y += c_.px(12);
        const char* print = "Print the cue sheet";
        const Rect rect{left, y, c_.textWidth(kName, print) + c_.px(28), c_.px(40)};
        if (button("write brief", rect, "Opens the browser's own print sheet (Shift F6)",
                   brief_.made != nullptr)) {
            in_.actions.push(ActionKind::WriteBrief);
        }
        c_.frame(rect, theme_.edge);
        c_.text(rect.x + c_.px(14), rect.y + c_.px(11), kName,
                brief_.made ? theme_.ink : faded(theme_.ink2, 0.45), print);
    }

    std::string paperName() const {
        const bool letter = in_.model.session.letter_paper;
        if (model::sheetShown(brief_) == 0) return letter ? "half-letter" : "A5";
        return letter ? "letter" : "A4";
    }

    void drawHead() {
        const float height = c_.px(kPageHead);
        c_.fill(Rect{column_.x, 0, column_.width, height}, theme_.surface);
        constexpr std::array<const char*, 3> kNames{"Card", "Cues", "Director"};
        float x = column_.x + c_.px(kPageSide - 8);
        for (int i = 0; i < 3; ++i) {
            const char* name = kNames[static_cast<std::size_t>(i)];
            const bool chosen = model::sheetShown(brief_) == i;
            const float width = c_.textWidth(kStrong, name) + c_.px(16);
            const Rect tab{x, c_.px(8), width, height - c_.px(16)};
            if (button(name, tab, "Which sheet is shown"))
                in_.actions.pushIndex(ActionKind::ShowSheet, i);
            c_.text(x + c_.px(8), c_.px(15), chosen ? kStrong : kBody,
                    chosen ? theme_.ink : theme_.ink2, name);
            if (chosen) {
                c_.fill(Rect{x + c_.px(8), height - c_.px(10), width - c_.px(16),
                             std::max(2.0F, c_.px(2))},
                        theme_.light ? theme_.now : theme_.fill);
            }
            x += width + c_.px(4);
        }
        const std::string paper = paperName();
        const float width = c_.textWidth(kBody, paper) + c_.px(16);
        const Rect rect{column_.right() - c_.px(kPageSide - 8) - width, c_.px(8), width,
                        height - c_.px(16)};
        if (rect.x > x) {
            if (button("paper", rect, "The other paper: A4 with A5, or letter with half-letter"))
                in_.actions.push(ActionKind::TogglePaper);
            c_.text(rect.x + c_.px(8), c_.px(15), kBody, theme_.ink2, paper);
        }
        c_.across(column_.x, column_.right(), height - 1, theme_.line);
    }

    void chevron(float x, float y, float way, Colour colour) const {
        const ImVec2 points[3] = {ImVec2(x - way * c_.px(3), y - c_.px(5)),
                                  ImVec2(x + way * c_.px(2), y),
                                  ImVec2(x - way * c_.px(3), y + c_.px(5))};
        c_.stroke(points, colour, 1.5F);
    }

    void drawFoot() {
        const float top = column_.bottom() - c_.px(kPageFoot);
        const float middle = top + c_.px(kPageFoot / 2);
        c_.fill(Rect{column_.x, top, column_.width, c_.px(kPageFoot)}, theme_.surface);
        c_.across(column_.x, column_.right(), top, theme_.line);
        const int pages =
            brief_.made ? brief_.made->pages[static_cast<std::size_t>(model::sheetShown(brief_))]
                        : 0;
        const int page = model::pageShown(brief_);
        const float side = c_.px(28), y = middle - side / 2;
        float x = column_.x + c_.px(kPageSide - 8);
        for (const int way : {-1, 1}) {
            const bool can = way < 0 ? page > 0 : page + 1 < pages;
            if (button(way < 0 ? "page before" : "next page", Rect{x, y, side, side},
                       way < 0 ? "The page before (Ctrl Shift F6)" : "The next page (Ctrl F6)",
                       can)) {
                in_.actions.pushIndex(ActionKind::TurnPage, way);
            }
            chevron(x + side / 2, middle, static_cast<float>(way),
                    can ? theme_.ink2 : faded(theme_.ink2, 0.45));
            x += side;
            if (way > 0 || pages == 0) continue;
            x += c_.px(4);
            x = c_.text(x, middle - c_.px(9), kBody, theme_.ink2,
                        std::to_string(page + 1) + " of " + std::to_string(pages)) +
                c_.px(4);
        }
        const char* write = "Write all pages";
        const float width = c_.textWidth(kName, write) + c_.px(20);
        const Rect rect{column_.right() - c_.px(kPageSide - 4) - width, y, width, side};
        if (button("write brief", rect,
                   "Card, cue sheet, director's sheet and captions into a folder beside the "
                   "routine (Shift F6)")) {
            in_.actions.push(ActionKind::WriteBrief);
        }
        c_.frame(rect, theme_.edge);
        c_.text(rect.x + c_.px(10), middle - c_.px(9), kName, theme_.ink, write);
        if (brief_.zoom <= 1) return;
        const std::string zoom = formatFixed(100 * brief_.zoom, 0) + "\u2009%";
        const float zoom_width = c_.textWidth(kBody, zoom) + c_.px(12);
        if (x + zoom_width > rect.x) return;
        if (button("whole page", Rect{x, y, zoom_width, side}, "The whole page (double-click)"))
            in_.actions.push(ActionKind::WholePage);
        c_.text(x + c_.px(6), middle - c_.px(9), kBody, theme_.ink2, zoom);
    }

    void drawPage(const Rect& room) const {
        const auto sheet = static_cast<std::size_t>(model::sheetShown(brief_));
        const model::PagePlace place =
            model::placeOf(brief_, brief_.made->sizes[sheet], static_cast<double>(room.width),
                           static_cast<double>(room.height));
        const Clip clip(c_, room);
        const auto px = [&place](double mm) { return static_cast<float>(mm * place.dots_per_mm); };
        const float left = room.x + static_cast<float>(place.left_px);
        const float top = room.y + static_cast<float>(place.top_px);
        const Rect part{left, top, px(place.part.width_mm), px(place.part.height_mm)};
        c_.fill(part, IM_COL32(255, 255, 255, 255));
        const auto& picture = brief_.picture;
        if (in_.picture.page != nullptr && picture && picture->sheet == model::sheetShown(brief_) &&
            picture->page == model::pageShown(brief_)) {
            // While another size is being painted the one there is stands in for it.
            const float x = left + px(picture->part.x_mm - place.part.x_mm);
            const float y = top + px(picture->part.y_mm - place.part.y_mm);
            const auto scale = static_cast<float>(place.dots_per_mm / picture->dots_per_mm);
            const bool same = scale == 1.0F;
            const float width = scale * static_cast<float>(picture->picture.width);
            const float height = scale * static_cast<float>(picture->picture.height);
            c_.list()->AddImage(in_.picture.page,
                                same ? ImVec2(std::round(x), std::round(y)) : ImVec2(x, y),
                                same ? ImVec2(std::round(x) + width, std::round(y) + height)
                                     : ImVec2(x + width, y + height));
        }
        c_.frame(part, theme_.edge);
    }

    /// What keeps the page from being as it should.
    void drawFault() const {
        if (in_.layout.brief_note <= 0) return;
        const Rect note{column_.x, c_.px(kPageHead), column_.width, in_.layout.brief_note};
        c_.fill(note, theme_.surface);
        c_.across(note.x, note.right(), note.bottom() - 1, theme_.line);
        c_.mark(Mark::Filled, note.x + c_.px(kPageSide + 5), note.y + c_.px(14), theme_.alarm, 10);
        const Clip clip(c_, note);
        c_.paragraph(note.x + c_.px(kPageSide + 18), note.y + c_.px(6),
                     column_.width - c_.px(2 * kPageSide + 18), kNote, theme_.alarm,
                     model::briefFault(in_.model));
    }

    void takePointer(const Rect& room) {
        const Press pressed = press("page", room);
        const ImGuiIO& io = ImGui::GetIO();
        const auto push = [&](ActionKind kind, double value, double x, double y) {
            model::Action action;
            action.kind = kind;
            action.value = value;
            action.x = x;
            action.y = y;
            in_.actions.push(std::move(action));
        };
        if (pressed.hovered) {
            state_.hint = "Wheel: closer. Drag: move. Double-click: the whole page";
            if (io.MouseWheel != 0 && !io.KeyCtrl) {
                push(ActionKind::ZoomPage, static_cast<double>(io.MouseWheel),
                     static_cast<double>((io.MousePos.x - room.x) / room.width),
                     static_cast<double>((io.MousePos.y - room.y) / room.height));
            }
            if (ImGui::IsMouseDoubleClicked(0)) in_.actions.push(ActionKind::WholePage);
        }
        if (pressed.held && !pressed.began && brief_.zoom > 1 &&
            (io.MouseDelta.x != 0 || io.MouseDelta.y != 0)) {
            push(ActionKind::PanPage, 0, static_cast<double>(io.MouseDelta.x / room.width),
                 static_cast<double>(io.MouseDelta.y / room.height));
        }
    }

    void drawBusy() const {
        constexpr double kSoon_s = 0.15;
        if (brief_.waits_s < kSoon_s) return;
        const auto share = static_cast<float>(std::clamp(brief_.flown_share, 0.02, 1.0));
        c_.fill(Rect{column_.x, 0, column_.width * share, std::max(2.0F, c_.px(2))}, theme_.now);
    }

    const PanelInput& in_;
    const Canvas& c_;
    const Theme& theme_;
    UiState& state_;
    const model::Brief& brief_;
    Rect column_;
};

}  // namespace

void drawBriefPage(const PanelInput& in, UiState& state) {
    if (in.layout.brief.width > 0) PageColumn(in, state).draw();
}

}  // namespace plumbline::ui
