#include "apps/handover/references.h"

#include <gtest/gtest.h>

namespace lobewise::handover {
namespace {

TEST(References, ReadsEntriesOfABibliography) {
  const auto all = read_references(
      "% head\n@book{one2000, author = {A. B}, title = {On things}, publisher = {Press}, year = {2000}, note = "
      "{read}}\n"
      "@misc{two, title = {Only a title}}\n");
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].key, "one2000");
  EXPECT_EQ(all[0].text, "A. B: On things, Press, 2000");
  EXPECT_EQ(all[0].note, "read");
  EXPECT_EQ(all[1].text, "Only a title");
  EXPECT_TRUE(read_references("nothing here").empty());
}

TEST(References, FindsTheWorksThatAreNamed) {
  const auto found = references_in({"as in [iso281] eq. 34", "[no_such]", "johnson1985 without brackets"});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].key, "iso281");
  EXPECT_NE(found[0].text.find("Rolling bearings"), std::string::npos);
}

}  // namespace
}  // namespace lobewise::handover
