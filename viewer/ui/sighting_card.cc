// What the sighting frame reads, in words and numbers.

#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/units/units.h"
#include "viewer/scene/sighting.h"
#include "viewer/ui/picture_parts.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/sheet_parts.h"

namespace plumbline::ui {
namespace {

/// How surely the attitude of the moment is known.
struct Sureness {
    double within_rad = 0;  ///< twice the expected error, rounded up to tenths; 0: not told
    std::string words;
};

Sureness surenessOf(const model::Shown& shown, double time_s) {
    Sureness out;
    if (!shown.recording()) return out;
    const path::Path& path = shown.path();
    const auto sigma_rad =
        static_cast<double>(path.samples[path::sampleIndexAt(path, time_s)].attitude_sigma_rad);
    if (sigma_rad > 0) {
        out.within_rad = std::ceil(20 * sigma_rad / units::kDegree_rad) / 10 * units::kDegree_rad;
        out.words = "\u00b1 holds 19 times of 20";
    } else {
        out.words = "How sure it is the recording does not tell";
    }
    const bool type_known = shown.source.aircraft->geometry.wing_area_m2 > 0;
    if (!type_known) out.words += ". Zero-lift axis not known: read by the nose's";
    return out;
}
/// Tenths of a degree with the true minus sign.
std::string degrees(double angle_rad, bool sign) {
    const double tenths = std::round(angle_rad / units::kDegree_rad * 10) / 10;
    const std::string number = formatFixed(std::abs(tenths), 1) + "\u00b0";
    if (!sign || tenths == 0) return number;
    return (tenths < 0 ? "\u2212" : "+") + number;
}

std::string wholeDegrees(double angle_rad) {
    const double whole = std::round(angle_rad / units::kDegree_rad);
    const std::string sign = whole < 0 ? "\u2212" : whole > 0 ? "+" : "";
    return sign + formatFixed(std::abs(whole), 0) + "\u00b0";
}

/// Bar against horizon, the angle five times as large.
void drawOpening(const Canvas& c, const scene::SightingReading& reading, float x, float y) {
    const Theme& theme = c.theme();
    const float length = c.px(42);
    const double most_rad = 75 * units::kDegree_rad;
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

Rect sightingCardRect(const PanelInput& in) {
    if (in.picture.list == nullptr || !in.picture.list->sighting) return Rect();
    const Canvas& c = in.canvas;
    const int insets = in.layout.inset_count;
    const float top =
        insets > 0 ? in.layout.insets[static_cast<std::size_t>(insets - 1)].bottom() : c.px(4);
    const float width = c.px(268), height = c.px(in.model.shown->recording() ? 252 : 212);
    const Rect box{in.layout.picture.right() - c.px(12) - width, top + c.px(8), width, height};
    return box.bottom() > in.layout.strip.y ? Rect() : box;
}

void drawSightingCard(const PanelInput& in) {
    const Rect box = sightingCardRect(in);
    if (box.height <= 0) return;
    const scene::SightingReading& reading = *in.picture.list->sighting;
    const model::Shown& shown = *in.model.shown;
    const Sureness sure = surenessOf(shown, in.model.clock.time_s());
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    c.fill(box, theme.veil);
    const float left = box.x + c.px(16), right = box.right() - c.px(16);
    const bool judged = scene::sightingJudged(reading, sure.within_rad);
    const float number_end = c.text(left, box.y + c.px(10), kTitle, judged ? theme.ink : theme.ink2,
                                    degrees(std::abs(reading.pull_rad), false));
    if (sure.within_rad > 0) {
        c.text(number_end + c.px(6), box.y + c.px(26), kSubhead, theme.ink2,
               "\u00b1" + degrees(sure.within_rad, false));
    }
    std::string word = scene::barWord(reading.bar);
    if (!judged) {
        word = "Not sure enough to judge";
    } else if (std::abs(reading.pull_rad) >= scene::kSightingGood_rad) {
        word = reading.pull_rad > 0 ? "Pull: nose towards canopy" : "Push: nose towards wheels";
    } else {
        word = capitalised(word);
    }
    c.text(left, box.y + c.px(56), kHead, judged ? theme.ink : theme.ink2, word);
    c.text(left, box.y + c.px(78), kSmall, theme.ink2,
           std::string("Bar for ") + scene::barWord(reading.bar) + " against the horizon;");
    c.text(left, box.y + c.px(92), kSmall, theme.ink2, "the opening is drawn five times as large");
    drawOpening(c, reading, right - c.px(44), box.y + c.px(10));
    struct Row {
        std::string name, value;
    };
    const auto attitude = [&sure](double angle_rad, bool sign) {
        std::string words = degrees(angle_rad, sign);
        if (sure.within_rad > 0) words += " \u00b1" + degrees(sure.within_rad, false);
        return words;
    };
    // Of a recording the path's direction is no surer than a degree, the wind is not known.
    const bool recording = shown.recording();
    const bool right_low = reading.right_low_rad > 0;
    const std::array<Row, 4> rows{
        {{"Attitude, towards canopy", attitude(reading.attitude_rad, true)},
         {"Flight path, towards canopy",
          recording ? "about " + wholeDegrees(reading.path_rad) : degrees(reading.path_rad, true)},
         {"Wind explains", shown.wind_mps ? degrees(reading.wind_rad, true) : kUnknown},
         {right_low ? "Wing low, right" : "Wing low, left",
          attitude(std::abs(reading.right_low_rad), false)}}};
    float y = box.y + c.px(116);
    for (const Row& row : rows) {
        c.text(left, y, kNote, theme.ink2, row.name);
        c.textRight(right, y, kNoteStrong, theme.ink, row.value);
        y += c.px(22);
    }
    if (recording) c.paragraph(left, y + c.px(2), right - left, kSmall, theme.ink2, sure.words);
}

}  // namespace plumbline::ui
