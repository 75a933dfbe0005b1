#include "viewer/model/editor.h"

#include <algorithm>

#include "engine/load/load.h"
#include "engine/routine/figure_file.h"
#include "engine/system/whole_file.h"
#include "engine/text/words.h"
#include "viewer/model/script_text.h"

namespace plumbline::model {
namespace {

bool isWordPart(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || (static_cast<unsigned char>(c) & 0x80U) != 0;
}

std::size_t lineStart(const std::string& text, std::size_t at) {
    const std::size_t end = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
    return end == std::string::npos ? 0 : end + 1;
}

std::size_t lineEnd(const std::string& text, std::size_t at) {
    return std::min(text.find('\n', at), text.size());
}

std::size_t lineAway(const std::string& text, std::size_t at, int lines) {
    const std::size_t start = lineStart(text, at);
    const std::size_t column = at - start;
    if (lines < 0) {
        if (start == 0) return 0;
        const std::size_t before = lineStart(text, start - 1);
        return std::min(before + column, start - 1);
    }
    const std::size_t end = lineEnd(text, at);
    if (end == text.size()) return end;
    return std::min(end + 1 + column, lineEnd(text, end + 1));
}

std::size_t moved(const std::string& text, std::size_t at, CaretMove move, const TextRange& range) {
    switch (move) {
        case CaretMove::Left:
            return codePointBefore(text, at);
        case CaretMove::Right:
            return codePointAfter(text, at);
        case CaretMove::Up:
            return lineAway(text, at, -1);
        case CaretMove::Down:
            return lineAway(text, at, 1);
        case CaretMove::LineStart:
            return lineStart(text, at);
        case CaretMove::LineEnd:
            return lineEnd(text, at);
        case CaretMove::WordLeft:
            while (at > 0 && !isWordPart(text[at - 1])) --at;
            while (at > 0 && isWordPart(text[at - 1])) --at;
            return at;
        case CaretMove::WordRight:
            while (at < text.size() && isWordPart(text[at])) ++at;
            while (at < text.size() && !isWordPart(text[at])) ++at;
            return at;
        case CaretMove::Start:
            return range.begin;
        case CaretMove::End:
        case CaretMove::All:
            return range.end;
    }
    return at;
}

void place(Editor& editor, std::size_t at, bool selects) {
    const TextRange range = writtenRange(editor);
    editor.caret = std::clamp(at, range.begin, range.end);
    if (!selects) editor.anchor = editor.caret;
    editor.buffer().endTyping();
}

void put(Editor& editor, const std::string& text) {
    const TextRange selected = selection(editor);
    const bool typed = selected.begin == selected.end && text.size() <= 4;
    editor.buffer().replace(selected.begin, selected.end - selected.begin, text, typed);
    editor.caret = editor.anchor = selected.begin + text.size();
}

/// Words of the narrator's, as they may stand in their string.
void putScript(Editor& editor, const std::string& text) {
    const std::vector<FigureBlock> blocks = figureBlocks(editor.text());
    if (editor.figure < 0 || editor.figure >= static_cast<int>(blocks.size())) return;
    const FigureBlock& block = blocks[static_cast<std::size_t>(editor.figure)];
    const std::size_t from = selection(editor).begin;
    if (!block.has_script || from < block.script.begin || from > block.script.end) return;
    const std::string before = editor.text().substr(block.script.begin, from - block.script.begin);
    put(editor, asScript(text, block, before));
}

void takeOut(Editor& editor, int direction) {
    TextRange range = selection(editor);
    const bool one = range.begin == range.end;
    if (one && direction < 0) range.begin = codePointBefore(editor.text(), range.begin);
    if (one && direction > 0) range.end = codePointAfter(editor.text(), range.end);
    const TextRange written = writtenRange(editor);
    range.begin = std::max(range.begin, written.begin);
    range.end = std::min(range.end, written.end);
    if (range.begin >= range.end) return;
    editor.buffer().replace(range.begin, range.end - range.begin, "", one);
    editor.caret = editor.anchor = range.begin;
}

void stepNumber(Editor& editor, int steps, bool fine) {
    const std::string& text = editor.text();
    const auto number = numberAt(text, editor.caret);
    if (!number) return;
    const std::string next =
        steppedNumber(text.substr(number->number.begin, number->number.end - number->number.begin),
                      number->unit, steps, fine);
    editor.buffer().replace(number->number.begin, number->number.end - number->number.begin, next,
                            true);
    editor.caret = editor.anchor = number->number.begin + next.size();
}

void setNumber(Editor& editor, std::size_t at, const std::string& digits) {
    const auto number = numberAt(editor.text(), at);
    if (!number) return;
    editor.buffer().replace(number->number.begin, number->number.end - number->number.begin, digits,
                            true);
    editor.caret = editor.anchor = number->number.begin + digits.size();
}

std::string_view wordBefore(const Editor& editor) {
    const std::string& text = editor.text();
    std::size_t begin = std::min(editor.caret, text.size());
    const std::size_t end = begin;
    while (begin > 0 && isWordPart(text[begin - 1])) --begin;
    return std::string_view(text).substr(begin, end - begin);
}

/// A new line goes on where the one before began.
std::string lineBreak(const Editor& editor) {
    const std::string& text = editor.text();
    const std::size_t start = lineStart(text, editor.caret);
    const std::size_t first = std::min(text.find_first_not_of(" \t", start), editor.caret);
    return '\n' + text.substr(start, first - start);
}

}  // namespace

bool Editor::changed() const {
    return std::any_of(files.begin(), files.end(),
                       [](const EditedFile& file) { return file.changed(); });
}

TextRange writtenRange(const Editor& editor) {
    if (!editor.open()) return {};
    if (editor.figure < 0 || editor.active != 0) return {0, editor.text().size()};
    const std::vector<FigureBlock> blocks = figureBlocks(editor.text());
    if (editor.figure >= static_cast<int>(blocks.size())) return {0, editor.text().size()};
    const FigureBlock& block = blocks[static_cast<std::size_t>(editor.figure)];
    return editor.script ? block.script : block.text;
}

TextRange selection(const Editor& editor) {
    return {std::min(editor.caret, editor.anchor), std::max(editor.caret, editor.anchor)};
}

void beginEditing(Editor& editor, const std::filesystem::path& file, std::string text,
                  bool built_in) {
    const std::uint64_t asked = editor.asked + 1;
    editor = Editor();
    editor.asked = asked;  // numbers go on rising: late answers are known as such
    editor.answered = asked;
    EditedFile edited;
    edited.file = file;
    edited.base = text;
    edited.buffer = TextBuffer(std::move(text));
    editor.files.push_back(std::move(edited));
    editor.built_in = built_in;
}

std::optional<std::string> textOnDisk(const Editor& editor, const std::filesystem::path& file) {
    if (!editor.built_in) return system::readWholeFile(file).bytes;
    const auto asset = load::embeddedAsset(file.lexically_normal().generic_string());
    return asset ? std::optional<std::string>(*asset) : std::nullopt;
}

int openFile(Editor& editor, const std::filesystem::path& file) {
    for (std::size_t i = 0; i < editor.files.size(); ++i) {
        if (editor.files[i].file == file) return static_cast<int>(i);
    }
    auto text = textOnDisk(editor, file);
    if (!text) return -1;
    EditedFile edited;
    edited.file = file;
    edited.base = std::move(*text);
    edited.buffer = TextBuffer(edited.base);
    editor.files.push_back(std::move(edited));
    return static_cast<int>(editor.files.size()) - 1;
}

namespace {

/// The quoted value that stands behind `key =` somewhere in a block; empty: none.
std::string quotedBehind(std::string_view block, std::string_view key) {
    for (std::size_t at = block.find(key); at != std::string_view::npos;
         at = block.find(key, at + 1)) {
        if (at > 0 && block[at - 1] != '\n') continue;
        const std::size_t open = block.find_first_not_of(" =", at + key.size());
        if (open == std::string_view::npos || block[open] != '"') continue;
        const std::size_t close = block.find('"', open + 1);
        if (close == std::string_view::npos) return {};
        return std::string(block.substr(open + 1, close - open - 1));
    }
    return {};
}

/// Names that a place in the routine's text takes: figures of the shelf behind `figure =`,
/// parameters in braces. @return false: no such place
bool namesAt(const Editor& editor, std::size_t begin, std::vector<std::string>& out) {
    const std::string& text = editor.text();
    if (editor.active != 0) return false;
    const std::size_t start = lineStart(text, begin);
    const std::string_view line = std::string_view(text).substr(start, begin - start);
    const std::size_t word = line.find_first_not_of(" \t");
    const bool quoted = std::count(line.begin(), line.end(), '"') % 2 == 1;
    if (word != std::string_view::npos && quoted && line.substr(word, 6) == "figure") {
        for (const std::string_view name : load::shelfNames()) out.emplace_back(name);
        return true;
    }
    const std::size_t brace = line.rfind('{');
    const bool inside = brace != std::string_view::npos &&
                        line.find('}', brace) == std::string_view::npos && !quoted;
    if (!inside) return false;
    const std::vector<FigureBlock> blocks = figureBlocks(text);
    const int index = blockAt(blocks, begin);
    if (index < 0) return false;
    const TextRange whole = blocks[static_cast<std::size_t>(index)].whole;
    const std::string_view block =
        std::string_view(text).substr(whole.begin, whole.end - whole.begin);
    const bool of_values = word != std::string_view::npos && line.substr(word, 6) == "values";
    if (of_values) {
        if (const auto file = load::shelfFigure(quotedBehind(block, "figure"))) {
            const auto read = routine::readFigureFile(*file, "").figure;
            for (const routine::FigureParameter& parameter : read.parameters) {
                const bool there =
                    line.find(parameter.name + " =", brace) != std::string_view::npos;
                if (!there) out.push_back(parameter.name);
            }
            return true;
        }
    }
    // Those that the block uses, and those it gives values to.
    for (std::size_t at = block.find('{'); at != std::string_view::npos;
         at = block.find('{', at + 1)) {
        const std::size_t first = at + 1;
        std::size_t end = first;
        while (end < block.size() && isWordPart(block[end])) ++end;
        const bool whole_name = end < block.size() && block[end] == '}' && end > first;
        if (whole_name) out.emplace_back(block.substr(first, end - first));
    }
    const std::size_t values = block.find("values = {");
    if (values != std::string_view::npos && !of_values) {
        const std::string_view list = block.substr(values, block.find('\n', values) - values);
        for (std::size_t at = list.find(" ="); at != std::string_view::npos;
             at = list.find(" =", at + 1)) {
            std::size_t first = at;
            while (first > 0 && isWordPart(list[first - 1])) --first;
            if (first < at && list.substr(first, at - first) != "values") {
                out.emplace_back(list.substr(first, at - first));
            }
        }
    }
    return true;
}

void keepBeginning(std::vector<std::string>& names, std::string_view word) {
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    const auto other = [word](const std::string& name) {
        return name.size() <= word.size() || name.compare(0, word.size(), word) != 0;
    };
    names.erase(std::remove_if(names.begin(), names.end(), other), names.end());
    constexpr std::size_t kMost = 6;
    if (names.size() > kMost) names.resize(kMost);
}

}  // namespace

std::vector<std::string> offersAt(const Editor& editor) {
    std::vector<std::string> out;
    if (!editor.writing || editor.script || editor.caret != editor.anchor) return out;
    const std::string& text = editor.text();
    if (editor.caret < text.size() && isWordPart(text[editor.caret])) return out;
    const std::string_view word = wordBefore(editor);
    const std::size_t begin = editor.caret - word.size();
    const std::size_t start = lineStart(text, begin);
    if (text.substr(start, begin - start).find('#') != std::string::npos) return out;
    if (namesAt(editor, begin, out)) {
        keepBeginning(out, word);
        return out;
    }
    if (word.empty() || (word[0] >= '0' && word[0] <= '9')) return out;
    // Behind a number a unit is written, and units are short.
    const std::size_t before = begin == 0 ? 0 : begin - 1;
    if (before > 0 && text[before] == ' ' && text[before - 1] >= '0' && text[before - 1] <= '9') {
        return out;
    }
    const bool first = text.find_first_not_of(" \t", start) == begin;
    for (const std::string_view offer : first ? text::firstWords() : text::tradeWords()) {
        out.emplace_back(offer);
    }
    keepBeginning(out, word);
    return out;
}

bool applyToText(Editor& editor, const Action& action) {
    if (!editor.open()) return false;
    switch (action.kind) {
        case ActionKind::TypeText:
            if (editor.writing && editor.script) {
                putScript(editor, action.text);
            } else if (editor.writing) {
                put(editor, action.text == "\n" ? lineBreak(editor) : action.text);
            }
            return true;
        case ActionKind::TakeOut:
            if (editor.writing) takeOut(editor, action.index);
            return true;
        case ActionKind::MoveCaret: {
            const auto move = static_cast<CaretMove>(action.index);
            if (move == CaretMove::All) editor.anchor = writtenRange(editor).begin;
            place(editor, moved(editor.text(), editor.caret, move, writtenRange(editor)),
                  action.x != 0 || move == CaretMove::All);
            return true;
        }
        case ActionKind::PlaceCaret:
            place(editor, static_cast<std::size_t>(std::max(0.0, action.value)), action.x != 0);
            return true;
        case ActionKind::StepNumber:
            if (!editor.script) stepNumber(editor, action.index, action.x != 0);
            return true;
        case ActionKind::SetNumber:
            setNumber(editor, static_cast<std::size_t>(std::max(0.0, action.value)), action.text);
            return true;
        case ActionKind::TakeOffer: {
            const std::vector<std::string> offers = offersAt(editor);
            if (action.index < 0 || action.index >= static_cast<int>(offers.size())) return true;
            const std::string& offer = offers[static_cast<std::size_t>(action.index)];
            const std::string_view word = wordBefore(editor);
            std::vector<std::string> names;
            const bool name = namesAt(editor, editor.caret - word.size(), names);
            put(editor, offer.substr(word.size()) + (name ? "" : " "));
            return true;
        }
        case ActionKind::Undo:
        case ActionKind::Redo: {
            TextBuffer& buffer = editor.buffer();
            const auto at = action.kind == ActionKind::Undo ? buffer.undo() : buffer.redo();
            if (!at) return true;
            editor.caret = editor.anchor = *at;
            // The change may lie in another figure: that one is open then.
            if (editor.writing && editor.figure >= 0 && editor.active == 0) {
                const std::vector<FigureBlock> blocks = figureBlocks(editor.text());
                editor.figure = blockAt(blocks, *at);
                const auto holds = [at](const TextRange& range) {
                    return *at >= range.begin && *at <= range.end;
                };
                if (editor.script && editor.figure >= 0) {
                    const FigureBlock& block = blocks[static_cast<std::size_t>(editor.figure)];
                    editor.writing = block.has_script && holds(block.script);
                }
                editor.script = editor.script && editor.writing;
            }
            return true;
        }
        default:
            return false;
    }
}

std::string newRoutineText() {
    return R"(name = "New routine"
aircraft = "marrel.aircraft.toml"
site = "vellmoor.site.toml"
weather = "vellmoor.weather.toml"

[start]
x = "-900 m"
y = "30 m"
height = "120 m"
heading = "crowd-right"
speed = "160 kt"
fuel = "45 l"

[[figure]]
name = "Run in"
text = """
line level until x -400 m
"""
)";
}

std::optional<std::size_t> byteOfProblem(const Editor& editor, const Problem& problem) {
    if (!editor.open() || problem.where.line < 1) return std::nullopt;
    const EditedFile& file = editor.files[static_cast<std::size_t>(editor.active)];
    if (problem.where.file != file.file.generic_string()) return std::nullopt;
    return byteOf(editor.text(), problem.where.line, problem.where.column);
}

std::uint64_t textState(const Editor& editor) {
    std::uint64_t state = editor.compares ? 2 : 1;
    for (const EditedFile& file : editor.files) state += 2 * (file.buffer.revision() + 1000000);
    return state;
}

}  // namespace plumbline::model
