#include "engine/routine/routine.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "engine/data/table_reader.h"
#include "engine/data/toml_tree.h"
#include "engine/routine/string_positions.h"
#include "engine/units/units.h"

namespace plumbline::routine {

namespace {

using data::QuantityRange;
using data::TableReader;
using data::TomlValue;
using units::Dimension;

// All ranges are chosen: wide enough for any display, narrow enough to catch a slip of the pen.
constexpr QuantityRange kPlaceRange{"-20 km", "20 km"};
constexpr QuantityRange kHeightRange{"0 m", "6000 m"};
constexpr QuantityRange kSpeedRange{"20 m/s", "300 m/s"};
constexpr QuantityRange kFuelRange{"0 l", "1000 l"};
constexpr QuantityRange kSlotRange{"10 s", "60 min"};
constexpr QuantityRange kPowerRange{"0 %", "100 %"};

double litres(double volume_m3) { return volume_m3 / units::kLitre_m3; }

/// Reads one file.
class RoutineReader {
public:
    RoutineReader(std::string_view toml_text, const std::string& file)
        : file_(file), index_(toml_text) {}

    ReadRoutine read(const TomlValue& content) {
        TableReader reader(content, "", file_, result_.problems);
        readHead(reader);
        if (auto start = reader.table("start", true)) readStart(*start);
        readFigures(reader);
        reader.finish();
        std::stable_sort(result_.problems.begin(), result_.problems.end(),
                         [](const Problem& a, const Problem& b) {
                             return std::tie(a.where.line, a.where.column) <
                                    std::tie(b.where.line, b.where.column);
                         });
        return std::move(result_);
    }

private:
    void readHead(TableReader& reader) {
        Routine& routine = result_.routine;
        routine.name = reader.text("name");
        routine.note = reader.text("note", false);
        routine.aircraft_file = reader.text("aircraft");
        routine.site_file = reader.text("site");
        routine.weather_file = reader.text("weather", false);
        routine.slot_s = reader.quantity("slot", Dimension::Time, kSlotRange, 0);
        routine.reserve_l = litres(reader.quantity("reserve", Dimension::Volume, kFuelRange, 0));
    }

    void readStart(TableReader& reader) {
        Start& start = result_.routine.start;
        start.x_m = reader.quantity("x", Dimension::Length, kPlaceRange);
        start.y_m = reader.quantity("y", Dimension::Length, kPlaceRange, 0);
        start.height_m = reader.quantity("height", Dimension::Length, kHeightRange);
        start.speed_mps = reader.quantity("speed", Dimension::Speed, kSpeedRange);
        start.fuel_l = litres(reader.quantity("fuel", Dimension::Volume, kFuelRange));
        start.power_frac = readPower(reader);
        const std::string heading = reader.text("heading");
        start.crowd_right = heading != "crowd-left";
        if (!heading.empty() && heading != "crowd-right" && heading != "crowd-left") {
            reader.problemAt(*reader.find("heading"),
                             "heading is neither crowd-right nor crowd-left",
                             "write \"crowd-right\" or \"crowd-left\"");
        }
        reader.finish();
    }

    static double readPower(TableReader& reader) {
        const TomlValue* power = reader.find("power");
        if (power == nullptr || power->text == "full") return 1;
        if (power->text == "idle") return 0;
        return reader.quantityOf(*power, "power", Dimension::Ratio, kPowerRange);
    }

    void readFigures(TableReader& reader) {
        const std::size_t problems_before = result_.problems.size();
        std::vector<TableReader> figures = reader.tables("figure");
        if (figures.empty() && result_.problems.size() == problems_before) {
            result_.problems.push_back(problem({1, 1}, "the routine has no figures",
                                               "add [[figure]] with name and text for each"));
        }
        for (TableReader& figure : figures) readFigure(figure);
    }

    void readFigure(TableReader& reader) {
        RoutineFigure figure;
        figure.name = reader.text("name");
        if (!figure.name.empty()) checkName(reader, figure.name, *reader.find("name"));
        figure.text = reader.text("text");
        if (!figure.text.empty()) readElements(figure, *reader.find("text"));
        figure.narration = reader.text("narration", false);
        reader.finish();
        result_.routine.figures.push_back(std::move(figure));
    }

    void checkName(TableReader& reader, const std::string& name, const TomlValue& value) {
        constexpr unsigned char kBlank = 0x20;
        constexpr std::size_t kLongestName = 120;  // chosen: it labels a figure on screen
        const bool control = std::any_of(name.begin(), name.end(), [](char c) {
            return static_cast<unsigned char>(c) < kBlank;
        });
        if (control || name.size() > kLongestName) {
            reader.problemAt(value, "name is too long for a label",
                             "write at most 120 bytes on one line");
            return;
        }
        const auto [found, added] = line_of_name_.emplace(name, value.line);
        if (!added) {
            reader.problemAt(
                value,
                "\"" + name + "\" is already the figure in line " + std::to_string(found->second),
                "give every figure a name of its own");
        }
    }

    void readElements(RoutineFigure& figure, const TomlValue& value) {
        const StringPositions positions(index_, {value.line, value.column});
        figure.text_line = positions.inFile({1, 1}).line;
        text::ParsedText parsed = text::parseFigureText(figure.text, file_, 1);
        const bool blank = figure.text.find_first_not_of(" \t\r\n") == std::string::npos;
        if (parsed.elements.empty() && parsed.problems.empty() && !blank) {
            result_.problems.push_back(
                problem({value.line, value.column}, "the figure has no elements",
                        "write its elements, one a line, or take the figure out"));
        }
        for (Problem& found : parsed.problems) {
            const LineColumn place = positions.inFile({found.where.line, found.where.column});
            found.where.line = place.line;
            found.where.column = place.column;
            result_.problems.push_back(std::move(found));
        }
        for (text::Element& element : parsed.elements) {
            const LineColumn begin = positions.inFile({element.span.line, element.span.column});
            const LineColumn last =
                positions.inFile({element.span.line, element.span.end_column - 1});
            // An element that a backslash spreads over lines is marked at its first word only.
            const std::int32_t end_column =
                last.line == begin.line ? last.column + 1 : begin.column + 1;
            element.span = {begin.line, begin.column, end_column};
        }
        figure.elements = std::move(parsed.elements);
    }

    Problem problem(LineColumn place, const char* what, const char* remedy) const {
        Problem made;
        made.where.file = file_;
        made.where.line = place.line;
        made.where.column = place.column;
        made.what = what;
        made.remedy = remedy;
        return made;
    }

    const std::string& file_;
    LineIndex index_;
    ReadRoutine result_;
    std::map<std::string, std::int32_t> line_of_name_;
};

}  // namespace

ReadRoutine readRoutine(std::string_view toml_text, const std::string& file) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (toml_text.substr(0, kByteOrderMark.size()) == kByteOrderMark) {
        toml_text.remove_prefix(kByteOrderMark.size());
    }
    Expected<TomlValue, Problems> content = data::parseToml(toml_text, file);
    if (!content) {
        ReadRoutine result;
        result.problems = content.error();
        return result;
    }
    return RoutineReader(toml_text, file).read(*content);
}

}  // namespace plumbline::routine
