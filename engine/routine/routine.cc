#include "engine/routine/routine.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "engine/data/table_reader.h"
#include "engine/data/toml_tree.h"
#include "engine/routine/figure_tables.h"
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
constexpr QuantityRange kMusicStartRange{"-60 min", "60 min"};
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
        readFigureTables(reader, index_, result_.routine);
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
        routine.pilot_file = reader.text("pilot", false);
        routine.music_file = reader.text("music", false);
        routine.music_start_s =
            reader.quantity("music_start", Dimension::Time, kMusicStartRange, 0);
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

    const std::string& file_;
    LineIndex index_;
    ReadRoutine result_;
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
