#include "viewer/model/document.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/fingerprint.h"
#include "engine/base/number_text.h"
#include "engine/out/flight.h"
#include "engine/record/in_site.h"
#include "engine/record/read_recording.h"
#include "engine/system/mapped_file.h"
#include "engine/system/parallel.h"
#include "viewer/model/shown_routine.h"
#include "viewer/model/site_of.h"
#include "viewer/model/stand_in.h"

namespace plumbline::model {
namespace {

Problem problemOf(const std::filesystem::path& file, std::string what, std::string remedy) {
    Problem problem;
    problem.where.file = file.string();
    problem.what = std::move(what);
    problem.remedy = std::move(remedy);
    return problem;
}

bool namesRoutine(const std::filesystem::path& file) { return file.extension() == ".toml"; }

OpenResult openRoutine(const OpenWish& wish, std::uint64_t revision) {
    auto loaded = wish.files.empty() ? load::loadDemo(wish.overrides)
                                     : load::loadWorkspace(wish.files.front(), wish.overrides);
    OpenResult result;
    if (!loaded) {
        result.problems = std::move(loaded).error();
        if (!wish.files.empty()) {
            result.stand_in =
                standInFor(wish.files.front(), wish.overrides, result.problems, revision);
        }
        return result;
    }
    auto flown = variant::fly(std::move(loaded).value(), wish.variant);
    if (!flown) {
        result.problems = std::move(flown).error();
        return result;
    }
    auto path = std::make_shared<path::Path>(flown->solution.samplePath(kSampleRate_hz));
    if (path->samples.empty()) {
        result.problems.push_back(problemOf(flown->workspace.routine_path,
                                            "nothing in it can be flown",
                                            "give it at least one figure with one line"));
        return result;
    }
    auto shown = showRoutine(std::move(*flown), std::move(path), revision, nullptr);
    shown->demo = wish.files.empty();
    result.shown = std::move(shown);
    return result;
}

/// The picture's ground is flat and at height 0. A recording that goes below its first fix would
/// vanish in it, so all of it is raised, and that is said.
/// @return by how much
double raiseAboveGround(path::Path& path, Problems& warnings) {
    constexpr double kScatter_m = 5;  // chosen: what a receiver at rest wanders
    double lowest_m = 0;
    for (const path::Sample& sample : path.samples) {
        lowest_m = std::min(lowest_m, sample.position_S_m.z);
    }
    if (lowest_m > -kScatter_m) return 0;
    for (path::Sample& sample : path.samples) sample.position_S_m.z -= lowest_m;
    Problem said;
    said.what = "Here it is raised by " + formatFixed(-lowest_m, 0) +
                " m: heights count from the lowest fix instead";
    warnings.push_back(std::move(said));
    return -lowest_m;
}

/// The logs of one flight; what is wrong goes to the problems.
/// What tells a flight's files from others.
struct LogMarks {
    season::Subject subject;  ///< what remarks on the flight are about
    std::string revision;
};

/// @param marks  null: not wanted
std::optional<record::ImportedTrack> readLogs(const std::vector<std::filesystem::path>& files,
                                              const TellProgress& tell, Problems& problems,
                                              LogMarks* marks = nullptr) {
    std::vector<system::MappedFile> mapped(files.size());
    std::vector<record::NamedBytes> inputs;
    for (std::size_t i = 0; i < files.size(); ++i) {
        if (std::string reason = mapped[i].open(files[i]); !reason.empty()) {
            problems.push_back(
                problemOf(files[i], "cannot be read: " + reason, "check its name and rights"));
            continue;
        }
        inputs.push_back({files[i].string(), mapped[i].bytes(), [&mapped, i] { mapped[i] = {}; }});
    }
    if (!problems.empty()) return std::nullopt;
    if (marks != nullptr) {
        std::vector<std::string_view> bytes;
        Fingerprint print;
        for (const record::NamedBytes& input : inputs) {
            bytes.push_back(input.bytes);
            print.add(input.bytes);
        }
        marks->subject = season::aboutSortie(bytes);
        marks->revision = print.words();
    }
    record::Wishes wishes;
    wishes.progress = tell;
    wishes.run = system::parallel(2);
    wishes.at_once = 2;
    auto track = record::readRecordings(inputs, wishes);
    if (!track) {
        problems = std::move(track).error();
        return std::nullopt;
    }
    return std::move(*track);
}

bool sameSite(const data::Site& a, const data::Site& b) {
    return a.show_centre.latitude_rad == b.show_centre.latitude_rad &&
           a.show_centre.longitude_rad == b.show_centre.longitude_rad &&
           a.show_centre.elevation_m == b.show_centre.elevation_m &&
           a.show_line_bearing_rad == b.show_line_bearing_rad;
}

/// A second routine, or logs, as the ghost of a routine that is open already.
void openBeside(const std::vector<std::filesystem::path>& files, const OpenWish& wish,
                const TellProgress& tell, Shown& shown, Problems& problems) {
    std::shared_ptr<const path::Path> path;
    if (wish.flight) {
        shown.beside = wish.flight->title;
        path = wish.flight->source.path;
    } else if (namesRoutine(files.front())) {
        auto loaded = load::loadWorkspace(files.front(), wish.overrides);
        if (!loaded) {
            problems = std::move(loaded).error();
            return;
        }
        shown.beside = loaded->routine.name;
        auto flown = variant::fly(std::move(loaded).value(), variant::Wish());
        if (!flown) {
            problems = std::move(flown).error();
            return;
        }
        path = std::make_shared<path::Path>(flown->solution.samplePath(kSampleRate_hz));
    } else {
        auto track = readLogs(files, tell, problems);
        if (!track) return;
        shown.beside = files.front().stem().string();
        path =
            std::make_shared<path::Path>(record::inSite(std::move(*track), shown.workspace->site));
    }
    if (path->samples.empty()) {
        problems.push_back(problemOf(files.front(), "nothing in it has been flown",
                                     "give it at least one figure with one line"));
        return;
    }
    shown.source.ghost = scene::makeGhost(shown.path(), std::move(path));
    shown.lanes.apart_m = makeApartSeries(*shown.source.ghost, shown.lanes.time_s);
}

/// What of a recording stays the same wherever it is shown.
std::shared_ptr<Shown> recordingShown(record::ImportedTrack& track, const std::string& title,
                                      std::uint64_t revision) {
    auto shown = std::make_shared<Shown>();
    shown->revision = revision;
    shown->title = title;
    shown->when = dayAndTime(track.start_utc);
    shown->start_utc = track.start_utc;
    shown->made_how = track.notes;
    shown->warnings = track.warnings;
    shown->streams = std::move(track.streams);
    shown->origin = track.origin;
    shown->start_utc_s = out::startOf(track);
    return shown;
}

/// A flight over its plan: at the plan's site, with its aircraft.
OpenResult openReview(const OpenWish& wish, const std::vector<std::filesystem::path>& logs,
                      std::shared_ptr<const Shown> plan, std::uint64_t revision,
                      const TellProgress& tell) {
    OpenResult result;
    const scene::SceneSource& planned = plan->source;
    std::shared_ptr<Shown> shown;
    if (wish.flight && sameSite(wish.flight->source.world->site, planned.world->site)) {
        shown = std::make_shared<Shown>();
        shown->revision = revision;
        shown->title = wish.flight->title;
        shown->when = wish.flight->when;
        shown->warnings = wish.flight->warnings;
        shown->streams = wish.flight->streams;
        shown->subject = wish.flight->subject;
        shown->start_utc = wish.flight->start_utc;
        shown->log_revision = wish.flight->log_revision;
        shown->made_how = wish.flight->made_how;
        shown->source.path = wish.flight->source.path;
        shown->origin = wish.flight->origin;
        shown->start_utc_s = wish.flight->start_utc_s;
    } else {
        LogMarks marks;
        auto track = readLogs(logs, tell, result.problems, &marks);
        if (!track) return result;
        shown = recordingShown(*track, logs.front().stem().string(), revision);
        shown->subject = std::move(marks.subject);
        shown->log_revision = std::move(marks.revision);
        shown->source.path = std::make_shared<const path::Path>(
            record::inSite(std::move(*track), plan->workspace->site));
        shown->origin = plan->workspace->site.show_centre;
    }
    if (tell) tell(0, "comparing with the plan");
    shown->logs = logs;
    shown->place = plan->place;
    shown->source.aircraft = planned.aircraft;
    shown->source.world = planned.world;
    shown->source.shape = scene::makeShape(shown->path());
    shown->wind_mps = plan->wind_mps;
    shown->wind_to_rad = plan->wind_to_rad;
    fillFromPath(*shown);
    reviewShown(*shown, std::move(plan));
    result.shown = std::move(shown);
    return result;
}

OpenResult openRecording(const OpenWish& wish, std::uint64_t revision, const TellProgress& tell) {
    OpenResult result;
    if (!wish.variant.asWritten()) {
        result.problems.push_back(problemOf(wish.files.front(), "a recording stays as it was flown",
                                            "leave out --show, --ceiling, --floor and --mirror"));
        return result;
    }
    LogMarks marks;
    auto track = readLogs(wish.files, tell, result.problems, &marks);
    if (!track) return result;
    auto shown = recordingShown(*track, wish.files.front().stem().string(), revision);
    shown->logs = wish.files;
    shown->subject = std::move(marks.subject);
    shown->log_revision = std::move(marks.revision);
    const std::string start_utc = track->start_utc;
    data::Site site;
    if (auto found =
            siteOf(*track, wish.files.front(), wish.overrides.site_file, shown->warnings)) {
        site = std::move(*found);
        shown->place = site.name;
        track->path = record::inSite(std::move(*track), site);
        shown->origin = site.show_centre;
    } else {
        site.name = "Where the recording begins";
        site.show_line_bearing_rad = track->path.show_line_bearing_rad;
        if (track->origin) site.show_centre = *track->origin;
    }
    site.show_time_utc = start_utc;
    auto aircraft = std::make_shared<data::Aircraft>();
    aircraft->name = "Aircraft of the recording, type not known";
    aircraft->geometry.span_m = 8;                   // chosen: about the built-in model's size
    aircraft->geometry.eye_B_m = {-0.58, 0, -0.65};  // its pilot's eye at that span
    aircraft->geometry.length_m = 6.5;
    const double raised_m = raiseAboveGround(track->path, shown->warnings);
    if (shown->origin) shown->origin->elevation_m -= raised_m;  // so that places stay true
    shown->source.path = std::make_shared<const path::Path>(std::move(track->path));
    shown->source.aircraft = std::move(aircraft);
    shown->source.world = scene::makeWorld(site, data::Weather(), revision);
    shown->source.shape = scene::makeShape(shown->path());
    fillFromPath(*shown);
    if (shown->path().figures.empty()) shown->outline.front().name = shown->title;
    if (shown->path().known.attitude) {
        if (tell) tell(0, "telling what was flown");
        reviewShown(*shown, nullptr);
    }
    result.shown = std::move(shown);
    return result;
}

}  // namespace

OpenResult openNow(const OpenWish& wish, std::uint64_t revision, const TellProgress& tell) {
    OpenWish first = wish;
    std::vector<std::filesystem::path> beside;
    std::vector<std::filesystem::path> routines, logs;
    for (const std::filesystem::path& file : wish.files) {
        (namesRoutine(file) ? routines : logs).push_back(file);
    }
    if (wish.plan) return openReview(wish, logs, wish.plan, revision, tell);
    if (routines.empty() && !logs.empty()) return openRecording(wish, revision, tell);
    if (routines.size() > 2 || (routines.size() == 2 && !logs.empty())) {
        OpenResult result;
        result.problems.push_back(problemOf(
            routines.back(), "too much for one picture",
            "open one routine, and beside it a second one or the recordings of one flight"));
        return result;
    }
    if (!routines.empty()) first.files = {routines.front()};
    if (routines.size() == 2) beside = {routines.back()};
    if (!logs.empty()) beside = logs;
    OpenResult result = openRoutine(first, revision);
    if (!result.shown || (beside.empty() && !wish.flight)) return result;
    if (wish.review && !logs.empty()) {
        return openReview(wish, logs, result.shown, revision, tell);
    }
    auto shown = std::make_shared<Shown>(*result.shown);
    openBeside(beside, wish, tell, *shown, result.problems);
    result.shown = result.problems.empty() ? std::move(shown) : nullptr;
    return result;
}

Opener::Opener() : worker_([this] { return work(); }) {}

void Opener::open(OpenWish wish) {
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        wish_ = std::move(wish);
        result_.reset();
        progress_ = OpenProgress();
        ++asked_;
    }
    worker_.wake();
}

OpenResult Opener::openAtOnce(const OpenWish& wish) {
    std::unique_lock<std::mutex> lock(mutex_);
    wish_.reset();
    result_.reset();
    const std::uint64_t number = taken_ = ++asked_;
    lock.unlock();
    return openNow(wish, number);
}

std::optional<OpenResult> Opener::take() {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (!result_) return std::nullopt;
    std::optional<OpenResult> out;
    out.swap(result_);
    taken_ = asked_;
    return out;
}

bool Opener::busy() const {
    const std::lock_guard<std::mutex> lock(mutex_);
    return taken_ != asked_;
}

OpenProgress Opener::progress() const {
    const std::lock_guard<std::mutex> lock(mutex_);
    return progress_;
}

std::optional<double> Opener::work() {
    std::unique_lock<std::mutex> lock(mutex_);
    if (!wish_) return std::nullopt;
    const OpenWish wish = std::move(*wish_);
    wish_.reset();
    const std::uint64_t number = asked_;
    lock.unlock();
    const auto tell = [this, number](double share, std::string_view doing) {
        const std::lock_guard<std::mutex> told(mutex_);
        if (number == asked_) progress_ = {share, std::string(doing)};
    };
    OpenResult result = openNow(wish, number, tell);
    lock.lock();
    if (number == asked_) result_ = std::move(result);
    return wish_ ? std::optional<double>(0) : std::nullopt;
}

}  // namespace plumbline::model
