#pragma once
// The open routine flown imperfectly in the background: partial results as they come, given up when
// the routine changes and begun anew after a rest.

#include <atomic>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "engine/margins/margins.h"
#include "engine/system/worker.h"
#include "viewer/scene/ghost.h"

namespace plumbline::model {

struct Model;
struct Shown;

// chosen: chances are known to about two percentage points then, half a minute of one core
inline constexpr std::uint64_t kImperfectFlights = 2000;
inline constexpr std::uint64_t kFan = 30;  // chosen: the fan reads, and costs little in a frame

/// What is known so far.
struct Margins {
    bool on = false;
    std::uint64_t revision = 0;                     ///< of the shown routine that the report is of
    std::shared_ptr<const margins::Report> report;  ///< null: none yet
    std::optional<std::uint64_t> look_at;           ///< a flight that is wanted beside the plan

    /// The report is of a routine that has been changed since.
    bool old(const Shown& shown) const;
    const margins::FigureChance* of(const std::string& figure) const;
};

/// "Flight 93: Goldfish floor, Diamond not flyable": what went wrong in one of the worst flights.
std::string wrongWords(const margins::WorstFlight& flight);

/// The worker that flies them. It gives way to all others: writing never waits for it.
class MarginsDesk {
public:
    MarginsDesk();
    ~MarginsDesk();
    MarginsDesk(const MarginsDesk&) = delete;
    MarginsDesk& operator=(const MarginsDesk&) = delete;

    /// Once a frame: asks for what is wanted of the shown routine, takes what is there.
    void frame(Model& model, double elapsed_s);

private:
    struct Job {
        std::uint64_t number = 0;
        std::shared_ptr<const Shown> shown;
    };
    struct Look {
        std::shared_ptr<const Shown> shown;
        std::uint64_t flight = 0;
    };
    struct Beside {
        std::uint64_t revision = 0, flight = 0;
        std::shared_ptr<const scene::Ghost> ghost;
    };
    std::optional<double> work();
    void count();
    Beside look(const Look& look) const;
    void ask(std::shared_ptr<const Shown> shown);
    void giveUp();
    void take(Model& model);
    void clearBeside(Model& model);

    std::mutex mutex_;
    std::optional<Job> job_;
    std::optional<Look> look_;  ///< comes before the next piece of the job
    std::shared_ptr<const margins::Report> report_;
    std::uint64_t report_revision_ = 0;
    std::optional<Beside> beside_;
    std::atomic<std::uint64_t> newest_{0};  ///< number of the job that is still wanted
    std::atomic<bool> look_waits_{false};

    // Of the worker.
    std::optional<Job> counted_;
    std::unique_ptr<margins::Counting> counting_;  ///< of that job; null: not begun

    // Of the frames.
    std::uint64_t asked_ = 0;     ///< revision that is flown, or was; 0: none
    std::uint64_t rests_at_ = 0;  ///< revision seen last
    double rest_s_ = 0;
    std::string beside_title_;  ///< of the flight that was put beside the plan; empty: none

    system::Worker worker_;  // last: gone before what it works on
};

}  // namespace plumbline::model
