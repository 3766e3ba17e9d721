#pragma once
// One enquiry for each kind of machine, as in examples/machines.
#include <nlohmann/json.hpp>
#include <vector>

namespace lobewise::test {

inline const std::vector<nlohmann::json> kMachines{
    nlohmann::json::parse(
        R"({"machine": {"agitator": {"diameter": "900 mm", "speed": "68 rpm", "density": "1100 kg/m3", "viscosity": "5 mPa·s", "impeller": "pitched_turbine", "liquid": "solids"}}, "mounting": {"orientation": "output_down"}})"),
    nlohmann::json::parse(
        R"({"machine": {"apron_feeder": {"width": "900 mm", "length": "5 m", "opening_length": "2.5 m", "bed_height": "500 mm", "density": "1400 kg/m3", "speed": "0.08 m/s", "sprocket_diameter": "500 mm", "feeds_crusher": true}}})"),
    nlohmann::json::parse(
        R"({"machine": {"belt_conveyor": {"mass_flow": "120 t/h", "speed": "1.3 m/s", "length": "46 m", "lift": "14 m", "drum_diameter": "500 mm", "feed": "uneven"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"bucket_elevator": {"mass_flow": "60 t/h", "lift": "18 m", "speed": "1.2 m/s", "head_diameter": "500 mm", "feed": "even"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"chain_conveyor": {"length": "20 m", "speed": "0.4 m/s", "sprocket_diameter": "300 mm", "load": "120 kg/m", "chain_mass": "25 kg/m", "slope": "10 deg", "feed": "lumps"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"curve": {"rated_power": "5.5 kW", "rated_speed": "60 rpm", "speed": "60 rpm", "kind": "displacement_pump"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"hoist": {"load_mass": "800 kg", "dead_mass": "150 kg", "speed": "0.3 m/s", "drum_diameter": "300 mm", "lifts_people": false}}})"),
    nlohmann::json::parse(
        R"({"machine": {"measured": {"rated_power": "7.5 kW", "rated_speed": "1455 rpm", "rated_current": "15 A", "power_factor": 0.83, "measured_current": "11.8 A", "speed": "42 rpm"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"paddle_mixer": {"volume": "800 L", "density": "1500 kg/m3", "speed": "24 rpm", "rotor_diameter": "900 mm", "batch": "moist_grain"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"roller_conveyor": {"load_mass": "2400 kg", "rollers_mass": "300 kg", "roller_diameter": "89 mm", "speed": "0.25 m/s"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"roller_table": {"load_mass": "4000 kg", "rollers_mass": "900 kg", "roller_diameter": "200 mm", "speed": "0.5 m/s", "reversing": true}}, "duty": {"starts_per_hour": "20 1/h", "reversals_per_hour": "20 1/h"}})"),
    nlohmann::json::parse(
        R"({"machine": {"rotary_drum": {"inner_diameter": "1.8 m", "length": "6 m", "fill": "15 %", "density": "1300 kg/m3", "speed": "14 rpm", "shell_mass": "2600 kg", "kind": "trommel"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"screw_conveyor": {"mass_flow": "20 t/h", "length": "6 m", "lift": "1 m", "diameter": "400 mm", "speed": "50 rpm", "feed": "uneven"}}})"),
    nlohmann::json::parse(
        R"({"machine": {"slewing_drive": {"axial_load": "180 kN", "tilting_moment": "150 kN·m", "radial_load": "12 kN", "track_diameter": "1.8 m", "slewing_inertia": "250000 kg·m2", "slewing_speed": "0.5 rpm", "gear_ratio": 10, "drives": 1}}})"),
    nlohmann::json::parse(
        R"({"machine": {"travel_drive": {"mass": "9000 kg", "speed": "0.6 m/s", "wheel_diameter": "315 mm", "drives": 2, "wheel": "steel_on_rail", "carries_people": false}}, "duty": {"starts_per_hour": "12 1/h"}})"),
};

}  // namespace lobewise::test
