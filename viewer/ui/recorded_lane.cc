#include "viewer/ui/recorded_lane.h"

#include <algorithm>
#include <cmath>

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
    std::string words;
    {
        const Clip clip(c, lane);
        for (std::size_t i = 0; i < streams.size(); ++i) {
            const float y = lane.y + static_cast<float>(i) * pitch;
            const bool pointed =
                mouse.x >= 0 && mouse.x < lane.right() && mouse.y >= y && mouse.y < y + pitch;
            if (pointed) words = wordsOf(streams[i]);
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
    if (words.empty()) return;
    // What is under the pointer, on a plate above the bars.
    const float width = c.textWidth(kSmall, words) + c.px(12), height = c.px(18);
    const float x = std::clamp(std::floor(mouse.x), lane.x, std::max(lane.x, lane.right() - width));
    const Rect plate{x, lane.y - height - c.px(2), width, height};
    c.fill(plate, theme.raised);
    c.frame(plate, theme.line);
    c.text(plate.x + c.px(6), plate.y + c.px(2), kSmall, theme.ink, words);
}

}  // namespace plumbline::ui
