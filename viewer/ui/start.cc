// What stands beside the demo when the program is opened with no file.

#include <algorithm>
#include <cmath>

#include "engine/check/check.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

constexpr float kStartMargin = 44;

/// One way in: a picture, a heading, a line, a key.
struct Way {
    const char* heading;
    std::string line;
    const char* key;
};

void drawDashedFrame(const Canvas& c, float x, float y) {
    const float w = c.px(28), h = c.px(18), d = c.px(9);
    const Colour colour = c.theme().ink2;
    const auto corner = [&](float cx, float cy, float sx, float sy) {
        const ImVec2 points[3] = {ImVec2(cx + sx * d, cy), ImVec2(cx, cy), ImVec2(cx, cy + sy * d)};
        c.stroke(points, colour, 1.5F);
    };
    corner(x - w, y - h, 1, 1);
    corner(x + w, y - h, -1, 1);
    corner(x - w, y + h, 1, -1);
    corner(x + w, y + h, -1, -1);
    const ImVec2 shaft[2] = {ImVec2(x, y - c.px(9)), ImVec2(x, y + c.px(9))};
    const ImVec2 head[3] = {ImVec2(x - c.px(6), y + c.px(3)), ImVec2(x, y + c.px(9)),
                            ImVec2(x + c.px(6), y + c.px(3))};
    c.stroke(shaft, c.theme().ink, 1.5F);
    c.stroke(head, c.theme().ink, 1.5F);
}

void drawRoutineLines(const Canvas& c, float x, float y) {
    constexpr const char* kLines[] = {"line level", "pull to up", "line up"};
    const Colour colours[] = {c.theme().ink, c.theme().ink2, c.theme().ink3};
    for (int i = 0; i < 3; ++i) {
        c.text(x - c.px(28), y + c.px(static_cast<float>(i) * 16 - 24), kNote, colours[i],
               kLines[i]);
    }
}

/// The figure of the demo whose picture fills a square best: neither a pass nor a spire.
std::size_t pictureFigure(const UiState& state) {
    std::size_t best = 0;
    float most = 0;
    for (std::size_t i = 0; i < state.ribbons.size(); ++i) {
        float x0 = 0, x1 = 0, y0 = 0, y1 = 0;
        for (const Ribbon::Quad& quad : state.ribbons[i].quads) {
            for (const ImVec2& corner : quad.corner) {
                x0 = std::min(x0, corner.x);
                x1 = std::max(x1, corner.x);
                y0 = std::min(y0, corner.y);
                y1 = std::max(y1, corner.y);
            }
        }
        const float square = std::min(x1 - x0, y1 - y0);
        if (square > most) {
            most = square;
            best = i;
        }
    }
    return best;
}

/// @param bottom  what they must end above, where they can
float drawWays(const PanelInput& in, UiState& state, float y, float right, float bottom) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    std::string demo = "The demo is being read";
    if (in.model.shown) {
        demo = std::to_string(in.model.shown->outline.size()) + " figures, " +
               timeText(in.model.clock.duration_s()) + " minutes, an invented show";
    }
    const Way ways[] = {{"Look through the demo, change it", demo, "Space"},
                        {"Begin a routine", "Figures from the shelf, or your own lines", "Ctrl N"},
                        {"Open a routine or a recording",
                         "Or drop it on the window: text, IGC, GPX, CSV", "Ctrl O"}};
    const float left = c.px(kStartMargin);
    const float height = std::clamp(std::floor((bottom - y) / 3), c.px(48), c.px(80));
    c.across(left, right, y, theme.line);
    for (int i = 0; i < 3; ++i) {
        const Rect row{left, y + 1, right - left, height - 1};
        const Press pressed = press(ways[i].heading, row);
        if (pressed.hovered) {
            state.wants_hand = true;
            c.fill(row, theme.raised);
        }
        if (pressed.clicked && i == 0) in.actions.push(ActionKind::CloseStart);
        if (pressed.clicked && i == 1) in.actions.push(ActionKind::NewRoutine);
        if (pressed.clicked && i == 2) {
            in.actions.pushIndex(ActionKind::ShowList, static_cast<int>(model::ListKind::OpenFile));
        }
        const float middle = y + height / 2;
        const float picture_x = left + c.px(30);
        if (i == 0 && !state.ribbons.empty()) {
            drawRibbon(c, state.ribbons[pictureFigure(state)], picture_x, middle, 1.5F);
        } else if (i == 1) {
            drawRoutineLines(c, picture_x, middle);
        } else if (i == 2) {
            drawDashedFrame(c, picture_x, middle);
        }
        const float x = left + c.px(88);
        c.textClipped(x, middle - c.px(21), right, kHead, theme.ink, ways[i].heading);
        c.textClipped(x, middle + c.px(2), right, kBody, theme.ink2, ways[i].line);
        const float key_x = right - c.px(4) - c.textWidth(kNote, ways[i].key);
        if (key_x > x + c.textWidth(kHead, ways[i].heading) + c.px(8)) {
            c.text(key_x, middle - c.px(9), kNote, theme.ink3, ways[i].key);
        }
        y += height;
        c.across(left, right, y, theme.line);
    }
    return y;
}

}  // namespace

void drawStart(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& sheet = in.layout.sheet;
    c.fill(sheet, theme.surface);
    c.down(sheet.right() - 1, 0, sheet.bottom(), theme.line);
    const float left = c.px(kStartMargin);
    const float right = sheet.right() - c.px(kStartMargin);
    const float thread = c.px(56);
    const float w = std::max(1.0F, std::round(1.5F * c.scale()));
    c.fill(Rect{thread - w / 2, c.px(46), w, c.px(30)}, theme.light ? theme.ink : theme.ink2);
    c.bob(thread, c.px(75), theme.fill, 1.85F);
    c.text(c.px(84), c.px(44), kTitle, theme.ink, "Plumbline");
    c.textClipped(c.px(84), c.px(88), right, kSubhead, theme.ink2,
                  "Playing the demo routine from the crowd line");
    const char* caution = check::caution();
    const float width = right - left - c.px(16);
    const float height = c.paragraph(0, 0, width, kNote, 0, caution, false);
    float y = sheet.bottom() - c.px(24) - height;
    const float below = drawWays(in, state, c.px(138), right, y - c.px(12));
    c.fill(Rect{left, y, c.px(3), height}, theme.alarm);
    c.paragraph(left + c.px(15), y, width, kNote, theme.ink2, caution);
    float line_y = below + c.px(16);
    for (std::size_t i = 0; i < in.model.session.recent.size() && i < 3; ++i) {
        if (line_y + c.px(60) > y) break;
        const std::filesystem::path file = std::filesystem::u8path(in.model.session.recent[i]);
        const Rect row{left, line_y, right - left, c.px(26)};
        ImGui::PushID(static_cast<int>(i));
        const Press pressed = press("recent", row);
        ImGui::PopID();
        if (pressed.hovered) {
            state.wants_hand = true;
            c.fill(row, theme.raised);
        }
        if (pressed.clicked) {
            model::Action open;
            open.kind = ActionKind::Open;
            open.files = {file};
            in.actions.push(std::move(open));
        }
        c.textClipped(left, line_y + c.px(4), right - c.px(60), kName, theme.ink,
                      file.filename().string());
        c.textRight(right - c.px(4), line_y + c.px(5), kNote, theme.ink3, "recent");
        line_y += c.px(28);
    }
    if (line_y + c.px(40) < y) {
        c.text(left, line_y + c.px(4), kNote, theme.ink3, "F2 finds anything by its words");
        c.textRight(right, line_y + c.px(4), kNote, theme.ink3, "F1 shows the keys");
    }
}

}  // namespace plumbline::ui
