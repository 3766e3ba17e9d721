// Ordinary jobs, 120 to 1900 N m at 14 to 200 1/min, through the door that a person uses.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <random>

#include "engine/api/registry.h"
#include "engine/base/constants.h"

namespace lobewise::api {
namespace {

using Json = nlohmann::json;

/// A machine that asks for about that torque and speed; several kinds, so that start, jam and inertia differ.
Json job(double torque, double speed, int kind) {
  const double power = torque * speed;
  switch (kind % 4) {
    case 0:  // a belt: all of its power lifts
      return {{"machine",
               {{"belt_conveyor",
                 {{"mass_flow", 0.75 * power / (9.81 * 12)},
                  {"speed", speed * 0.25},
                  {"length", 40.0},
                  {"lift", 12.0},
                  {"drum_diameter", 0.5},
                  {"feed", "uneven"}}}}}};
    case 1:
      return {{"machine", {{"measured", {{"measured_torque", torque}, {"speed", speed}, {"feed", "even"}}}}}};
    case 2: {
      // No chain runs faster than 3 m/s: a quick shaft has the smaller sprocket.
      const double radius = std::min(0.15, 2.9 / speed);
      return {{"machine",
               {{"chain_conveyor",
                 {{"length", 15.0},
                  {"speed", speed * radius},
                  {"sprocket_diameter", 2 * radius},
                  {"load", torque / radius / (15 * 9.81 * 0.5)},
                  {"chain_mass", 20.0},
                  {"feed", "uneven"}}}}}};
    }
    default:
      return {{"machine", {{"measured", {{"measured_torque", torque}, {"speed", speed}, {"feed", "uneven"}}}}}};
  }
}

struct Tally {
  int jobs = 0, offers = 0;
  std::string table;
};

/// @param tolerance  stated, or nothing
Tally run(int count, unsigned seed, std::optional<double> tolerance) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> share(0, 1);
  const Session session;
  Tally tally;
  while (tally.jobs < count) {
    const double torque = 120 * std::pow(1900.0 / 120, share(random));
    const double rpm = 14 * std::pow(200.0 / 14, share(random));
    Json enquiry = job(torque, rpm * 2 * kPi / 60, tally.jobs);
    if (tolerance) enquiry["wishes"]["speed_tolerance"] = *tolerance;
    const Result<Json> sized = session.registry().run("size", Json{{"enquiry", enquiry}});
    ++tally.jobs;
    if (!sized) {
      ADD_FAILURE() << enquiry.dump() << ": " << sized.errors().front().message;
      continue;
    }
    const auto line_of = [&](const char* path) {
      for (const Json& line : (*sized)["requirement"])
        if (line["path"] == path) return line["value"]["value"].get<double>();
      return 0.0;
    };
    const int chosen = (*sized)["chosen"];
    tally.table += fmt::format("{:6.0f} N m {:6.1f} 1/min  {}: ", line_of("machine.torque"),
                               line_of("machine.speed") * 60 / (2 * kPi), enquiry["machine"].begin().key());
    if (chosen < 0) {
      tally.table += (*sized)["why_none"]["si"].get<std::string>() + "\n";
      EXPECT_FALSE((*sized)["why_none"]["si"].get<std::string>().empty());
      continue;
    }
    ++tally.offers;
    const Json& offer = (*sized)["candidates"][static_cast<std::size_t>(chosen)];
    tally.table +=
        fmt::format("{} ({} poles, {:+.1f} %) {}\n", offer["build_name"].get<std::string>(), offer["poles"].get<int>(),
                    100 * offer["ratio_error"].get<double>(), offer["verdict"].get<std::string>());
    EXPECT_FALSE(offer["why"]["si"].get<std::string>().empty());
    // What is offered breaks no promise, and nothing cheaper was passed over.
    for (const Json& margin : offer["margins"])
      EXPECT_NE(margin["verdict"], "does_not_hold") << offer["build_name"] << ' ' << margin["id"];
    for (const Json& other : (*sized)["candidates"])
      if (!other.contains("fell_out") && other["verdict"] != "does_not_hold" && chosen == 0 &&
          other["mesh"] == offer["mesh"]) {
        EXPECT_GE(std::round(other["price_with_motor"]["value"].get<double>()),
                  std::round(offer["price_with_motor"]["value"].get<double>()))
            << other["build_name"];
      }
  }
  if (std::getenv("LOBEWISE_SHOW") != nullptr) std::cout << tally.table;
  return tally;
}

TEST(OrdinaryJobs, OfFortyAtMostOneIsWithoutAnOffer) {
  const Tally tally = run(40, 40, std::nullopt);
  EXPECT_GE(tally.offers, 39) << tally.table;
}

TEST(OrdinaryJobs, OfEightyOthersAtMostTwo) {
  const Tally tally = run(80, 200, std::nullopt);
  EXPECT_GE(tally.offers, 78) << tally.table;
}

TEST(OrdinaryJobs, AYardstickIsNeverTheReason) {
  const Tally tally = run(60, 3, 0.02);  // a narrow tolerance, so that some end without an offer
  EXPECT_LT(tally.offers, 60);
  for (const char* yardstick : {"fails at sharing", "fails at efficiency"})
    EXPECT_EQ(tally.table.find(yardstick), std::string::npos) << tally.table;
}

}  // namespace
}  // namespace lobewise::api
