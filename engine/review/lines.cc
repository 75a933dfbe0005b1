#include "engine/review/lines.h"

#include <algorithm>
#include <cmath>

#include "engine/review/doubts.h"
#include "engine/units/units.h"

namespace plumbline::review {
namespace {

// Nearest of level, 45 and vertical, else as planned.
double trueClimb(const Vec3& planned) {
    const double climb = std::asin(std::clamp(planned.z, -1.0, 1.0));
    const double nearest = std::round(climb / (45 * units::kDegree_rad)) * 45 * units::kDegree_rad;
    return std::fabs(climb - nearest) < 4 * units::kDegree_rad ? nearest : climb;
}

double wayBetween(const path::Path& path, double from_s, double to_s) {
    constexpr double kStep_s = 0.05;
    double sum = 0;
    Vec3 last = path::sampleAt(path, from_s).position_S_m;
    for (double t = from_s + kStep_s; t < to_s + kStep_s; t += kStep_s) {
        const Vec3 here = path::sampleAt(path, std::min(t, to_s)).position_S_m;
        sum += glm::length(here - last);
        last = here;
    }
    return sum;
}

}  // namespace

bool LineMeasure::vertical() const { return std::fabs(climb_rad) > 75 * units::kDegree_rad; }

std::optional<LineMeasure> measureLine(const path::Path& flight, const Piece& flown,
                                       const Piece& planned, double zero_lift_rad) {
    // chosen: the ends belong to the arcs, and a roll's edges to the roll
    constexpr double kEnds = 0.12, kBesideRoll_s = 0.15, kLeast_s = 0.2, kStep_s = 0.02;
    constexpr double kBegins_s = 0.1;  // chosen: where a line begins is told to about so much
    LineMeasure m;
    m.start_s = flown.start_s;
    m.stop_s = flown.stop_s;
    m.climb_rad = trueClimb(planned.nose_S);
    const double length_s = flown.stop_s - flown.start_s;
    const Vec3 axis_B(std::cos(zero_lift_rad), 0, std::sin(zero_lift_rad));
    const bool vertical = m.vertical();
    const Vec3 straight(0, 0, std::copysign(1, m.climb_rad));
    constexpr double kWanders =
        0.35;  // chosen: so much of an attitude's error is not the line's whole
    Vec3 lean(0), own(0);
    double square = 0, climb = 0, variance = 0;
    std::vector<Vec3> leans;
    const double planned_heading = std::atan2(planned.nose_S.y, planned.nose_S.x);
    if (!vertical) m.heading_rad = planned_heading;
    for (double t = flown.start_s + kEnds * length_s; t <= flown.stop_s - kEnds * length_s;
         t += kStep_s) {
        bool rolls = std::any_of(flown.rolls.begin(), flown.rolls.end(), [&](const Roll& r) {
            return t > r.start_s - kBesideRoll_s && t < r.stop_s + kBesideRoll_s;
        });
        // Between the points of a roll the nose is held off a line that is not vertical.
        if (!vertical && !flown.rolls.empty())
            rolls = t > flown.rolls.front().start_s - kBesideRoll_s &&
                    t < flown.rolls.back().stop_s + kBesideRoll_s;
        if (rolls) continue;
        const path::Sample s = path::sampleAt(flight, t);
        const Vec3 axis = rotate(s.q_SB, axis_B);
        Vec3 off;  // x along or steeper, y across or right
        Vec3 should = straight;
        if (vertical) {
            off = Vec3(std::atan2(axis.x, std::fabs(axis.z)),
                       std::atan2(-axis.y, std::fabs(axis.z)), 0);
        } else {
            const double heading = std::atan2(axis.y, axis.x);
            const double turned = std::remainder(planned_heading - heading, 2 * kPi);
            off = Vec3(std::asin(std::clamp(axis.z, -1.0, 1.0)) - m.climb_rad,
                       turned * std::cos(m.climb_rad), 0);
            should = Vec3(std::cos(planned_heading) * std::cos(m.climb_rad),
                          std::sin(planned_heading) * std::cos(m.climb_rad), std::sin(m.climb_rad));
        }
        // Where the axis should be, from the aircraft; it is past it by the opposite.
        const Vec3 should_B = unrotate(s.q_SB, should);
        own += Vec3(std::atan2(should_B.z, should_B.x) - zero_lift_rad,
                    std::atan2(-should_B.y, should_B.x), 0);
        lean += off;
        leans.push_back(off);
        const double speed = glm::length(s.velocity_S_mps);
        climb += speed > 1 ? std::asin(std::clamp(s.velocity_S_mps.z / speed, -1.0, 1.0)) : 0;
        const double sigma = static_cast<double>(s.attitude_sigma_rad);
        variance += sigma * sigma;
    }
    if (static_cast<double>(leans.size()) * kStep_s < kLeast_s) return std::nullopt;
    const double count = static_cast<double>(leans.size());
    lean /= count;
    own /= count;
    for (const Vec3& one : leans) square += glm::dot(one - lean, one - lean);
    m.along_rad = lean.x;
    m.across_rad = lean.y;
    m.off_rad = std::hypot(lean.x, lean.y);
    m.pitch_rad = own.x;
    m.yaw_rad = own.y;
    m.steady_rad = std::sqrt(square / count);
    m.path_rad = climb / count;
    if (variance > 0) {
        // A second's errors of an attitude are all one, and lines are short: the mean is hardly
        // surer than each. The pilot's own unsteadiness is no error of it, but for where the ends
        // are taken.
        const double edge = kBegins_s / (count * kStep_s);
        const double first = glm::length(leans.front() - lean),
                     last = glm::length(leans.back() - lean);
        m.sigma_rad = std::sqrt(variance / count + edge * edge * (first * first + last * last));
        m.steady_sigma_rad = kWanders * std::sqrt(variance / count);
    }
    const double middle_s = 0.5 * (m.start_s + m.stop_s);
    const double speed_mps = glm::length(path::sampleAt(flight, middle_s).velocity_S_mps);
    if (speed_mps > 1) m.path_sigma_rad = groundSpeedSigma_mps(flight, middle_s) / speed_mps;
    if (!flown.rolls.empty()) {
        if (variance > 0) m.beside_roll_sigma_m = kEdge_s * speed_mps;
        m.before_roll_m = wayBetween(flight, flown.start_s, flown.rolls.front().start_s);
        m.after_roll_m = wayBetween(flight, flown.rolls.back().stop_s, flown.stop_s);
    }
    return m;
}

double rollSigma_rad(const path::Path& flight, const Roll& roll) {
    constexpr double kRest_rad =
        0.1 * units::kDegree_rad;  // chosen: what is left of it where it comes to rest
    const auto sigmaAt = [&](double time_s) {
        return static_cast<double>(path::sampleAt(flight, time_s).attitude_sigma_rad);
    };
    const double ends = std::hypot(sigmaAt(roll.start_s), sigmaAt(roll.stop_s));
    return ends > 0 ? std::hypot(ends, kRest_rad) : 0;
}

RollMeasure measureRoll(const path::Path& flight, const Roll& roll, double planned_rad) {
    constexpr double kShortest_s = 0.02;
    // chosen: when a roll passes its threshold is told to about an instant at either end
    constexpr double kPasses_s = 0.02;
    RollMeasure m;
    m.start_s = roll.start_s;
    m.angle_rad = roll.angle_rad;
    m.planned_rad = planned_rad;
    const double time_s = std::max(roll.stop_s - roll.start_s, kShortest_s);
    m.rate_radps = roll.angle_rad / time_s;
    m.sigma_rad = rollSigma_rad(flight, roll);
    if (m.sigma_rad > 0)
        m.rate_sigma_radps =
            std::hypot(m.sigma_rad / time_s, std::sqrt(2.0) * kPasses_s / time_s * m.rate_radps);
    return m;
}

double rollEndSigma_m(const path::Path& flight, const LineMeasure& line) {
    constexpr double kEnd_s = 0.15;  // chosen: where a pilot's roll begins no eye tells finer
    const double middle_s = 0.5 * (line.start_s + line.stop_s);
    return kEnd_s * glm::length(path::sampleAt(flight, middle_s).velocity_S_mps);
}

std::vector<RollMeasure> measureRolls(const path::Path& flight, const path::Path& plan,
                                      const Piece& flown, const Piece& planned) {
    std::vector<RollMeasure> out;
    if (flown.rolls.size() != planned.rolls.size()) return out;
    const auto askedFor = [&](const Roll& roll) {
        const path::Sample& s =
            plan.samples[path::sampleIndexAt(plan, 0.5 * (roll.start_s + roll.stop_s))];
        if (s.element < 0) return false;
        const std::string& label = plan.elements[static_cast<std::size_t>(s.element)].label;
        return label.find("with ") != std::string::npos;
    };
    for (std::size_t i = 0; i < flown.rolls.size(); ++i) {
        const Roll& roll = flown.rolls[i];
        const RollMeasure m = measureRoll(flight, roll, planned.rolls[i].angle_rad);
        if ((m.angle_rad > 0) == (m.planned_rad > 0) && askedFor(planned.rolls[i]))
            out.push_back(m);
    }
    return out;
}

double seenFromVertical_rad(const Vec3& eye, const Vec3& from, const Vec3& to) {
    const Vec3 sight = glm::normalize(0.5 * (from + to) - eye);
    const auto across = [&](const Vec3& v) { return v - sight * glm::dot(v, sight); };
    const Vec3 line = across(to - from), up = across(Vec3(0, 0, 1));
    const double cosine =
        std::fabs(glm::dot(line, up)) / std::max(glm::length(line) * glm::length(up), 1e-12);
    return std::acos(std::clamp(cosine, 0.0, 1.0));
}

double pointsFor(double off_rad, double points_for_5_deg) {
    return 0.5 *
           std::floor(std::fabs(off_rad) / (2.5 * units::kDegree_rad) * points_for_5_deg + 0.5);
}

double pointsForRollPlace(double longer_m, double shorter_m) {
    constexpr double kNone_m = 1;  // chosen: shorter no eye sees
    if (shorter_m < kNone_m) return longer_m < kNone_m ? 0 : 4;
    const double ratio = longer_m / shorter_m;
    return ratio >= 3 ? 3 : ratio >= 2 ? 2 : 0;
}

}  // namespace plumbline::review
