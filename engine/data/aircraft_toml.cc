#include "engine/data/aircraft_toml.h"

#include <utility>

#include "engine/data/table_reader.h"

namespace plumbline::data {
namespace {

using units::Dimension;

void readMass(TableReader& table, AircraftMass& mass) {
    mass.empty_kg = table.quantity("empty", Dimension::Mass, {"50 kg", "20000 kg"});
    mass.pilot_kg = table.quantity("pilot", Dimension::Mass, {"0 kg", "300 kg"});
    mass.fuel_density_kgpm3 = table.quantity("fuel_density", Dimension::Density,
                                             {"0.6 kg/l", "0.9 kg/l"}, mass.fuel_density_kgpm3);
    mass.fuel_capacity_kg = mass.fuel_density_kgpm3 *
                            table.quantity("fuel_capacity", Dimension::Volume, {"0 l", "5000 l"});
    table.finish();
}

void readGeometry(TableReader& table, AircraftGeometry& geometry) {
    geometry.wing_area_m2 = table.quantity("wing_area", Dimension::Area, {"0.5 m2", "100 m2"});
    geometry.span_m = table.quantity("span", Dimension::Length, {"1 m", "50 m"});
    geometry.length_m = table.quantity("length", Dimension::Length, {"1 m", "50 m"});
    geometry.eye_B_m.x =
        table.quantity("eye_forward", Dimension::Length, {"-10 m", "10 m"}, geometry.eye_B_m.x);
    // Body z is down.
    geometry.eye_B_m.z =
        -table.quantity("eye_up", Dimension::Length, {"-10 m", "10 m"}, -geometry.eye_B_m.z);
    table.finish();
}

void readSighting(TableReader& table, SightingFrame& frame) {
    const auto optional = [&table](const char* key, std::optional<double>& value) {
        if (table.has(key)) value = table.quantity(key, Dimension::Length, {"-10 m", "10 m"});
    };
    frame.out_m = table.quantity("out", Dimension::Length, {"0.2 m", "25 m"}, frame.out_m);
    optional("forward", frame.forward_m);
    optional("up", frame.up_m);
    frame.bar_m = table.quantity("bar", Dimension::Length, {"0.1 m", "5 m"}, frame.bar_m);
    frame.leg_m = table.quantity("leg", Dimension::Length, {"0.05 m", "5 m"}, frame.leg_m);
    table.finish();
}

void readAero(TableReader& table, AircraftAero& aero) {
    aero.lift_slope_prad =
        table.quantity("lift_slope", Dimension::PerAngle, {"0.5 /rad", "8 /rad"});
    aero.zero_lift_aoa_rad =
        table.quantity("zero_lift_aoa", Dimension::Angle, {"-15 deg", "15 deg"});
    aero.cl_max = table.number("cl_max", {0.1, 5});
    aero.cl_min = table.number("cl_min", {-5, -0.1});
    aero.cd0 = table.number("cd0", {0, 1});
    aero.induced_k = table.number("induced_k", {0, 1});
    aero.side_force_slope_prad =
        table.quantity("side_force_slope", Dimension::PerAngle, {"0 /rad", "8 /rad"});
    aero.sideslip_max_rad = table.quantity("sideslip_max", Dimension::Angle, {"5 deg", "60 deg"},
                                           aero.sideslip_max_rad);
    aero.cy_max = table.number("cy_max", {0, 5});
    aero.sideslip_drag = table.number("sideslip_drag", {0, 5});
    aero.cn_plate = table.number("cn_plate", {0, 3});
    aero.cd_tail_first = table.number("cd_tail_first", {0, 3});
    table.finish();
}

void readInertia(TableReader& table, AircraftInertia& inertia) {
    inertia.pitch_inertia_kgm2 =
        table.quantity("pitch_inertia", Dimension::Inertia, {"1 kg m2", "200000 kg m2"});
    inertia.tail_area_m2 = table.quantity("tail_area", Dimension::Area, {"0 m2", "50 m2"});
    inertia.tail_arm_m = table.quantity("tail_arm", Dimension::Length, {"0 m", "30 m"});
    inertia.tail_lift_slope_prad =
        table.quantity("tail_lift_slope", Dimension::PerAngle, {"0 /rad", "8 /rad"});
    inertia.static_margin_m = table.quantity("static_margin", Dimension::Length, {"-1 m", "2 m"});
    table.finish();
}

void readAutorotation(TableReader& table, AircraftAutorotation& a) {
    a.snap_incidence_rad = table.quantity("snap_incidence", Dimension::Angle, {"12 deg", "60 deg"});
    a.negative_snap_incidence_rad =
        table.quantity("negative_snap_incidence", Dimension::Angle, {"-60 deg", "-12 deg"});
    a.snap_helix = table.number("snap_helix", {0.05, 1});
    a.snap_rate_radps =
        table.quantity("snap_rate", Dimension::AngularRate, {"60 deg/s", "1000 deg/s"});
    a.snap_speed_mps = table.quantity("snap_speed", Dimension::Speed, {"20 kt", "300 kt"});
    a.spin_incidence_rad = table.quantity("spin_incidence", Dimension::Angle, {"15 deg", "80 deg"});
    a.inverted_spin_incidence_rad =
        table.quantity("inverted_spin_incidence", Dimension::Angle, {"-80 deg", "-15 deg"});
    a.spin_rate_radps =
        table.quantity("spin_rate", Dimension::AngularRate, {"30 deg/s", "600 deg/s"});
    a.spin_onset_s = table.quantity("spin_onset", Dimension::Time, {"0.2 s", "10 s"});
    table.finish();
}

void readRotation(TableReader& table, AircraftRotation& r) {
    r.roll_inertia_kgm2 =
        table.quantity("roll_inertia", Dimension::Inertia, {"1 kg m2", "200000 kg m2"});
    r.roll_damping = table.number("roll_damping", {0, 2});
    r.net_torque_frac = table.quantity("net_torque", Dimension::Ratio, {"0 %", "100 %"});
    r.propeller_inertia_kgm2 =
        table.quantity("propeller_inertia", Dimension::Inertia, {"0 kg m2", "100 kg m2"});
    r.fin_area_m2 = table.quantity("fin_area", Dimension::Area, {"0 m2", "50 m2"});
    r.control_moment_nm =
        table.quantity("control_moment", Dimension::Moment, {"1 N m", "1000000 N m"});
    r.tumble_speed_mps = table.quantity("tumble_speed", Dimension::Speed, {"20 kt", "300 kt"});
    table.finish();
}

void readPower(TableReader& table, double fuel_density_kgpm3, AircraftPower& power) {
    power.max_power_w = table.quantity("max_power", Dimension::Power, {"0 kW", "3000 kW"});
    power.rated_rpm =
        table.quantity("rated_speed", Dimension::RotationSpeed, {"100 rpm", "20000 rpm"});
    power.propeller_diameter_m =
        table.quantity("propeller_diameter", Dimension::Length, {"0.3 m", "6 m"});
    power.static_merit_frac = table.number("static_merit", {0, 1});
    power.cruise_efficiency_frac = table.number("cruise_efficiency", {0, 1});
    power.windmill_drag_area_m2 =
        table.quantity("windmill_drag_area", Dimension::Area, {"0 m2", "10 m2"});
    power.throttle_lag_s = table.quantity("throttle_lag", Dimension::Time, {"0 s", "10 s"});
    power.idle_power_frac = table.quantity("idle_power", Dimension::Ratio, {"0 %", "50 %"});
    constexpr QuantityRange kConsumption{"0 kg/kWh", "2 kg/kWh"};
    power.bsfc_full_kgpj =
        table.quantity("bsfc_full", Dimension::SpecificConsumption, kConsumption);
    power.bsfc_cruise_kgpj =
        table.quantity("bsfc_cruise", Dimension::SpecificConsumption, kConsumption);
    power.idle_fuel_kgps = fuel_density_kgpm3 *
                           table.quantity("idle_fuel", Dimension::VolumeFlow, {"0 l/h", "200 l/h"});
    power.clockwise_from_cockpit = table.choice("turns", {"clockwise", "anticlockwise"}, 0) == 0;
    table.finish();
}

void readHeadTemperature(TableReader& table, AircraftPower& power) {
    power.head_heat_k = table.quantity("rise", Dimension::TemperatureStep, {"0 K", "400 K"});
    power.head_time_s = table.quantity("time", Dimension::Time, {"0 s", "1000 s"});
    power.head_cooling_speed_mps =
        table.quantity("cooling_speed", Dimension::Speed, {"1 m/s", "200 m/s"});
    power.head_limit_k = table.quantity("limit", Dimension::Temperature, {"50 degC", "400 degC"});
    table.finish();
}

void readLimits(TableReader& table, AircraftLimits& limits) {
    limits.load_max_g = table.quantity("load_max", Dimension::Load, {"1 g", "20 g"});
    limits.load_min_g = table.quantity("load_min", Dimension::Load, {"-20 g", "-0.5 g"});
    limits.never_exceed_mps = table.quantity("never_exceed", Dimension::Speed, {"20 kt", "700 kt"});
    limits.manoeuvre_mps = table.quantity("manoeuvre", Dimension::Speed, {"20 kt", "700 kt"});
    limits.tail_first_mps = table.quantity("tail_first", Dimension::Speed, {"0 m/s", "150 m/s"});
    limits.load_onset_gps = table.quantity("load_onset", Dimension::LoadRate, {"0 g/s", "100 g/s"});
    limits.roll_rate_radps =
        table.quantity("roll_rate", Dimension::AngularRate, {"10 deg/s", "1000 deg/s"});
    limits.roll_helix = table.number("roll_helix", {0, 1});
    limits.roll_accel_radps2 = table.quantity("roll_acceleration", Dimension::AngularAcceleration,
                                              {"0 rad/s2", "1000 rad/s2"});
    limits.nose_capture_s =
        table.quantity("nose_capture", Dimension::Time, {"0 s", "2 s"}, limits.nose_capture_s);
    limits.inverted_s =
        table.quantity("inverted_time", Dimension::Time, {"1 s", "1800 s"}, limits.inverted_s);
    limits.full_power_s =
        table.quantity("full_power_time", Dimension::Time, {"10 s", "7200 s"}, limits.full_power_s);
    limits.overspeed_mps = table.quantity("overspeed_above", Dimension::Speed, {"20 kt", "700 kt"},
                                          limits.overspeed_mps);
    limits.roll_load_max_g =
        table.quantity("roll_load_max", Dimension::Load, {"1 g", "20 g"}, limits.roll_load_max_g);
    if (limits.never_exceed_mps > 0 && limits.manoeuvre_mps > limits.never_exceed_mps)
        table.problemAtKey("manoeuvre", "manoeuvre is above never_exceed",
                           "check both against the aircraft's documents");
    table.finish();
}

void readLoadLimits(TableReader& root, std::vector<LoadLimit>& limits) {
    for (TableReader& table : root.tables("load_limit")) {
        LoadLimit limit;
        limit.mass_kg = table.quantity("mass", Dimension::Mass, {"50 kg", "20000 kg"});
        limit.max_g = table.quantity("max", Dimension::Load, {"1 g", "20 g"});
        limit.min_g = table.quantity("min", Dimension::Load, {"-20 g", "-0.5 g"});
        if (!limits.empty() && table.has("mass") && !(limit.mass_kg > limits.back().mass_kg))
            table.problemAtKey("mass", "mass is not above that of the [[load_limit]] before",
                               "order them from light to heavy");
        table.finish();
        limits.push_back(limit);
    }
}

}  // namespace

Expected<Aircraft, Problems> readAircraft(std::string_view toml_text, const std::string& file) {
    const auto tree = parseToml(toml_text, file);
    if (!tree) return Unexpected(tree.error());
    Problems problems;
    Aircraft aircraft;
    TableReader root(*tree, "", file, problems);
    aircraft.name = root.text("name");
    aircraft.note = root.text("note", false);
    aircraft.category = root.text("category", false);
    readLoadLimits(root, aircraft.load_limits);
    aircraft.model_file = root.text("model", false);
    if (root.has("model_nose")) aircraft.model_nose = root.text("model_nose");
    if (root.has("model_up")) aircraft.model_up = root.text("model_up");
    if (auto table = root.table("mass", true)) readMass(*table, aircraft.mass);
    if (auto table = root.table("geometry", true)) readGeometry(*table, aircraft.geometry);
    if (auto table = root.table("sighting", false)) readSighting(*table, aircraft.sighting);
    if (auto table = root.table("aero", true)) readAero(*table, aircraft.aero);
    if (auto table = root.table("inertia", true)) readInertia(*table, aircraft.inertia);
    const auto belowManoeuvre = [&](TableReader& table, const char* key, double speed_mps) {
        if (aircraft.limits.manoeuvre_mps > 0 && speed_mps > aircraft.limits.manoeuvre_mps)
            table.problemAtKey(key, std::string(key) + " is above manoeuvre",
                               "check both against the aircraft's documents");
    };
    if (auto table = root.table("power", true))
        readPower(*table, aircraft.mass.fuel_density_kgpm3, aircraft.power);
    if (auto table = root.table("head_temperature", false))
        readHeadTemperature(*table, aircraft.power);
    if (auto table = root.table("limits", true)) readLimits(*table, aircraft.limits);
    if (auto table = root.table("autorotation", false)) {
        readAutorotation(*table, aircraft.autorotation);
        belowManoeuvre(*table, "snap_speed", aircraft.autorotation.snap_speed_mps);
    }
    if (auto table = root.table("rotation", false)) {
        readRotation(*table, aircraft.rotation);
        belowManoeuvre(*table, "tumble_speed", aircraft.rotation.tumble_speed_mps);
    }
    root.finish();
    if (!problems.empty()) return Unexpected(std::move(problems));
    return aircraft;
}

}  // namespace plumbline::data
