#pragma once
// A routine file: which aircraft, site and weather, how it starts, and its figures in order.
//
// TOML 1.0, by custom NAME.routine.toml. Every quantity is a text with its unit:
//
//     name = "Evening show"                   # required
//     note = "An invented routine"            # for people
//     aircraft = "sample.aircraft.toml"       # required; a path relative to this file
//     site = "sample.site.toml"               # required; likewise
//     weather = "sample.weather.toml"         # a path, or a METAR; none: standard day, calm
//     slot = "12 min"                         # time that the organiser gives; none: not checked
//     reserve = "15 l"                        # fuel to land with; none: 0 l
//
//     [start]                                 # required
//     x = "-900 m"                            # along the show line, crowd right positive
//     y = "0 m"                               # away from the crowd; none: on the show line
//     height = "60 m"                         # above show centre
//     heading = "crowd-right"                 # or "crowd-left"
//     speed = "82 m/s"                        # true airspeed
//     fuel = "40 l"                           # usable, on board
//     power = "full"                          # or "idle", "80 %"; none: full
//
//     [[figure]]                              # one or more, flown in this order
//     name = "Hammerhead"                     # required, unique
//     text = """                              # required: figure text, see text/figure_text.h
//     pull to up at 6 g
//     line up until 25 kt
//     pivot left
//     line down 200 m
//     pull to level at 6 g
//     """
//     narration = "And now, straight up."     # for the narrator

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
    std::string name;                     ///< unique in the routine
    std::string text;                     ///< figure text as written, escapes of TOML resolved
    std::int32_t text_line = 0;           ///< line in the routine file where the text begins
    std::vector<text::Element> elements;  ///< spans are places in the routine file
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

/// A routine and everything wrong with its text, in the order of the file; figures that did not
/// parse keep the elements that did. Complete only where there are no problems.
struct ReadRoutine {
    Routine routine;
    Problems problems;
};

/// Reads any bytes; opens no file.
///
/// @param toml_text  the file's content, UTF-8
/// @param file       its name, for messages
/// @errors text that is no TOML (its first mistake only), unknown and missing keys, values of the
///   wrong type, quantities without a unit or out of range, two figures of one name, and all that
///   parseFigureText finds, each at its place in this file
ReadRoutine readRoutine(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::routine
