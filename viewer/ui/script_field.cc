#include "viewer/ui/script_field.h"

#include <algorithm>
#include <cmath>

namespace plumbline::ui {
namespace {

/// What stands in square brackets is done, not said.
page::Text spansOf(std::string_view words, double size) {
    page::Text text;
    std::size_t at = 0;
    while (at < words.size()) {
        const bool done = words[at] == '[';
        std::size_t end = words.find(done ? ']' : '[', at);
        end = end == std::string_view::npos ? words.size() : end + (done ? 1 : 0);
        text.push_back({std::string(words.substr(at, end - at)),
                        {size, page::Weight::Regular, done ? page::kQuiet : page::kInk}});
        at = end;
    }
    return text;
}

void placeClusters(ScriptLayout::Line& line) {
    for (const page::GlyphRun& run : line.set.runs) {
        const auto edge = [&run](std::size_t glyph) {
            return static_cast<float>(glyph == 0                   ? run.left_pt
                                      : glyph >= run.glyphs.size() ? run.right_pt
                                                                   : run.glyphs[glyph].x_pt);
        };
        std::size_t byte = run.begin;
        std::size_t seen = 0;  // glyphs of the clusters before, in reading order
        for (const page::GlyphRun::Cluster& cluster : run.clusters) {
            const auto glyphs = static_cast<std::size_t>(cluster.glyphs);
            const std::size_t first = run.leftward ? run.glyphs.size() - seen - glyphs : seen;
            line.clusters.push_back({byte, edge(first), edge(first + glyphs), run.leftward});
            byte += static_cast<std::size_t>(cluster.bytes);
            seen += glyphs;
        }
        line.end = std::max(line.end, byte);
    }
    std::sort(line.clusters.begin(), line.clusters.end(),
              [](const auto& a, const auto& b) { return a.byte < b.byte; });
}

std::size_t lineOf(const ScriptLayout& layout, std::size_t byte) {
    std::size_t line = 0;
    while (line + 1 < layout.lines.size() && layout.lines[line + 1].begin <= byte) ++line;
    return line;
}

/// From the line's left end.
float placeIn(const ScriptLayout::Line& line, std::size_t byte, float blank) {
    const ScriptLayout::Cluster* before = nullptr;
    for (const ScriptLayout::Cluster& cluster : line.clusters) {
        if (cluster.byte == byte) return cluster.leftward ? cluster.right : cluster.left;
        if (cluster.byte > byte) break;
        before = &cluster;
    }
    if (before == nullptr) return line.set.leftward ? static_cast<float>(line.set.width_pt) : 0;
    // Blanks at the end of a line are not set: the caret goes on all the same.
    const float beyond = byte > line.end ? blank * static_cast<float>(byte - line.end) : 0;
    return before->leftward ? before->left - beyond : before->right + beyond;
}

}  // namespace

ScriptLayout layoutScript(const page::Fonts& fonts, std::string_view words, float x, float y,
                          float width, float size_px, float line_px) {
    ScriptLayout out;
    out.x = x;
    out.y = y;
    out.width = width;
    out.line_px = line_px;
    const double size = std::round(static_cast<double>(size_px));
    for (page::SetLine& set : fonts.set(spansOf(words, size), static_cast<double>(width))) {
        ScriptLayout::Line line;
        line.begin = line.end = set.begin;
        line.set = std::move(set);
        line.x = line.set.leftward ? x + width - static_cast<float>(line.set.width_pt) : x;
        placeClusters(line);
        out.lines.push_back(std::move(line));
    }
    if (out.lines.empty() || (!words.empty() && words.back() == '\n')) {
        ScriptLayout::Line last;
        last.begin = last.end = words.size();
        last.x = x;
        out.lines.push_back(std::move(last));
    }
    return out;
}

ImVec2 caretAt(const ScriptLayout& layout, std::size_t byte) {
    const std::size_t number = lineOf(layout, byte);
    const ScriptLayout::Line& line = layout.lines[number];
    constexpr float kBlank = 0.2F;  // of the line's height, about a blank's width
    const float at = line.x + placeIn(line, byte, kBlank * layout.line_px);
    return ImVec2(std::clamp(at, layout.x, layout.x + layout.width),
                  layout.y + layout.line_px * static_cast<float>(number));
}

std::size_t byteAt(const ScriptLayout& layout, float x, float y) {
    const auto last = static_cast<float>(layout.lines.size() - 1);
    const auto number = static_cast<std::size_t>(
        std::clamp(std::floor((y - layout.y) / layout.line_px), 0.0F, last));
    const ScriptLayout::Line& line = layout.lines[number];
    std::size_t best = line.begin;
    float nearest = std::abs(line.x + placeIn(line, line.begin, 0) - x);
    for (std::size_t i = 0; i < line.clusters.size(); ++i) {
        const std::size_t next =
            i + 1 < line.clusters.size() ? line.clusters[i + 1].byte : line.end;
        for (const std::size_t byte : {line.clusters[i].byte, next}) {
            const float away = std::abs(line.x + placeIn(line, byte, 0) - x);
            if (away < nearest) {
                nearest = away;
                best = byte;
            }
        }
    }
    return best;
}

std::size_t byteLinesAway(const ScriptLayout& layout, std::size_t byte, int lines) {
    const ImVec2 at = caretAt(layout, byte);
    const float y = at.y + layout.line_px * (static_cast<float>(lines) + 0.5F);
    if (y < layout.y) return layout.lines.front().begin;
    if (y > layout.y + layout.height()) return layout.lines.back().end;
    return byteAt(layout, at.x, y);
}

void drawScriptWords(const Canvas& c, const ScriptLayout& layout, Colour ink, Colour quiet,
                     model::TextRange selected) {
    float y = layout.y;
    for (const ScriptLayout::Line& line : layout.lines) {
        for (const ScriptLayout::Cluster& cluster : line.clusters) {
            if (cluster.byte < selected.begin || cluster.byte >= selected.end) continue;
            c.fill(Rect{line.x + cluster.left, y, cluster.right - cluster.left, layout.line_px},
                   faded(c.theme().now, 0.28));
        }
        c.setLine(line.x, y, layout.line_px, line.set, ink, quiet);
        y += layout.line_px;
    }
}

}  // namespace plumbline::ui
