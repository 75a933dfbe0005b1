#include "engine/earth/magnetic.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <vector>

#include "engine/base/check.h"
#include "engine/base/constants.h"
#include "engine/base/number_text.h"

namespace plumbline::earth {

/// A file that is built in, by its name.
std::optional<std::string_view> embeddedModel(std::string_view name);

namespace {

/// Words between blanks, without the line's end.
std::vector<std::string_view> wordsOf(std::string_view line) {
    constexpr std::string_view kBlanks = " \t\r";
    std::vector<std::string_view> words;
    for (std::size_t from = line.find_first_not_of(kBlanks); from != std::string_view::npos;) {
        const std::size_t to = std::min(line.find_first_of(kBlanks, from), line.size());
        words.push_back(line.substr(from, to - from));
        from = line.find_first_not_of(kBlanks, to);
    }
    return words;
}

}  // namespace

double MagneticField::horizontal_nt() const { return std::hypot(north_nt, east_nt); }
double MagneticField::declination_rad() const { return std::atan2(east_nt, north_nt); }
double MagneticField::declinationSigma_rad() const {
    return std::hypot(0.26, 5417 / std::max(horizontal_nt(), 1.0)) * kPi / 180;
}

std::optional<MagneticModel> MagneticModel::read(std::string_view coefficients) {
    MagneticModel model;
    int terms = 0;
    while (!coefficients.empty()) {
        const std::size_t end = std::min(coefficients.find('\n'), coefficients.size());
        const std::vector<std::string_view> words = wordsOf(coefficients.substr(0, end));
        coefficients.remove_prefix(std::min(end + 1, coefficients.size()));
        if (words.empty()) continue;
        if (words.size() == 1) break;  // the row of nines
        if (model.name_.empty()) {
            const std::optional<double> epoch = parseDouble(words[0]);
            if (!epoch) return std::nullopt;
            model.epoch_ = *epoch;
            model.name_ = words[1];
            continue;
        }
        if (words.size() != 6) return std::nullopt;
        std::array<double, 6> row{};
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::optional<double> number = parseDouble(words[i]);
            if (!number) return std::nullopt;
            row[i] = *number;
        }
        if (row[0] < 1 || row[0] > kDegree || row[1] < 0 || row[1] > row[0]) return std::nullopt;
        model.terms_[static_cast<std::size_t>(row[0])][static_cast<std::size_t>(row[1])] = {
            row[2], row[3], row[4], row[5]};
        ++terms;
    }
    constexpr int kTerms = (kDegree + 1) * (kDegree + 2) / 2 - 1;
    return terms == kTerms ? std::optional(model) : std::nullopt;
}

MagneticField MagneticModel::at(const GeoPoint& place, double year) const {
    // WGS 84, and the model's sphere.
    constexpr double kA_m = 6378137, kFlattening = 1 / 298.257223563, kSphere_m = 6371200;
    constexpr double kE2 = kFlattening * (2 - kFlattening);
    // At the poles themselves there is no north: a metre beside them there is.
    const double nearest_pole = 0.5 * kPi - 1e-7;
    const double latitude = std::clamp(place.latitude_rad, -nearest_pole, nearest_pole);
    const double sin_lat = std::sin(latitude), cos_lat = std::cos(latitude);
    const double normal_m = kA_m / std::sqrt(1 - kE2 * sin_lat * sin_lat);
    const double p_m = (normal_m + place.elevation_m) * cos_lat;
    const double z_m = (normal_m * (1 - kE2) + place.elevation_m) * sin_lat;
    const double r_m = std::hypot(p_m, z_m);
    const double c = z_m / r_m, s = p_m / r_m;  // of the angle from the pole

    // Schmidt half-normalised functions of that angle and their slopes, by degree and order.
    std::array<std::array<double, kDegree + 1>, kDegree + 1> f{}, slope{};
    f[0][0] = 1;
    for (std::size_t n = 1; n <= kDegree; ++n) {
        const double nn = static_cast<double>(n);
        const double k = n == 1 ? 1 : std::sqrt(1 - 0.5 / nn);
        f[n][n] = k * s * f[n - 1][n - 1];
        slope[n][n] = k * (c * f[n - 1][n - 1] + s * slope[n - 1][n - 1]);
        for (std::size_t m = 0; m < n; ++m) {
            const double mm = static_cast<double>(m);
            const double over = 1 / std::sqrt(nn * nn - mm * mm);
            const double back = n > m + 1 ? std::sqrt((nn - 1) * (nn - 1) - mm * mm) : 0;
            const double f2 = back > 0 ? f[n - 2][m] : 0, slope2 = back > 0 ? slope[n - 2][m] : 0;
            f[n][m] = over * ((2 * nn - 1) * c * f[n - 1][m] - back * f2);
            slope[n][m] =
                over * ((2 * nn - 1) * (c * slope[n - 1][m] - s * f[n - 1][m]) - back * slope2);
        }
    }

    const double years = year - epoch_;
    double north = 0, east = 0, down = 0;
    double power = (kSphere_m / r_m) * (kSphere_m / r_m);
    for (std::size_t n = 1; n <= kDegree; ++n) {
        power *= kSphere_m / r_m;
        for (std::size_t m = 0; m <= n; ++m) {
            const Term& t = terms_[n][m];
            const double g = t.g + years * t.g_change, h = t.h + years * t.h_change;
            const double mm = static_cast<double>(m), angle = mm * place.longitude_rad;
            const double even = g * std::cos(angle) + h * std::sin(angle);
            const double odd = g * std::sin(angle) - h * std::cos(angle);
            north += power * even * slope[n][m];
            east += power * mm * odd * f[n][m] / s;
            down -= power * static_cast<double>(n + 1) * even * f[n][m];
        }
    }
    // From the sphere's vertical to the ellipsoid's.
    const double tilt = std::atan2(c, s) - latitude;
    return {north * std::cos(tilt) - down * std::sin(tilt), east,
            north * std::sin(tilt) + down * std::cos(tilt)};
}

const MagneticModel& worldMagneticModel() {
    static const MagneticModel model = [] {
        const auto read = MagneticModel::read(embeddedModel("WMM_2025.COF").value_or(""));
        PL_EXPECT(read.has_value());
        return *read;
    }();
    return model;
}

double decimalYear(double utc_s) {
    using namespace std::chrono;
    const sys_days day(days(static_cast<std::int64_t>(std::floor(utc_s / 86400))));
    const auto of = year_month_day(day).year();
    const sys_days first = of / 1 / 1, next = (of + years(1)) / 1 / 1;
    const double done_s = utc_s - 86400.0 * static_cast<double>(first.time_since_epoch().count());
    return static_cast<int>(of) + done_s / (86400.0 * static_cast<double>((next - first).count()));
}

}  // namespace plumbline::earth
