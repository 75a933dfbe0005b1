#include "engine/review/pieces.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/review/instants.h"
#include "engine/units/units.h"

namespace plumbline::review {
namespace {

// chosen, all of them: for what an eye calls a line, a bend, a stall
constexpr double kBends_radps = 6 * units::kDegree_rad, kStraight_radps = 4 * units::kDegree_rad;
constexpr double kLeastArc_rad = 9 * units::kDegree_rad;
constexpr double kJolts_rad = 5 * units::kDegree_rad;
constexpr double kLeastLine_s = 0.3;
constexpr double kSameWay_rad = 8 * units::kDegree_rad;

/// A run of instants of one kind, last one not its own.
struct Run {
    bool bends, flies;
    std::size_t from, to;
};

std::vector<Run> runsOf(const std::vector<Instant>& instants) {
    std::vector<Run> runs;
    bool bends = false;
    for (std::size_t i = 0; i < instants.size(); ++i) {
        const Instant& now = instants[i];
        // What bends goes on until it is straight, and the other way round.
        bends = now.bends_radps > (bends ? kStraight_radps : kBends_radps);
        if (!runs.empty() && runs.back().bends == bends && runs.back().flies == now.flies)
            runs.back().to = i + 1;
        else
            runs.push_back({bends, now.flies, i, i + 1});
    }
    return runs;
}

double turnedIn(const std::vector<Instant>& instants, const Run& run) {
    double sum = 0;
    for (std::size_t i = run.from; i < run.to; ++i) sum += instants[i].bends_radps * kStep_s;
    return sum;
}

// Bends too slight to be one, and lines too short between two bends, belong to what is around them.
std::vector<Run> settled(const std::vector<Instant>& instants, std::vector<Run> runs) {
    const auto merge = [&](auto&& drops) {
        std::vector<Run> kept;
        for (Run run : runs) {
            if (drops(run)) run.bends = !run.bends;
            if (!kept.empty() && kept.back().bends == run.bends && kept.back().flies == run.flies)
                kept.back().to = run.to;
            else
                kept.push_back(run);
        }
        runs = std::move(kept);
    };
    merge([&](const Run& run) { return run.bends && turnedIn(instants, run) < kLeastArc_rad; });
    merge([&](const Run& run) {
        return !run.bends && static_cast<double>(run.to - run.from) * kStep_s < kLeastLine_s;
    });
    return runs;
}

/// What the body turned in a run.
struct Turned {
    Vec3 about_B{0};      // integral of the body rates
    double about_up = 0;  // to the left positive
    double rolled = 0;    // about the way
    double snapped = 0;   // of it with the nose far off the way, at speed
    double backwards_m = 0;
    double most_radps = 0;
};

Turned turnedOf(const std::vector<Instant>& instants, std::size_t from, std::size_t to) {
    Turned sum;
    for (std::size_t i = from; i < to; ++i) {
        const Instant& now = instants[i];
        sum.about_B += now.rate_B * kStep_s;
        sum.about_up += now.about_up_radps * kStep_s;
        sum.backwards_m += now.backwards_mps * kStep_s;
        sum.most_radps = std::max(sum.most_radps, glm::length(now.rate_B));
        if (std::fabs(now.about_way_radps) < kRolls_radps) continue;
        sum.rolled += now.about_way_radps * kStep_s;
        if (now.snaps || (!now.flies && now.speed_mps > kSlow_mps))
            sum.snapped += now.about_way_radps * kStep_s;
    }
    return sum;
}

// The path follows the nose a little later, and goes on a little longer.
Run widened(const Run& run, std::size_t count) {
    constexpr std::size_t kBefore = 10, kAfter = 25;  // chosen: a fifth and half a second
    return {run.bends, run.flies, run.from > kBefore ? run.from - kBefore : 0,
            std::min(count, run.to + kAfter)};
}

Piece arcOf(const std::vector<Instant>& instants, const Run& run) {
    Piece piece;
    Vec3 normal(0);
    double towards_canopy = 0;
    for (std::size_t i = run.from; i + 1 < run.to; ++i) {
        const Vec3 step = instants[i + 1].way - instants[i].way;
        normal += glm::cross(instants[i].way, step);
        towards_canopy += glm::dot(step, instants[i].canopy);
    }
    const double size = glm::length(normal);
    const Run wide = widened(run, instants.size());
    for (std::size_t i = wide.from; i < wide.to; ++i)
        piece.turned_rad += instants[i].way_bends_radps * kStep_s;
    if (size > 0 && std::fabs(normal.z) > 0.8 * size) {
        piece.motion = Motion::Turn;
        piece.turned_rad = std::copysign(piece.turned_rad, -normal.z);
    } else {
        piece.motion = towards_canopy >= 0 ? Motion::Pull : Motion::Push;
    }
    piece.rolled_rad = turnedOf(instants, run.from, run.to).rolled;
    return piece;
}

// The nose swings, and the air does not hold it.
Piece swingOf(const Turned& t, bool after_slide, bool slow_and_down, double from_nose_z,
              double to_nose_z) {
    // A pivot begins with the nose up; what yaws about the level is a turn, on wheels or off.
    constexpr double kLevel_z = 0.5;
    const bool level = std::fabs(from_nose_z) < kLevel_z && std::fabs(to_nose_z) < kLevel_z;
    constexpr double kTurn_rad = 5 * units::kDegree_rad, kPivot_rad = 100 * units::kDegree_rad,
                     kTumble_rad = 270 * units::kDegree_rad,
                     kTumble_radps = 200 * units::kDegree_rad, kSpin_rad = 300 * units::kDegree_rad;
    Piece piece;
    const double q = t.about_B.y, r = t.about_B.z;
    if (std::fabs(t.rolled) > kSpin_rad && slow_and_down) {
        piece.motion = Motion::Spin;
        piece.turned_rad = t.rolled;
    } else if (after_slide) {
        piece.motion = Motion::Fall;
        piece.turned_rad = q;
    } else if (std::fabs(q) > kTumble_rad ||
               (std::fabs(r) > kTumble_rad && t.most_radps > kTumble_radps)) {
        piece.motion = Motion::Tumble;
        piece.turned_rad = std::fabs(q) > std::fabs(r) ? q : r;
    } else if (level && std::fabs(t.about_up) > kTurn_rad) {
        piece.motion = Motion::Turn;
        piece.turned_rad = -t.about_up;
    } else if (std::fabs(r) > kPivot_rad && std::fabs(r) > std::fabs(q)) {
        piece.motion = Motion::Pivot;
        piece.turned_rad = r;
    } else {
        piece.motion = q >= 0 ? Motion::Pull : Motion::Push;
        piece.turned_rad = std::fabs(q);
    }
    return piece;
}

Piece pieceOf(const std::vector<Instant>& instants, const Run& run,
              const std::vector<Piece>& before) {
    constexpr double kLeastSlide_m = 8, kTorqueRoll_rad = 240 * units::kDegree_rad,
                     kSpinEntry_mps = 38, kSinks = -0.3;
    const Turned t = turnedOf(instants, run.from, run.to);
    const std::size_t middle = (run.from + run.to) / 2, end = run.to - 1;
    Piece piece;
    if (run.bends && run.flies) {
        piece = arcOf(instants, run);
    } else if (run.bends) {
        const bool after_slide = !before.empty() && (before.back().motion == Motion::Slide ||
                                                     before.back().motion == Motion::TorqueRoll);
        // At such a speed a wing stalls in level flight; a snap is flown faster.
        const bool slow_and_down = instants[run.from].speed_mps < kSpinEntry_mps &&
                                   instants[(middle + end) / 2].way.z < kSinks;
        piece =
            swingOf(t, after_slide, slow_and_down, instants[run.from].nose.z, instants[end].nose.z);
        piece.snapped_rad = t.snapped;
    } else {
        piece.rolled_rad = t.rolled;
        piece.snapped_rad = t.snapped;
        piece.rolls = rollsOf(instants, run.from, run.to);
        if (!run.flies && std::fabs(t.rolled) > kTorqueRoll_rad && instants[middle].nose.z > 0.9) {
            piece.motion = Motion::TorqueRoll;
            piece.turned_rad = t.rolled;
        } else if (!run.flies && t.backwards_m > kLeastSlide_m) {
            piece.motion = Motion::Slide;
            constexpr auto kLate = static_cast<std::size_t>(kSwingSeenLate_s / kStep_s);
            piece.tail_m =
                turnedOf(instants, run.from, std::max(run.from + 1, run.to - kLate)).backwards_m;
        }
    }
    // Jolts add up to a bend, and come to nothing: wheels on the ground, gusts.
    const bool bent = piece.motion == Motion::Pull || piece.motion == Motion::Push;
    if (bent && std::fabs(piece.turned_rad) < kJolts_rad) {
        piece.motion = Motion::Line;
        piece.turned_rad = 0;
    }
    const bool line = piece.motion == Motion::Line;
    piece.nose_S = instants[line ? middle : end].nose;
    piece.way_S =
        instants[line ? middle : end].flies ? instants[line ? middle : end].way : piece.nose_S;
    piece.start_s = static_cast<double>(run.from) * kStep_s;
    piece.stop_s = static_cast<double>(run.to) * kStep_s;
    return piece;
}

// One line, though its pilot flew it fast and slow.
bool goOn(const Piece& a, const Piece& b) {
    if (a.motion != b.motion) return false;
    if (a.motion == Motion::Line) return angleBetween(a.nose_S, b.nose_S) < kSameWay_rad;
    return a.motion == Motion::Fall || a.motion == Motion::Slide || a.motion == Motion::Tumble ||
           a.motion == Motion::Spin;
}

// What steadies the nose after a fall or a tumble belongs to it.
bool steadies(const Piece& last, const Piece& piece) {
    constexpr double kMoment_s = 0.8;
    return (last.motion == Motion::Fall || last.motion == Motion::Tumble) &&
           (piece.motion == Motion::Pull || piece.motion == Motion::Push) &&
           piece.stop_s - piece.start_s < kMoment_s;
}

void append(std::vector<Piece>& pieces, const Piece& piece) {
    if (!pieces.empty() && steadies(pieces.back(), piece)) {
        pieces.back().stop_s = piece.stop_s;
        pieces.back().nose_S = piece.nose_S;
        return;
    }
    if (pieces.empty() || !goOn(pieces.back(), piece)) {
        pieces.push_back(piece);
        return;
    }
    Piece& last = pieces.back();
    const bool longer = piece.stop_s - piece.start_s > last.stop_s - last.start_s;
    if (longer || piece.motion != Motion::Line) {
        last.nose_S = piece.nose_S;
        last.way_S = piece.way_S;
    }
    last.stop_s = piece.stop_s;
    last.turned_rad += piece.turned_rad;
    last.rolled_rad += piece.rolled_rad;
    last.snapped_rad += piece.snapped_rad;
    last.tail_m += piece.tail_m;
    last.rolls.insert(last.rolls.end(), piece.rolls.begin(), piece.rolls.end());
}

std::string degrees(double angle_rad) {
    return formatFixed(std::fabs(angle_rad) / units::kDegree_rad, 0) + " deg";
}

std::string wayWords(const Vec3& way) {
    const double climb = std::asin(std::clamp(way.z, -1.0, 1.0)) / units::kDegree_rad;
    if (climb > 75) return "up";
    if (climb < -75) return "down";
    if (std::fabs(climb) < 15) return "level";
    return formatFixed(std::fabs(climb), 0) + " deg " + (climb > 0 ? "up" : "down");
}

}  // namespace

const char* motionWord(Motion motion) {
    constexpr std::array<const char*, 10> kWords = {
        "line", "pull", "push", "turn", "pivot", "slide", "fall", "torque roll", "tumble", "spin"};
    return kWords[static_cast<std::size_t>(motion)];
}

std::vector<Piece> piecesOf(const path::Path& path) {
    std::vector<Piece> pieces;
    if (!path.known.attitude || path.samples.size() < 2) return pieces;
    const std::vector<Instant> instants = instantsOf(path);
    for (Run run : settled(instants, runsOf(instants))) {
        Piece piece = pieceOf(instants, run, pieces);
        // What slides on when a torque roll has stopped is a slide.
        if (piece.motion == Motion::TorqueRoll && !piece.rolls.empty() &&
            piece.stop_s - piece.rolls.back().stop_s > kLeastLine_s) {
            const auto cut = static_cast<std::size_t>(piece.rolls.back().stop_s / kStep_s);
            append(pieces, pieceOf(instants, {run.bends, run.flies, run.from, cut}, pieces));
            run.from = cut;
            piece = pieceOf(instants, run, pieces);
        }
        append(pieces, piece);
    }
    return pieces;
}

std::string wordsOf(const Piece& piece) {
    std::string words = motionWord(piece.motion);
    const auto side = [](double angle) { return angle < 0 ? " left" : " right"; };
    switch (piece.motion) {
        case Motion::Line:
            words += " " + wayWords(piece.way_S);
            break;
        case Motion::Pull:
        case Motion::Push:
            words += " " + degrees(piece.turned_rad);
            break;
        case Motion::Turn:
            words += side(piece.turned_rad);
            words += " " + degrees(piece.turned_rad);
            break;
        case Motion::Pivot:
        case Motion::Spin:
        case Motion::TorqueRoll:
            words += side(piece.turned_rad);
            break;
        case Motion::Slide:
            words += " " + formatFixed(piece.tail_m, 0) + " m";
            break;
        case Motion::Fall:
        case Motion::Tumble:
            break;
    }
    for (const Roll& roll : piece.rolls)
        words += ", rolled " + degrees(roll.angle_rad) + side(roll.angle_rad);
    return words;
}

}  // namespace plumbline::review
