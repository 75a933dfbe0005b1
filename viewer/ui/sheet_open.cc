// The figure that is open in the sheet: its text, the sliders of its parameters, its findings.

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "engine/base/number_text.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/review_parts.h"
#include "viewer/ui/sheet_parts.h"
#include "viewer/ui/text_field.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;
using model::SheetRow;

/// One line of figure text, wrapped; returns the height used.
float drawTextLine(const Canvas& c, const std::string& line, float x, float y, float right,
                   bool draw) {
    const Theme& theme = c.theme();
    const float line_height = c.px(kTextLine);
    const float indent = c.px(14);
    float pen = x;
    float at = y;
    for (const Run& run : runsOf(line)) {
        const Type type =
            run.quantity ? Type{13, 22, Weight::SemiBold} : Type{13, 22, Weight::Regular};
        const Colour colour = run.comment ? theme.ink3 : run.quoted ? theme.ink2 : theme.ink;
        std::string_view rest = run.words;
        while (!rest.empty()) {
            // A quantity stays together; other words part at blanks.
            const std::size_t blank = run.quantity ? rest.size() : rest.find(' ', 1);
            const std::string_view word = rest.substr(0, std::min(blank, rest.size()));
            const float width = c.textWidth(type, word);
            if (pen > x && pen + width > right) {
                at += line_height;
                pen = x + indent;
            }
            std::string_view shown = word;
            if (pen == x + indent && !shown.empty() && shown.front() == ' ') shown.remove_prefix(1);
            if (draw) c.text(pen, at, type, colour, shown);
            pen += c.textWidth(type, shown);
            rest.remove_prefix(word.size());
        }
    }
    return at + line_height - y;
}

/// With its line, without its folders: those are the person's own and fill the line.
std::string warningWords(const Problem& warning) {
    std::string words;
    if (warning.where.line > 0) {
        const std::string& file = warning.where.file;
        words = "line " + std::to_string(warning.where.line) + " of " +
                file.substr(file.find_last_of("/\\") + 1) + ": ";
    }
    words += warning.what;
    if (!warning.remedy.empty()) words += "; " + warning.remedy;
    return capitalised(words);
}

/// What a recording does not tell, in words.
std::vector<std::string> unknownWords(const model::Shown& shown) {
    std::vector<std::string> words;
    const path::Known& known = shown.path().known;
    if (!known.place) words.emplace_back("Place not recorded: the aircraft turns where it stands");
    if (!known.attitude) {
        words.emplace_back("Attitude not recorded: the aircraft stands along its path");
    } else if (!known.bank) {
        words.emplace_back("Bank not recorded");
    } else if (!known.side_load) {
        words.emplace_back(
            "Attitude not recorded: bank follows from the curve, where that tells it");
    }
    if (!known.airspeed) words.emplace_back("Airspeed not recorded: speed is over the ground");
    if (!known.load) words.emplace_back("Load not known: fixes are too far apart");
    if (!known.power) words.emplace_back("Power and fuel not recorded");
    for (const Problem& warning : shown.warnings) {
        words.push_back(warningWords(warning));
    }
    return words;
}

/// The value of a parameter in the figure's own lines: `name = "118 m"`.
std::optional<model::NumberInText> valueIn(const std::string& text, model::TextRange range,
                                           const std::string& name) {
    const std::string key = name + " = \"";
    const std::size_t at = text.find(key, range.begin);
    if (at == std::string::npos || at >= range.end) return std::nullopt;
    const bool whole = at == 0 || text[at - 1] == ' ' || text[at - 1] == '{';
    return whole ? model::numberAt(text, at + key.size()) : std::nullopt;
}

/// A slider for every parameter of a figure of the shelf that stands in the text as a number.
float drawSliders(const PanelInput& in, UiState& state, const SheetRow& row, model::TextRange range,
                  float y, float right, bool draw) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const model::Editor& editor = in.model.editor;
    if (!in.model.shown->workspace || editor.active != 0) return 0;
    const std::string& text = editor.routineText();
    const float x = c.px(kTextLeft);
    float at = y;
    for (const routine::RoutineFigure& figure : in.model.shown->workspace->routine.figures) {
        if (figure.name != row.figure.name) continue;
        for (const routine::FigureParameter& parameter : figure.parameters) {
            const auto value = valueIn(text, range, parameter.name);
            if (!parameter.range || !value) continue;
            const auto number = [](const std::string& words) {
                return parseDouble(words.substr(0, words.find(' '))).value_or(0);
            };
            const double from = number(parameter.range->from_words);
            const double to = number(parameter.range->to_words);
            const double now =
                number(text.substr(value->number.begin, value->number.end - value->number.begin));
            if (draw && to > from) {
                const float left = x, width = right - c.px(kMargin) - x;
                const float line = at + c.px(25);
                const Rect track{left, at + c.px(14), width, c.px(20)};
                ImGui::PushID(static_cast<int>(value->number.begin));
                const Press pressed = press("slider", track);
                ImGui::PopID();
                if (pressed.hovered || pressed.held) state.wants_resize_across = true;
                if (pressed.began) {
                    in.actions.push(ActionKind::PlaceCaret,
                                    static_cast<double>(value->number.begin));
                }
                if (pressed.held) {
                    const double share = std::clamp(
                        static_cast<double>((ImGui::GetIO().MousePos.x - left) / width), 0.0, 1.0);
                    model::Action action;
                    action.kind = ActionKind::SetNumber;
                    action.value = static_cast<double>(value->number.begin);
                    action.text = model::steppedNumber(formatDouble(from + share * (to - from)),
                                                       value->unit, 0, to - from < 5);
                    in.actions.push(std::move(action));
                }
                c.textClipped(left, at, right - c.px(76), kSmall, theme.ink2, parameter.about);
                c.textRight(
                    right - c.px(kMargin), at, kSmall, theme.ink,
                    text.substr(value->number.begin, value->number.end - value->number.begin) +
                        " " + value->unit);
                c.across(left, left + width, line, theme.edge);
                const float knob = left + width * static_cast<float>(std::clamp(
                                                      (now - from) / (to - from), 0.0, 1.0));
                c.fill(Rect{knob - c.px(3), line - c.px(6), c.px(6), c.px(13)}, theme.fill);
            }
            at += c.px(40);
        }
    }
    return at > y ? at - y + c.px(4) : 0;
}

/// What a figure of the shelf flies, with its values in place: its own lines are those of a file.
float drawShelfText(const PanelInput& in, UiState& state, const SheetRow& row, int number, float y,
                    float right, bool draw) {
    const Canvas& c = in.canvas;
    const float x = c.px(kTextLeft);
    float at = y;
    for (std::string line : row.figure.text) {
        for (const routine::RoutineFigure& figure : in.model.shown->workspace->routine.figures) {
            if (figure.name == row.figure.name) line = model::withValues(line, figure.values);
        }
        at += drawTextLine(c, line, x, at, right, draw);
    }
    if (!draw) return at - y;
    ImGui::PushID(number);
    const Press pressed = press("shelf text", Rect{x, y, right - x, at - y});
    ImGui::PopID();
    if (pressed.hovered) state.wants_text = true;
    if (pressed.clicked) in.actions.pushIndex(ActionKind::WriteFigure, number);
    return at - y + c.px(4);
}

}  // namespace

Mark markOf(check::Grade grade) {
    switch (grade) {
        case check::Grade::Note:
            return Mark::Dot;
        case check::Grade::Tight:
            return Mark::Open;
        case check::Grade::Unsafe:
        case check::Grade::Cannot:
            break;
    }
    return Mark::Filled;
}

Colour markColour(const Theme& theme, check::Grade grade) {
    return grade == check::Grade::Note ? theme.ink3 : theme.alarm;
}

std::string capitalised(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') {
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    }
    return words;
}

std::string entryWords(const PanelInput& in, const std::string& name) {
    const model::EditEffect::Figure* effect = in.model.effect.of(name);
    if (effect == nullptr) return {};
    std::string words;
    const auto add = [&words](const std::string& part, double value) {
        words += (words.empty() ? "" : ", ") + std::string(value > 0 ? "+" : "") + part;
    };
    constexpr double kHalfKnot_mps = 0.2572;
    if (std::abs(effect->speed_mps) >= kHalfKnot_mps) {
        add(speedText(effect->speed_mps, in.model.session.units).joined(), effect->speed_mps);
    }
    if (std::abs(effect->height_m) >= 0.5) {
        add(heightText(effect->height_m, in.model.session.units).joined(), effect->height_m);
    }
    return words;
}

float drawFinding(const Canvas& c, const check::Finding& finding, units::DisplayUnits units,
                  float x, float y, float right, bool draw) {
    const Theme& theme = c.theme();
    std::string words = capitalised(finding.what);
    if (!finding.value.empty()) words += ": " + check::inUnits(finding, finding.value, units);
    if (!finding.limit.empty())
        words += " against " + check::inUnits(finding, finding.limit, units);
    if (draw) {
        c.mark(markOf(finding.grade), x + c.px(6), y + c.px(8), markColour(theme, finding.grade),
               11);
    }
    const float left = x + c.px(18);
    return c.paragraph(left, y, right - left, kNote, theme.ink2, words, draw) + c.px(4);
}

float drawOpen(const PanelInput& in, UiState& state, int number, float y, float right, bool draw) {
    const Canvas& c = in.canvas;
    const model::Shown& shown = *in.model.shown;
    const SheetRow& row = in.model.rows[static_cast<std::size_t>(number)];
    const model::Editor& editor = in.model.editor;
    const float x = c.px(kTextLeft);
    const float right_text = right - c.px(kMargin);
    float at = y;
    const std::vector<model::FigureBlock> blocks =
        editor.open() && editor.active == 0 && row.block >= 0
            ? model::figureBlocks(editor.routineText())
            : std::vector<model::FigureBlock>();
    if (row.block >= 0 && row.block < static_cast<int>(blocks.size())) {
        model::TextRange range = blocks[static_cast<std::size_t>(row.block)].text;
        const bool written = editor.writing && editor.figure == row.block;
        const bool own = blocks[static_cast<std::size_t>(row.block)].own_text;
        // The line end before the closing quotes opens no line of its own until one writes there.
        const std::string& text = editor.routineText();
        if (!written && range.end > range.begin && text[range.end - 1] == '\n') --range.end;
        std::vector<TextLayout::Note> notes = notesIn(editor, range);
        if (own || written || !notes.empty() || row.figure.text.empty()) {
            const TextLayout layout =
                layoutText(c, text, range, x, at, right_text, std::move(notes));
            if (draw) textField(in, state, layout, number, written);
            at = layout.bottom + c.px(4);
        } else {
            at += drawShelfText(in, state, row, number, at, right_text, draw);
        }
        at += drawSliders(in, state, row, range, at, right, draw);
    } else {
        for (const std::string& line : row.figure.text) {
            at += drawTextLine(c, line, x, at, right_text, draw);
        }
    }
    const std::string entry = entryWords(in, row.figure.name);
    if (!entry.empty()) {
        if (draw) c.text(x, at, kNoteStrong, c.theme().now, "At its entry now " + entry);
        at += c.px(20);
    }
    if (shown.review) at += drawFigureTable(in, state, row, at, right, draw);
    if (shown.recording() && !(shown.review && shown.review->plan)) {
        for (const std::string& words : unknownWords(shown)) {
            at += c.paragraph(x, at, right_text - x, kNote, c.theme().ink2, words, draw) + c.px(4);
        }
    }
    if (!row.figure.findings.empty()) at += c.px(8);
    for (std::int32_t i : row.figure.findings) {
        at += drawFinding(c, shown.findings[static_cast<std::size_t>(i)],
                          displayUnits(in.model.session.units), x, at, right_text, draw);
    }
    at += drawFigureMargins(in, row, at, right_text, draw);
    return at - y + c.px(12);
}

}  // namespace plumbline::ui
