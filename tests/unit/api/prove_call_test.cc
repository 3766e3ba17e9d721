#include <gtest/gtest.h>

#include "engine/api/registry.h"
#include "support.h"

namespace lobewise::api {
namespace {

Result<Json> prove(Json input) { return Session().registry().run("prove", std::move(input)); }

TEST(ProveCall, WithoutFollowingInTimeTheFindingsAreTheSame) {
  const Result<Json> whole = prove(Json{{"enquiry", conveyor()}});
  const Result<Json> brief = prove(Json{{"enquiry", conveyor()}, {"in_time", false}, {"questions", false}});
  ASSERT_TRUE(whole.ok() && brief.ok());
  std::size_t charts = 0, fewer = 0;
  for (std::size_t i = 0; i < (*whole)["findings"].size(); ++i) {
    const Json &a = (*whole)["findings"][i], &b = (*brief)["findings"][i];
    EXPECT_EQ(a["id"], b["id"]);
    EXPECT_EQ(a["verdict"], b["verdict"]) << a["id"];
    EXPECT_EQ(a["checks"], b["checks"]) << a["id"];
    EXPECT_EQ(a["answer"], b["answer"]) << a["id"];
    charts += a["charts"].size();
    fewer += b["charts"].size();
  }
  EXPECT_LT(fewer, charts);
  EXPECT_GT((*whole)["questions"].size(), 0U);
  EXPECT_FALSE(brief->contains("questions"));
}

TEST(ProveCall, NamesAWrongOption) {
  const Result<Json> answer = prove(Json{{"enquiry", conveyor()}, {"in_time", "maybe"}});
  ASSERT_FALSE(answer.ok());
  EXPECT_EQ(answer.errors().front().path, "in_time");
  EXPECT_NE(answer.errors().front().message.find("true or false"), std::string::npos);
}

}  // namespace
}  // namespace lobewise::api
