// What was said in words stands in the documents.
#include <gtest/gtest.h>

#include "apps/handover/proposal.h"
#include "apps/handover/sheets.h"
#include "engine/api/registry.h"

namespace lobewise::handover {
namespace {

Json enquiry() {
  return Json{{"title", "Conveyor"},
              {"machine",
               {{"belt_conveyor",
                 {{"mass_flow", "120 t/h"},
                  {"speed", "1.3 m/s"},
                  {"length", "46 m"},
                  {"lift", "14 m"},
                  {"drum_diameter", "500 mm"},
                  {"feed", "even"}}}}},
              {"site",
               {{"washed_down", true},
                {"dusty", true},
                {"food_area", true},
                {"explosive_atmosphere", true},
                {"explosive",
                 {{"zone", "zone_22"}, {"group", "iiib"}, {"temperature_class", "t3"}, {"certifier", "Inspector"}}}}},
              {"mounting", {{"orientation", "output_down"}}},
              {"wishes", {{"service_factor", 0.9}, {"speed_tolerance", "8 %"}}}};
}

Source gathered(Json from) {
  static const api::Session session;
  Order order;
  order.enquiry = std::move(from);
  order.date = order.valid_until = "2026-11-25";
  order.print = false;
  const Result<Source> source =
      gather([](const std::string& call, const Json& input) { return session.registry().run(call, input); }, order);
  EXPECT_TRUE(source.ok()) << (source.ok() ? "" : source.errors().front().message);
  return *source;
}

std::size_t count(const std::string& text, const std::string& word) {
  std::size_t found = 0;
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++found;
  return found;
}

TEST(Words, StandInEveryDocument) {
  const Source source = gathered(enquiry());
  for (const std::string& document : {proposal(source, {}), order_sheet(source), commissioning_sheet(source)}) {
    for (const char* word : {"xplosive", "ood area", "ashed down", "usty"})
      EXPECT_GT(count(document, word), 0u) << word;
    EXPECT_EQ(count(document, "<h2>Before anything else</h2>"), 1u);
  }
  for (const std::string& document : {proposal(source, {}), order_sheet(source)})
    for (const char* word : {"upright", "Service factor asked for"}) EXPECT_GT(count(document, word), 0u) << word;
  // The factor stands on the first page, before the contents.
  const std::string first = proposal(source, {});
  EXPECT_LT(first.find("Service factor asked for"), first.find("aria-label=\"Contents\""));
  EXPECT_LT(first.find("Before anything else"), first.find("aria-label=\"Contents\""));
  // Lifting: never by the motor's eyebolt.
  EXPECT_GT(count(commissioning_sheet(source), "eyebolt"), 0u);
  EXPECT_GT(count(order_sheet(source), "Centre of mass"), 0u);
}

TEST(Words, NoCautionStandsTwiceInADocument) {
  const Source source = gathered(enquiry());
  for (const std::string& document : {proposal(source, {}), commissioning_sheet(source)})
    for (const Json& caution : source.prove["cautions"]) {
      const std::string text = caution["text"].get<std::string>().substr(0, 60);
      if (text.find_first_of("'&<>\"") != std::string::npos) continue;
      EXPECT_LE(count(document, text), 1u) << text;
    }
}

TEST(Words, WithoutTheParticularsNothingIsOffered) {
  Json from = enquiry();
  from["site"].erase("explosive");
  const Source source = gathered(from);
  EXPECT_FALSE(source.serves());
  const std::string document = proposal(source, {});
  EXPECT_GT(count(document, "Not offered for this zone"), 0u);
  EXPECT_EQ(count(document, "Price without motor"), 0u);
  EXPECT_GT(count(order_sheet(source), "No offer."), 0u);
}

}  // namespace
}  // namespace lobewise::handover
