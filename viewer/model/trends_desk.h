#pragma once
// How the season goes, in the window: read from the book beside the frames, then chosen from
// by figure and measure.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/season/trends.h"
#include "engine/system/worker.h"

namespace plumbline::model {

struct Model;

/// What the panel has and what is chosen in it.
struct Trends {
    bool open = false;
    bool reading = false;
    std::string problem;  ///< why the book could not be read; empty: it was
    std::shared_ptr<const std::vector<season::Trend>> all;  ///< null: not read yet
    std::string figure, measure;  ///< chosen; the first there is where the book has no such
};

/// What there is to choose from, and the plots of what is chosen.
struct TrendChoice {
    struct Figure {
        std::string name;
        std::size_t times = 0;  ///< flown, as far as any of its measures tells
    };
    struct Measure {
        std::string name;
        season::Course course = season::Course::TooFew;  ///< worse before better before the rest
    };
    std::vector<Figure> figures;
    int figure = -1;
    std::vector<Measure> measures;  ///< of the chosen figure
    int measure = -1;
    std::vector<const season::Trend*> plots;  ///< one for each of the figure's elements
};
TrendChoice trendChoice(const Trends& trends);

/// Chooses by rows of the two lists; beyond their ends the last is taken.
void chooseTrend(Trends& trends, int figure, int measure);

/// A trend in a field: x from 0 at its first flight to 1 at its last, y from 0 at `least` to 1 at
/// `most`, with a little air above and below.
struct TrendField {
    struct Mark {
        double x = 0, y = 0;
        double low = 0, high = 0;  ///< what holds 95 of 100 errors; both y: not told
    };
    double least = 0, most = 1;
    std::vector<Mark> marks;                        ///< one for each point
    std::vector<std::optional<double>> planned;     ///< y, for each point
    std::optional<std::pair<double, double>> line;  ///< y at x 0 and 1, where a course is said

    double yOf(double value) const { return (value - least) / (most - least); }
};
/// @param trend  at least one point
TrendField trendField(const season::Trend& trend);

class TrendsDesk {
public:
    /// @param book  empty: there is none
    explicit TrendsDesk(std::filesystem::path book) : book_(std::move(book)) {}

    /// Once a frame: begins to read when the panel was opened, takes what was read.
    void frame(Model& model);
    bool busy() const { return work_.busy(); }

private:
    struct Outcome {
        std::shared_ptr<const std::vector<season::Trend>> all;
        std::string problem;
    };
    static Outcome read(const std::filesystem::path& book);

    std::filesystem::path book_;
    bool was_open_ = false;
    system::Later<Outcome> work_;
};

}  // namespace plumbline::model
