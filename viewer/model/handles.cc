#include "viewer/model/handles.h"

#include <algorithm>
#include <string_view>

#include "engine/base/number_text.h"
#include "viewer/model/model.h"
#include "viewer/model/routine_blocks.h"

namespace plumbline::model {
namespace {

constexpr double kFoot_m = 0.3048;

double metresPer(const std::string& unit) { return unit == "ft" ? kFoot_m : 1; }

/// Words of a line of figure text up to its comment, with their bytes.
struct Word {
    std::string_view text;
    std::size_t byte;
};
std::vector<Word> wordsOf(std::string_view line, std::size_t begin) {
    line = line.substr(0, line.find('#'));
    std::vector<Word> words;
    std::size_t at = 0;
    while ((at = line.find_first_not_of(" \t\r", at)) != std::string_view::npos) {
        const std::size_t end = std::min(line.find_first_of(" \t\r", at), line.size());
        words.push_back({line.substr(at, end - at), begin + at});
        at = end;
    }
    return words;
}

/// What a number behind a word sets; nothing moved: no handle.
struct Effect {
    Vec3 position_S_m{0};
    Vec3 way_S{0};
};
Effect effectOf(const path::Path& path, const path::Element& element, std::string_view before,
                bool along) {
    const path::Sample end = path::sampleAt(path, element.stop_s);
    if (before == "x") return {end.position_S_m, Vec3(1, 0, 0)};
    if (before == "y") return {end.position_S_m, Vec3(0, 1, 0)};
    if (before == "height") return {end.position_S_m, Vec3(0, 0, 1)};
    if (before == "radius") {
        // What lies farthest from where the arc begins moves most.
        const Vec3 from = path::sampleAt(path, element.start_s).position_S_m;
        Effect out;
        double far_m = 0;
        constexpr int kLooks = 24;
        for (int i = 1; i <= kLooks; ++i) {
            const double time_s = element.start_s + (element.stop_s - element.start_s) * i / kLooks;
            const Vec3 place = path::sampleAt(path, time_s).position_S_m;
            if (glm::length(place - from) <= far_m) continue;
            far_m = glm::length(place - from);
            out = {place, place - from};
        }
        return out;
    }
    const double speed_mps = glm::length(end.velocity_S_mps);
    if (along && speed_mps > 1) return {end.position_S_m, end.velocity_S_mps / speed_mps};
    return {};
}

void addHandles(const path::Path& path, const path::Element& element, const std::string& text,
                TextRange line, std::vector<Handle>& out) {
    const std::vector<Word> words =
        wordsOf(std::string_view(text).substr(line.begin, line.end - line.begin), line.begin);
    if (words.empty()) return;
    for (std::size_t i = 1; i + 1 < words.size(); ++i) {
        const std::string unit(words[i + 1].text);
        const auto value = parseDouble(words[i].text);
        if (!value || (unit != "m" && unit != "ft")) continue;
        const std::string_view before = words[i - 1].text;
        const bool extent = words[0].text == "line" || words[0].text == "slide";
        const bool along = extent && before != "after" && before != "side" && before != "height";
        Effect effect = effectOf(path, element, before, along);
        if (before == "radius")
            effect.way_S = effect.way_S / std::max(1.0, *value * metresPer(unit));
        if (glm::length(effect.way_S) < 0.05) continue;
        Handle handle;
        handle.byte = words[i].byte + (words[i].text.front() == '-' ? 1 : 0);
        handle.unit = unit;
        handle.value = *value;
        handle.position_S_m = effect.position_S_m;
        handle.way_S = effect.way_S;
        for (std::size_t k = i == 1 ? 0 : i - 1; k <= i + 1; ++k) {
            handle.words += (handle.words.empty() ? "" : " ") + std::string(words[k].text);
        }
        out.push_back(std::move(handle));
    }
}

}  // namespace

std::vector<Handle> handlesOf(const Model& model) {
    std::vector<Handle> out;
    const Editor& editor = model.editor;
    if (!editor.open() || editor.active != 0 || !model.shown || !model.variant.asWritten() ||
        !editor.problems.empty()) {
        return out;
    }
    const int row = openRow(model);
    if (row < 0) return out;
    const int index = model.rows[static_cast<std::size_t>(row)].block;
    const std::string& text = editor.routineText();
    const std::vector<FigureBlock> blocks = figureBlocks(text);
    if (index < 0 || index >= static_cast<int>(blocks.size())) return out;
    const FigureBlock& block = blocks[static_cast<std::size_t>(index)];
    if (!block.own_text) return out;
    const path::Path& path = model.shown->path();
    for (const path::Element& element : path.elements) {
        if (element.figure < 0 || element.source_line < 1 ||
            path.figures[static_cast<std::size_t>(element.figure)].name != block.name) {
            continue;
        }
        TextRange line;
        line.begin = byteOf(text, element.source_line, 1);
        line.end = std::min(text.find('\n', line.begin), block.text.end);
        if (line.begin < block.text.begin || line.begin >= block.text.end) continue;
        addHandles(path, element, text, line, out);
    }
    return out;
}

double draggedBy_m(const Handle& handle, const scene::Camera& camera, int width_px, int height_px,
                   double right_px, double down_px) {
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0, away_m = 0;
    if (!scene::project(camera, width_px, height_px, handle.position_S_m, x0, y0, away_m)) return 0;
    if (!scene::project(camera, width_px, height_px, handle.position_S_m + handle.way_S, x1, y1,
                        away_m)) {
        return 0;
    }
    const double right = x1 - x0, down = y1 - y0;
    const double square = right * right + down * down;
    constexpr double kLeast_px = 0.02;  // chosen: a metre must be seen to be dragged
    if (square < kLeast_px * kLeast_px) return 0;
    return (right * right_px + down * down_px) / square;
}

std::string draggedDigits(const Handle& taken, double by_m) {
    return steppedNumber(formatDouble(taken.value + by_m / metresPer(taken.unit)), taken.unit, 0,
                         false);
}

}  // namespace plumbline::model
