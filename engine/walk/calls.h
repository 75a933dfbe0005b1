#pragma once
// The routine called out, for a pilot who walks it on the ground with the hands: what is called,
// and when.

#include <cstddef>
#include <string>
#include <vector>

#include "engine/check/gates.h"
#include "engine/path/path.h"
#include "engine/routine/routine.h"
#include "engine/units/quantity.h"

namespace plumbline::walk {

struct Call {
    /// What is called, the first ones where there is no time for all.
    enum class Kind { Figure, Element, Roll, Gate, Switch, Height, Line };
    Kind kind = Kind::Element;
    double time_s = 0;    ///< of its first word, in the path's time; before 0 ahead of the show
    double lasts_s = 0;   ///< about, at the speed that was asked for
    double begins_s = 0;  ///< when what it announces begins
    std::string words;
};

struct CallWishes {
    double lead_s = 1.5;          ///< from the first word to what it announces
    double words_a_minute = 190;  ///< of the voice
    units::DisplayUnits units = units::DisplayUnits::Aviation;
};

struct Calls {
    std::vector<Call> calls;   ///< by time; none begins while another is spoken
    std::size_t left_out = 0;  ///< for want of time: heights and lines first, figures last
};

/// Figures by name, their elements, rolls when they begin, power and smoke, the gate at each top,
/// the lowest height of each figure.
///
/// @param routine  as it is flown: its figures are those of the path
/// @param path     samples of its solution, 25 a second or more
Calls callsOf(const routine::Routine& routine, const path::Path& path,
              const std::vector<check::Gate>& gates, const CallWishes& wishes);

/// What an element is called: "pull to up, 6 g", "quarter roll left"; empty: it is not.
std::string wordsOf(const text::ElementBody& body);
/// Its rolls: "half roll left then 2 of 4 points right"; empty: none.
std::string rollWords(const text::Rolls& rolls);

}  // namespace plumbline::walk
