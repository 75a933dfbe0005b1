#pragma once
// Flies the text while it is being written: on a thread of its own, the newest text first, only
// from the first changed figure on.

#include <condition_variable>
#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

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
};

struct LiveResult {
    std::uint64_t number = 0;
    std::shared_ptr<const Shown> shown;  ///< null: the problems say why
    Problems problems;
    double took_s = 0;   ///< from text to path, on the thread
    bool draft = false;  ///< a finer one follows
};

/// What one thread does, step by step; keeps what the next text can use again.
class LiveFlight {
public:
    /// @param draft  sampled coarsely: a moment for the eye until the fine one comes
    LiveResult fly(const LiveWish& wish, std::uint64_t revision, bool draft);
    /// The files that are not edited are read anew.
    void forgetFiles() {
        files_.clear();
        same_world_ = false;
    }

private:
    system::ReadFile read(const LiveWish& wish, const std::filesystem::path& file);
    Expected<load::Workspace, Problems> load(const LiveWish& wish);

    std::map<std::filesystem::path, system::ReadFile> files_;
    std::optional<load::Workspace> workspace_;                  ///< loaded last
    std::map<std::filesystem::path, std::string> world_texts_;  ///< that its world was read from
    bool same_world_ = false;                                   ///< as the flight before
    fly::Solution solution_;
    std::uint64_t path_number_ = 0;
    std::shared_ptr<const path::Path> path_[2];  ///< fine, draft; null where older than solution_
    std::shared_ptr<const Shown> shown_;
    std::uint64_t solved_ = 0;  ///< wish that solution_ belongs to
    Problems none_;
};

/// A figure of the shelf, flown alone.
struct ShelfFigure {
    std::string name;   ///< as routines have it: "loop"
    std::string title;  ///< "Loop"
    std::string about;
    std::string skill;
    path::Path path;  ///< coarse, for its picture
};
/// Flies them all from their entries, in the demo's aircraft and calm air.
std::vector<ShelfFigure> flyShelf();

class LiveSolver {
public:
    LiveSolver();
    ~LiveSolver();
    LiveSolver(const LiveSolver&) = delete;
    LiveSolver& operator=(const LiveSolver&) = delete;

    /// Replaces any wish that is still waiting.
    void ask(LiveWish wish);
    void askShelf();
    /// Files on the disk have changed.
    void forgetFiles();
    /// The newest result, once. Never waits.
    std::optional<LiveResult> take();
    std::optional<std::vector<ShelfFigure>> takeShelf();
    bool busy() const;

private:
    void work();

    mutable std::mutex mutex_;
    std::condition_variable changed_;
    std::optional<LiveWish> wish_;
    std::optional<LiveResult> result_;
    std::optional<std::vector<ShelfFigure>> shelf_;
    bool shelf_wanted_ = false;
    bool forget_ = false;
    bool working_ = false;
    bool stop_ = false;
    std::uint64_t revision_ = std::uint64_t{1} << 40;  ///< apart from the opener's
    std::thread thread_;
};

}  // namespace plumbline::model
