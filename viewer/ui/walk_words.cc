// The walk-through's calls in large words over the picture: what is called, what comes next.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/ui/picture_parts.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::ui {
namespace {

constexpr Type kLargeCall{56, 72, Weight::SemiBold};
constexpr Type kSmallCall{40, 52, Weight::SemiBold};  ///< in a low window
constexpr Type kNextCall{28, 36, Weight::Medium};

std::string begun(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

}  // namespace

void drawWalkWords(const PanelInput& in) {
    const model::Walk& walk = in.model.walk;
    if (!walk.on || !in.model.shown) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const double time_s = model::walkTime_s(in.model);
    const Rect& picture = in.layout.picture;
    const Type& called_type = picture.height < c.px(620) ? kSmallCall : kLargeCall;
    const float width = std::min(picture.width - c.px(48), c.px(1000));
    const float x = std::round(picture.x + (picture.width - width) / 2);
    std::string now, next, quiet;
    double next_in_s = 0;
    if (walk.sound) {
        const std::vector<walk::Call>& calls = walk.sound->calls.calls;
        const int at = model::callAt(walk.sound->calls, time_s);
        if (at >= 0) now = begun(calls[static_cast<std::size_t>(at)].words);
        if (at + 1 < static_cast<int>(calls.size())) {
            const walk::Call& coming = calls[static_cast<std::size_t>(at + 1)];
            next = coming.words;
            next_in_s = coming.begins_s - time_s;
        }
        quiet = (walk.sound->spoken ? "Spoken" : "As tones") + std::string(", each call ") +
                formatFixed(walk.sound->lead_s, 1) + "\u2009s ahead (\u2212 =). F9 ends";
        if (in.model.session.music_off) quiet = "Silent (M). " + quiet;
    } else {
        quiet = "The calls are being made";
    }
    if (time_s < 0) now = "Begins in " + wholeText(std::ceil(-time_s));
    const Type called = c.textWidth(called_type, now) < width - c.px(40) ? called_type : kNextCall;
    const float height = c.lineHeight(called_type) + c.lineHeight(kNextCall) + c.px(50);
    // In the place of the strip: the aircraft stays in sight.
    const Rect band{picture.x, picture.bottom() - height, picture.width, height};
    c.fill(band, theme.surface);
    const Rect box{x, band.y, width, height};
    c.fill(Rect{box.x, box.y, c.px(6), box.height}, theme.fill);
    const float left = box.x + c.px(26), right = box.right() - c.px(20);
    c.textClipped(left, box.y + c.px(10), right, called, theme.ink, now);
    const float y = box.y + c.px(14) + c.lineHeight(called_type);
    if (!next.empty()) {
        const std::string when = wholeText(std::ceil(std::max(0.0, next_in_s))) + "\u2009s";
        const float from = c.textRight(right, y, kNextCall, theme.ink, when);
        c.textClipped(left, y, from - c.px(16), kNextCall, theme.ink2, "Next: " + next);
    }
    c.textClipped(left, box.bottom() - c.px(30), right, kNote, theme.ink2, quiet);
}

}  // namespace plumbline::ui
