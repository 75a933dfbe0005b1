#include "viewer/model/margins_desk.h"

#include <utility>

#include "viewer/model/beside_frames.h"
#include "viewer/model/model.h"
#include "viewer/model/shown_routine.h"

namespace plumbline::model {
namespace {

constexpr double kPauseBeforeFlights_s = 1.5;  // chosen: longer than between two letters

margins::Wishes wishes() {
    margins::Wishes wishes;
    wishes.flights = kImperfectFlights;
    wishes.kept_ways = kFan;
    wishes.executor = halfTheCores();
    return wishes;
}

}  // namespace

bool Margins::old(const Shown& shown) const { return revision != shown.revision; }

const margins::FigureChance* Margins::of(const std::string& figure) const {
    if (!on || !report) return nullptr;
    for (const margins::FigureChance& chance : report->figures)
        if (chance.figure == figure) return &chance;
    return nullptr;
}

std::string wrongWords(const margins::WorstFlight& flight) {
    std::string words = "Flight " + std::to_string(flight.flight) + ": ";
    for (std::size_t i = 0; i < flight.wrong.size(); ++i) {
        const margins::WorstFlight::Wrong& wrong = flight.wrong[i];
        if (i > 0) words += ", ";
        // A figure is named once for all that goes wrong in it at a stretch.
        const bool again = i > 0 && flight.wrong[i - 1].figure == wrong.figure;
        words += wrong.figure.empty() || again ? wrong.kind : wrong.figure + " " + wrong.kind;
    }
    return words;
}

MarginsDesk::MarginsDesk() : worker_([this] { return work(); }, true) {}

MarginsDesk::~MarginsDesk() { ++newest_; }  // what is being counted is given up

void MarginsDesk::ask(std::shared_ptr<const Shown> shown) {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        job_ = Job{++newest_, std::move(shown)};
    }
    worker_.wake();
}

void MarginsDesk::giveUp() {
    const std::lock_guard<std::mutex> lock(mutex_);
    ++newest_;
    job_.reset();
    report_.reset();
}

/// What the worker has for the window.
void MarginsDesk::take(Model& model) {
    std::shared_ptr<const margins::Report> report;
    std::optional<Beside> beside;
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        report = std::exchange(report_, nullptr);
        if (report) model.margins.revision = report_revision_;
        beside = std::exchange(beside_, std::nullopt);
    }
    if (report) model.margins.report = std::move(report);
    if (!beside || !model.shown || model.shown->revision != beside->revision) return;
    beside_title_ = "Flight " + std::to_string(beside->flight);
    if (model.margins.report)
        for (const margins::WorstFlight& worst : model.margins.report->worst)
            if (worst.flight == beside->flight) beside_title_ = wrongWords(worst);
    auto shown = std::make_shared<Shown>(*model.shown);
    shown->source.ghost = beside->ghost;
    shown->beside = beside_title_;
    shown->lanes.apart_m = makeApartSeries(*beside->ghost, shown->lanes.time_s);
    model.shown = std::move(shown);
    model.editor.beside = beside->ghost->path;
    model.editor.beside_title = beside_title_;
    model.message = {"Beside the plan: " + beside_title_, false, 2 * kMessage_s};
}

void MarginsDesk::clearBeside(Model& model) {
    if (beside_title_.empty()) return;
    if (model.shown && model.shown->beside == beside_title_) {
        auto shown = std::make_shared<Shown>(*model.shown);
        shown->source.ghost = nullptr;
        shown->beside.clear();
        shown->lanes.apart_m = Series();
        model.shown = std::move(shown);
        if (model.session.marks.band_quantity == scene::Quantity::Apart)
            model.session.marks.band_quantity = scene::Quantity::Load;
    }
    if (model.editor.beside_title == beside_title_) {
        model.editor.beside = nullptr;
        model.editor.beside_title.clear();
    }
    beside_title_.clear();
}

void MarginsDesk::frame(Model& model, double elapsed_s) {
    Margins& margins = model.margins;
    take(model);
    if (!margins.on) {
        clearBeside(model);
        margins = Margins();
    }
    if (!margins.on || !model.shown || !model.shown->workspace) {
        if (asked_ != 0) giveUp();
        asked_ = 0;
        return;
    }
    const Shown& shown = *model.shown;
    if (margins.look_at) {
        const std::lock_guard<std::mutex> lock(mutex_);
        look_ = Look{model.shown, *std::exchange(margins.look_at, std::nullopt)};
        look_waits_ = true;
        worker_.wake();
    }
    if (shown.revision != rests_at_) {
        rests_at_ = shown.revision;
        rest_s_ =
            asked_ == 0 ? kPauseBeforeFlights_s : 0;  // what was just switched on begins at once
        if (asked_ != 0) giveUp();
        asked_ = 0;
    }
    rest_s_ += elapsed_s;
    if (asked_ == shown.revision || shown.draft || rest_s_ < kPauseBeforeFlights_s) return;
    asked_ = shown.revision;
    ask(model.shown);
}

/// A piece of it.
void MarginsDesk::count() {
    const std::uint64_t number = counted_->number;
    if (!counting_) {
        margins::Wishes wish = wishes();
        wish.give_up = [this, number] { return newest_ != number || look_waits_; };
        counting_ = std::make_unique<margins::Counting>(flownOf(*counted_->shown), std::move(wish));
    }
    // Between frames one flight: the picture goes on.
    const bool counted = counting_->next(system::kPiecesHoldUpFrames ? 1 : margins::kBatch);
    const bool told = counted && (counting_->done() || counting_->counted() % margins::kBatch == 0);
    std::shared_ptr<const margins::Report> report;
    if (told) report = std::make_shared<const margins::Report>(counting_->report());
    const std::lock_guard<std::mutex> guard(mutex_);
    const bool wanted = newest_ == number;
    if (wanted && report) {
        report_ = std::move(report);
        report_revision_ = counted_->shown->revision;
    }
    if (wanted && !counting_->done()) return;
    counting_.reset();
    counted_.reset();
}

MarginsDesk::Beside MarginsDesk::look(const Look& look) const {
    auto path = std::make_shared<const path::Path>(
        margins::flyAgain(flownOf(*look.shown), wishes(), look.flight, kSampleRate_hz).path);
    return {look.shown->revision, look.flight,
            scene::makeGhost(look.shown->path(), std::move(path))};
}

std::optional<double> MarginsDesk::work() {
    std::unique_lock<std::mutex> lock(mutex_);
    if (look_) {
        const Look wish = *std::exchange(look_, std::nullopt);
        look_waits_ = false;
        lock.unlock();
        Beside beside = look(wish);
        lock.lock();
        beside_ = std::move(beside);
    } else if (job_ || counted_) {
        if (job_) {
            counting_.reset();
            counted_ = std::exchange(job_, std::nullopt);
        }
        lock.unlock();
        count();
        lock.lock();
    }
    return job_ || look_ || counted_ ? std::optional<double>(0) : std::nullopt;
}

}  // namespace plumbline::model
