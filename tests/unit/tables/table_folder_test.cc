#include "apps/tables/table_folder.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "engine/api/table_shelf.h"
#include "engine/drive/table_bytes.h"
#include "engine/range/demo_range.h"

namespace lobewise::tables {
namespace {
namespace fs = std::filesystem;

class Folder : public testing::Test {
 protected:
  Folder() { path_ = fs::temp_directory_path() / ("lobewise_tables_" + std::to_string(::getpid())); }
  ~Folder() override { fs::remove_all(path_); }
  [[nodiscard]] std::vector<fs::path> files() const {
    std::vector<fs::path> out;
    for (const auto& entry : fs::directory_iterator(path_)) out.push_back(entry.path());
    return out;
  }
  fs::path path_;
};

TEST_F(Folder, GivesBackWhatWasKeptAndNothingElse) {
  TableFolder folder(path_);
  EXPECT_FALSE(folder.find("one"));
  const std::string bytes("a\0b", 3);
  folder.keep("one", bytes);
  folder.keep("two", "");
  EXPECT_EQ(folder.find("one"), bytes);
  EXPECT_EQ(folder.find("two"), "");
  EXPECT_FALSE(folder.find("on"));
  EXPECT_FALSE(TableFolder(path_).find("three"));
  EXPECT_EQ(files().size(), 2U);
}

TEST_F(Folder, AChangedFileIsAsIfItWereNotThere) {
  TableFolder folder(path_);
  folder.keep("key", "0123456789");
  const fs::path file = files().front();
  const auto size = fs::file_size(file);
  for (std::uintmax_t at = 0; at < size; ++at) {
    folder.keep("key", "0123456789");
    std::fstream edit(file, std::ios::in | std::ios::out | std::ios::binary);
    edit.seekg(static_cast<std::streamoff>(at));
    const auto was = static_cast<char>(edit.get());
    edit.seekp(static_cast<std::streamoff>(at));
    edit.put(static_cast<char>(was ^ 1));
    edit.close();
    EXPECT_FALSE(folder.find("key")) << at;
  }
  folder.keep("key", "0123456789");
  fs::resize_file(file, size - 1);
  EXPECT_FALSE(folder.find("key"));
}

TEST_F(Folder, GrowsNoLargerThanItMay) {
  TableFolder folder(path_, 10'000);
  for (int i = 0; i < 50; ++i) folder.keep(std::to_string(i), std::string(1'000, 'x'));
  std::uintmax_t sum = 0;
  for (const fs::path& file : files()) sum += fs::file_size(file);
  EXPECT_LE(sum, 10'000U);
  EXPECT_TRUE(folder.find("49"));
}

TEST_F(Folder, AFolderThatCannotBeMadeKeepsNothing) {
  std::ofstream(path_) << "a file";
  TableFolder folder(path_ / "below");
  folder.keep("key", "bytes");
  EXPECT_FALSE(folder.find("key"));
}

TEST_F(Folder, AShelfFindsTheSameTableAgain) {
  const range::Stage& stage = range::demo_range().frames.front().stages.front();
  api::TableShelf first(std::make_shared<TableFolder>(path_));
  const auto solved = first.elastic(stage);
  ASSERT_TRUE(solved.ok());
  ASSERT_EQ(files().size(), 1U);
  const auto when = fs::last_write_time(files().front());
  api::TableShelf second(std::make_shared<TableFolder>(path_));
  const auto found = second.elastic(stage);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(drive::bytes_of(**found), drive::bytes_of(**solved));
  // What it weighs and costs is not the mesh's; another roller is.
  range::Stage other = stage;
  other.price *= 2;
  ASSERT_TRUE(second.elastic(other).ok());
  EXPECT_EQ(files().size(), 1U);
  EXPECT_GE(fs::last_write_time(files().front()), when);
  other.geometry.roller_radius *= 1.001;
  ASSERT_TRUE(second.elastic(other).ok());
  EXPECT_EQ(files().size(), 2U);
}

TEST_F(Folder, ThreadsThatMissTheSameTableSolveItOnce) {
  const range::Stage& stage = range::demo_range().frames.front().stages.front();
  api::TableShelf shelf;
  std::vector<std::shared_ptr<const drive::StageTable>> found(4);
  std::vector<std::thread> threads;
  for (auto& table : found) threads.emplace_back([&] { table = *shelf.elastic(stage); });
  for (std::thread& thread : threads) thread.join();
  for (const auto& table : found) EXPECT_EQ(table, found.front());
}

TEST(UsersTables, AreWhereTheEnvironmentSays) {
  ::setenv("LOBEWISE_TABLES", "none", 1);
  EXPECT_EQ(users_tables(), nullptr);
  ::setenv("LOBEWISE_TABLES", "/tmp/somewhere", 1);
  EXPECT_NE(users_tables(), nullptr);
  ::unsetenv("LOBEWISE_TABLES");
}

}  // namespace
}  // namespace lobewise::tables
