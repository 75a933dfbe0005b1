#include <algorithm>
#include <array>
#include <cmath>

#include "viewer/ui/prompter_parts.h"

namespace plumbline::ui {

PrompterLayout prompterLayoutOf(float width_px, float height_px, float scale) {
    constexpr float kText = 0.65F;
    PrompterLayout out;
    out.scale = scale;
    out.window = Rect{0, 0, width_px, height_px};
    const float text = std::round(kText * width_px);
    out.text = Rect{0, 0, text, height_px};
    out.side = Rect{text, 0, width_px - text, height_px};
    // Low windows keep room for the cues below.
    const float picture = std::min(out.side.width * 9 / 16, height_px * 0.35F);
    out.picture = Rect{text, 0, out.side.width, std::round(picture)};
    return out;
}

Layout layoutOf(const PrompterLayout& layout) {
    Layout out;
    out.scale = layout.scale;
    out.window = layout.window;
    out.picture = layout.picture;
    out.timeline = Rect{0, layout.window.height, layout.window.width, 0};
    out.strip = Rect{layout.picture.x, layout.picture.bottom(), layout.picture.width, 0};
    return out;
}

int promptSize(float width_units, double wish) {
    constexpr std::array<float, 3> kWidths{832, 1040, 1248}, kSizes{44, 56, 64};
    float size = kSizes[0] * width_units / kWidths[0];
    if (width_units > kWidths[2]) {
        size = kSizes[2] * width_units / kWidths[2];
    } else {
        for (std::size_t i = 0; i < 2; ++i) {
            if (width_units < kWidths[i]) continue;
            const float t = (width_units - kWidths[i]) / (kWidths[i + 1] - kWidths[i]);
            size = kSizes[i] + t * (kSizes[i + 1] - kSizes[i]);
        }
    }
    constexpr int kSmallest = 16, kLargest = 180;  // chosen: letters that the atlas has room for
    return std::clamp(static_cast<int>(std::lround(static_cast<double>(size) * wish)), kSmallest,
                      kLargest);
}

std::vector<TextLine> linesOf(const Canvas& canvas, const Type& type, float width,
                              const std::string& words) {
    std::vector<TextLine> lines;
    std::size_t from = 0;
    while (from < words.size()) {
        std::size_t fits = from, end = from;
        while (end < words.size()) {
            const std::size_t next = std::min(words.find(' ', end), words.size());
            const std::string_view line = std::string_view(words).substr(from, next - from);
            if (fits > from && canvas.textWidth(type, line) > width) break;
            fits = next;
            end = next + 1;
        }
        lines.push_back({from, fits});
        from = fits + 1;
    }
    return lines;
}

std::string withCapital(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

PromptNow promptNow(const model::Model& model) {
    PromptNow now;
    now.time_s = model::promptTime_s(model);
    if (!model.prompter.prompt) return now;
    const double pace = model.session.words_per_min;
    now.running = model::promptRunning(model);
    now.blocks = model::blocksOf(*model.prompter.prompt, now.running, pace);
    now.place = model::placeAt(now.running, now.blocks, now.time_s, pace);
    return now;
}

void drawPrompter(const PanelInput& in, UiState& state) {
    const Rect& window = in.layout.window;
    const PrompterLayout layout = prompterLayoutOf(window.width, window.height, in.layout.scale);
    const PromptNow now = promptNow(in.model);
    drawPromptText(in.canvas, in.model, now, layout.text, false, in.picture.setter);
    drawPromptSide(in, state, now, layout);
}

}  // namespace plumbline::ui
