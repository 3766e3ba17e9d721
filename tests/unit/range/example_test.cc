#include <gtest/gtest.h>

#include <fstream>

#include "engine/api/json_io.h"
#include "engine/range/describe_range.h"
#include "tests/support/source_dir.h"

namespace {
using namespace lobewise;

TEST(ExampleOwnRange, LoadsAndIsClean) {
  std::ifstream file(lobewise::test::source_dir() + "/range/example_own_range.json");
  ASSERT_TRUE(file);
  const auto range = api::read<range::Range>(api::Json::parse(file), api::Numbers::need_unit);
  for (const Error& error : range.ok() ? range::check(*range) : range.errors())
    ADD_FAILURE() << error.path << " [" << error.offending << "]: " << error.message;
  ASSERT_TRUE(range.ok());
  for (const Error& warning : range::warnings(*range)) ADD_FAILURE() << warning.path << ": " << warning.message;
  EXPECT_EQ(range->frames[0].stages[0].geometry.lobes, 17);
  EXPECT_DOUBLE_EQ(range->frames[0].stages[0].geometry.radius_offset, -20e-6);
}

}  // namespace
