#pragma once
// Other routines made of one: a show of it, its mirror image. Nothing is flown here.

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/expected.h"
#include "engine/routine/routine.h"

namespace plumbline::routine {

/// A routine as it is flown in one show.
struct SelectedShow {
    Routine routine;  ///< its figures are those of the show; no substitutes and shows are left
    std::vector<std::string> left_out;  ///< figures with nothing in their place, in order
    struct Replaced {
        std::string figure, by;
    };
    std::vector<Replaced> replaced;  ///< in order
    /// Figures that lost an aim since the figure where it is wanted is left out.
    std::vector<std::string> aims_left_out;
};

/// Keeps the figures that belong to the show, and puts its substitute, or that one's, in place of
/// each other one. Aims that want something of a replaced figure want it of the one in its place.
///
/// @errors an unknown name; a show without any figure. Both name the routine's shows and have no
///   place.
Expected<SelectedShow, Problem> selectShow(const Routine& routine, std::string_view show);

/// Left and right exchanged as the crowd sees them, x to -x: start, elements, aims, of substitutes
/// too. Texts and the values of parameters stay as written, and setValue goes on to take them as
/// such; so do cues, narration and names, although they may speak of a side. Done twice it is the
/// routine itself.
Routine mirrored(Routine routine);

}  // namespace plumbline::routine
