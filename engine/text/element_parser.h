#pragma once
// One parser for each element of figure text.

#include <cstdint>
#include <optional>

#include "engine/text/figure_text.h"
#include "engine/text/line_reader.h"

namespace plumbline::text {

/// Reads the element on the reader's line. Nothing when it could not be understood; when a number
/// is out of range an element comes back all the same, and the reader has added a problem.
std::optional<ElementBody> parseElement(LineReader& reader);

// As parseElement; the reader stands after the element's first word.
std::optional<ElementBody> parseArc(LineReader& reader, bool push);
std::optional<ElementBody> parseFloat(LineReader& reader);
std::optional<ElementBody> parseTurn(LineReader& reader);
std::optional<ElementBody> parsePivot(LineReader& reader, std::int32_t count);
/// The reader stands at the count.
std::optional<ElementBody> parsePivots(LineReader& reader);
std::optional<ElementBody> parseSlide(LineReader& reader);
std::optional<ElementBody> parseFall(LineReader& reader);
std::optional<ElementBody> parseTorqueRoll(LineReader& reader);
std::optional<ElementBody> parseSpin(LineReader& reader);
std::optional<ElementBody> parseTumble(LineReader& reader);
std::optional<ElementBody> parseReposition(LineReader& reader);
std::optional<ElementBody> parseClimb(LineReader& reader, bool descend);
std::optional<ElementBody> parseWait(LineReader& reader);
std::optional<ElementBody> parsePower(LineReader& reader);
std::optional<ElementBody> parseSmoke(LineReader& reader);
std::optional<ElementBody> parseCue(LineReader& reader);
std::optional<ElementBody> parseRibbon(LineReader& reader);
std::optional<ElementBody> parseExpect(LineReader& reader);

/// `power full`, `power idle`, `power 50 %`, where it stands; false when it is wrong.
bool parseOptionalPower(LineReader& reader, std::optional<double>& power_frac);

/// `level`, `up`, `down`, `45 deg up`, with `inverted` before them, stands next.
bool directionNext(const LineReader& reader);
std::optional<Direction> parseDirection(LineReader& reader);
/// The reader stands at `over`.
bool parseOverTheGround(LineReader& reader);

inline constexpr double kMostRolls = 20;  // chosen: no line is long enough for more

/// The reader stands after `with`, on a line.
std::optional<Rolls> parseRolls(LineReader& reader);
/// On an arc: spread evenly over it, so without rates, pauses and placement.
std::optional<Rolls> parseArcRolls(LineReader& reader);

}  // namespace plumbline::text
