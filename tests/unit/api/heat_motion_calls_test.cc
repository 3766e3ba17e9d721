// What the case files do not show: optional fields, refusals in words, kinematic details of the heat and motion calls.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

Json run(const char* call, const char* input) {
  const auto result = Session().registry().run(call, Json::parse(input));
  return result.ok() ? *result : error_json(result.errors());
}
std::string first_error(const Json& answer) {
  return answer.contains("errors") ? answer["errors"][0].dump() : "no error: " + answer.dump();
}

constexpr const char* kHousing =
    R"("housing": {"diameter": 0.2, "area": 0.2, "emissivity": 0.9, "ambient_temperature": 293.15,
    "oil_conductance": 25, "flange_conductance": 4, "fin_factor": 0, "sun_power": 40})";

TEST(HeatCalls, SunAndFinFactorAreUsed) {
  const std::string input = std::string("{") + kHousing + R"(, "loss": 0})";
  const Json answer = run("heat.steady_constant", input.c_str());
  EXPECT_NEAR(answer["convection"].get<double>(), 0, 1e-12);
  EXPECT_NEAR(answer["radiation"].get<double>() + answer["flange"].get<double>(), 40, 1e-6);
  EXPECT_DOUBLE_EQ(answer["oil_temperature"], answer["housing_temperature"]);
}

TEST(HeatCalls, AltitudeGivesPressureAndDensity) {
  const Json answer = run("heat.air", R"({"temperature": 288.15, "altitude": 2000})");
  EXPECT_NEAR(answer["pressure"].get<double>(), 101325 * std::pow(1 - 2.25577e-5 * 2000, 5.25588), 1e-6);
  EXPECT_NEAR(answer["density"].get<double>(), answer["pressure"].get<double>() / (287.05 * 288.15), 1e-12);
}

TEST(HeatCalls, RunawayIsSaidInWords) {
  const std::string input = std::string("{") + kHousing + R"(, "loss_0": 500, "slope": 30})";
  EXPECT_NE(first_error(run("heat.steady_linear", input.c_str())).find("no equilibrium"), std::string::npos);
}

TEST(HeatCalls, TimesMustNotFall) {
  const Json answer =
      run("heat.transient_constant", R"({"housing": {"diameter": 0.2, "area": 0, "ambient_temperature": 293.15,
    "oil_capacity": 4000, "housing_capacity": 14000}, "loss": 300, "times": [600, 300]})");
  EXPECT_NE(first_error(answer).find("must not fall"), std::string::npos);
}

constexpr const char* kMotor =
    R"("motor": {"synchronous_speed": 157.08, "rated_torque": 49.4, "rated_speed": 151.8, "locked_rotor_torque": 98.8,
    "pull_up_torque": 79, "breakdown_torque": 128})";

TEST(MotionCalls, MotorThatSticksIsSaidInWords) {
  const std::string input =
      std::string(R"({"inertia": 0.05, "load_torque": 90, "load_exponent": 0, "final_speed": 150, )") + kMotor + "}";
  EXPECT_NE(first_error(run("motion.run_up_time", input.c_str())).find("sticks"), std::string::npos);
}

TEST(MotionCalls, VoltageActsWithItsSquare) {
  const char* motor = R"({"speed": 0, "synchronous_speed": 157.08, "rated_torque": 49.4, "rated_speed": 151.8,
    "locked_rotor_torque": 98.8, "pull_up_torque": 79, "breakdown_torque": 128, "voltage_ratio": 0.8})";
  EXPECT_NEAR(run("motion.motor_torque", motor)["torque"].get<double>(), 0.64 * 98.8, 1e-12);
}

TEST(MotionCalls, WoundChainsGiveTheClosedForms) {
  const char* on = R"({"inertias": [5.78, 1], "links": [{"linear": 350000}], "drive_torque": 600, "load_torque": 600,
    "speed": 8.94, "duration": 0.05, "stop_time": 0, "wound": true})";
  const char* off = R"({"inertias": [5.78, 1], "links": [{"linear": 350000}], "drive_torque": 0, "load_torque": 600,
    "speed": 8.94, "duration": 0.05, "wound": true})";
  const auto closed = [](const char* drive) {
    return run("motion.jam_linear", (std::string(R"({"speed": 8.94, "stiffness": 350000, "inertia": 5.78,
      "initial_torque": 600, "drive": ")") +
                                     drive + "\"}")
                                        .c_str())["peak_torque"]
        .get<double>();
  };
  EXPECT_NEAR(run("motion.simulate_jam", on)["spring_peak"][0].get<double>(), closed("constant"), 1e-2);
  EXPECT_NEAR(run("motion.simulate_jam", off)["spring_peak"][0].get<double>(), closed("off"), 1e-2);
}

TEST(MotionCalls, StopAngleGivesTheClosedForm) {
  const char* jam = R"({"inertias": [5.78, 1], "links": [{"linear": 350000}], "drive_torque": 600, "load_torque": 0,
    "speed": 8.94, "duration": 0.1, "wound": true, "stop_angle": 0.05})";
  const char* closed = R"({"speed": 8.94, "stiffness": 350000, "inertia": 5.78, "angle": 0.05, "initial_torque": 600})";
  EXPECT_NEAR(run("motion.simulate_jam", jam)["spring_peak"][0].get<double>(),
              run("motion.jam_within_angle", closed)["peak_torque"].get<double>(), 1e-2);
}

TEST(MotionCalls, ChainAndLinksMustFit) {
  const char* jam = R"({"inertias": [5.78, 1, 2], "links": [{"linear": 350000}], "speed": 8.94, "duration": 0.1})";
  EXPECT_NE(first_error(run("motion.simulate_jam", jam)).find("one link between"), std::string::npos);
}

TEST(ShaftCalls, GuidedPinAndRulingLimit) {
  const Json pin =
      run("shaft.pin_bending", R"({"force": 2400, "diameter": 0.01, "lever": 0.022, "support": "guided"})");
  EXPECT_NEAR(pin["moment"].get<double>(), 26.4, 1e-9);
  const Json allowed = run("shaft.allowable_overhung", R"({"position": 0.24, "span": 0.09, "C_A": 90000, "C_B": 90000,
    "speed": 8.93, "hours": 20000, "C0_A": 100000, "C0_B": 100000, "diameter_B": 0.06, "S_e": 198.1e6, "S_ut": 700e6,
    "torque_mean": 600})");
  EXPECT_EQ(allowed["limit"], "fatigue of the shaft at bearing B");
  EXPECT_NEAR(allowed["force"].get<double>(), 7350, 5);
}

TEST(SystemCalls, EveryCallDescribesItself) {
  const Session session;
  for (const Call& call : session.registry().calls()) {
    EXPECT_FALSE(call.help.empty()) << call.name;
    if (!call.schema) continue;  // may stay open: the call that gives schemas
    EXPECT_TRUE(call.schema().is_object()) << call.name;
  }
}

}  // namespace
}  // namespace lobewise::api
