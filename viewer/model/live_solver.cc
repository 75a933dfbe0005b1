#include "viewer/model/live_solver.h"

#include <chrono>
#include <utility>

#include "engine/routine/figure_file.h"
#include "viewer/model/shown_routine.h"

namespace plumbline::model {
namespace {

constexpr double kDraftRate_hz = 20;  // chosen: a metre or two between samples near the ground

}  // namespace

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
    if (workspace_ && workspace_->routine_path == wish.routine && world_texts == world_texts_ &&
        !files_.empty() && !wish.overrides.site_file && !wish.overrides.weather) {
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

LiveResult LiveFlight::fly(const LiveWish& wish, std::uint64_t revision, bool draft) {
    const auto began = std::chrono::steady_clock::now();
    LiveResult result;
    result.number = wish.number;
    result.draft = draft;
    const auto done = [&] {
        result.took_s =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
        return std::move(result);
    };
    const bool refine = !draft && solved_ == wish.number && workspace_.has_value();
    variant::Flown flown;
    std::shared_ptr<const Shown> world_of = shown_;
    const bool plain = wish.variant.asWritten();
    if (refine && plain) {
        flown.workspace = *workspace_;
        flown.solution = solution_;
    } else {
        auto loaded = load(wish);
        if (!loaded) {
            result.problems = std::move(loaded).error();
            return done();
        }
        if (!same_world_) world_of = nullptr;
        workspace_ = *loaded;
        if (plain && same_world_ && !solution_.empty()) {
            flown.solution = fly::solveAgain(solution_, loaded->routine);
            flown.workspace = std::move(loaded).value();
        } else {
            auto made = variant::fly(std::move(loaded).value(), wish.variant);
            if (!made) {
                result.problems = std::move(made).error();
                return done();
            }
            flown = std::move(made).value();
        }
        solution_ = plain ? flown.solution : fly::Solution();
        solved_ = wish.number;
    }
    // Samples can be taken over only from the path of the very solution before.
    const std::size_t kind = draft ? 1 : 0;
    const bool follows = plain && same_world_ && path_[kind] && !refine;
    fly::Sampling sampling;
    sampling.executor = system::parallel();
    sampling.rate_hz = draft ? kDraftRate_hz : kSampleRate_hz;
    if (draft) sampling.rates = fly::Sampling::Rates::ForEye;
    auto path = std::make_shared<path::Path>(
        flown.solution.samplePathAgain(sampling, follows ? *path_[kind] : path::Path()));
    if (!refine) path_[0] = path_[1] = nullptr;
    if (path->samples.empty()) {
        Problem problem;
        problem.where.file = wish.routine.generic_string();
        problem.what = "nothing in it can be flown";
        problem.remedy = "give it at least one figure with one line: line 200 m";
        result.problems.push_back(std::move(problem));
        return done();
    }
    path_[kind] = path;
    auto shown = showRoutine(std::move(flown), std::move(path), revision, world_of.get());
    shown->demo = false;
    result.shown = std::move(shown);
    shown_ = result.shown;
    return done();
}

std::vector<ShelfFigure> flyShelf() {
    std::vector<ShelfFigure> out;
    auto demo = load::loadDemo();
    if (!demo) return out;
    data::Weather calm;
    for (const std::string_view name : load::shelfNames()) {
        const auto file = load::shelfFigure(name);
        const routine::FigureFile read =
            routine::readFigureFile(file.value_or(""), std::string(name)).figure;
        routine::Routine routine;
        routine.name = read.name;
        routine.start.x_m = -800;
        routine.start.height_m = read.entry.height_m;
        routine.start.speed_mps = read.entry.speed_mps;
        routine.start.fuel_l = 40;
        routine::RoutineFigure figure;
        figure.name = read.name;
        figure.elements = read.elements;
        routine.figures.push_back(std::move(figure));
        ShelfFigure shelf;
        shelf.name = std::string(name);
        shelf.title = read.name;
        shelf.about = read.about;
        constexpr const char* kSkills[] = {"simple", "practised", "expert"};
        shelf.skill = kSkills[static_cast<std::size_t>(read.skill)];
        shelf.path =
            fly::solve(demo->aircraft, demo->site, calm, routine).samplePath(kDraftRate_hz);
        if (!shelf.path.samples.empty()) out.push_back(std::move(shelf));
    }
    return out;
}

LiveSolver::LiveSolver() : thread_([this] { work(); }) {}

LiveSolver::~LiveSolver() {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        stop_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

void LiveSolver::ask(LiveWish wish) {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        wish_ = std::move(wish);
    }
    changed_.notify_all();
}

void LiveSolver::askShelf() {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        shelf_wanted_ = true;
    }
    changed_.notify_all();
}

void LiveSolver::forgetFiles() {
    const std::lock_guard<std::mutex> lock(mutex_);
    forget_ = true;
}

std::optional<LiveResult> LiveSolver::take() {
    const std::lock_guard<std::mutex> lock(mutex_);
    return std::exchange(result_, std::nullopt);
}

std::optional<std::vector<ShelfFigure>> LiveSolver::takeShelf() {
    const std::lock_guard<std::mutex> lock(mutex_);
    return std::exchange(shelf_, std::nullopt);
}

bool LiveSolver::busy() const {
    const std::lock_guard<std::mutex> lock(mutex_);
    return wish_ || result_ || working_ || shelf_wanted_;
}

void LiveSolver::work() {
    LiveFlight flight;
    std::optional<LiveWish> rough;  ///< shown as a draft, still to be done finely
    std::unique_lock<std::mutex> lock(mutex_);
    while (true) {
        if (!rough) {
            changed_.wait(lock, [this] { return stop_ || wish_ || shelf_wanted_; });
        } else {
            // chosen: while somebody types or drags, drafts only
            constexpr std::chrono::milliseconds kPause(120);
            changed_.wait_for(lock, kPause, [this] { return stop_ || wish_; });
        }
        if (stop_) return;
        if (!wish_ && !rough) {
            shelf_wanted_ = false;
            working_ = true;
            lock.unlock();
            std::vector<ShelfFigure> shelf = flyShelf();
            lock.lock();
            working_ = false;
            shelf_ = std::move(shelf);
            continue;
        }
        const bool draft = wish_.has_value();
        LiveWish wish = draft ? std::move(*wish_) : std::move(*rough);
        wish_.reset();
        rough.reset();
        if (std::exchange(forget_, false)) flight.forgetFiles();
        const std::uint64_t revision = ++revision_;
        working_ = true;
        lock.unlock();
        LiveResult result = flight.fly(wish, revision, draft);
        lock.lock();
        working_ = false;
        if (draft && result.shown) rough = std::move(wish);
        result_ = std::move(result);
    }
}

}  // namespace plumbline::model
