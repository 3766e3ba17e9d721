#include "engine/api/survey_line.h"

#include <gtest/gtest.h>

#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

Json drive(const char* torque, const char* speed) {
  return Json{{"machine", {{"measured", {{"measured_torque", torque}, {"speed", speed}}}}},
              {"wishes", {{"speed_tolerance", 0.08}}}};
}

TEST(SurveyLine, AnswersDoNotDependOnWhatWasAskedBefore) {
  Result<LineProver> kept = LineProver::open(nullptr, LineMesh::rigid);
  ASSERT_TRUE(kept.ok());
  const std::vector<Json> list{drive("300 N·m", "58 rpm"), drive("310 N·m", "58 rpm"), drive("1500 N·m", "83 rpm"),
                               drive("80 kN·m", "6 rpm")};
  std::vector<std::string> first;
  for (const Json& enquiry : list) first.push_back(kept->prove(enquiry)->dump());
  for (std::size_t i = list.size(); i-- > 0;) {
    EXPECT_EQ(kept->prove(list[i])->dump(), first[i]);
    EXPECT_EQ(LineProver::open(nullptr, LineMesh::rigid)->prove(list[i])->dump(), first[i]);
  }
}

TEST(SurveyLine, WithDiscsThatBendItSaysWhatProveSays) {
  const Json enquiry = drive("300 N·m", "58 rpm");
  const Result<Json> line = LineProver::open(nullptr, LineMesh::elastic)->prove(enquiry);
  const Result<Json> proof = Session().registry().run("prove", Json{{"enquiry", enquiry}});
  ASSERT_TRUE(line.ok() && proof.ok());
  EXPECT_EQ((*line)["build_name"], (*proof)["build_name"]);
  EXPECT_EQ((*line)["build"], (*proof)["build"]);
  ASSERT_EQ((*line)["findings"].size(), (*proof)["findings"].size());
  for (std::size_t i = 0; i < (*line)["findings"].size(); ++i) {
    const Json &brief = (*line)["findings"][i], &full = (*proof)["findings"][i];
    EXPECT_EQ(brief["id"], full["id"]);
    EXPECT_EQ(brief["verdict"], full["verdict"]);
    EXPECT_EQ(brief["answer"], full["answer"]);
    double worst = 1e9;
    for (const Json& check : full["checks"]) worst = std::min(worst, check["margin"].get<double>());
    if (brief.contains("margin")) {
      EXPECT_DOUBLE_EQ(brief["margin"].get<double>(), worst);
    }
  }
}

TEST(SurveyLine, SaysWhyNothingServesAndWhatIsWrong) {
  Result<LineProver> lines = LineProver::open(nullptr, LineMesh::rigid);
  const Result<Json> far = lines->prove(drive("2 MN·m", "30 rpm"));
  EXPECT_FALSE(far.ok());  // no such unit
  const Result<Json> none = lines->prove(drive("2000 kN·m", "30 rpm"));
  ASSERT_TRUE(none.ok());
  EXPECT_EQ((*none)["serves"], false);
  EXPECT_FALSE(none->contains("build"));
  EXPECT_NE((*none)["why_none"]["si"].get<std::string>(), "");
  EXPECT_EQ(lines->prove(Json{{"machine", {{"measured", Json::object()}}}}).errors().front().path.substr(0, 16),
            "machine.measured");
  Json named = drive("300 N·m", "58 rpm");
  named["build"] = {{"frame", "ring-265"}, {"lobes", 25}};
  EXPECT_EQ((*lines->prove(named))["build_name"], "ring-265, 25:1");
  EXPECT_FALSE(LineProver::open(Json{{"frames", "x"}}, LineMesh::rigid).ok());
}

TEST(SurveyLine, SaysWhereDiscsThatBendMayCarryWhatRigidOnesDoNot) {
  // There is room for ring-160 only, and rigid discs refuse it by little.
  Json narrow{{"machine", {{"measured", {{"measured_torque", "500 N·m"}, {"speed", "39.1 rpm"}, {"feed", "uneven"}}}}},
              {"wishes", {{"speed_tolerance", 0.03}}},
              {"mounting", {{"max_width", "270 mm"}}}};
  const Result<Json> rigid = LineProver::open(nullptr, LineMesh::rigid)->prove(narrow);
  ASSERT_TRUE(rigid.ok()) << rigid.errors().front().message;
  EXPECT_EQ((*rigid)["serves"], false);
  EXPECT_NE((*rigid)["why_none"]["si"].get<std::string>().find("discs that bend may find"), std::string::npos)
      << (*rigid)["why_none"];
  const Result<Json> bending = LineProver::open(nullptr, LineMesh::elastic)->prove(narrow);
  EXPECT_EQ((*bending)["serves"], true) << (*bending)["why_none"];
  // What fails by far is not said to bend.
  narrow["machine"]["measured"]["measured_torque"] = "1500 N·m";
  const Result<Json> far = LineProver::open(nullptr, LineMesh::rigid)->prove(narrow);
  ASSERT_TRUE(far.ok());
  EXPECT_EQ((*far)["why_none"]["si"].get<std::string>().find("discs that bend may find"), std::string::npos);
}

}  // namespace
}  // namespace lobewise::api
