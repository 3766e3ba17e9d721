#pragma once
// Both kinds of store, fresh for each test.

#include <gtest/gtest.h>

#include <filesystem>
#include <functional>
#include <string>

#include "apps/store/store.h"

namespace lobewise::store {

/// A folder of its own that goes away again.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string operator/(const std::string& name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

/// A PostgreSQL on loopback for this process; started when first asked for, stopped at the end.
class TeamServer {
 public:
  /// Why there is none, empty when it runs.
  static std::string why_not();
  /// Address of an empty schema of its own.
  static std::string fresh_address();
  /// Kills it as a power cut would and starts it again.
  static void crash_and_start();
};

enum class Kind { file, team };

class StoreTest : public testing::TestWithParam<Kind> {
 protected:
  void SetUp() override;
  [[nodiscard]] Store create();
  [[nodiscard]] Store open();
  [[nodiscard]] std::int64_t number_of(const std::string& sql);  ///< first cell of a query

  Folder folder_;
  Place place_;
  std::int64_t now_ = 1'800'000'000'000;  ///< the tests' clock [ms]
  Actor anna_{"anna", Role::engineer};
};

[[nodiscard]] std::string kind_name(const testing::TestParamInfo<Kind>& kind);
#define LOBEWISE_BOTH_STORES(suite) \
  INSTANTIATE_TEST_SUITE_P(Stores, suite, testing::Values(Kind::file, Kind::team), kind_name)

/// A draft that needs no engine.
[[nodiscard]] Draft draft(const std::string& title, const std::string& note = "");
/// The value, or a failure of the test with the problem's message.
template <class T>
T must(Outcome<T> outcome) {
  if (!outcome) {
    ADD_FAILURE() << outcome.problem().message;
    throw std::runtime_error(outcome.problem().message);
  }
  return std::move(*outcome);
}
template <class T>
Trouble trouble(const Outcome<T>& outcome) {
  if (outcome) ADD_FAILURE() << "no problem where one was expected";
  return outcome ? Trouble::internal : outcome.problem().trouble;
}
/// Runs `action` in a child process. @returns its id
int in_child(const std::function<void()>& action);
/// Waits for a child; true when it ended well.
bool ended_well(int child);
void write_file(const std::string& file, const std::string& bytes);
[[nodiscard]] std::string read_file(const std::string& file);

}  // namespace lobewise::store
