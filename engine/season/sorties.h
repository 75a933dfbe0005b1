#pragma once
// Sorties and routines in the book: what was flown, when, in which air, and what was measured.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/path/path.h"
#include "engine/review/load_book.h"
#include "engine/review/review.h"
#include "engine/season/book.h"

namespace plumbline::season {

/// A routine as it was flown or planned; a changed text is another revision.
struct Routine {
    std::int64_t id = 0;
    std::string name;
    std::string revision;  ///< of all that was read: Workspace::revision
    std::string text;      ///< the routine file's bytes
    std::int64_t added_utc_s = 0;
    std::int64_t sorties = 0;  ///< read only: how often it was flown
};

/// One number of one figure of a sortie.
struct Measured {
    std::string element;  ///< "line up", "line up (2)" for a figure's second; empty: the figure's
    std::string name;     ///< one of measureKinds()
    double value = 0;     ///< SI, radians
    std::optional<double> sigma;  ///< half of what 95 of 100 errors are within
    std::optional<double> planned;
};

struct FlownFigure {
    std::string name;
    double start_s = 0, stop_s = 0;
    bool out_of_order = false, again = false;
    std::vector<Measured> measures;
};

struct Sortie {
    std::int64_t id = 0;
    std::string key;   ///< sortieKey of its recordings: no flight stands twice in a book
    std::string name;  ///< of the recording
    std::int64_t flown_utc_s = 0, added_utc_s = 0;
    std::int64_t routine = 0;  ///< id; 0: flown without a plan
    std::string routine_name;  ///< read only
    std::string site, airframe;
    std::string conditions, notes;  ///< weather, and anything else, in people's words
    double flown_s = 0;
    std::optional<double> full_power_s, fuel_kg, fastest_mps, beyond_never_exceed_s, overspeed_s;
    std::optional<review::LoadBook> loads;
    std::vector<FlownFigure> figures;
    std::int64_t remarks = 0;  ///< read only: how many there are on it
};

/// What a review, a crew sheet and a load book come to in the book; name, key, time and words are
/// the caller's.
Sortie sortieOf(const review::Review& review, const review::CrewSheet& sheet,
                const review::LoadBook& loads, const path::Known& known);

/// The routine's id: the one there is of that name and revision, or a new one.
Expected<std::int64_t, Problems> addRoutine(Book& book, const Routine& routine);

/// @param plan  kept with it as by addRoutine, in the same change; null: none
/// @return its id
/// @errors a sortie of the same recordings is there already, or what the book says
Expected<std::int64_t, Problems> addSortie(Book& book, const Sortie& sortie, const Routine* plan);

/// With it go its figures, loads and the remarks on it.
/// @errors no such sortie, or what the book says
Problems removeSortie(Book& book, std::int64_t id);

/// @errors no such routine, sorties that were flown to it, or what the book says
Problems removeRoutine(Book& book, std::int64_t id);

/// Other words; what is nothing stays.
/// @errors no such sortie, or what the book says
Problems noteSortie(Book& book, std::int64_t id, const std::optional<std::string>& conditions,
                    const std::optional<std::string>& notes);

/// By time of flight; without figures and loads.
Expected<std::vector<Sortie>, Problems> sorties(Book& book);
/// With all there is of it.
/// @errors no such sortie, or what the book says
Expected<Sortie, Problems> sortie(Book& book, std::int64_t id);
/// By name, then by when they were added; without their texts.
Expected<std::vector<Routine>, Problems> routines(Book& book);

}  // namespace plumbline::season
