#include "viewer/model/debrief_desk.h"

#include <utility>

#include "engine/page/fonts.h"
#include "engine/record/clock_text.h"
#include "engine/season/last_times.h"
#include "engine/sheets/folder.h"
#include "viewer/model/beside_frames.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {

/// How the routine went before; without a book that can be read nothing.
std::vector<season::LastTimes> lastTimesOf(const Shown& shown, const std::filesystem::path& file) {
    std::error_code failed;
    if (file.empty() || !std::filesystem::exists(file, failed)) return {};
    auto book = season::Book::open(file, season::Book::Access::Existing);
    if (!book) return {};
    season::Sortie sortie = season::sortieOf(shown.review->result, {}, {}, shown.path().known);
    if (const auto utc_s = record::parseUtc(shown.start_utc))
        sortie.flown_utc_s = static_cast<std::int64_t>(*utc_s);
    season::LastWish wish;
    wish.routine = shown.review->plan->workspace->routine.name;
    wish.key = shown.subject.key;
    auto last = season::lastTimes(*book, shown.review->result, sortie, wish);
    return last ? std::move(*last) : std::vector<season::LastTimes>();
}

}  // namespace

std::filesystem::path debriefFolder(const Shown& shown) {
    if (shown.logs.empty()) return {};
    const std::filesystem::path& log = shown.logs.front();
    return log.parent_path() / (log.stem().string() + "-debrief");
}

void DebriefDesk::begin(Model& model) {
    if (!model.shown || !model.shown->review || !model.shown->review->plan) {
        say(model, "The two pages are of a flight over its plan: drop a logger's file on a routine",
            true);
        return;
    }
    if (busy()) {
        say(model, "The pages before are still being written", true);
        return;
    }
    work_ = system::Later<Outcome>::begin([shown = model.shown,
                                           units = displayUnits(model.session.units),
                                           book = book_]() -> Outcome {
        const FlightReview& review = *shown->review;
        const page::Fonts fonts;
        sheets::Sortie sortie;
        sortie.flight = &shown->path();
        sortie.plan = &review.plan->path();
        sortie.workspace = review.plan->workspace.get();
        sortie.review = &review.result;
        sortie.variant = review.plan->variant;
        sortie.start_utc = shown->start_utc;
        sortie.log_revision = shown->log_revision;
        sortie.notes = shown->made_how;
        sortie.units = units;
        sortie.last = lastTimesOf(*shown, book);
        sheets::Print print;
        print.fonts = &fonts;
        const auto files = sheets::sortieFiles(sortie, print);
        if (!files) return {describe(files.error().front()), true};
        const std::filesystem::path folder = debriefFolder(*shown);
        const Problems problems = sheets::writeFiles(folder, *files);
        if (!problems.empty()) return {describe(problems.front()), true};
        return {"Two pages, the crew's sheet and the tables are in " + folder.filename().string() +
                    " beside the log",
                false};
    });
}

void DebriefDesk::look(Model& model) {
    if (!work_.done()) return;
    Outcome outcome = work_.take();
    say(model, std::move(outcome.words), outcome.wrong);
}

}  // namespace plumbline::model
