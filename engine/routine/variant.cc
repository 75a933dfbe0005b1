#include "engine/routine/variant.h"

#include <algorithm>
#include <map>
#include <utility>

#include "engine/base/nearest_word.h"
#include "engine/text/mirror.h"

namespace plumbline::routine {

namespace {

const RoutineFigure* findFigure(const std::vector<RoutineFigure>& figures,
                                const std::string& name) {
    const auto found = std::find_if(figures.begin(), figures.end(),
                                    [&](const RoutineFigure& f) { return f.name == name; });
    return found == figures.end() ? nullptr : &*found;
}

bool belongsTo(const RoutineFigure& figure, std::string_view show) {
    return figure.shows.empty() ||
           std::find(figure.shows.begin(), figure.shows.end(), show) != figure.shows.end();
}

/// The figure itself, or the first of its substitutes that belongs to the show; null for none.
const RoutineFigure* flownInPlaceOf(const RoutineFigure& figure, const Routine& routine,
                                    std::string_view show) {
    const RoutineFigure* flown = &figure;
    for (std::size_t i = 0; i <= routine.substitutes.size(); ++i) {
        if (flown == nullptr || belongsTo(*flown, show)) return flown;
        flown = findFigure(routine.substitutes, flown->substitute);
    }
    return nullptr;
}

Problem noShow(const Routine& routine, std::string_view show, std::string what) {
    std::vector<std::string_view> names;
    std::string list;
    for (const Show& one : routine.shows) {
        names.push_back(one.name);
        list += (list.empty() ? "" : ", ") + one.name;
    }
    const std::string_view near = nearestWord(show, names);
    Problem problem;
    problem.what = std::move(what);
    problem.remedy = names.empty() ? "add [[show]] to the routine file, or leave the show out"
                     : near.empty() || near == show
                         ? "its shows are " + list
                         : "did you mean " + std::string(near) + "? its shows are " + list;
    return problem;
}

/// Figures where something is wanted get the names of those in their place.
void renameAims(SelectedShow& selected, const std::map<std::string, std::string>& in_place_of) {
    for (RoutineFigure& figure : selected.routine.figures) {
        const auto gone = [&](Aim& aim) {
            if (aim.of.empty()) return false;
            const auto found = in_place_of.find(aim.of);
            if (found == in_place_of.end()) return true;
            aim.of = found->second;
            return false;
        };
        const std::size_t before = figure.aims.size();
        figure.aims.erase(std::remove_if(figure.aims.begin(), figure.aims.end(), gone),
                          figure.aims.end());
        if (figure.aims.size() < before) selected.aims_left_out.push_back(figure.name);
    }
}

double opposite(double value) { return value == 0 ? 0 : -value; }

void mirror(RoutineFigure& figure) {
    for (text::Element& element : figure.elements) {
        element = text::mirrorElement(std::move(element));
    }
    for (Aim& aim : figure.aims) {
        if (aim.quantity != Aim::Quantity::X) continue;
        aim.value = opposite(aim.value);
        aim.words = text::mirrorWords(aim.words);
    }
    figure.mirrored = !figure.mirrored;
}

}  // namespace

Expected<SelectedShow, Problem> selectShow(const Routine& routine, std::string_view show) {
    const auto named = [&](const Show& one) { return one.name == show; };
    const std::string quoted = "\"" + std::string(show) + "\"";
    if (std::none_of(routine.shows.begin(), routine.shows.end(), named)) {
        return Unexpected(noShow(routine, show, "the routine has no show " + quoted));
    }
    SelectedShow selected;
    selected.routine = routine;
    selected.routine.figures.clear();
    selected.routine.substitutes.clear();
    selected.routine.shows.clear();
    std::map<std::string, std::string> in_place_of;
    for (const RoutineFigure& figure : routine.figures) {
        const RoutineFigure* flown = flownInPlaceOf(figure, routine, show);
        if (flown == nullptr) {
            selected.left_out.push_back(figure.name);
            continue;
        }
        if (flown != &figure) selected.replaced.push_back({figure.name, flown->name});
        in_place_of[figure.name] = flown->name;
        in_place_of[flown->name] = flown->name;
        selected.routine.figures.push_back(*flown);
        selected.routine.figures.back().shows.clear();
        selected.routine.figures.back().substitute.clear();
    }
    if (selected.routine.figures.empty()) {
        return Unexpected(noShow(routine, show, "the show " + quoted + " has no figures"));
    }
    renameAims(selected, in_place_of);
    return selected;
}

Routine mirrored(Routine routine) {
    routine.start.x_m = opposite(routine.start.x_m);
    routine.start.crowd_right = !routine.start.crowd_right;
    for (RoutineFigure& figure : routine.figures) mirror(figure);
    for (RoutineFigure& figure : routine.substitutes) mirror(figure);
    return routine;
}

}  // namespace plumbline::routine
