#pragma once
// What is most worth mending in a sortie, beside the sorties before it.

#include <span>
#include <string>
#include <vector>

#include "engine/season/book.h"
#include "engine/season/sorties.h"
#include "engine/season/trends.h"

namespace plumbline::season {

/// One measure over the last sorties of a routine, this one the last.
struct LastTimes {
    std::string figure, element;
    MeasureKind kind;
    std::vector<TrendPoint> points;  ///< by time; its own has sortie 0
};

/// What is asked for.
struct LastWish {
    std::string routine;  ///< by its name
    std::string key;      ///< of this sortie: it may be in the book already
    std::size_t sorties = 6;
    std::size_t measures = 4;
};

/// Of the heaviest remarks' measures those that the book has from earlier sorties of the routine:
/// the first time of each in a sortie.
/// @param sortie  what the review comes to (sortieOf)
Expected<std::vector<LastTimes>, Problems> lastTimes(Book& book, const review::Review& review,
                                                     const Sortie& sortie, const LastWish& wish);

}  // namespace plumbline::season
