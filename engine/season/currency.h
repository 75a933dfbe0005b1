#pragma once
// How much was flown lately.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/season/book.h"

namespace plumbline::season {

/// Windows that are looked at unless others are asked for. Common practice, no source: what counts
/// as current is the display authority's and the pilot's own to say.
inline constexpr int kUsualWindows_days[] = {7, 30, 90};

struct Window {
    int days = 0;
    int sorties = 0;
    double flown_s = 0;
};

/// Of a routine or a figure.
struct Practice {
    std::string name;
    double last_utc_s = 0;
    double since_days = 0;     ///< from then to now
    std::vector<int> sorties;  ///< in each window
};

struct Currency {
    std::optional<double> since_days;  ///< since the last sortie; nothing when there is none
    std::vector<Window> windows;
    std::vector<Practice> routines, figures;  ///< the longest ago first
};

/// @param now_utc_s  sorties after it are not counted
Expected<Currency, Problems> currency(Book& book, double now_utc_s,
                                      std::span<const int> windows_days);

}  // namespace plumbline::season
