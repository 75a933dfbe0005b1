#pragma once
// Snaps: rolls flown in the stall, on any line.

#include <vector>

#include "engine/fly/flight.h"
#include "engine/text/figure_text.h"

namespace plumbline::fly {

/// A law of autorotation from the joint: the roll program's piece, the incidence from the line's to
/// the stalled one and back. What it starts with fades.
Law autorotationLaw(const Flight& flight, const RollProgram& roll,
                    const IncidenceProgram& incidence, double fade_s);

/// False, and noted, where the aircraft's file knows no snaps or it is too fast: flown as a roll.
bool canSnap(Flight& flight, const text::RollPart& part, double speed_mps);

/// Rate of a snap at this speed, radians a second.
double snapRate_radps(const World& world, double speed_mps);

/// A roll of a line's program that is a snap.
struct Snap {
    std::size_t piece = 0;  ///< of the line's program
    bool negative = false;
};

/// Flies the snap, which begins now on the line of `law`; `law` becomes that of the line after it,
/// with the rolls that are left. Its speed lost and what it leaves of errors are noted.
void flySnap(Flight& flight, Law& law, const Snap& snap);

}  // namespace plumbline::fly
