#include "engine/routine/figure_tables.h"

#include <algorithm>
#include <map>
#include <utility>

#include "engine/base/nearest_word.h"
#include "engine/routine/placed_text.h"

namespace plumbline::routine {

namespace {

using data::TableReader;
using data::TomlValue;

TextPosition placeOf(const TableReader& reader, const TomlValue& value) {
    return {reader.file(), value.line, value.column};
}

class FigureTables {
public:
    FigureTables(TableReader& reader, LineIndex& index, Routine& routine)
        : reader_(reader), index_(index), routine_(routine) {}

    void read() {
        for (TableReader& show : reader_.tables("show")) readShow(show);
        const std::size_t problems_before = reader_.problems().size();
        std::vector<TableReader> figures = reader_.tables("figure");
        if (figures.empty() && reader_.problems().size() == problems_before) {
            addProblem({reader_.file(), 1, 1}, "the routine has no figures",
                       "add [[figure]] with name and text for each");
        }
        for (TableReader& figure : figures) routine_.figures.push_back(readFigure(figure));
        for (TableReader& substitute : reader_.tables("substitute")) {
            routine_.substitutes.push_back(readFigure(substitute));
        }
        checkSubstitutes();
        checkAimedFigures();
    }

private:
    void addProblem(TextPosition where, std::string what, std::string remedy) {
        reader_.problems().push_back({std::move(where), std::move(what), std::move(remedy)});
    }

    void readShow(TableReader& table) {
        Show show;
        show.name = table.text("name");
        show.about = table.text("about", false);
        table.finish();
        const auto same = [&](const Show& other) { return other.name == show.name; };
        if (!show.name.empty() && std::any_of(routine_.shows.begin(), routine_.shows.end(), same)) {
            table.problemAt(*table.find("name"), quoted(show.name) + " is already a show",
                            "give every show a name of its own");
        }
        routine_.shows.push_back(std::move(show));
    }

    RoutineFigure readFigure(TableReader& table) {
        RoutineFigure figure;
        figure.name = table.text("name");
        if (!figure.name.empty()) checkName(table, figure.name, *table.find("name"));
        readValues(table, figure);
        readWhatIsFlown(table, figure);
        figure.narration = table.text("narration", false);
        readShows(table, figure);
        readAims(table, figure);
        table.finish();
        if (figure.figure_file.empty()) {
            for (Problem& problem : checkAims(figure)) {
                reader_.problems().push_back(std::move(problem));
            }
        }
        return figure;
    }

    static void readAims(TableReader& table, RoutineFigure& figure) {
        constexpr std::size_t kMostAims = 20;  // chosen: nobody aims a figure at more
        std::vector<TableReader> aims = table.tables("aim");
        if (aims.size() > kMostAims) {
            table.problemAtKey("aim", "the figure has more than 20 aims", "keep those that matter");
            return;
        }
        for (TableReader& aim : aims) figure.aims.push_back(readAim(aim));
    }

    void checkName(TableReader& table, const std::string& name, const TomlValue& value) {
        constexpr unsigned char kBlank = 0x20;
        constexpr std::size_t kLongestName = 120;  // chosen: it labels a figure on screen
        const bool control = std::any_of(name.begin(), name.end(), [](char c) {
            return static_cast<unsigned char>(c) < kBlank;
        });
        if (control || name.size() > kLongestName) {
            table.problemAt(value, "name is too long for a label",
                            "write at most 120 bytes on one line");
            return;
        }
        const auto [found, added] = line_of_name_.emplace(name, value.line);
        if (!added) {
            table.problemAt(
                value,
                quoted(name) + " is already the figure in line " + std::to_string(found->second),
                "give every figure a name of its own");
        }
    }

    static void readValues(TableReader& table, RoutineFigure& figure) {
        const TomlValue* values = table.find("values");
        if (values == nullptr) return;
        if (values->kind != TomlValue::Kind::Table) {
            table.problemAt(*values, "values is no table of parameters",
                            "write values = { entry_g = \"6 g\" }");
            return;
        }
        for (const data::TomlEntry& entry : values->entries) {
            if (entry.value.kind != TomlValue::Kind::Text) {
                table.problemAt(
                    entry.value,
                    entry.key + " is " + data::kindName(entry.value.kind) + ", not a text",
                    "write it in quotes, a number with its unit");
                continue;
            }
            figure.values.push_back({entry.key, entry.value.text, placeOf(table, entry.value)});
        }
    }

    /// `text`, or `figure` for a file.
    void readWhatIsFlown(TableReader& table, RoutineFigure& figure) {
        figure.figure_file = table.text("figure", false);
        if (!table.has("figure")) {
            figure.text = table.text("text");
            if (!figure.text.empty()) readElements(figure, *table.find("text"));
            return;
        }
        const TomlValue& value = *table.find("figure");
        figure.figure_where = placeOf(table, value);
        if (value.kind == TomlValue::Kind::Text && figure.figure_file.empty()) {
            table.problemAt(value, "figure is empty", "name a figure of the shelf or a file");
        }
        if (table.find("text") != nullptr) {
            table.problemAtKey("text", "the figure has a text and a figure file",
                               "keep one of text and figure");
        }
    }

    void readElements(RoutineFigure& figure, const TomlValue& value) {
        PlacedText placed = readPlacedText(index_, value, reader_.file(), figure.values);
        figure.text_line = placed.line;
        figure.elements = std::move(placed.elements);
        for (Problem& problem : placed.problems) reader_.problems().push_back(std::move(problem));
    }

    void readShows(TableReader& table, RoutineFigure& figure) {
        figure.substitute = table.text("substitute", false);
        if (const TomlValue* value = table.find("substitute")) {
            substitutes_named_.push_back({figure.name, figure.substitute, placeOf(table, *value)});
            if (!table.has("shows")) {
                table.problemAt(*value, "a figure of all shows needs no substitute",
                                "add shows = [...], or take the substitute out");
            }
        }
        const TomlValue* shows = table.find("shows");
        if (shows == nullptr) return;
        if (shows->kind != TomlValue::Kind::Array || shows->items.empty()) {
            table.problemAt(*shows, "shows is no list of names",
                            "write shows = [\"high\", \"low\"]");
            return;
        }
        for (const TomlValue& item : shows->items) readShowName(table, item, figure);
    }

    void readShowName(TableReader& table, const TomlValue& item, RoutineFigure& figure) {
        std::vector<std::string_view> names;
        for (const Show& show : routine_.shows) names.push_back(show.name);
        if (std::find(names.begin(), names.end(), item.text) != names.end() &&
            item.kind == TomlValue::Kind::Text) {
            figure.shows.push_back(item.text);
            return;
        }
        const std::string_view near = nearestWord(item.text, names);
        table.problemAt(item, "there is no show " + quoted(item.text),
                        near.empty() ? "add [[show]] with that name, or name one that is there"
                                     : "did you mean " + std::string(near) + "?");
    }

    /// Every substitute stands in for exactly one figure or substitute, so that no name comes twice
    /// and no chain runs in a circle.
    void checkSubstitutes() {
        std::map<std::string, std::string> figure_of;
        std::vector<std::string_view> names;
        for (const RoutineFigure& substitute : routine_.substitutes) {
            names.push_back(substitute.name);
        }
        for (const Named& named : substitutes_named_) {
            if (named.name.empty()) continue;
            if (std::find(names.begin(), names.end(), named.name) == names.end()) {
                const std::string_view near = nearestWord(named.name, names);
                addProblem(named.where, "there is no substitute " + quoted(named.name),
                           near.empty() ? "add [[substitute]] with that name"
                                        : "did you mean " + std::string(near) + "?");
                continue;
            }
            const auto [found, added] = figure_of.emplace(named.name, named.by);
            if (!added) {
                addProblem(named.where,
                           quoted(named.name) + " already stands in for " + quoted(found->second),
                           "give every figure a substitute of its own");
            }
        }
        for (const RoutineFigure& substitute : routine_.substitutes)
            checkChain(substitute, figure_of);
    }

    /// From the substitute back to the figure that it stands in for in the end.
    void checkChain(const RoutineFigure& substitute,
                    const std::map<std::string, std::string>& figure_of) {
        const auto where = line_of_name_.find(substitute.name);
        if (where == line_of_name_.end()) return;  // its name is wrong, and that has been said
        std::string name = substitute.name;
        for (std::size_t i = 0; i <= routine_.substitutes.size(); ++i) {
            const auto found = figure_of.find(name);
            if (found == figure_of.end()) {
                if (name != substitute.name) return;
                addProblem({reader_.file(), where->second, 1},
                           quoted(name) + " stands in for no figure",
                           "name it as the substitute of one, or take it out");
                return;
            }
            name = found->second;
            const auto same = [&](const RoutineFigure& figure) { return figure.name == name; };
            if (std::any_of(routine_.figures.begin(), routine_.figures.end(), same)) return;
        }
        addProblem({reader_.file(), where->second, 1},
                   quoted(substitute.name) + " stands in for itself in the end",
                   "let the chain of substitutes begin at a figure");
    }

    void checkAimedFigures() {
        std::vector<std::string_view> names;
        for (const auto& [name, line] : line_of_name_) names.push_back(name);
        for (const auto* figures : {&routine_.figures, &routine_.substitutes}) {
            for (const RoutineFigure& figure : *figures) {
                for (const Aim& aim : figure.aims) checkAimedFigure(aim, names);
            }
        }
    }

    void checkAimedFigure(const Aim& aim, const std::vector<std::string_view>& names) {
        if (aim.of.empty() || line_of_name_.count(aim.of) > 0) return;
        const std::string_view near = nearestWord(aim.of, names);
        addProblem(aim.of_where, "there is no figure " + quoted(aim.of),
                   near.empty() ? "write the name of a figure of this routine"
                                : "did you mean " + std::string(near) + "?");
    }

    struct Named {
        std::string by, name;
        TextPosition where;
    };

    TableReader& reader_;
    LineIndex& index_;
    Routine& routine_;
    std::map<std::string, std::int32_t> line_of_name_;
    std::vector<Named> substitutes_named_;
};

}  // namespace

void readFigureTables(TableReader& reader, LineIndex& index, Routine& routine) {
    FigureTables(reader, index, routine).read();
}

}  // namespace plumbline::routine
