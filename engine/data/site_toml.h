#pragma once
// Reads *.site.toml.

#include <string>
#include <string_view>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/site.h"

namespace plumbline::data {

/// Reads a display site. Places are in site axes (frames.h): x to crowd right, y away from the
/// crowd. Keys, an example of the unit, the sane range, * what may be left out:
///
///     name                       text
///     note *                     text: what the file says of itself
///     outlines *                 text: GeoJSON file beside this one (readSiteOutlines)
///     floor                      m           0 .. 3000        least height
///     show_time *                2026-06-27T16:30:00Z         for the sun
///     [show_centre]
///     latitude                   deg       -90 .. 90          WGS 84
///     longitude                  deg      -180 .. 180
///     elevation                  m        -450 .. 5000        above mean sea level
///     [show_line]
///     bearing                    deg         0 .. 360         true, towards crowd right
///     offset                     m           0 .. 2000        least distance from the crowd line
///     [crowd_line]
///     y                          m       -3000 .. -1
///     x_min, x_max               m       -5000 .. 5000
///     [box] *
///     x_min, x_max, y_min, y_max m     -20 000 .. 20 000
///     top                        m           1 .. 10 000
///     [runway] *
///     x *, y *                   m     -10 000 .. 10 000      its middle, 0
///     bearing *                  deg         0 .. 360         that of the show line
///     length                     m          50 .. 6000
///     width                      m           3 .. 200
///     low_mark *, high_mark *    text: painted where one starts along bearing, and against it
///     [aerial] *                                              seen from above, on the ground
///     picture                    text: JPEG or PNG file beside this one
///     top_left, top_right,       ["-900 m", "700 m"]          where its corners lie: x and y,
///     bottom_left                                             or latitude and longitude
///     [[obstacle]] *
///     name                       text
///     top                        m           0 .. 1000        above show centre
///     outline                    [["-40 m", "300 m"], ...]    at least 3 corners, x and y
///     [[ribbon]] *               stretched between two poles across the show line
///     name                       text, as `ribbon NAME` in figure text
///     x, y                       m     -20 000 .. 20 000       its middle
///     height                     m         0.5 .. 100          above show centre
///     length                     m           2 .. 100          between the poles
///     [radio] *                                               for the display director's sheet
///     frequency *, spare_frequency *  "119.005 MHz"           117.975 .. 137, or 225 .. 400
///     first_call *, stop_call *, last_call *  text: what is said, at most 60 letters
///     [emergency] *                                           likewise
///     break_off *, fire_rescue *, other_field *, crowd *  text, at most 60 letters
///     [[viewpoint]] *
///     name                       text; "judge" is the judge's seat
///     x, y                       m     -20 000 .. 20 000
///     height *                   m           0 .. 500         of the eye above show centre, 1.7
///
/// @errors every problem of the file: not TOML, unknown and missing keys, wrong or missing units,
/// out
///   of range, ends in the wrong order, corners that are none
Expected<Site, Problems> readSite(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::data
