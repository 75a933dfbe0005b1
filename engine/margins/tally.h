#pragma once
// Counts flights one after the other; its size does not grow with their number.

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

#include "engine/margins/draw.h"
#include "engine/margins/gate_curve.h"
#include "engine/margins/margins.h"
#include "engine/margins/plan.h"

namespace plumbline::margins {

/// What is kept of one flight until it is counted.
struct Outcome {
    Draw draw;
    std::uint64_t flight = 0;
    std::shared_ptr<const Way> way;  ///< null: not kept
    struct Figure {
        double highest_m = 0, lowest_m = 0;
    };
    std::vector<Figure> figures;  ///< those that were flown
    std::vector<double> cues_s;
    std::vector<std::optional<double>> above_gates_m;  ///< of each gate; nothing: not come so far
    struct Found {
        std::string kind, figure;
        check::Grade grade;
        double margin;  ///< below zero beyond the limit; 0: not measured
    };
    std::vector<Found> found;  ///< tight or worse, each kind and figure once
};

/// What a path and its findings come to.
Outcome outcomeOf(Draw draw, const path::Path& path, const std::vector<check::Finding>& findings,
                  const std::vector<GateCurve>& gates);

std::shared_ptr<const Way> wayOf(const path::Path& path);

class Tally {
public:
    Tally(const Plan& plan, const Outcome& planned);
    void add(const Outcome& outcome);
    Report report() const;

private:
    static constexpr std::size_t kInputs = kDaily + kFigurewise;
    using Hits = std::array<std::array<std::uint64_t, kBins>, kInputs>;

    /// A number over flights, with what each input makes of it.
    struct Number {
        Histogram histogram;
        double plan;
        double sum = 0, sum_of_squares = 0;  ///< of differences from the plan
        std::array<Bins, kInputs> bins{};
    };
    struct Gate {
        std::size_t figure;
        double plan_s;
        Number above;
        std::uint64_t below = 0;
    };
    struct Bad {
        WorstFlight flight;
        bool ground = false;
        std::vector<Outcome::Found> found;
    };
    struct Count {
        std::uint64_t tight = 0, unsafe = 0;
        std::uint64_t worst_flight = 0;
        bool worst_unsafe = false;
        double worst_margin = 0;
        Hits hits{};  ///< tight or worse
    };

    std::array<std::size_t, kInputs> binsOf(const Draw& draw, std::size_t figure) const;
    void add(Number& number, double value, const std::array<std::size_t, kInputs>& bins) const;
    void addFindings(const Outcome& outcome, const std::vector<std::array<std::size_t, kInputs>>&);
    void addToWorst(const Outcome& outcome);
    WorstFlight named(const Bad& bad) const;
    HeightSpread spreadOf(const std::string& figure, const Number& number) const;
    std::vector<Influence> influencesOf(const Count& count, const std::string& figure) const;

    std::vector<std::string> figures_, cue_words_;
    std::map<std::string, std::size_t, std::less<>> figure_index_;
    std::vector<bool> is_top_;
    std::vector<Number> highest_, lowest_;
    std::vector<Histogram> cues_;
    std::vector<double> cue_plan_s_;
    std::vector<Outcome::Found> planned_;
    std::map<std::pair<std::string, std::string>, Count> counts_;
    std::vector<FigureChance> figure_chances_;
    std::vector<Gate> gates_;
    std::vector<Bad> worst_;
    std::vector<std::shared_ptr<const Way>> ways_;
    std::vector<Hits> drawn_;  ///< flights in each bin, of each figure
    std::uint64_t flights_ = 0, tight_ = 0, unsafe_ = 0;
};

}  // namespace plumbline::margins
