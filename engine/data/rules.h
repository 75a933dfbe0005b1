#pragma once
// Rules of a display, as data: each number with its source. The local authority decides.

#include <string>
#include <vector>

namespace plumbline::data {

/// What flight a rule is about.
enum class Flight { Any, Aerobatic, FlyPast };

/// Where a number comes from, and whether anybody has seen it in the original.
struct RuleBasis {
    std::string source;
    bool verified = false;
};

/// Least distance from the crowd line at calibrated airspeeds from `from` to below `to`.
struct DistanceRule {
    Flight flight = Flight::Any;
    double from_mps = 0, to_mps = 0;  ///< to 0: no upper end
    double distance_m = 0;
    RuleBasis basis;
};

/// Show line of a category of aircraft, which the aircraft's file states.
struct CategoryRule {
    std::string name;
    double distance_m = 0;  ///< of the show line from the crowd line
    double to_mps = 0;      ///< greatest speed of the category; 0: none
    RuleBasis basis;
};

struct HeightRule {
    Flight flight = Flight::Any;
    double height_m = 0;
    RuleBasis basis;
};

/// A zone to stay in, centred on show centre along the line, beginning at the show line.
struct ZoneRule {
    double width_m = 0, depth_m = 0, bottom_m = 0, top_m = 0;  ///< top 0: none
    RuleBasis basis;
};

struct RuleSet {
    std::string name;
    std::string edition;
    std::string remark;  ///< standing words: who decides
    // Flight counts as aerobatic beyond either; both zero: all of it.
    double aerobatic_pitch_rad = 0, aerobatic_bank_rad = 0;
    std::vector<DistanceRule> distances;
    std::vector<CategoryRule> categories;
    std::vector<HeightRule> heights;
    std::vector<ZoneRule> zones;
};

}  // namespace plumbline::data
