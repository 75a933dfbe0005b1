#pragma once
// Flies the text while it is being written: beside the frames, the newest text first, only from
// the first changed figure on.

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "engine/system/worker.h"
#include "engine/variant/shelf.h"
#include "viewer/model/document.h"

namespace plumbline::model {

/// The texts as they stand in the editor, and what is wanted of them.
struct LiveWish {
    std::uint64_t number = 0;  ///< rises; the result's
    std::filesystem::path routine;
    bool built_in = false;  ///< files that are not edited come from the program, not the disk
    std::map<std::filesystem::path, std::string> texts;
    load::Overrides overrides;
    variant::Wish variant;
    std::string figure;                        ///< somebody looks at this one...
    double in_it_s = 0;                        ///< ...so long after its start
    std::shared_ptr<const Shown> now;          ///< whose findings a draft takes over; null: none
    std::shared_ptr<const path::Path> beside;  ///< drawn as the ghost; null: none
    std::string beside_title;
};

struct LiveResult {
    std::uint64_t number = 0;
    std::shared_ptr<const Shown> shown;  ///< null: the problems say why
    Problems problems;
    double took_s = 0;   ///< from text to path, beside the frames
    bool draft = false;  ///< a finer one follows
};

/// What one worker does, step by step; keeps what the next text can use again. A draft is for the
/// next frame: solved to a millimetre a figure, sampled where somebody looks, not checked. The
/// fine one is what opening the text would give, to the last bit.
class LiveFlight {
public:
    enum class Kind { Draft, Fine };
    explicit LiveFlight(Kind kind) : kind_(kind) {}

    /// Goes on from what is open already; variants are flown afresh.
    /// @param shown  null: nothing that could go on
    /// @param file   as wishes name it
    void begin(const std::shared_ptr<const Shown>& shown, const std::filesystem::path& file);
    /// @param world_of  the same texts as a draft, whose world goes on; null: none
    LiveResult fly(const LiveWish& wish, std::uint64_t revision,
                   const std::shared_ptr<const Shown>& world_of = nullptr);
    /// The files that are not edited are read anew.
    void forgetFiles();

private:
    system::ReadFile read(const LiveWish& wish, const std::filesystem::path& file);
    Expected<load::Workspace, Problems> load(const LiveWish& wish);
    std::shared_ptr<path::Path> sample(const LiveWish& wish, const fly::Solution& solution,
                                       bool follows) const;

    Kind kind_;
    std::map<std::filesystem::path, system::ReadFile> files_;
    std::optional<load::Workspace> workspace_;                  ///< loaded last
    std::map<std::filesystem::path, std::string> world_texts_;  ///< that its world was read from
    bool same_world_ = false;                                   ///< as the flight before
    fly::Solution solution_;                                    ///< as written; empty: none yet
    std::shared_ptr<const path::Path> path_;                    ///< fine: of solution_
    std::shared_ptr<const Shown> shown_;
};

using variant::ShelfFigure;
/// Coarse paths, for their pictures.
inline constexpr double kShelfRate_hz = 20;

/// Two workers: one flies drafts and is never waited for long, the other makes them fine once
/// nobody types for a moment.
class LiveSolver {
public:
    LiveSolver();
    LiveSolver(const LiveSolver&) = delete;
    LiveSolver& operator=(const LiveSolver&) = delete;

    /// Something was opened: the first change then costs no more than the others.
    void begin(std::shared_ptr<const Shown> shown, const std::filesystem::path& file);
    /// Replaces any wish that is still waiting.
    void ask(LiveWish wish);
    void askShelf();
    /// Files on the disk have changed.
    void forgetFiles();
    /// The newest results, each once, the draft first. Never waits.
    std::optional<LiveResult> take();
    std::optional<std::vector<ShelfFigure>> takeShelf();
    bool busy() const;

private:
    /// What a worker does before its next wish.
    struct Orders {
        bool begins = false;
        std::shared_ptr<const Shown> begin;
        std::filesystem::path file;
        bool forget = false;
    };
    struct Rough {
        LiveWish wish;
        std::shared_ptr<const Shown> shown;
    };
    std::optional<double> flyDrafts();
    std::optional<double> flyFine();
    std::optional<double> restBeforeFine();
    static void carryOut(Orders orders, LiveFlight& flight);

    mutable std::mutex mutex_;
    std::optional<LiveWish> wish_;
    std::optional<Rough> rough_;  ///< shown as a draft, still to be done finely
    std::optional<LiveResult> draft_, fine_;
    std::optional<std::vector<ShelfFigure>> shelf_;
    Orders draft_orders_, fine_orders_;
    bool shelf_wanted_ = false;
    bool drafting_ = false, fining_ = false;
    std::uint64_t rests_for_ = 0;  ///< number of the rough one that waits for a pause
    std::chrono::steady_clock::time_point rests_since_;
    std::uint64_t revision_ = std::uint64_t{1} << 40;  ///< apart from the opener's
    // Of the workers alone.
    LiveFlight draft_flight_{LiveFlight::Kind::Draft}, fine_flight_{LiveFlight::Kind::Fine};
    system::Worker draft_worker_, fine_worker_;  // last: gone before what they work on
};

}  // namespace plumbline::model
