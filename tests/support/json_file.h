#pragma once
// A file of the tests, read as JSON.
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "tests/support/source_dir.h"

namespace lobewise::test {

/// @param path  below tests/, e.g. `oracle/cases/perturbed_1.json`
inline nlohmann::json json_file(const std::string& path) {
  std::ifstream file(source_dir() + "/tests/" + path);
  EXPECT_TRUE(file.good()) << path;
  return nlohmann::json::parse(file);
}

}  // namespace lobewise::test
