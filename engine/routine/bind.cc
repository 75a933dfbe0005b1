// Figures from files of their own, and figures with other values.
#include <algorithm>
#include <iterator>
#include <utility>

#include "engine/routine/figure_tables.h"
#include "engine/text/mirror.h"

namespace plumbline::routine {

namespace {

void append(Problems&& from, Problems& to) {
    std::move(from.begin(), from.end(), std::back_inserter(to));
}

void bindFigure(RoutineFigure& figure, const FigureLookup& lookup, Problems& problems) {
    if (figure.figure_file.empty()) return;
    Expected<FigureSource, Problem> source = lookup(figure.figure_file, figure.figure_where);
    if (!source) {
        problems.push_back(std::move(source).error());
        return;
    }
    ReadFigure read = readFigureFile(source->text, source->file, figure.values);
    figure.text = std::move(read.figure.text);
    figure.values = std::move(read.figure.values);
    figure.parameters = std::move(read.figure.parameters);
    figure.elements = std::move(read.figure.elements);
    const TextPosition& named = figure.figure_where;
    for (text::Element& element : figure.elements) {
        element.span = {named.line, named.column, named.column + 1};
    }
    const bool sound = read.problems.empty();
    append(std::move(read.problems), problems);
    if (sound) append(checkAims(figure), problems);
}

}  // namespace

Problems bindFigures(Routine& routine, const FigureLookup& lookup) {
    Problems problems;
    for (RoutineFigure& figure : routine.figures) bindFigure(figure, lookup, problems);
    for (RoutineFigure& figure : routine.substitutes) bindFigure(figure, lookup, problems);
    return problems;
}

Problems setValue(RoutineFigure& figure, std::string_view parameter, double value) {
    const auto found =
        std::find_if(figure.values.begin(), figure.values.end(),
                     [&](const text::ParameterValue& v) { return v.name == parameter; });
    const auto now = found == figure.values.end() ? std::nullopt : readAnyQuantity(found->value);
    if (!now) {
        return {{figure.figure_where,
                 "{" + std::string(parameter) + "} is no quantity of \"" + figure.name + "\"",
                 "change a parameter that is one"}};
    }
    const auto index = static_cast<std::int32_t>(found - figure.values.begin());
    std::string before = std::exchange(found->value, writeQuantity({now->dimension, value}));
    std::vector<std::pair<std::size_t, text::Element>> changed;
    for (std::size_t i = 0; i < figure.elements.size(); ++i) {
        const std::vector<std::int32_t>& used = figure.elements[i].parameters;
        if (std::find(used.begin(), used.end(), index) == used.end()) continue;
        auto again = text::parseAgain(figure.elements[i], found->where.file, figure.values);
        if (!again) {
            found->value = std::move(before);
            return std::move(again).error();
        }
        if (figure.mirrored) *again = text::mirrorElement(std::move(*again));
        changed.emplace_back(i, std::move(*again));
    }
    for (auto& [i, element] : changed) figure.elements[i] = std::move(element);
    return {};
}

}  // namespace plumbline::routine
