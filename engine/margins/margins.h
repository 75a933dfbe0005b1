#pragma once
// The routine flown imperfectly many times: the chance of each finding, how high tops and lowest
// points are, when cues fall, and which error matters most.

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/check/finding.h"
#include "engine/margins/statistics.h"
#include "engine/path/path.h"
#include "engine/system/parallel.h"
#include "engine/variant/variant.h"

namespace plumbline::margins {

struct Report;

struct Wishes {
    std::uint64_t flights = 10000;
    std::uint64_t seed = 1;
    system::Executor executor = system::serial();
    /// Told now and then, from the caller's thread. False: give up.
    std::function<bool(std::uint64_t done)> progress = nullptr;
    /// Told the same moments, with what the flights until then come to.
    std::function<void(const Report&)> partial = nullptr;
    /// Asked before each flight, from any thread. True: give up, this batch is not counted.
    std::function<bool()> give_up = nullptr;
    std::uint64_t kept_ways = 0;  ///< of the first flights where they went is kept
    double tolerance = 1e-5;      ///< of each flight
    double rate_hz = 5;           ///< samples that the checks look at, with those of lookAt()
};

/// The share of an outcome's variance that one error alone explains.
struct Influence {
    std::string input;  ///< "wind along", "load", ...; of a figure's errors, its own
    double share = 0;
};

/// A finding in some of the flights.
struct Chance {
    std::string kind;
    std::string figure;                 ///< empty: the whole routine
    bool in_plan = false;               ///< the plan has it too, tight or worse
    std::uint64_t tight = 0;            ///< flights where it is tight or worse
    std::uint64_t unsafe = 0;           ///< unsafe or worse
    std::uint64_t worst_flight = 0;     ///< the one that is furthest beyond its limit, the first of
                                        ///< them where nothing is measured
    std::vector<Influence> influences;  ///< on its being there, the greatest first
};

/// A height of a figure over all flights that flew it, above show centre.
struct HeightSpread {
    std::string figure;
    double plan_m = 0;
    double low_m = 0, middle_m = 0, high_m = 0;  ///< 5, 50 and 95 % of flights are lower
    std::vector<Influence> influences;
};

/// How far a top lies above its gate: the least height there to come round at that flight's speed,
/// with the mass and in the air of the plan.
struct GateMargin {
    std::string figure;
    double plan_s = 0;  ///< when the plan is there: a figure may have several
    double plan_m = 0;
    double low_m = 0, middle_m = 0, high_m = 0;  ///< 5, 50 and 95 % of flights have less
    std::uint64_t flights = 0;                   ///< that came to this top
    std::uint64_t below = 0;                     ///< of them lower than the gate
    std::vector<Influence> influences;
};

struct CueWindow {
    std::string words;
    double plan_s = 0;
    double early_s = 0, late_s = 0;  ///< 5 and 95 % are earlier
};

/// Of one figure, whatever the finding.
struct FigureChance {
    std::string figure;
    std::uint64_t tight = 0;   ///< flights in which something of it is tight or worse
    std::uint64_t unsafe = 0;  ///< unsafe or worse
};

/// One of the flights in which most went wrong.
struct WorstFlight {
    std::uint64_t flight = 0;  ///< its number: with the seed all that flies it again
    std::uint64_t tight = 0;   ///< findings that are tight or worse
    std::uint64_t unsafe = 0;  ///< unsafe or worse
    struct Wrong {
        std::string kind, figure;
    };
    /// Some of it: the gravest first, and of those what happens in the fewest flights, as it tells
    /// this flight from the others.
    std::vector<Wrong> wrong;
};
inline constexpr std::size_t kWorstFlights = 8, kNamedWrong = 4;

/// Where a flight went, a fifth of a second apart at the usual rate, above show centre.
struct Way {
    std::vector<std::size_t> begins;  ///< first point of each figure flown, and one behind the last
    std::vector<glm::vec3> places_S_m;
};

struct Report {
    std::uint64_t flights = 0;          ///< flown; fewer than asked where it was given up
    std::uint64_t unsafe = 0;           ///< with anything unsafe or worse
    std::uint64_t tight = 0;            ///< with anything tight or worse
    std::vector<FigureChance> figures;  ///< every figure of the plan, in its order
    /// Those that meet the ground first, then by unsafe findings, tight ones, number.
    std::vector<WorstFlight> worst;
    std::vector<std::shared_ptr<const Way>> ways;  ///< of the first flights, as many as were asked
    std::vector<Chance> chances;                   ///< the likeliest to be unsafe first, then tight
    std::vector<HeightSpread> tops;    ///< of figures that go down after their highest point
    std::vector<HeightSpread> lowest;  ///< of every figure
    std::vector<GateMargin> gates;     ///< of every top that has one, in their order
    std::vector<CueWindow> cues;
};

/// Flies it. The same wishes give the same report for every executor: flights are drawn by their
/// number and counted in its order. Time is linear in their number, memory does not depend on it.
///
/// @param flown  the variant, with the pilot's spreads
Report fly(const variant::Flown& flown, const Wishes& wishes);

// chosen: a second or less of work, and outcomes of a megabyte
inline constexpr std::uint64_t kBatch = 128;

/// The same a piece at a time, for who has other things to do in between. However the pieces are
/// cut, as many flights give the same report.
class Counting {
public:
    Counting(const variant::Flown& flown, Wishes wishes);
    ~Counting();
    Counting(const Counting&) = delete;
    Counting& operator=(const Counting&) = delete;

    /// Flies so many more, or what is left of them. @return false: given up, none of them is
    /// counted, and they may be flown again
    bool next(std::uint64_t most);
    std::uint64_t counted() const;
    bool done() const;
    Report report() const;

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// One of those flights once more, to be looked at.
struct FlownAgain {
    path::Path path;  ///< it jumps where a figure begins with new errors
    std::vector<check::Finding> findings;
};
/// @param flight   its number; it need not have been flown before
/// @param rate_hz  of the path; the findings are those that are counted
FlownAgain flyAgain(const variant::Flown& flown, const Wishes& wishes, std::uint64_t flight,
                    double rate_hz);

}  // namespace plumbline::margins
