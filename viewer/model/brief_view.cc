#include "viewer/model/brief_view.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "viewer/model/model.h"
#include "viewer/model/script_text.h"

namespace plumbline::model {
namespace {

/// One side of a page: where it begins in the room, which part of it is in sight.
struct Along {
    double from_mm = 0, length_mm = 0, at_px = 0;
};

Along along(double size_mm, double room_px, double dots_per_mm, double middle) {
    const double all_px = size_mm * dots_per_mm;
    if (all_px <= room_px) return {0, size_mm, std::floor((room_px - all_px) / 2)};
    const double first_px =
        std::floor(std::clamp(middle * all_px - room_px / 2, 0.0, all_px - room_px));
    return {first_px / dots_per_mm, room_px / dots_per_mm, 0};
}

const routine::RoutineFigure* flownFigure(const Model& model, const std::string& name) {
    if (!model.shown || !model.shown->workspace) return nullptr;
    for (const routine::RoutineFigure& figure : model.shown->workspace->routine.figures)
        if (figure.name == name) return &figure;
    return nullptr;
}

/// What is to be said in a figure, from its text, else as it was read.
void takeScript(CueRow& out, const Model& model, const SheetRow& row,
                const std::vector<FigureBlock>& blocks) {
    if (row.block >= 0 && row.block < static_cast<int>(blocks.size())) {
        const FigureBlock& block = blocks[static_cast<std::size_t>(row.block)];
        out.has_script = block.has_script;
        if (block.has_script) out.script = block.script;
        out.words = scriptWords(model.editor.routineText(), block);
    } else if (const routine::RoutineFigure* figure = flownFigure(model, row.figure.name)) {
        out.words = figure->narration;
        out.has_script = !out.words.empty();
    }
}

const brief::Cue* madeCue(const Model& model, const std::string& figure, int number) {
    if (!model.brief.made) return nullptr;
    const brief::Content& content = model.brief.made->content;
    int seen = 0;
    for (const brief::Cue& cue : content.narration.cues) {
        if (content.outline.acts[cue.act].name != figure) continue;
        if (seen++ == number) return &cue;
    }
    return nullptr;
}

void takeWindow(CueRow& out, const Model& model, const std::string& figure, int number) {
    const brief::Cue* cue = madeCue(model, figure, number);
    if (cue == nullptr) return;
    for (const std::string& beat : cue->beats) out.beats.push_back(beat);
    const BriefMade& made = *model.brief.made;
    // Of a flight before the change a window is none.
    constexpr double kSame_s = 0.5;
    if (made.content.narration.flights == 0 || std::abs(cue->time_s - out.time_s) > kSame_s) return;
    out.early_s = cue->early_s;
    out.late_s = cue->late_s;
}

void addFigure(std::vector<CueRow>& rows, const Model& model, int number,
               const std::vector<FigureBlock>& blocks) {
    const SheetRow& row = model.rows[static_cast<std::size_t>(number)];
    CueRow first;
    first.row = number;
    takeScript(first, model, row, blocks);
    const bool flown = row.outline >= 0;
    if (flown) first.time_s = row.figure.start_s;
    int cues = 0;
    if (flown && model.shown) {
        for (const path::Cue& cue : model.shown->path().cues) {
            if (cue.time_s < row.figure.start_s || cue.time_s >= row.figure.stop_s) continue;
            CueRow one = cues == 0 ? first : CueRow();
            one.row = number;
            one.cue = true;
            one.first = cues == 0;
            one.time_s = cue.time_s;
            one.said = cue.words;
            takeWindow(one, model, row.figure.name, cues);
            rows.push_back(std::move(one));
            ++cues;
        }
    }
    if (cues > 0) return;
    first.cue = first.has_script;
    if (first.cue && flown) takeWindow(first, model, row.figure.name, 0);
    rows.push_back(std::move(first));
}

/// How much can be said before the next cue.
void count(std::vector<CueRow>& rows, double words_per_min, double stop_s) {
    double next_s = stop_s;
    for (auto row = rows.rbegin(); row != rows.rend(); ++row) {
        const brief::Script script = brief::readScript(row->words);
        row->word_count = static_cast<int>(std::ceil(script.words - 1e-9));
        if (row->time_s < 0) continue;
        row->fit = brief::wordsThatFit(std::max(0.0, next_s - row->time_s), script.pauses_s,
                                       words_per_min);
        if (row->cue && row->first) row->too_many = std::max(0, row->word_count - row->fit);
        if (row->cue) next_s = row->time_s;
    }
}

}  // namespace

PagePlace placeOf(const Brief& brief, const page::Size& size, double width_px, double height_px) {
    PagePlace out;
    if (size.width_mm <= 0 || size.height_mm <= 0) return out;
    out.dots_per_mm = brief.zoom * std::min(width_px / size.width_mm, height_px / size.height_mm);
    const Along x = along(size.width_mm, width_px, out.dots_per_mm, brief.middle_x);
    const Along y = along(size.height_mm, height_px, out.dots_per_mm, brief.middle_y);
    out.part = {x.from_mm, y.from_mm, x.length_mm, y.length_mm};
    out.left_px = x.at_px;
    out.top_px = y.at_px;
    return out;
}

std::string briefFault(const Model& model) {
    const Brief& brief = model.brief;
    if (!model.editor.stand_in.empty()) return "Pages follow once the routine can be flown";
    if (model.editor.open() && !model.editor.problems.empty())
        return "Pages are of the routine as it was last flown: its text has mistakes";
    if (!page::Document::possible()) return {};
    if (!brief.fonts_fault.empty()) return brief.fonts_fault;
    if (!brief.made || brief.made->missing.empty()) return {};
    const auto letters = std::count_if(
        brief.made->missing.begin(), brief.made->missing.end(),
        [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; });
    return "No font has " + std::to_string(letters) + " of the letters: F2, Font for other scripts";
}

int sheetShown(const Brief& brief) { return std::clamp(brief.sheet, 0, 2); }

int pageShown(const Brief& brief) {
    if (!brief.made) return 0;
    const int pages = brief.made->pages[static_cast<std::size_t>(sheetShown(brief))];
    return std::clamp(brief.page, 0, std::max(0, pages - 1));
}

std::vector<CueRow> cueRows(const Model& model) {
    std::vector<CueRow> rows;
    const std::vector<FigureBlock> blocks =
        model.editor.open() ? figureBlocks(model.editor.routineText()) : std::vector<FigureBlock>();
    for (std::size_t i = 0; i < model.rows.size(); ++i)
        addFigure(rows, model, static_cast<int>(i), blocks);
    count(rows, model.session.words_per_min, model.clock.duration_s());
    return rows;
}

std::string countWords(const CueRow& row) {
    const auto words = [](int count) {
        return std::to_string(count) + (count == 1 ? " word" : " words");
    };
    if (row.too_many > 0) return words(row.too_many) + " too many";
    if (row.word_count == 0) return row.fit < 0 ? "" : words(row.fit) + " fit";
    if (row.fit < 0) return words(row.word_count);
    return std::to_string(row.word_count) + " of " + words(row.fit);
}

}  // namespace plumbline::model
