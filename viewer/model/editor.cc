#include "viewer/model/editor.h"

#include <algorithm>

#include "engine/text/words.h"

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
    editor.buffer().replace(number->number.begin, number->number.end - number->number.begin, next);
    editor.caret = editor.anchor = number->number.begin + next.size();
}

void setNumber(Editor& editor, std::size_t at, const std::string& digits) {
    const auto number = numberAt(editor.text(), at);
    if (!number) return;
    editor.buffer().replace(number->number.begin, number->number.end - number->number.begin,
                            digits);
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
    return blocks[static_cast<std::size_t>(editor.figure)].text;
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

std::vector<std::string> offersAt(const Editor& editor) {
    std::vector<std::string> out;
    if (!editor.writing || editor.caret != editor.anchor) return out;
    const std::string& text = editor.text();
    if (editor.caret < text.size() && isWordPart(text[editor.caret])) return out;
    const std::string_view word = wordBefore(editor);
    if (word.empty() || (word[0] >= '0' && word[0] <= '9')) return out;
    const std::size_t begin = editor.caret - word.size();
    const std::size_t start = lineStart(text, begin);
    if (text.substr(start, begin - start).find('#') != std::string::npos) return out;
    // Behind a number a unit is written, and units are short.
    const std::size_t before = begin == 0 ? 0 : begin - 1;
    if (before > 0 && text[before] == ' ' && text[before - 1] >= '0' && text[before - 1] <= '9') {
        return out;
    }
    const bool first = text.find_first_not_of(" \t", start) == begin;
    for (const std::string_view offer : first ? text::firstWords() : text::tradeWords()) {
        if (offer.size() > word.size() && offer.substr(0, word.size()) == word) {
            out.emplace_back(offer);
        }
    }
    std::sort(out.begin(), out.end());
    constexpr std::size_t kMost = 6;
    if (out.size() > kMost) out.resize(kMost);
    return out;
}

bool applyToText(Editor& editor, const Action& action) {
    if (!editor.open()) return false;
    switch (action.kind) {
        case ActionKind::TypeText:
            if (editor.writing) put(editor, action.text == "\n" ? lineBreak(editor) : action.text);
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
            stepNumber(editor, action.index, action.x != 0);
            return true;
        case ActionKind::SetNumber:
            setNumber(editor, static_cast<std::size_t>(std::max(0.0, action.value)), action.text);
            return true;
        case ActionKind::TakeOffer: {
            const std::vector<std::string> offers = offersAt(editor);
            if (action.index < 0 || action.index >= static_cast<int>(offers.size())) return true;
            const std::string& offer = offers[static_cast<std::size_t>(action.index)];
            put(editor, offer.substr(wordBefore(editor).size()) + ' ');
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
                const int block = blockAt(figureBlocks(editor.text()), *at);
                editor.figure = block;
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
    std::uint64_t state = 1;
    for (const EditedFile& file : editor.files) state += file.buffer.revision() + 1000000;
    return state;
}

}  // namespace plumbline::model
