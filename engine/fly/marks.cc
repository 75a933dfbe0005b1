// What stands between the elements: expectations and ribbons.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kWithin = 0.866;  // cosine of 30 deg: what counts as one of four directions
constexpr double kLongestLookBack_s = 60;

Vec3 directionOf(text::Expect::Way way) {
    switch (way) {
        case text::Expect::Way::CrowdLeft:
            return Vec3(-1, 0, 0);
        case text::Expect::Way::CrowdRight:
            return Vec3(1, 0, 0);
        case text::Expect::Way::TowardCrowd:
            return Vec3(0, -1, 0);
        case text::Expect::Way::AwayFromCrowd:
            return Vec3(0, 1, 0);
    }
    return Vec3(0);
}

std::string wayOf(const Vec3& direction) {
    if (std::hypot(direction.x, direction.y) < 0.2) return direction.z > 0 ? "up" : "down";
    if (std::fabs(direction.x) > std::fabs(direction.y))
        return direction.x > 0 ? "crowd-right" : "crowd-left";
    return direction.y > 0 ? "away from crowd" : "toward crowd";
}

std::string attitudeOf(const Quat& q_SB) {
    const double belly = rotate(q_SB, Vec3(0, 0, 1)).z, right = rotate(q_SB, Vec3(0, 1, 0)).z;
    if (std::fabs(right) > std::fabs(belly)) return "knife-edge";
    return belly < 0 ? "upright" : "inverted";
}

}  // namespace

void checkExpectation(Flight& flight, const text::Expect& expect, const std::string& words) {
    const Joint& j = flight.joint;
    bool met = false;
    std::string value;
    switch (expect.what) {
        case text::Expect::What::Heading: {
            const Vec3 nose = rotate(j.q_SB, Vec3(1, 0, 0));
            const double level = std::hypot(nose.x, nose.y);
            met = level > 0.2 && glm::dot(nose, directionOf(expect.way)) > kWithin * level;
            value = wayOf(nose);
            break;
        }
        case text::Expect::What::Canopy: {
            const Vec3 canopy = rotate(j.q_SB, Vec3(0, 0, -1));
            met = glm::dot(canopy, directionOf(expect.way)) > kWithin;
            value = "canopy " + wayOf(canopy);
            break;
        }
        case text::Expect::What::Attitude: {
            value = attitudeOf(j.q_SB);
            const char* wanted = expect.attitude == text::Expect::Attitude::Upright ? "upright"
                                 : expect.attitude == text::Expect::Attitude::Inverted
                                     ? "inverted"
                                     : "knife-edge";
            met = value == wanted;
            break;
        }
        case text::Expect::What::Height: {
            // Practised higher, the expectation rises with the routine.
            met =
                expect.above ? j.position_S_m.z >= expect.value : j.position_S_m.z <= expect.value;
            value = heightText(j.position_S_m.z + flight.world.raise_m);
            break;
        }
        case text::Expect::What::Speed: {
            const double speed = glm::length(j.air_velocity_S_mps);
            met = expect.above ? speed >= expect.value : speed <= expect.value;
            value = speedText(speed);
            break;
        }
    }
    if (met) return;
    flight.note(SolveNote::Kind::Unexpected, "\"" + words + "\" is not true here", value, "",
                "change what comes before it, or what is expected");
}

void passRibbon(Flight& flight, const text::Ribbon& ribbon) {
    const std::vector<data::Ribbon>& ribbons = flight.world.site.ribbons;
    const auto it = std::find_if(ribbons.begin(), ribbons.end(),
                                 [&](const data::Ribbon& r) { return r.name == ribbon.name; });
    if (it == ribbons.end()) {
        std::string known;
        for (const data::Ribbon& r : ribbons) known += (known.empty() ? "" : ", ") + r.name;
        flight.note(SolveNote::Kind::NotFlyable, "the site has no ribbon \"" + ribbon.name + "\"",
                    known.empty() ? "none" : known, "",
                    "write [[ribbon]] in the site file, or another name");
        return;
    }
    // The line flown last: where it crosses the ribbon's vertical plane, along the show line.
    const auto x_of = [&](const Segment& s, double t) {
        return flight.stateOf(s, t)[kX] - it->x_m;
    };
    for (std::size_t i = flight.segments.size(); i-- > 0;) {
        const Segment& s = flight.segments[i];
        if (flight.joint.time_s - s.stop_s > kLongestLookBack_s) break;
        double lo = s.start_s, hi = s.stop_s;
        const bool ahead = x_of(s, lo) < 0;
        if (ahead == (x_of(s, hi) < 0)) continue;
        for (int k = 0; k < 60; ++k) {
            const double mid = 0.5 * (lo + hi);
            ((x_of(s, mid) < 0) == ahead ? lo : hi) = mid;
        }
        const StateVector y = flight.stateOf(s, hi);
        const Moment m = Dynamics(flight.world, s.law).moment(hi, y);
        const double above = y[kZ] + flight.world.raise_m - it->height_m, beside = y[kY] - it->y_m;
        const bool between = std::fabs(beside) <= 0.5 * it->length_m;
        flight.note(SolveNote::Kind::Information, "passes ribbon " + it->name,
                    formatFixed(std::fabs(above), 1) + " m " + (above < 0 ? "below" : "above") +
                        ", " + formatFixed(std::fabs(beside), 1) + " m from its middle, " +
                        attitudeOf(m.q_SB) + (between ? "" : ", outside its poles"),
                    "", "");
        flight.notes.back().time_s = hi;
        flight.notes.back().subject = "ribbon";
        return;
    }
    flight.note(SolveNote::Kind::NotFlyable, "ribbon " + it->name + " is not passed", "", "",
                "fly a line across x " + lengthText(it->x_m) + " just before this mark");
}

}  // namespace plumbline::fly
