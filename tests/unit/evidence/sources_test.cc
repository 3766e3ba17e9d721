// Every figure that reaches a person names where it comes from: a key of docs/sources.bib in brackets, or one of the
// plain words.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <regex>

#include "engine/evidence/prove.h"
#include "support.h"
#include "tests/support/source_dir.h"

namespace lobewise::evidence {
namespace {

TEST(Sources, EveryStepOfAFindingNamesOneThatExists) {
  std::ifstream file(lobewise::test::source_dir() + "/docs/sources.bib");
  const std::string bib{std::istreambuf_iterator<char>(file), {}};
  ASSERT_FALSE(bib.empty());
  enquiry::Requirement requirement = stated(900, 47 * 3.14159265 / 30);
  requirement.radial_force = 5000;
  requirement.incumbent = enquiry::Incumbent{};
  requirement.incumbent->kind = incumbent::UnitKind::worm;
  requirement.economics = enquiry::Economics{};
  requirement.economics->energy_price = Span{4e-8, 5e-8, 6e-8};
  const Evidence evidence = prove(drive_of(requirement, "ring-224", 31), {0});
  const std::regex key(R"(\[([a-z0-9_]+)\])");
  for (const Finding& finding : evidence.findings)
    for (const WorkingStep& step : finding.working) {
      const std::string& source = step.source;
      const bool plain = source.rfind("derived", 0) == 0 || source.rfind("common practice, no source", 0) == 0 ||
                         source.rfind("from memory", 0) == 0;
      const bool keyed = source.rfind("[", 0) == 0;
      EXPECT_TRUE(plain || keyed) << finding.id << ": " << source;
      for (auto it = std::sregex_iterator(source.begin(), source.end(), key); it != std::sregex_iterator(); ++it)
        EXPECT_NE(bib.find(fmt::format("{{{},", (*it)[1].str())), std::string::npos) << "no such key: " << (*it)[1];
    }
}

}  // namespace
}  // namespace lobewise::evidence
