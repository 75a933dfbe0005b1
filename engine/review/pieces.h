#pragma once
// What was flown, told from the motion alone: lines, arcs, turns, pivots, slides, falls, torque
// rolls, tumbles and spins, in order. Plans and recordings go through the same eyes.

#include <string>
#include <vector>

#include "engine/path/path.h"

namespace plumbline::review {

enum class Motion {
    Line,
    Pull,  ///< towards the canopy
    Push,  ///< towards the wheels
    Turn,  ///< mostly level
    Pivot,
    Slide,
    Fall,
    TorqueRoll,
    Tumble,
    Spin,
};

/// "line", "pull", ... as figure text has them.
const char* motionWord(Motion motion);

/// How long after the end of a slide its fall is seen to begin: the stick's first push moves the
/// nose too slowly to be told from a line. chosen: of the built-in aircraft's falls
inline constexpr double kSwingSeenLate_s = 0.3;

/// A turn about the way of flight without a stop.
struct Roll {
    double start_s = 0, stop_s = 0;
    double angle_rad = 0;  ///< right positive
    bool snap = false;     ///< most of it in autorotation
};

/// A stretch that is one thing to an eye on the ground.
struct Piece {
    Motion motion = Motion::Line;
    double start_s = 0, stop_s = 0;
    /// Unit vector: where the nose points at the middle of a line, at the end of all else.
    Vec3 nose_S{1, 0, 0};
    /// Line: of the path, else of the nose, at its middle.
    Vec3 way_S{1, 0, 0};
    double turned_rad = 0;  ///< by the path (arc, turn: right positive) or the nose (pivot, tumble)
    double rolled_rad = 0;  ///< about the way of flight, right positive
    double snapped_rad = 0;   ///< of that in autorotation
    std::vector<Roll> rolls;  ///< Line: each of them
    double tail_m = 0;        ///< Slide: way gone backwards
};

/// The pieces of a path whose attitude is known, in order, without gaps.
///
/// Thresholds are chosen for what people see: a path that bends by less than a few degrees a second
/// is a line; what turns by less than 9 deg in all is a correction on it.
/// @param path  with known attitude; empty otherwise
std::vector<Piece> piecesOf(const path::Path& path);

/// "line up, 1/2 roll left", "pull 90 deg" for people.
std::string wordsOf(const Piece& piece);

}  // namespace plumbline::review
