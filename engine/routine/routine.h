#pragma once
// A routine file: which aircraft, site and weather, how it starts, and its figures in order.

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/expected.h"
#include "engine/text/figure_text.h"

namespace plumbline::routine {

/// How the routine begins: level, wings level, on the show line's direction.
struct Start {
    double x_m = 0, y_m = 0, height_m = 0;
    bool crowd_right = true;
    double speed_mps = 0;  ///< true airspeed
    double fuel_l = 0;     ///< usable fuel on board
    double power_frac = 1;
};

struct RoutineFigure {
    std::string name;            ///< unique in the routine
    std::string text;            ///< figure text as written
    std::int32_t text_line = 0;  ///< line in the routine file where the text begins
    std::vector<text::Element> elements;
    std::string narration;
};

struct Routine {
    std::string name;
    std::string note;
    std::string aircraft_file, site_file, weather_file;  ///< as written, relative to the routine
                                                         ///< file; weather may be empty or a METAR
    double slot_s = 0;                                   ///< time given by the organiser; 0: none
    double reserve_l = 0;                                ///< fuel to land with
    Start start;
    std::vector<RoutineFigure> figures;
};

/// A routine and everything wrong with its text; figures that did not parse keep the elements that
/// did.
struct ReadRoutine {
    Routine routine;
    Problems problems;
};

/// @param toml_text  the file's content
/// @param file       its name, for messages
ReadRoutine readRoutine(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::routine
