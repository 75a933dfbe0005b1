#include "engine/review/line_words.h"

#include <cmath>

#include "engine/base/number_text.h"

namespace plumbline::review {
namespace {

constexpr double kDegree = kPi / 180;

std::string plusMinus(double sigma_rad) {
    return sigma_rad > 0 ? " (+- " + formatFixed(2 * sigma_rad / kDegree, 1) + ")" : "";
}

}  // namespace

std::string degreesText(double angle_rad) {
    return formatFixed(std::fabs(angle_rad) / kDegree, 1) + " deg";
}

std::string lineWords(const LineMeasure& m) {
    if (m.vertical()) {
        std::string words =
            degreesText(m.off_rad) + " off the vertical" + plusMinus(m.sigma_rad) + ": ";
        if (std::fabs(m.pitch_rad) >= std::fabs(m.yaw_rad))
            words += m.pitch_rad > 0 ? "too far towards the canopy" : "too far towards the wheels";
        else
            words += m.yaw_rad > 0 ? "nose to the right" : "nose to the left";
        return words;
    }
    std::string words;
    if (std::fabs(m.along_rad) >= std::fabs(m.across_rad))
        words = degreesText(m.along_rad) + (m.along_rad > 0 ? " too high" : " too low") +
                " with the nose";
    else
        words = degreesText(m.across_rad) + " off heading to the " +
                (m.across_rad > 0 ? "right" : "left");
    return words + plusMinus(m.sigma_rad);
}

std::string lineAdvice(const LineMeasure& m) {
    if (m.vertical()) {
        if (std::fabs(m.pitch_rad) >= std::fabs(m.yaw_rad))
            return "Hold the nose " + degreesText(m.pitch_rad) + " more towards the " +
                   (m.pitch_rad > 0 ? "wheels." : "canopy.");
        return "Hold the nose " + degreesText(m.yaw_rad) + " more to the " +
               (m.yaw_rad > 0 ? "left." : "right.");
    }
    if (std::fabs(m.along_rad) >= std::fabs(m.across_rad))
        return "Hold the nose " + degreesText(m.along_rad) +
               (m.along_rad > 0 ? " lower." : " higher.");
    return "Point " + degreesText(m.across_rad) + " more to the " +
           (m.across_rad > 0 ? "left." : "right.");
}

}  // namespace plumbline::review
