#pragma once
// What an airframe has felt since its last overhaul.

#include <optional>
#include <string>
#include <vector>

#include "engine/review/load_book.h"
#include "engine/season/book.h"

namespace plumbline::season {

struct Overhaul {
    std::int64_t id = 0;
    std::string airframe;
    std::int64_t at_utc_s = 0;
    std::string notes;
};
/// @errors one of that moment is there already, or what the book says
Expected<std::int64_t, Problems> addOverhaul(Book& book, const Overhaul& overhaul);
/// By airframe, then by time.
Expected<std::vector<Overhaul>, Problems> overhauls(Book& book);

/// The sum over an airframe's sorties. Each sortie's cycles are counted for themselves; a range
/// that would close only over two sorties stays two halves.
struct AirframeLoads {
    std::string airframe;
    std::optional<std::int64_t>
        since_utc_s;                     ///< the overhaul it is counted from; none: from the first
    int sorties = 0, without_loads = 0;  ///< the latter are in no number below but flown_s
    double flown_s = 0, with_loads_s = 0;
    double most_g = 1, least_g = 1, quickest_gps = 0;
    std::vector<review::LoadLevel> levels;  ///< the exceedance curve: how often, how long, each g
    std::vector<review::Cycle> cycles;
    int push_pulls = 0;
    double full_power_s = 0, fuel_kg = 0, beyond_never_exceed_s = 0, overspeed_s = 0;
    // Sorties whose recordings tell none of it, and so are not in the sums of the line above.
    int without_power = 0, without_fuel = 0, without_airspeed = 0;
};
/// Every airframe of the book, by name.
Expected<std::vector<AirframeLoads>, Problems> airframeLoads(Book& book);

}  // namespace plumbline::season
