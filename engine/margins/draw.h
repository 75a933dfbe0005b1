#pragma once
// The errors of one flight, by its number: nothing is remembered between flights, so that any
// thread can fly any of them.

#include <array>
#include <cstdint>
#include <vector>

#include "engine/margins/statistics.h"

namespace plumbline::margins {

enum class Daily { WindAlong, WindAcross, Temperature, Mass, Power, RollRate, Reaction };
inline constexpr std::size_t kDaily = 7;
enum class Figurewise { EntrySpeed, Load, Timing, Heading, Along, Across, Height };
inline constexpr std::size_t kFigurewise = 7;

/// "wind along the show line", "entry speed", ...
const char* wordsOf(Daily input);
const char* wordsOf(Figurewise input);

/// Each uniform in (0, 1).
struct Draw {
    std::array<double, kDaily> daily{};
    std::vector<std::array<double, kFigurewise>> figures;

    double of(Daily input) const { return normalQuantile(daily[static_cast<std::size_t>(input)]); }
    double of(std::size_t figure, Figurewise input) const {
        return normalQuantile(figures[figure][static_cast<std::size_t>(input)]);
    }
};

/// Points of low discrepancy for the errors of the day: multiples of the square roots of primes (R.
/// D. Richtmyer, Los Alamos report LA-1342, 1951), shifted at random (R. Cranley, T. N. L.
/// Patterson, SIAM J. Numer. Anal. 13 (1976) 904-914). The many errors of the figures are random
/// numbers of the same seed: in a hundred dimensions some pairs of such multiples keep step.
Draw drawFlight(std::uint64_t seed, std::uint64_t flight, std::size_t figures);

}  // namespace plumbline::margins
