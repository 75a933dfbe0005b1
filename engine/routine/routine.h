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
//     pilot = "sample.pilot.toml"             # a path; none: nothing of the pilot is checked
//     slot = "12 min"                         # time that the organiser gives; none: not checked
//     reserve = "15 l"                        # fuel to land with; none: 0 l
//     music = "evening.ogg"                   # a path relative to this file; none: no music
//     music_start = "12 s"                    # time in the show when the track begins, negative
//     when
//                                             # it has begun before; none: 0 s
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
//     [[show]]                                # any number, from the fullest to the least
//     name = "high"                           # required, unique
//     about = "cloud base above 900 m"        # for people
//
//     [[figure]]                              # one or more, flown in this order
//     name = "Hammerhead"                     # required, unique
//     text = """                              # figure text, see text/figure_text.h
//     pull to up at {entry_g}
//     line up until 25 kt
//     pivot left
//     line down 200 m
//     pull to level at 6 g
//     """
//     values = { entry_g = "6 g" }            # of the {parameters} in the text
//     narration = "And now, straight up."     # for the narrator
//     shows = ["high"]                        # it belongs to; none: to all
//     substitute = "Low turn"                 # flown in its place in the other shows
//
//     [[figure.aim]]                          # any number: what a parameter is to bring about
//     change = "entry_g"                      # required: a parameter of this figure, a quantity
//     from = "4 g"                            # required: its values that are tried
//     to = "7 g"
//     want = "top 350 m"                      # required, one of: centre x V, top V, lowest V (of
//                                             # height), start or end with x, y, height, speed V
//     of = "Square loop"                      # where it is wanted; none: in this figure
//
//     [[figure]]
//     name = "Loop"
//     figure = "loops/loop.figure.toml"       # in place of text: a figure file relative to this
//                                             # file, or a figure of the shelf, "loop"
//     values = { radius = "90 m" }            # in place of the figure file's own
//
//     [[substitute]]                          # as a figure; each named by one figure or substitute
//     name = "Low turn"
//     text = "turn left 360 deg bank 70 deg"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/expected.h"
#include "engine/routine/any_quantity.h"
#include "engine/routine/figure_file.h"
#include "engine/text/figure_text.h"

namespace plumbline::routine {

/// How the routine begins: level, wings level, on the show line's direction.
struct Start {
    double x_m = 0, y_m = 0, height_m = 0;
    bool crowd_right = true;
    double speed_mps = 0;  ///< true airspeed
    double fuel_l = 0;     ///< usable fuel on board
    double power_frac = 1;
    bool operator==(const Start&) const = default;
};

/// A place, height or speed that a parameter is to bring about.
struct Aim {
    std::string change;                ///< name of the parameter, of the figure that holds the aim
    AnyQuantity from, to;              ///< values to try, of one dimension, from < to
    std::string from_words, to_words;  ///< as written

    enum class At {
        Centre,  ///< middle between the figure's least and greatest x, without the level lines at
                 ///< its beginning and end
        Top,     ///< highest point of the figure
        Lowest,
        Start,
        End
    };
    enum class Quantity { X, Y, Height, Speed };  ///< speed: true airspeed
    At at = At::Centre;
    Quantity quantity = Quantity::X;
    double value = 0;       ///< m or m/s
    std::string words;      ///< what is wanted, as written
    std::string of;         ///< figure where it is wanted; empty: its own
    TextPosition where;     ///< of the aim in the routine file
    TextPosition of_where;  ///< of the figure's name
    bool operator==(const Aim&) const = default;
};

struct RoutineFigure {
    std::string name;                     ///< unique in the routine
    std::string text;                     ///< figure text as written, escapes of TOML resolved
    std::int32_t text_line = 0;           ///< line where the text begins, of the routine file or,
                                          ///< once bound, of none: 0
    std::vector<text::Element> elements;  ///< spans are places in the routine file; of a figure
                                          ///< file's elements, the place that names the file
    std::string narration;

    std::string figure_file;    ///< as written: a path, or a name of the shelf; empty: text is here
    TextPosition figure_where;  ///< of that name
    std::vector<text::ParameterValue> values;  ///< of the text's parameters, in effect
    std::vector<FigureParameter> parameters;   ///< of a figure file: what can be changed
    std::vector<Aim> aims;
    std::vector<std::string> shows;  ///< that it belongs to; empty: all
    std::string substitute;          ///< name, in shows that it does not belong to; empty: none
    bool mirrored = false;           ///< elements are mirrored, text and values are as written
    bool operator==(const RoutineFigure&) const = default;
};

/// A show that the routine can be flown as.
struct Show {
    std::string name;
    std::string about;
};

struct Routine {
    std::string name;
    std::string note;
    std::string aircraft_file, site_file, weather_file;  ///< as written, relative to the routine
                                                         ///< file; weather may be empty or a METAR
    std::string pilot_file;                              ///< likewise; may be empty
    std::string music_file;                              ///< likewise; may be empty
    double music_start_s = 0;                            ///< when it begins, in the show's time
    double slot_s = 0;                                   ///< time given by the organiser; 0: none
    double reserve_l = 0;                                ///< fuel to land with
    Start start;
    std::vector<Show> shows;  ///< from the fullest to the least
    std::vector<RoutineFigure> figures;
    std::vector<RoutineFigure> substitutes;  ///< not flown but for a figure, see variant.h
};

/// A routine and everything wrong with its text, in the order of the file; figures that did not
/// parse keep the elements that did. Complete only where there are no problems.
struct ReadRoutine {
    Routine routine;
    Problems problems;
};

/// Reads any bytes; opens no file: figures that are in files of their own have no elements until
/// bindFigures.
///
/// @param toml_text  the file's content, UTF-8
/// @param file       its name, for messages
/// @errors text that is no TOML (its first mistake only), unknown and missing keys, values of the
///   wrong type, quantities without a unit or out of range, two figures of one name, and all that
///   parseFigureText finds, each at its place in this file
ReadRoutine readRoutine(std::string_view toml_text, const std::string& file);

/// A figure file's content.
struct FigureSource {
    std::string file;  ///< its name, for messages
    std::string text;
};

/// Finds the figure file that a routine names at `where`, or tells why not.
using FigureLookup = std::function<Expected<FigureSource, Problem>(const std::string& name,
                                                                   const TextPosition& where)>;

/// Reads the figures that are in files of their own, substitutes too, with the routine's values.
///
/// @return what is wrong with the files, each in its own, and with the values and aims that the
///   routine has for them
Problems bindFigures(Routine& routine, const FigureLookup& lookup);

/// Gives a parameter of a figure another value and reads what depends on it again: microseconds,
/// for searches. A value that cannot be understood changes nothing.
///
/// @param value  SI, of the dimension that the parameter has now
/// @return why it cannot be
Problems setValue(RoutineFigure& figure, std::string_view parameter, double value);

}  // namespace plumbline::routine
