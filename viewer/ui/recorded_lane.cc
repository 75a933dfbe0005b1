#include "viewer/ui/recorded_lane.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/number_text.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::ui {

namespace {

/// "Places, 2 holes, 5 let go"
std::string wordsOf(const record::StreamCoverage& stream) {
    std::string words = stream.name;
    const auto add = [&words](std::size_t count, const char* one, const char* many) {
        if (count > 0) words += ", " + std::to_string(count) + " " + (count == 1 ? one : many);
    };
    add(stream.spans.empty() ? 0 : stream.spans.size() - 1, "hole", "holes");
    add(stream.rejected_s.size(), "let go", "let go");
    return words;
}

struct Range {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();
    void take(const record::StreamNumbers::Entry& entry, int component) {
        low = std::min(low, static_cast<double>(entry.low[component]));
        high = std::max(high, static_cast<double>(entry.high[component]));
    }
};

/// How a stream's unit is shown, and what makes its numbers that.
double shownUnit(const record::StreamNumbers& numbers, model::UnitChoice units, std::string& unit) {
    constexpr double kDegrees = 180 / kPi;
    if (numbers.unit == "rad/s" || numbers.unit == "rad") {
        unit = numbers.unit == "rad" ? "deg" : "deg/s";
        return kDegrees;
    }
    if (numbers.unit == "m/s2") {
        unit = "g";
        return 1 / kGravity_mps2;
    }
    if (numbers.unit == "m") {
        unit = heightUnit(units);
        return heightInUnit(1, units);
    }
    if (numbers.unit == "m/s") {
        unit = speedUnit(units);
        return speedInUnit(1, units);
    }
    return 1;
}

std::string rangeWords(const record::StreamCoverage& stream, const Range& range,
                       model::UnitChoice units) {
    std::string unit;
    const double scale = shownUnit(stream.numbers, units, unit);
    const double low = scale * range.low, high = scale * range.high;
    const auto word = [&](double value) {
        if (high - low >= 20) return wholeText(value);
        return (value < -0.05 ? "\u2212" : "") + formatFixed(std::abs(value), 1);
    };
    return word(low) + " to " + word(high) + (unit.empty() ? "" : " " + unit);
}

/// Of the first, second or third number of a sample.
Colour colourOfPart(const Theme& theme, int part) {
    return part == 0 ? theme.flight : part == 1 ? theme.ink : theme.ink3;
}

/// A stream's numbers over the time that the axis shows, each column of pixels from the least to
/// the most of what falls on it. Returns what it spans.
Range drawNumbers(const Canvas& c, const Rect& area, const record::StreamCoverage& stream,
                  const model::TimeAxis& axis) {
    const record::StreamNumbers& numbers = stream.numbers;
    const auto& all = numbers.entries;
    const auto before = [](const auto& entry, double time_s) { return entry.time_s < time_s; };
    auto from = std::lower_bound(all.begin(), all.end(), axis.start_s, before);
    if (from != all.begin()) --from;  // its samples may reach in
    auto to = std::lower_bound(from, all.end(), axis.stop_s(), before);
    Range range;
    for (auto at = from; at != to; ++at)
        for (int k = 0; k < numbers.components; ++k) range.take(*at, k);
    if (!(range.high >= range.low)) return range;
    const double span = std::max(range.high - range.low, 1e-9);
    const auto yOf = [&](double value) {
        return area.bottom() - static_cast<float>((value - range.low) / span) * area.height;
    };
    const auto sameSpan = [&stream](double a_s, double b_s) {
        return std::none_of(stream.spans.begin(), stream.spans.end(), [&](const auto& piece) {
            return piece.start_s > a_s && piece.start_s <= b_s;
        });
    };
    for (int k = numbers.components; k-- > 0;) {
        float x = 0;
        Range column;
        const auto finish = [&] {
            const float top = yOf(column.high), bottom = yOf(column.low);
            c.fill(Rect{x, top, 1, std::max(1.0F, bottom - top)}, colourOfPart(c.theme(), k));
        };
        for (auto at = from; at != to; ++at) {
            const float now = std::floor(static_cast<float>(axis.xOf(at->time_s)));
            if (at == from) {
                x = now;
            } else if (now != x) {
                finish();
                // Sparse numbers hold until the next; columns side by side touch.
                const auto last = std::prev(at);
                column = {};
                if (sameSpan(last->time_s, at->time_s)) {
                    c.fill(Rect{x, yOf(last->high[k]), now - x, 1}, colourOfPart(c.theme(), k));
                    column.take(*last, k);
                }
                x = now;
            }
            column.take(*at, k);
        }
        finish();
    }
    return range;
}

/// What is under the pointer, on a plate above the bars: its name, and its numbers as logged.
void drawPlate(const PanelInput& in, const Rect& lane, const model::TimeAxis& axis,
               const record::StreamCoverage& stream) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const bool numbers = !stream.numbers.entries.empty();
    const float height = numbers ? c.px(84) : c.px(18);
    const Rect plate{lane.x, lane.y - height - c.px(2), lane.width, height};
    c.fill(plate, theme.raised);
    c.frame(plate, theme.line);
    std::string words = wordsOf(stream);
    if (numbers) {
        const Clip clip(c, plate);
        const float line = c.px(20);
        const Range range = drawNumbers(
            c, Rect{plate.x, plate.y + line, plate.width, plate.height - line - c.px(3)}, stream,
            axis);
        if (range.high >= range.low)
            words += ": " + rangeWords(stream, range, in.model.session.units);
    }
    float x = c.text(plate.x + c.px(6), plate.y + c.px(2), kSmall, theme.ink, words);
    if (stream.numbers.components != 3) return;
    const bool angles = stream.numbers.unit == "rad";
    const char* const parts[3] = {angles ? "roll" : "x", angles ? "pitch" : "y",
                                  angles ? "heading" : "z"};
    for (int k = 0; k < 3; ++k)
        x = c.text(x + c.px(10), plate.y + c.px(2), kSmall, colourOfPart(theme, k), parts[k]);
}

}  // namespace

void drawRecordedLane(const PanelInput& in, const Rect& lane, const model::TimeAxis& axis) {
    const std::vector<record::StreamCoverage>& streams = in.model.shown->streams;
    if (lane.height <= 0 || streams.empty()) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float pitch =
        std::floor(std::min(lane.height / static_cast<float>(streams.size()), c.px(6)));
    const float thick = std::max(1.0F, pitch - c.px(1));
    const ImVec2 mouse = ImGui::GetMousePos();
    const record::StreamCoverage* under = nullptr;
    {
        const Clip clip(c, lane);
        for (std::size_t i = 0; i < streams.size(); ++i) {
            const float y = lane.y + static_cast<float>(i) * pitch;
            const bool pointed =
                mouse.x >= 0 && mouse.x < lane.right() && mouse.y >= y && mouse.y < y + pitch;
            if (pointed) under = &streams[i];
            for (const record::TimeSpan& span : streams[i].spans) {
                const auto x0 = std::round(static_cast<float>(axis.xOf(span.start_s)));
                const auto x1 = std::round(static_cast<float>(axis.xOf(span.stop_s)));
                c.fill(Rect{x0, y, std::max(1.0F, x1 - x0), thick},
                       pointed ? theme.flight : theme.ink3);
            }
            for (const double time_s : streams[i].rejected_s)
                c.fill(Rect{std::round(static_cast<float>(axis.xOf(time_s))), y,
                            std::max(1.0F, c.px(1)), pitch},
                       theme.alarm);
        }
    }
    c.text(c.px(16), lane.y, kSmall, theme.ink2, "Logged");
    if (under) drawPlate(in, lane, axis, *under);
}

}  // namespace plumbline::ui
