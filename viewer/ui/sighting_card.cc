// What the sighting frame reads, in words and numbers.

#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/scene/sighting.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

constexpr double kDegree_rad = kPi / 180;
constexpr double kGood_deg = 0.5;  ///< less is called right

/// Tenths of a degree with the true minus sign.
std::string degrees(double angle_rad, bool sign) {
    const double tenths = std::round(angle_rad / kDegree_rad * 10) / 10;
    const std::string number = formatFixed(std::abs(tenths), 1) + "\u00b0";
    if (!sign || tenths == 0) return number;
    return (tenths < 0 ? "\u2212" : "+") + number;
}

/// Bar against horizon, the angle five times as large.
void drawOpening(const Canvas& c, const scene::SightingReading& reading, float x, float y) {
    const Theme& theme = c.theme();
    const float length = c.px(42);
    const double most_rad = 75 * kDegree_rad;
    const double open_rad = std::clamp(5 * reading.angle_rad, -most_rad, most_rad);
    // The bar stands upright here, whichever it is.
    const ImVec2 foot(x, y + length);
    const ImVec2 bar[2] = {foot, ImVec2(x, y)};
    c.stroke(bar, theme.light ? theme.now : theme.fill, 3);
    const auto along = [&](double part) {
        const auto reach = static_cast<float>(part) * length;
        // From the bar back to the horizon.
        return ImVec2(x + reach * static_cast<float>(std::sin(open_rad)),
                      y + length - reach * static_cast<float>(std::cos(open_rad)));
    };
    constexpr int kDashes = 5;
    for (int i = 0; i < kDashes; ++i) {
        const ImVec2 dash[2] = {along((i + 0.05) / kDashes), along((i + 0.7) / kDashes)};
        c.stroke(dash, theme.ink, 2);
    }
}

}  // namespace

void drawSightingCard(const PanelInput& in, float top) {
    if (in.picture.list == nullptr || !in.picture.list->sighting) return;
    const scene::SightingReading& reading = *in.picture.list->sighting;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float width = c.px(252);
    const float x = in.layout.picture.right() - c.px(12) - width;
    const Rect box{x, top, width, c.px(212)};
    if (box.bottom() > in.layout.strip.y) return;
    c.fill(box, theme.veil);
    const float left = x + c.px(16), right = box.right() - c.px(16);
    const double off_deg = std::abs(reading.pull_rad) / kDegree_rad;
    c.text(left, box.y + c.px(10), kTitle, theme.ink, degrees(std::abs(reading.pull_rad), false));
    std::string word = scene::barWord(reading.bar);
    if (off_deg >= kGood_deg) {
        word = reading.pull_rad > 0 ? "Pull: nose towards canopy" : "Push: nose towards wheels";
    } else {
        word[0] = static_cast<char>(word[0] == 'l' ? 'L' : word[0] == 'v' ? 'V' : word[0]);
    }
    c.text(left, box.y + c.px(56), kHead, theme.ink, word);
    c.text(left, box.y + c.px(78), kSmall, theme.ink2,
           std::string("Bar for ") + scene::barWord(reading.bar) + " against the horizon;");
    c.text(left, box.y + c.px(92), kSmall, theme.ink2, "the opening is drawn five times as large");
    drawOpening(c, reading, right - c.px(44), box.y + c.px(10));
    struct Row {
        std::string name, value;
    };
    const bool right_low = reading.right_low_rad > 0;
    const std::array<Row, 4> rows{
        {{"Attitude, towards canopy", degrees(reading.attitude_rad, true)},
         {"Flight path, towards canopy", degrees(reading.path_rad, true)},
         {"Wind explains", degrees(reading.wind_rad, true)},
         {right_low ? "Wing low, right" : "Wing low, left",
          degrees(std::abs(reading.right_low_rad), false)}}};
    float y = box.y + c.px(116);
    for (const Row& row : rows) {
        c.text(left, y, kNote, theme.ink2, row.name);
        c.textRight(right, y, kNoteStrong, theme.ink, row.value);
        y += c.px(22);
    }
}

}  // namespace plumbline::ui
