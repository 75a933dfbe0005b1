#include "engine/review/line_words.h"

#include <algorithm>
#include <cmath>

#include "engine/base/measured_text.h"
#include "engine/base/number_text.h"
#include "engine/units/units.h"

namespace plumbline::review {
namespace {

std::string offBy(double angle_rad, double sigma_rad) {
    return valueText(std::fabs(angle_rad) / units::kDegree_rad, 2 * sigma_rad / units::kDegree_rad,
                     {1}) +
           " deg";
}

}  // namespace

std::string degreesText(double angle_rad) {
    return formatFixed(std::fabs(angle_rad) / units::kDegree_rad, 1) + " deg";
}

std::string degreesText(double angle_rad, double sigma_rad) { return offBy(angle_rad, sigma_rad); }

std::string metresText(double length_m, double sigma_m) {
    return valueText(length_m, 2 * sigma_m, {0, false, Signs::Plain}) + " m";
}

std::string plusMinus(double sigma, int most_decimals) {
    return sigma > 0 ? " (+- " + doubtText(2 * sigma, most_decimals) + ")" : "";
}

std::string degreesDoubt(double sigma_rad) { return plusMinus(sigma_rad / units::kDegree_rad, 1); }

bool ownAxesTell(const LineMeasure& m) {
    constexpr double kMostOfIt = 0.8;
    return std::hypot(m.pitch_rad, m.yaw_rad) >= kMostOfIt * m.off_rad;
}

std::string lineWords(const LineMeasure& m) {
    if (m.vertical()) {
        std::string words =
            offBy(m.off_rad, m.sigma_rad) + " off the vertical" + degreesDoubt(m.sigma_rad) + ": ";
        if (!ownAxesTell(m)) {
            if (std::fabs(m.along_rad) >= std::fabs(m.across_rad))
                words += m.along_rad > 0 ? "leaning to crowd right" : "leaning to crowd left";
            else
                words +=
                    m.across_rad > 0 ? "leaning towards the crowd" : "leaning away from the crowd";
        } else if (std::fabs(m.pitch_rad) >= std::fabs(m.yaw_rad))
            words += m.pitch_rad > 0 ? "too far towards the canopy" : "too far towards the wheels";
        else
            words += m.yaw_rad > 0 ? "nose to the right" : "nose to the left";
        return words;
    }
    std::string words;
    if (std::fabs(m.along_rad) >= std::fabs(m.across_rad))
        words = offBy(m.along_rad, m.sigma_rad) + (m.along_rad > 0 ? " too high" : " too low") +
                " with the nose";
    else
        words = offBy(m.across_rad, m.sigma_rad) + " off heading to the " +
                (m.across_rad > 0 ? "right" : "left");
    return words + degreesDoubt(m.sigma_rad);
}

std::string deductionText(const LineMeasure& measure, double points_for_5_deg) {
    const double doubt_rad = 2 * measure.sigma_rad;
    const double least = pointsFor(std::max(0.0, measure.off_rad - doubt_rad), points_for_5_deg);
    const double most = pointsFor(measure.off_rad + doubt_rad, points_for_5_deg);
    return least == most ? formatFixed(least, 1)
                         : formatFixed(least, 1) + " to " + formatFixed(most, 1);
}

std::string deductionWords(double points_for_5_deg) {
    if (points_for_5_deg == kUsualPoints)
        return "1 for each 5 deg (BAeA judging notes, CIVA criteria)";
    return formatDouble(points_for_5_deg) + " for each 5 deg, as asked";
}

void noteUntold(const path::Path& flight, std::vector<std::string>& notes) {
    const bool told = std::any_of(flight.samples.begin(), flight.samples.end(),
                                  [](const path::Sample& s) { return s.position_sigma_m > 0; });
    if (!told && flight.origin == path::Origin::Recording)
        notes.push_back(
            "the recording does not tell how surely it knows places, heights and speeds: those "
            "have no +- and may be off by more than their last digit");
}

std::string lineAdvice(const LineMeasure& m) {
    if (m.vertical()) {
        if (!ownAxesTell(m)) {
            if (std::fabs(m.along_rad) >= std::fabs(m.across_rad))
                return "Set the line " + offBy(m.along_rad, m.sigma_rad) + " more to crowd " +
                       (m.along_rad > 0 ? "left." : "right.");
            return "Set the line " + offBy(m.across_rad, m.sigma_rad) + " more " +
                   (m.across_rad > 0 ? "away from the crowd." : "towards the crowd.");
        }
        if (std::fabs(m.pitch_rad) >= std::fabs(m.yaw_rad))
            return "Hold the nose " + offBy(m.pitch_rad, m.sigma_rad) + " more towards the " +
                   (m.pitch_rad > 0 ? "wheels." : "canopy.");
        return "Hold the nose " + offBy(m.yaw_rad, m.sigma_rad) + " more to the " +
               (m.yaw_rad > 0 ? "left." : "right.");
    }
    if (std::fabs(m.along_rad) >= std::fabs(m.across_rad))
        return "Hold the nose " + offBy(m.along_rad, m.sigma_rad) +
               (m.along_rad > 0 ? " lower." : " higher.");
    return "Point " + offBy(m.across_rad, m.sigma_rad) + " more to the " +
           (m.across_rad > 0 ? "left." : "right.");
}

}  // namespace plumbline::review
