#include "engine/record/column_names.h"

#include <gtest/gtest.h>

namespace plumbline::record {
namespace {

std::optional<Quantity> quantityOf(const char* header) {
    const auto known = recognise(columnName(header));
    return known ? std::optional(known->quantity) : std::nullopt;
}

TEST(ColumnNames, NamesOfManyLoggersMeanTheSame) {
    for (const char* header : {"gx_radps", "GyroX (deg/s)", "gyro_rad[0]", "IMU Gyro X [dps]",
                               "Roll rate (\xC2\xB0/s)", "angular_velocity_x", "wx rad/s"})
        EXPECT_EQ(quantityOf(header), Quantity::RateX) << header;
    for (const char* header : {"ax_mps2", "AccX (g)", "accelerometer_m_s2[0]", "accel x [m/s^2]",
                               "acc_x_mg", "accel_m_s2_x", "Acceleration X (m/s\xC2\xB2)"})
        EXPECT_EQ(quantityOf(header), Quantity::ForceX) << header;
    for (const char* header : {"mx_uT", "MagX (gauss)", "magnetometer_ga[0]"})
        EXPECT_EQ(quantityOf(header), Quantity::FieldX) << header;
    EXPECT_EQ(quantityOf("lat_deg"), Quantity::Latitude);
    EXPECT_EQ(quantityOf("GPS Latitude"), Quantity::Latitude);
    EXPECT_EQ(quantityOf("static_kPa"), Quantity::Pressure);
    EXPECT_EQ(quantityOf("h_baro_agl_m"), Quantity::PressureHeight);
    EXPECT_EQ(quantityOf("ias_mps"), Quantity::IndicatedAirspeed);
    EXPECT_EQ(quantityOf("vn_mps"), Quantity::North);
    EXPECT_EQ(quantityOf("vD (m/s)"), Quantity::Down);
    EXPECT_EQ(quantityOf("t_us"), Quantity::Time);
}

TEST(ColumnNames, AUnitOfAnotherKindMeansAnotherQuantity) {
    EXPECT_FALSE(quantityOf("gx (m)").has_value());
    EXPECT_FALSE(quantityOf("altitude (deg)").has_value());
    EXPECT_FALSE(quantityOf("note").has_value());
}

TEST(ColumnNames, UnitsAreTheLongestThatFit) {
    EXPECT_EQ(columnName("vel_m_s").unit, "m_s");
    EXPECT_EQ(columnName("acc_m_s_2").unit, "m_s_2");
    EXPECT_EQ(columnName("Gyro (\xB0/s)").unit, "deg_s");               // Latin-1
    EXPECT_DOUBLE_EQ(unitValue(UnitKind::Speed, "kt"), 1852.0 / 3600);  // Monaco, 1929
    EXPECT_DOUBLE_EQ(unitValue(UnitKind::Force, "g"), 9.80665);         // CGPM, 1901
    EXPECT_DOUBLE_EQ(unitValue(UnitKind::Speed, "hpa"), 0);
}

}  // namespace
}  // namespace plumbline::record
