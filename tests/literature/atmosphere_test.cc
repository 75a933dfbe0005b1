// ICAO Doc 7488/3 tables; worked density altitudes of FAA-H-8083-25 (PHAK).
#include "engine/earth/atmosphere.h"

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"

namespace plumbline::earth {
namespace {

constexpr double kFoot_m = 0.3048;
constexpr double kInchOfMercury_pa = 3386.389;  // NIST SP 811 (2008), table B.8, at 0 degC

std::vector<std::vector<double>> readNumbers(const std::string& file) {
    std::ifstream in(std::string(PLUMBLINE_TEST_DATA) + "/vectors/" + file);
    std::string line;
    std::getline(in, line);
    std::vector<std::vector<double>> rows;
    while (std::getline(in, line)) {
        std::vector<double> row;
        std::stringstream cells(line);
        for (std::string cell; std::getline(cells, cell, ',');)
            row.push_back(parseDouble(cell).value_or(std::nan("")));
        rows.push_back(row);
    }
    return rows;
}

TEST(Atmosphere, MatchesTheIcaoTableToItsPrintedDigits) {
    const auto rows = readNumbers("atmosphere_icao7488.csv");
    ASSERT_EQ(rows.size(), 7u);
    for (const auto& row : rows) {
        ASSERT_EQ(row.size(), 6u);
        // The table's own argument is the rounded one of the two altitudes: -4996, 11019 and 20063
        // stand for the even geopotential values, the others for the even geometric ones.
        const bool even_geopotential = std::fmod(row[1], 1000) == 0;
        const double Z = row[0];
        const double H = even_geopotential && std::fmod(Z, 1000) != 0
                             ? row[1]
                             : 6356766.0 * Z / (6356766.0 + Z);  // Doc 7488/3, radius of the Earth
        const AirState air = standardAir(H);
        // Six printed digits: half a unit of the sixth; at 20 km two units, as the table carries
        // the rounded pressure of the tropopause up.
        const double units = row[1] == 20000 ? 2 : 0.5000001;
        const auto last_digits = [units](double value) {
            return units * std::pow(10, std::floor(std::log10(value)) - 5);
        };
        EXPECT_NEAR(air.temperature_k, row[2], last_digits(row[2]));
        EXPECT_NEAR(air.pressure_pa, row[3], last_digits(row[3]));
        EXPECT_NEAR(air.density_kgpm3, row[4], last_digits(row[4]));
        EXPECT_NEAR(air.speed_of_sound_mps, row[5], last_digits(row[5]));
    }
}

TEST(Atmosphere, PressureAltitudeCorrectionsOfThePhakTable) {
    // PHAK figure "field elevation versus pressure": printed in feet; the exact formula gives
    // -164.9 and +205.2 where the table prints -165 and +205.
    const auto correction_ft = [](double inches) {
        return pressureAltitude_m(inches * kInchOfMercury_pa) / kFoot_m;
    };
    EXPECT_NEAR(correction_ft(30.10), -165, 0.5);
    EXPECT_NEAR(correction_ft(29.70), 205, 0.5);
}

TEST(Atmosphere, DensityAltitudeOfThePhakSample) {
    // Elevation 5,883 ft, altimeter 30.10, 70 degF: pressure altitude 5,718 ft, density altitude
    // 7,700 ft read from the chart.
    const double temperature_k = (70 - 32) / 1.8 + 273.15;
    const SiteAir air(5883 * kFoot_m, temperature_k, 30.10 * kInchOfMercury_pa);
    EXPECT_NEAR(pressureAltitude_m(air.at(0).pressure_pa) / kFoot_m, 5718, 0.5);
    EXPECT_NEAR(densityAltitude_m(air.at(0).density_kgpm3) / kFoot_m, 7700, 20);
}

TEST(Atmosphere, DensityAltitudeOfHotDays) {
    // Closed form DA = (T0/L)(1 - (rho/rho0)^0.2349690414) worked by hand in 40 digits.
    const auto density_altitude_ft = [](double pressure_altitude_ft, double celsius) {
        const double pressure = standardAir(pressure_altitude_ft * kFoot_m).pressure_pa;
        return densityAltitude_m(pressure / (287.05287 * (celsius + 273.15))) / kFoot_m;
    };
    EXPECT_NEAR(density_altitude_ft(0, 30), 1723.935, 0.001);
    EXPECT_NEAR(density_altitude_ft(3000, 35), 5913.368, 0.001);
    EXPECT_NEAR(density_altitude_ft(5500, 25), 7869.088, 0.001);
}

}  // namespace
}  // namespace plumbline::earth
