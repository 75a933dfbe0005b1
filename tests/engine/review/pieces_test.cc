// What is recognised in a flight against what the solver says it flew.
#include "engine/review/pieces.h"

#include <algorithm>
#include <map>

#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::demo;

/// What an element is to an eye, by the first word of its label; nothing where it is several
/// things.
std::optional<Motion> motionOf(const std::string& label) {
    static const std::map<std::string, Motion> kWords = {
        {"line", Motion::Line},         {"pull", Motion::Pull},     {"push", Motion::Push},
        {"turn", Motion::Turn},         {"pivot", Motion::Pivot},   {"slide", Motion::Slide},
        {"fall", Motion::Fall},         {"tumble", Motion::Tumble}, {"spin", Motion::Spin},
        {"torque", Motion::TorqueRoll}, {"inverted", Motion::Spin}};
    if (label.find("sides") != std::string::npos) return std::nullopt;  // arcs and lines
    const auto found = kWords.find(label.substr(0, label.find(' ')));
    return found == kWords.end() ? std::nullopt : std::optional(found->second);
}

double overlap(double a0, double a1, double b0, double b1) {
    return std::max(0.0, std::min(a1, b1) - std::max(a0, b0));
}

struct Score {
    int elements = 0, found = 0;  ///< of the solver's, long enough to be seen
    int pieces = 0, right = 0;    ///< of the eye's
    std::string missed;
};

Score scoreOf(const path::Path& path) {
    constexpr double kSeen_s = 0.6;
    Score score;
    const std::vector<Piece> pieces = piecesOf(path);
    for (const path::Element& e : path.elements) {
        const auto motion = motionOf(e.label);
        if (!motion || e.stop_s - e.start_s < kSeen_s) continue;
        double covered = 0;
        for (const Piece& p : pieces)
            if (p.motion == *motion) covered += overlap(p.start_s, p.stop_s, e.start_s, e.stop_s);
        ++score.elements;
        // The solver's spin begins with slowing down, its fall ends when all is settled.
        const bool long_winded = *motion == Motion::Spin || *motion == Motion::Fall;
        const double enough_s = long_winded ? 1 : 0.5 * (e.stop_s - e.start_s);
        const bool found = covered > enough_s;
        score.found += found;
        if (!found) score.missed += e.label + " at " + std::to_string(e.start_s) + "\n";
    }
    for (const Piece& p : pieces) {
        double covered = 0, open = 0;
        for (const path::Element& e : path.elements) {
            const double both = overlap(p.start_s, p.stop_s, e.start_s, e.stop_s);
            const auto motion = motionOf(e.label);
            // What ends a spin is a push to the downline.
            if (!motion || (*motion == Motion::Spin && p.motion != Motion::Spin))
                open += both;
            else if (*motion == p.motion)
                covered += both;
        }
        // Nobody counts the moment of level flight between two figures.
        const bool passing = p.motion == Motion::Line && p.stop_s - p.start_s < 2;
        if (passing || open > 0.3 * (p.stop_s - p.start_s)) continue;
        ++score.pieces;
        const bool right = covered > 0.5 * (p.stop_s - p.start_s);
        score.right += right;
        if (!right)
            score.missed += "  taken for " + wordsOf(p) + " at " + std::to_string(p.start_s) + "\n";
    }
    return score;
}

TEST(Pieces, OfTheDemoAreThoseOfTheSolver) {
    const Score s = scoreOf(
        fly::solve(demo().aircraft, demo().site, demo().weather, demo().routine).samplePath(50));
    EXPECT_GE(s.found, 0.98 * s.elements) << s.missed;
    EXPECT_GE(s.right, 0.98 * s.pieces) << s.missed;
    EXPECT_GT(s.elements, 90);
}

TEST(Pieces, OfEveryElementAreThoseOfTheSolver) {
    const auto work =
        load::loadWorkspace(PLUMBLINE_TEST_DATA "/routines/every_element.routine.toml");
    ASSERT_TRUE(work.has_value());
    const Score s = scoreOf(
        fly::solve(work->aircraft, work->site, work->weather, work->routine).samplePath(50));
    EXPECT_GE(s.found, 0.98 * s.elements) << s.missed;
    EXPECT_GE(s.right, 0.98 * s.pieces) << s.missed;
}

/// At walking speed on wheels: straight on, 150 deg round to the right, straight on over bumps.
path::Path taxied() {
    path::Path path;
    path.origin = path::Origin::Recording;
    path.known.airspeed = path.known.incidence = false;
    constexpr double kStep = 0.01, kRate = 30 * kPi / 180, kFrom_s = 5, kTo_s = 10;
    double heading = 0;  // angle about z
    Vec3 place(0);
    for (int i = 0; i < 2000; ++i) {
        const double t = i * kStep;
        const bool turns = t > kFrom_s && t<kTo_s, bumps = t> 12 && t < 18;
        if (turns) heading -= kRate * kStep;
        const double nod = bumps ? 1.2 * kPi / 180 * std::sin(2 * kPi * 4 * t) : 0;
        path::Sample s;
        s.time_s = t;
        s.q_SB = glm::angleAxis(heading, Vec3(0, 0, 1)) * Quat(0, 1, 0, 0) *
                 glm::angleAxis(nod, Vec3(0, 1, 0));
        s.velocity_S_mps = 6.0 * Vec3(std::cos(heading), std::sin(heading), 0);
        place += s.velocity_S_mps * kStep;
        s.position_S_m = place;
        s.rate_B_radps =
            Vec3(0, bumps ? 1.2 * kPi / 180 * 2 * kPi * 4 * std::cos(2 * kPi * 4 * t) : 0,
                 turns ? kRate : 0);
        path.samples.push_back(s);
    }
    return path;
}

TEST(Pieces, OnWheelsAreTurnsNotPivotsAndJoltsAreNothing) {
    int turns = 0;
    for (const Piece& piece : piecesOf(taxied())) {
        if (piece.motion == Motion::Turn) {
            ++turns;
            EXPECT_NEAR(piece.turned_rad, 150 * kPi / 180, 0.1);  // to the right
        } else {
            EXPECT_EQ(piece.motion, Motion::Line) << wordsOf(piece) << " at " << piece.start_s;
        }
    }
    EXPECT_EQ(turns, 1);
}

}  // namespace
}  // namespace plumbline::review
