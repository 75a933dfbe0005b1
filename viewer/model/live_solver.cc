#include "viewer/model/live_solver.h"

#include <chrono>
#include <utility>

#include "viewer/model/draft_path.h"
#include "viewer/model/shown_routine.h"

namespace plumbline::model {
namespace {

constexpr double kDraftTolerance = 1e-6;  // chosen: centimetres over the demo, a fifth quicker

fly::SolveOptions optionsOf(LiveFlight::Kind kind) {
    fly::SolveOptions options;
    if (kind == LiveFlight::Kind::Draft) options.relative_tolerance = kDraftTolerance;
    return options;
}

/// Where in the path somebody looks.
double lookedAt_s(const path::Path& path, const LiveWish& wish) {
    for (const path::Figure& figure : path.figures) {
        if (figure.name == wish.figure) return figure.start_s + wish.in_it_s;
    }
    return wish.in_it_s;
}

/// A draft takes the ghost as it stood against the path before.
void addGhost(const LiveWish& wish, LiveFlight::Kind kind, const Shown* before, Shown& shown) {
    if (!wish.beside) return;
    shown.beside = wish.beside_title;
    if (kind == LiveFlight::Kind::Fine) {
        shown.source.ghost = scene::makeGhost(shown.path(), wish.beside);
    } else if (before && before->source.ghost && before->source.ghost->path == wish.beside) {
        shown.source.ghost = before->source.ghost;
    }
    if (shown.source.ghost) {
        shown.lanes.apart_m = makeApartSeries(*shown.source.ghost, shown.lanes.time_s);
    }
}

}  // namespace

void LiveFlight::begin(const std::shared_ptr<const Shown>& shown,
                       const std::filesystem::path& file) {
    *this = LiveFlight(kind_);
    if (!shown || !shown->workspace || !shown->variant.empty() || shown->solution.empty()) return;
    workspace_ = *shown->workspace;
    workspace_->routine_path = file;
    shown_ = shown;
    if (kind_ == Kind::Fine) {
        solution_ = shown->solution;
        path_ = shown->source.path;
        return;
    }
    solution_ = fly::solve(workspace_->aircraft, workspace_->site, workspace_->weather,
                           workspace_->routine, optionsOf(kind_));
}

void LiveFlight::forgetFiles() {
    files_.clear();
    workspace_.reset();
}

system::ReadFile LiveFlight::read(const LiveWish& wish, const std::filesystem::path& file) {
    const auto text = wish.texts.find(file);
    if (text != wish.texts.end()) return {text->second, ""};
    const auto known = files_.find(file);
    if (known != files_.end()) return known->second;
    system::ReadFile read = (wish.built_in ? load::builtInFiles() : load::diskFiles())(file);
    return files_.emplace(file, std::move(read)).first->second;
}

Expected<load::Workspace, Problems> LiveFlight::load(const LiveWish& wish) {
    auto world_texts = wish.texts;
    world_texts.erase(wish.routine);
    const auto files = [&](const std::filesystem::path& file) { return read(wish, file); };
    same_world_ = false;
    if (workspace_ && workspace_->routine_path == wish.routine && world_texts_ == world_texts &&
        !wish.overrides.site_file && !wish.overrides.weather) {
        // Only the routine's own text has changed: aircraft, site and weather stay as read.
        if (auto again = load::loadAgain(*workspace_, files)) {
            same_world_ = again->has_value();
            return std::move(*again);
        }
    }
    auto loaded = load::loadWorkspace(wish.routine, wish.overrides, files);
    if (loaded) world_texts_ = std::move(world_texts);
    return loaded;
}

std::shared_ptr<path::Path> LiveFlight::sample(const LiveWish& wish, const fly::Solution& solution,
                                               bool follows) const {
    if (kind_ == Kind::Fine) {
        // Samples can be taken over only from the path of the very solution before.
        fly::Sampling sampling;
        sampling.rate_hz = kSampleRate_hz;
        return std::make_shared<path::Path>(
            solution.samplePathAgain(sampling, follows && path_ ? *path_ : path::Path()));
    }
    return std::make_shared<path::Path>(draftPath(
        solution, [&](const path::Path& path) { return aroundMoment(lookedAt_s(path, wish)); }));
}

LiveResult LiveFlight::fly(const LiveWish& wish, std::uint64_t revision,
                           const std::shared_ptr<const Shown>& world_of) {
    const auto began = std::chrono::steady_clock::now();
    LiveResult result;
    result.number = wish.number;
    result.draft = kind_ == Kind::Draft;
    const auto done = [&] {
        result.took_s =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
        return std::move(result);
    };
    auto loaded = load(wish);
    if (!loaded) {
        result.problems = std::move(loaded).error();
        return done();
    }
    workspace_ = *loaded;
    const bool plain = wish.variant.asWritten();
    const bool follows = plain && same_world_ && !solution_.empty();
    variant::Flown flown;
    if (follows) {
        flown.solution = fly::solveAgain(solution_, loaded->routine);
        flown.workspace = std::move(loaded).value();
    } else {
        auto made = variant::fly(std::move(loaded).value(), wish.variant, optionsOf(kind_));
        if (!made) {
            result.problems = std::move(made).error();
            return done();
        }
        flown = std::move(made).value();
    }
    auto path = sample(wish, flown.solution, follows);
    solution_ = plain ? flown.solution : fly::Solution();
    path_ = plain && kind_ == Kind::Fine ? path : nullptr;
    if (path->samples.empty()) {
        solution_ = fly::Solution();
        Problem problem;
        problem.where.file = wish.routine.generic_string();
        problem.what = "nothing in it can be flown";
        problem.remedy = "give it at least one figure with one line: line 200 m";
        result.problems.push_back(std::move(problem));
        return done();
    }
    const Shown* before = world_of ? world_of.get() : same_world_ ? shown_.get() : nullptr;
    if (before && wish.now && wish.now->source.world == before->source.world) {
        before = wish.now.get();
    }
    auto shown = kind_ == Kind::Draft
                     ? draftRoutine(std::move(flown), std::move(path), revision, before)
                     : showRoutine(std::move(flown), std::move(path), revision, before);
    addGhost(wish, kind_, before, *shown);
    result.shown = std::move(shown);
    shown_ = result.shown;
    return done();
}

LiveSolver::LiveSolver()
    : draft_worker_([this] { return flyDrafts(); }), fine_worker_([this] { return flyFine(); }) {}

void LiveSolver::begin(std::shared_ptr<const Shown> shown, const std::filesystem::path& file) {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        wish_.reset();
        rough_.reset();
        draft_orders_.begin = fine_orders_.begin = std::move(shown);
        draft_orders_.file = fine_orders_.file = file;
        draft_orders_.begins = fine_orders_.begins = true;
    }
    draft_worker_.wake();
}

void LiveSolver::ask(LiveWish wish) {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        wish_ = std::move(wish);
        rough_.reset();
    }
    draft_worker_.wake();
}

void LiveSolver::askShelf() {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        shelf_wanted_ = true;
    }
    fine_worker_.wake();
}

void LiveSolver::forgetFiles() {
    const std::lock_guard<std::mutex> lock(mutex_);
    draft_orders_.forget = fine_orders_.forget = true;
}

std::optional<LiveResult> LiveSolver::take() {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (draft_) return std::exchange(draft_, std::nullopt);
    return std::exchange(fine_, std::nullopt);
}

std::optional<std::vector<ShelfFigure>> LiveSolver::takeShelf() {
    const std::lock_guard<std::mutex> lock(mutex_);
    return std::exchange(shelf_, std::nullopt);
}

bool LiveSolver::busy() const {
    const std::lock_guard<std::mutex> lock(mutex_);
    return wish_ || rough_ || draft_ || fine_ || drafting_ || fining_ || shelf_wanted_;
}

void LiveSolver::carryOut(Orders orders, LiveFlight& flight) {
    if (orders.forget) flight.forgetFiles();
    if (orders.begins) flight.begin(orders.begin, orders.file);
}

std::optional<double> LiveSolver::flyDrafts() {
    std::unique_lock<std::mutex> lock(mutex_);
    if (!wish_ && !draft_orders_.begins) return std::nullopt;
    Orders orders = std::exchange(draft_orders_, Orders());
    std::optional<LiveWish> wish = std::exchange(wish_, std::nullopt);
    const std::uint64_t revision = ++revision_;
    drafting_ = true;
    lock.unlock();
    carryOut(std::move(orders), draft_flight_);
    std::optional<LiveResult> result;
    if (wish) result = draft_flight_.fly(*wish, revision);
    lock.lock();
    drafting_ = false;
    if (result) {
        if (result->shown && !wish_) rough_ = Rough{std::move(*wish), result->shown};
        draft_ = std::move(result);
        fine_worker_.wake();
    }
    return wish_ || draft_orders_.begins ? std::optional<double>(0) : std::nullopt;
}

/// @return how long to wait still for nobody to type; nothing: long enough
std::optional<double> LiveSolver::restBeforeFine() {
    // chosen: shorter than a pause between two keys, longer than between steps of a drag
    constexpr std::chrono::milliseconds kPause(60);
    const auto now = std::chrono::steady_clock::now();
    if (wish_ || rests_for_ != rough_->wish.number) {
        rests_for_ = rough_->wish.number;
        rests_since_ = now;
    }
    const std::chrono::duration<double> left = rests_since_ + kPause - now;
    return left.count() > 0 ? std::optional<double>(left.count()) : std::nullopt;
}

std::optional<double> LiveSolver::flyFine() {
    std::unique_lock<std::mutex> lock(mutex_);
    if (!rough_ && !shelf_wanted_) return std::nullopt;
    if (rough_) {
        if (const auto rest_s = restBeforeFine()) return rest_s;
    }
    Orders orders = std::exchange(fine_orders_, Orders());
    std::optional<Rough> rough = std::exchange(rough_, std::nullopt);
    const std::uint64_t revision = ++revision_;
    fining_ = true;
    lock.unlock();
    carryOut(std::move(orders), fine_flight_);
    std::optional<LiveResult> result;
    std::optional<std::vector<ShelfFigure>> shelf;
    if (rough) {
        result = fine_flight_.fly(rough->wish, revision, rough->shown);
    } else {
        shelf = variant::flyShelf(kShelfRate_hz);
    }
    lock.lock();
    fining_ = false;
    if (result) fine_ = std::move(result);
    if (shelf) {
        shelf_wanted_ = false;
        shelf_ = std::move(shelf);
    }
    return rough_ || shelf_wanted_ ? std::optional<double>(0) : std::nullopt;
}

}  // namespace plumbline::model
