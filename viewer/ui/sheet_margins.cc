// What the routine flown imperfectly comes to: a bar in each row, the numbers in the open figure.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/check/gates.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/sheet_parts.h"

namespace plumbline::ui {
namespace {

constexpr std::size_t kMostChances = 3, kMostInfluences = 2;

double shareOf(std::uint64_t hits, std::uint64_t flights) {
    return flights == 0 ? 0 : static_cast<double>(hits) / static_cast<double>(flights);
}

std::string wholePercent(double share) { return formatFixed(100 * share, 0); }

/// "12 % (10 to 15)": no digits that so many flights do not bear out.
std::string chanceWords(std::uint64_t hits, std::uint64_t flights) {
    const margins::Interval i = margins::wilson(hits, flights);
    return wholePercent(shareOf(hits, flights)) + "\u2009% (" + wholePercent(i.low) + " to " +
           wholePercent(i.high) + ")";
}

std::string influenceWords(const std::vector<margins::Influence>& influences) {
    std::string words;
    for (std::size_t i = 0; i < std::min(influences.size(), kMostInfluences); ++i)
        words += (i == 0 ? "; most by " : ", ") + influences[i].input;
    return words;
}

const margins::HeightSpread* spreadOf(const std::vector<margins::HeightSpread>& spreads,
                                      const std::string& figure) {
    for (const margins::HeightSpread& s : spreads)
        if (s.figure == figure) return &s;
    return nullptr;
}

std::string heights(const margins::HeightSpread& s, model::UnitChoice units) {
    return heightText(s.low_m, units).number + " to " + heightText(s.high_m, units).joined() +
           " in nine of ten, planned " + heightText(s.plan_m, units).joined();
}

/// The open figure's lines.
std::vector<std::string> figureLines(const PanelInput& in, const model::SheetRow& row) {
    const margins::Report& report = *in.model.margins.report;
    const model::UnitChoice units = in.model.session.units;
    const std::string& name = row.figure.name;
    std::vector<std::string> lines;
    if (const margins::FigureChance* c = in.model.margins.of(name))
        lines.push_back("Flown imperfectly: unsafe in " + chanceWords(c->unsafe, report.flights) +
                        ", tight or worse in " + chanceWords(c->tight, report.flights));
    std::size_t said = 0;
    for (const margins::Chance& c : report.chances) {
        if (c.figure != name || c.unsafe == 0 || said++ >= kMostChances) continue;
        lines.push_back(capitalised(c.kind) + ": unsafe in " +
                        chanceWords(c.unsafe, report.flights) + influenceWords(c.influences));
    }
    if (const margins::HeightSpread* top = spreadOf(report.tops, name)) {
        std::string gates;
        if (in.model.shown->source.gates)
            for (const check::Gate& gate : *in.model.shown->source.gates)
                if (gate.figure == name && gates.empty())
                    gates = ", gate " +
                            leastHeightText(check::shownLeast_m(gate.complete_m), units).joined();
        lines.push_back("Top: " + heights(*top, units) + gates + influenceWords(top->influences));
    }
    for (const margins::GateMargin& gate : report.gates)
        if (gate.figure == name)
            lines.push_back("Above its gate: " + heightText(gate.low_m, units).number + " to " +
                            heightText(gate.high_m, units).joined() +
                            " in nine of ten; below it in " +
                            chanceWords(gate.below, gate.flights));
    if (const margins::HeightSpread* low = spreadOf(report.lowest, name))
        lines.push_back("Lowest point: " + heights(*low, units) + influenceWords(low->influences));
    for (const margins::CueWindow& cue : report.cues)
        if (cue.plan_s >= row.figure.start_s && cue.plan_s < row.figure.stop_s)
            lines.push_back("Cue \u201C" + cue.words + "\u201D: " + timeText(cue.early_s) + " to " +
                            timeText(cue.late_s) + " in nine of ten");
    return lines;
}

}  // namespace

void drawMarginBar(const PanelInput& in, const std::string& figure, float y, float right) {
    const margins::FigureChance* chance = in.model.margins.of(figure);
    if (chance == nullptr) return;
    const Canvas& c = in.canvas;
    const std::uint64_t flights = in.model.margins.report->flights;
    const double strength = in.model.margins.old(*in.model.shown) ? 0.4 : 1;
    const float left = c.px(kNameLeft), width = right - c.px(kMargin) - left;
    const auto bar = [&](std::uint64_t hits, Colour colour) {
        const auto share = static_cast<float>(shareOf(hits, flights));
        c.fill(Rect{left, y, width * share, c.px(3)}, colour);
    };
    c.fill(Rect{left, y, width, c.px(3)}, faded(c.theme().line, strength));
    bar(chance->tight, faded(c.theme().alarm, 0.4 * strength));
    bar(chance->unsafe, faded(c.theme().alarm, strength));
}

float drawFigureMargins(const PanelInput& in, const model::SheetRow& row, float y, float right,
                        bool draw) {
    const model::Margins& margins = in.model.margins;
    if (!margins.on || !margins.report || in.model.shown->recording()) return 0;
    const Canvas& c = in.canvas;
    const float x = c.px(kTextLeft);
    float at = y + c.px(8);
    if (margins.old(*in.model.shown))
        at += c.paragraph(x, at, right - x, kNote, c.theme().ink3,
                          "As it was before the change:", draw) +
              c.px(4);
    for (const std::string& line : figureLines(in, row))
        at += c.paragraph(x, at, right - x, kNote, c.theme().ink2, line, draw) + c.px(4);
    return at - y;
}

float drawMarginsHead(const PanelInput& in, float y, float right, bool draw) {
    const model::Margins& margins = in.model.margins;
    if (!margins.on || in.model.shown->recording()) return 0;
    std::string words = "Being flown imperfectly \u2026";
    if (margins.report) {
        const margins::Report& report = *margins.report;
        words = "Flown imperfectly " + std::to_string(report.flights) +
                (report.flights < model::kImperfectFlights
                     ? " of " + std::to_string(model::kImperfectFlights)
                     : "") +
                " times: unsafe somewhere in " + chanceWords(report.unsafe, report.flights) +
                ". Bars: the share of flights in which something of a figure is unsafe, pale: "
                "tight. Shift Z: the worst of them.";
        if (margins.old(*in.model.shown)) words = "Before the change: " + words;
    }
    const Canvas& c = in.canvas;
    const float x = c.px(kTextLeft);
    return c.paragraph(x, y, right - c.px(kMargin) - x, kNote, c.theme().ink2, words, draw) +
           c.px(10);
}

}  // namespace plumbline::ui
