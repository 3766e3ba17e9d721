// Whoever asks, by command line, server or page, asks through the registry: no call answers a job that carries people.
#include <gtest/gtest.h>

#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

const Json kMeasured{{"measured", {{"measured_torque", "300 N·m"}, {"speed", "57 rpm"}}}};

/// Each says in another field that people ride.
std::vector<Json> jobs() {
  const Json hoist{{"load_mass", "500 kg"}, {"speed", "0.2 m/s"}, {"drum_diameter", "300 mm"}};
  Json riding = hoist;
  riding["lifts_people"] = true;
  return {{{"machine", {{"hoist", riding}}}},
          {{"machine", {{"hoist", hoist}}}},  // nobody said, and it must be said
          {{"machine",
            {{"travel_drive",
              {{"mass", "9 t"}, {"speed", "0.6 m/s"}, {"wheel_diameter", "315 mm"}, {"carries_people", true}}}}}},
          {{"machine", kMeasured}, {"title", "Passenger lift 2"}},
          {{"machine", kMeasured}, {"note", "Seilfahrt am Schacht 4"}},
          {{"machine", kMeasured},
           {"duty", {{"shocks", {{{"what", "man-riding winch"}, {"torque", 2}, {"per_year", 5}}}}}}},
          {{"machine", kMeasured}, {"incumbent", {{"kind", "worm"}, {"note", "monte-personnes"}}}},
          {{"machine", kMeasured}, {"incumbent", {{"kind", "worm"}, {"trouble", "the escalator stops"}}}},
          {{"machine", kMeasured},
           {"incumbent", {{"kind", "worm"}, {"troubles", {{{"what", "noise"}, {"note", "chair lift squeals"}}}}}}}};
}

TEST(PeopleDoors, EveryCallThatTakesAnEnquiryRefuses) {
  const Session session;
  for (const char* door : {"prove", "size", "check", "compare", "gear_pair", "survey_line"})
    for (const Json& job : jobs()) {
      const Result<Json> answer = session.registry().run(door, Json{{"enquiry", job}});
      ASSERT_FALSE(answer.ok()) << door << job;
      bool said = false;
      for (const Error& error : answer.errors()) said = said || error.message.find("eople") != std::string::npos;
      EXPECT_TRUE(said) << door << job << answer.errors().front().message;
    }
}

TEST(PeopleDoors, ThePagesOwnTextDoorRefusesToo) {
  const Session session;
  for (const Json& job : jobs()) {
    const std::string answer = session.answer(Json{{"call", "prove"}, {"input", {{"enquiry", job}}}}.dump());
    EXPECT_TRUE(Json::parse(answer).contains("errors")) << job;
    EXPECT_NE(answer.find("eople"), std::string::npos) << answer.substr(0, 300);
  }
}

}  // namespace
}  // namespace lobewise::api
