#include "engine/margins/draw.h"

#include <cmath>

namespace plumbline::margins {
namespace {

// Mixes all bits of a counter: the finaliser by D. Stafford that G. L. Steele, D. Lea, C. H. Flood,
// Fast splittable pseudorandom number generators, OOPSLA 2014, use.
std::uint64_t mixed(std::uint64_t x) {
    x += 0x9e3779b97f4a7c15U;
    x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
    x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
    return x ^ (x >> 31U);
}

double uniform(std::uint64_t bits) { return (static_cast<double>(bits >> 11U) + 0.5) * 0x1p-53; }

}  // namespace

const char* wordsOf(Daily input) {
    switch (input) {
        case Daily::WindAlong:
            return "wind along";
        case Daily::WindAcross:
            return "wind across";
        case Daily::Temperature:
            return "temperature";
        case Daily::Mass:
            return "mass";
        case Daily::Power:
            return "power";
        case Daily::RollRate:
            return "roll rate";
        case Daily::Reaction:
            return "reaction";
    }
    return "";
}

const char* wordsOf(Figurewise input) {
    switch (input) {
        case Figurewise::EntrySpeed:
            return "entry speed";
        case Figurewise::Load:
            return "load";
        case Figurewise::Timing:
            return "timing";
        case Figurewise::Heading:
            return "heading";
        case Figurewise::Along:
            return "place along";
        case Figurewise::Across:
            return "place across";
        case Figurewise::Height:
            return "entry height";
    }
    return "";
}

Draw drawFlight(std::uint64_t seed, std::uint64_t flight, std::size_t figures) {
    constexpr std::array<double, kDaily> kPrimes = {2, 3, 5, 7, 11, 13, 17};
    Draw draw;
    for (std::size_t i = 0; i < kDaily; ++i) {
        const double at = uniform(mixed(mixed(seed) + i)) +
                          static_cast<double>(flight) * std::fmod(std::sqrt(kPrimes[i]), 1.0);
        draw.daily[i] = std::fmin(std::fmax(at - std::floor(at), 0x1p-53), 1 - 0x1p-53);
    }
    const std::uint64_t stream = mixed(mixed(seed ^ 0x5bf03635U) + flight);
    draw.figures.resize(figures);
    for (std::size_t f = 0; f < figures; ++f)
        for (std::size_t i = 0; i < kFigurewise; ++i)
            draw.figures[f][i] = uniform(mixed(stream + f * kFigurewise + i));
    return draw;
}

}  // namespace plumbline::margins
