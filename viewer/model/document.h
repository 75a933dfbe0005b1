#pragma once
// What is open: a routine with its solved path and findings, or a recording. Loading and solving
// run on a worker; the newest wish wins and the last good one stays on screen until then.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/problem.h"
#include "engine/check/finding.h"
#include "engine/load/load.h"
#include "engine/record/track.h"
#include "engine/season/subject.h"
#include "engine/system/worker.h"
#include "engine/variant/variant.h"
#include "viewer/model/flight_review.h"
#include "viewer/model/lanes.h"
#include "viewer/model/outline.h"
#include "viewer/scene/build.h"

namespace plumbline::model {

/// Everything that follows from the files that are open. Immutable, shared between threads.
struct Shown {
    std::uint64_t revision = 0;  ///< differs for every load
    bool demo = false;
    bool draft = false;  ///< sampled sparsely and not checked: a finer one follows
    std::string title;
    std::string variant;  ///< "mirrored, show: low"; empty: as written, or a recording
    std::string place;    ///< the site's name; empty: a recording of no known site
    std::string when;     ///< "27 June 17:40 UTC"; empty when not known
    std::shared_ptr<const load::Workspace> workspace;  ///< null for a recording
    fly::Solution solution;                            ///< of a routine; empty for a recording
    scene::SceneSource source;
    LaneData lanes;
    std::vector<OutlineRow> outline;
    std::vector<check::Finding> findings;  ///< in the order of time
    double raised_m = 0;                   ///< of a variant practised high
    std::vector<check::Reach> reaches;     ///< of a plan without its engine; empty: no strip there
    Problems warnings;                     ///< of a recording: what was left out
    std::vector<record::StreamCoverage> streams;  ///< of a recording: when each of its sensors ran
    season::Subject subject;                      ///< what remarks are about
    std::string start_utc;                        ///< of a recording, ISO 8601; empty: no date
    std::string log_revision;                     ///< of a recording: mark of its files' bytes
    std::vector<std::string> made_how;            ///< of a recording: a sentence each
    std::vector<std::filesystem::path> logs;      ///< of a recording: its files
    std::string beside;                           ///< title of the ghost; empty: none
    std::filesystem::path music_file;             ///< of the routine; empty: none
    double music_start_s = 0;                     ///< when it begins, in the path's time
    std::optional<data::GeoPoint> origin;  ///< of a recording's frame; none: its file is in metres
    std::optional<double> start_utc_s;     ///< of a recording's first moment; none: no date
    std::vector<std::string> remarks;      ///< on the variant: what was chosen, left out, replaced
    std::optional<double> wind_mps;        ///< near the ground; nothing when not known
    std::shared_ptr<const FlightReview> review;  ///< of a recording with attitude; null: none
    double wind_to_rad = 0;                      ///< where it blows to: angle from +x_S to +y_S

    const path::Path& path() const { return *source.path; }
    bool recording() const { return workspace == nullptr; }
    /// There is a crowd line to see it from.
    bool atSite() const { return !recording() || !place.empty(); }
};

/// What to open: no file means the demo; else one routine, or the logs of one flight. Beside a
/// routine: a second routine or the logs of a flight, drawn as its ghost.
struct OpenWish {
    std::vector<std::filesystem::path> files;
    load::Overrides overrides;
    variant::Wish variant;
    bool review = false;                  ///< logs with a routine: the flight over it instead
    std::shared_ptr<const Shown> plan;    ///< the files are logs, to be reviewed over this routine
    std::shared_ptr<const Shown> flight;  ///< read already: with `plan` reviewed, else the ghost
};

/// Shown while a text with mistakes is mended, and what to say of it.
struct StandIn {
    std::shared_ptr<const Shown> shown;  ///< null: none
    std::string words;
};

/// Either something to show or the reasons why not.
struct OpenResult {
    std::shared_ptr<const Shown> shown;
    Problems problems;
    StandIn stand_in;  ///< of a routine with mistakes
};

/// How far a long import has come.
struct OpenProgress {
    double share = 0;   ///< 0 .. 1; 0: not known
    std::string doing;  ///< "reading"; empty: not known
};
using TellProgress = std::function<void(double share, std::string_view doing)>;

/// Reads, solves and checks; takes as long as it takes. Touches no global state.
/// @param tell  called now and then while recordings are read
OpenResult openNow(const OpenWish& wish, std::uint64_t revision, const TellProgress& tell = {});

/// openNow beside the frames, one wish at a time.
class Opener {
public:
    Opener();
    Opener(const Opener&) = delete;
    Opener& operator=(const Opener&) = delete;

    /// Replaces any wish that is still waiting; the result of one already being read is dropped.
    void open(OpenWish wish);
    /// The newest result, once; nothing while none is ready. Never waits.
    std::optional<OpenResult> take();
    /// Waits for the result, here (offscreen pictures).
    OpenResult openAtOnce(const OpenWish& wish);
    /// True from open() until its result has been taken.
    bool busy() const;
    /// Of the newest wish.
    OpenProgress progress() const;

private:
    std::optional<double> work();

    mutable std::mutex mutex_;
    std::optional<OpenWish> wish_;
    std::optional<OpenResult> result_;
    OpenProgress progress_;
    std::uint64_t asked_ = 0;
    std::uint64_t taken_ = 0;
    system::Worker worker_;  // last: gone before what it works on
};

}  // namespace plumbline::model
