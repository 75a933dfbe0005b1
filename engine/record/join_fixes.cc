#include "engine/record/join_fixes.h"

#include <algorithm>
#include <cmath>

#include "engine/earth/local_projection.h"
#include "engine/record/clock_text.h"

namespace plumbline::record {

namespace {

// chosen: clocks that are set by satellites are put right by less than this.
constexpr double kSpike_s = 60;
// chosen: buffers of several writers come out of order by less; more is a clock that was set.
constexpr double kShuffle_s = 2;
// chosen: a log that starts on the ground does not go further below its first fix than height
// noise.
constexpr double kGroundNoise_m = 30;

}  // namespace

void keepRisingTimes(FixLog& log) {
    std::vector<Fix> kept;
    kept.reserve(log.fixes.size());
    std::int32_t repeated = 0, backward = 0, moved = 0, first_line = 0, first_moved = 0;
    for (const Fix& fix : log.fixes) {
        if (kept.empty() || fix.clock_s > kept.back().clock_s) {
            kept.push_back(fix);
            continue;
        }
        const auto after = std::lower_bound(
            kept.begin(), kept.end(), fix.clock_s,
            [](const Fix& other, double clock_s) { return other.clock_s < clock_s; });
        const bool same = after != kept.end() && after->clock_s == fix.clock_s;
        if (!same && kept.back().clock_s - fix.clock_s <= kShuffle_s) {
            if (moved++ == 0) first_moved = fix.line;
            kept.insert(after, fix);
            continue;
        }
        if (repeated + backward == 0) first_line = fix.line;
        ++(same ? repeated : backward);
        // One time far ahead of its neighbours is itself the fault, not all that follow it.
        const bool back_was_spike = kept.size() >= 2 &&
                                    fix.clock_s > kept[kept.size() - 2].clock_s &&
                                    kept.back().clock_s - fix.clock_s > kSpike_s;
        if (back_was_spike) kept.back() = fix;
    }
    if (repeated + backward > 0) {
        std::string what = std::to_string(repeated > 0 ? repeated : backward) + " fixes with ";
        what += repeated > 0 ? "a repeated time" : "an earlier time than the one before";
        if (repeated > 0 && backward > 0)
            what += " and " + std::to_string(backward) + " with an earlier one";
        log.warnings.push_back(problem({log.file, first_line, 1},
                                       what + " left out, the first here", "expect gaps there"));
    }
    if (moved > 0)
        log.warnings.push_back(problem(
            {log.file, first_moved, 1},
            std::to_string(moved) + " fixes out of order put in their place, the first here",
            "nothing, if the recorder writes in bursts"));
    log.fixes = std::move(kept);
}

Expected<FixLog, Problems> joinFixes(std::vector<FixLog> logs) {
    std::size_t given = 0;
    for (FixLog& log : logs) {
        given += log.fixes.size();
        keepRisingTimes(log);
    }
    Problems said;
    for (const FixLog& log : logs)
        if (log.fixes.empty()) said.insert(said.end(), log.warnings.begin(), log.warnings.end());
    const std::string first_file = logs.empty() ? std::string() : logs.front().file;
    std::erase_if(logs, [](const FixLog& log) { return log.fixes.empty(); });
    if (logs.empty())
        return failure(problem({first_file, 0, 0}, "no place in this recording",
                               "give the log with positions too: several files of one flight are "
                               "joined"),
                       said);
    std::stable_sort(logs.begin(), logs.end(), [](const FixLog& a, const FixLog& b) {
        return a.fixes.front().clock_s < b.fixes.front().clock_s;
    });
    FixLog joined = std::move(logs.front());
    for (std::size_t i = 1; i < logs.size(); ++i) {
        FixLog& next = logs[i];
        if (next.clock != joined.clock || next.geodetic != joined.geodetic ||
            joined.clock == Clock::Own)
            return failure(problem({next.file, 0, 0},
                                   "cannot be joined with " + joined.file +
                                       ": they do not share a clock and a kind of position",
                                   "import logs with universal time, or one at a time"));
        if (next.fixes.front().clock_s < joined.fixes.back().clock_s &&
            next.fixes.back().clock_s > joined.fixes.back().clock_s)
            next.warnings.push_back(
                problem({next.file, next.fixes.front().line, 1},
                        "overlaps " + joined.file + ": only its later part is used",
                        "leave one of them out if it is another recorder's"));
        const double end_s = joined.fixes.back().clock_s;
        std::erase_if(next.fixes, [end_s](const Fix& fix) { return fix.clock_s <= end_s; });
        joined.warnings.insert(joined.warnings.end(), next.warnings.begin(), next.warnings.end());
        joined.fixes.insert(joined.fixes.end(), next.fixes.begin(), next.fixes.end());
    }
    // chosen: where a tenth of the times are different at most, the clock was not running
    const bool stopped = joined.fixes.size() * 10 < given && given >= 20;
    if (joined.fixes.size() < 2 || stopped)
        return failure(
            problem({joined.file, 0, 0},
                    stopped ? "nearly all its fixes have the same time or one that runs "
                              "backward"
                            : "fewer than two usable fixes",
                    stopped ? "look at the recorder's clock" : "use a log of a whole flight"),
            joined.warnings);
    joined.warnings.insert(joined.warnings.end(), said.begin(), said.end());
    return joined;
}

std::vector<Vec3> positionsOf(const FixLog& log) {
    std::vector<Vec3> positions_S_m;
    positions_S_m.reserve(log.fixes.size());
    const earth::LocalProjection projection(log.fixes.front().place, kPi / 2);
    for (const Fix& fix : log.fixes)
        positions_S_m.push_back(log.geodetic ? projection.toSite(fix.place) : fix.position_S_m);
    return positions_S_m;
}

ImportedTrack startTrack(const FixLog& log) {
    ImportedTrack track;
    track.kind = log.kind;
    track.path.origin = path::Origin::Recording;
    track.path.name = log.file;
    track.path.show_line_bearing_rad = kPi / 2;
    if (log.geodetic) track.origin = log.fixes.front().place;
    const double start_s = log.fixes.front().clock_s;
    track.path.clock_offset_s = start_s;
    if (log.clock == Clock::Utc) {
        // People read a recording's clock as the time of day.
        track.path.clock_offset_s = start_s - 86400 * std::floor(start_s / 86400);
        track.start_utc = formatUtc(start_s);
    }
    track.warnings = log.warnings;
    return track;
}

void warnOfDepth(const FixLog& log, ImportedTrack& track) {
    const std::vector<path::Sample>& samples = track.path.samples;
    const auto lowest = std::min_element(samples.begin(), samples.end(), [](auto& a, auto& b) {
        return a.position_S_m.z < b.position_S_m.z;
    });
    if (log.geodetic && lowest->position_S_m.z < -kGroundNoise_m)
        track.warnings.push_back(
            problem({log.file, log.fixes.front().line, 1},
                    "the log does not begin at its lowest place: heights count from "
                    "its first fix and go below zero",
                    "start the recorder on the ground"));
}

}  // namespace plumbline::record
