// Whole stores: backup, restore, export, import.

#include <zip.h>

#include <nlohmann/json.hpp>

#include "apps/store/zip_file.h"
#include "tests/unit/store/suite.h"

namespace lobewise::store {
namespace {

using Json = nlohmann::json;

const Actor kKeeper{"keeper", Role::keeper};

/// Two enquiries, three revisions, a document, a person.
void fill(Store& store, const Actor& by) {
  const Head first = must(store.save(by, draft("Conveyor ä")));
  (void)must(store.revise(by, first.number, first.version, draft("Conveyor ä", "second")));
  (void)must(store.attach(by, first.number, 1, {"offer.pdf", "application/pdf", "", std::string("\0\x01\xff", 3)}));
  const Head second = must(store.save(by, draft("Trommel")));
  (void)must(store.step(by, second.number, second.version, {State::offered, "2027-03-01", {}, "sent"}));
  (void)must(store.set_person(kKeeper, {"anna", Role::engineer, true}, "a long pass phrase"));
}

void expect_filled(Store& store) {
  EXPECT_EQ(must(store.list({})).total, 2);
  EXPECT_EQ(must(store.revision(1, 2)).draft.input, draft("Conveyor ä").input);
  EXPECT_EQ(must(store.document(1, 1, "offer.pdf")).bytes, std::string("\0\x01\xff", 3));
  EXPECT_EQ(must(store.head(2)).state, State::offered);
  EXPECT_EQ(must(store.head(2)).follow_up, "2027-03-01");
  EXPECT_EQ(must(store.history(2)).size(), 2U);
  EXPECT_TRUE(must(store.check()).empty());
  EXPECT_EQ(must(store.save({"anna", Role::engineer}, draft("next"))).number, 3) << "numbers go on";
}

class Copies : public StoreTest {
 protected:
  Place other_place() {
    Place place;
    place.address = folder_ / "other.lobewise";
    return place;
  }
  Store other() {
    return must(Store::create(other_place(), [this] { return now_++; }));
  }
};
LOBEWISE_BOTH_STORES(Copies);

TEST_P(Copies, ABackupIsAStoreItself) {
  Store store = create();
  fill(store, anna_);
  const Counts counts = must(store.backup(folder_ / "backup"));
  EXPECT_EQ(counts.enquiries, 2);
  EXPECT_EQ(counts.revisions, 3);
  EXPECT_EQ(counts.documents, 1);
  EXPECT_EQ(trouble(store.backup(folder_ / "backup")), Trouble::input) << "nothing is overwritten";
  EXPECT_EQ(std::filesystem::status(folder_ / "backup").permissions() & std::filesystem::perms::others_all,
            std::filesystem::perms::none);
  Place place;
  place.address = folder_ / "backup";
  Store copy = must(Store::open(place));
  expect_filled(copy);
  EXPECT_TRUE(copy.sign_in("anna", "a long pass phrase", "here").ok());
}

TEST_P(Copies, RestoreBringsEverythingBackAndKeepsWhatWasThere) {
  Store store = create();
  fill(store, anna_);
  (void)must(store.backup(folder_ / "backup"));
  for (int i = 0; i < 3; ++i) (void)must(store.save(anna_, draft("later")));
  EXPECT_EQ(trouble(store.restore(anna_, folder_ / "backup", folder_ / "before")), Trouble::denied);
  (void)must(store.restore(kKeeper, folder_ / "backup", folder_ / "before"));
  Place before;
  before.address = folder_ / "before";
  EXPECT_EQ(must(must(Store::open(before)).list({})).total, 5);
  expect_filled(store);
  EXPECT_EQ(must(store.audit(100)).at(1).action, "restore");
}

TEST_P(Copies, ABrokenBackupChangesNothing) {
  Store store = create();
  fill(store, anna_);
  (void)must(store.backup(folder_ / "backup"));
  std::string bytes = read_file(folder_ / "backup");
  write_file(folder_ / "half", bytes.substr(0, bytes.size() / 2));
  write_file(folder_ / "letter", "Dear reader" + std::string(2000, '.'));
  for (const char* file : {"half", "letter", "missing"}) {
    const auto outcome = store.restore(kKeeper, folder_ / file, folder_ / "before");
    ASSERT_FALSE(outcome.ok()) << file;
    EXPECT_NE(outcome.problem().message.find(file), std::string::npos) << outcome.problem().message;
  }
  expect_filled(store);
}

TEST_P(Copies, AnExportMovesEverythingAndTwiceAddsOnce) {
  Store store = create();
  fill(store, anna_);
  const Counts counts = must(store.export_to(folder_ / "all.zip"));
  EXPECT_EQ(counts.revisions, 3);
  Store target = other();
  EXPECT_EQ(trouble(target.import_from({"eve", Role::reader}, folder_ / "all.zip")), Trouble::denied);
  for (int time = 0; time < 2; ++time) {
    const Counts moved = must(target.import_from(anna_, folder_ / "all.zip"));
    EXPECT_EQ(moved.enquiries, 2);
    EXPECT_EQ(moved.apart, 0);
  }
  EXPECT_EQ(must(target.head(1)).id, must(store.head(1)).id);
  expect_filled(target);
  const std::string all = ZipReader(folder_ / "all.zip").read("store.json", 1U << 20U);
  EXPECT_EQ(all.find("argon2"), std::string::npos) << "no passwords leave";
  EXPECT_NE(all.find("\"anna\""), std::string::npos);
  // Any program can read it: the enquiry's file is the enquiry.
  EXPECT_EQ(ZipReader(folder_ / "all.zip").read("enquiries/1/1.json", 10'000), draft("Conveyor ä").input);
}

TEST_P(Copies, ImportReplacesNothing) {
  Store store = create();
  fill(store, anna_);
  Store target = other();
  (void)must(target.save({"carl", Role::engineer}, draft("already here")));
  (void)must(store.export_to(folder_ / "all.zip"));
  (void)must(target.import_from(anna_, folder_ / "all.zip"));
  EXPECT_EQ(must(target.head(1)).title, "already here") << "its number stays";
  EXPECT_EQ(must(target.list({})).total, 3);
  const std::string id = must(store.head(1)).id;
  Query all;
  Head moved;
  for (const Head& head : must(target.list(all)).heads)
    if (head.id == id) moved = head;
  EXPECT_EQ(moved.revisions, 2);

  // Here it only goes on: the other side gains it.
  Head head = must(store.head(1));
  head = must(store.revise(anna_, 1, head.version, draft("Conveyor ä", "third")));
  (void)must(store.step(anna_, 1, head.version, {State::visited, "2027-05-01", {}, ""}));
  (void)must(store.export_to(folder_ / "more.zip"));
  EXPECT_EQ(must(target.import_from(anna_, folder_ / "more.zip")).apart, 0);
  EXPECT_EQ(must(target.head(moved.number)).revisions, 3);
  EXPECT_EQ(must(target.head(moved.number)).state, State::visited);

  // Now both go on: neither loses anything.
  (void)must(store.revise(anna_, 1, must(store.head(1)).version, draft("Conveyor ä", "anna's fourth")));
  (void)must(target.revise({"carl", Role::engineer}, moved.number, must(target.head(moved.number)).version,
                           draft("Conveyor ä", "carl's fourth")));
  (void)must(store.export_to(folder_ / "both.zip"));
  EXPECT_EQ(must(target.import_from(anna_, folder_ / "both.zip")).apart, 1);
  EXPECT_EQ(must(target.import_from(anna_, folder_ / "both.zip")).apart, 0) << "twice adds once";
  EXPECT_EQ(must(target.list({})).total, 4);
  EXPECT_EQ(must(target.revision(moved.number, 4)).info.note, "carl's fourth");
  EXPECT_EQ(must(target.revision(4, 4)).info.note, "anna's fourth");
  EXPECT_TRUE(must(target.check()).empty());
}

class Imports : public Copies {
 protected:
  void SetUp() override {
    Copies::SetUp();
    Store store = create();
    fill(store, anna_);
    (void)must(store.export_to(folder_ / "all.zip"));
  }
  /// The export with some entries replaced.
  std::string changed(const std::function<void(Json&)>& change, const std::string& name = "",
                      const std::string& bytes = "") {
    const std::string file = folder_ / ("changed" + std::to_string(count_++) + ".zip");
    std::filesystem::copy_file(folder_ / "all.zip", file);
    Json json = Json::parse(ZipReader(file).read("store.json", 1U << 20U));
    change(json);
    replace(file, "store.json", json.dump());
    if (!name.empty()) replace(file, name, bytes);
    return file;
  }
  static void replace(const std::string& file, const std::string& name, const std::string& bytes) {
    zip* archive = zip_open(file.c_str(), 0, nullptr);
    zip_file_add(archive, name.c_str(), zip_source_buffer(archive, bytes.data(), bytes.size(), 0), ZIP_FL_OVERWRITE);
    ASSERT_EQ(zip_close(archive), 0);
  }
  void expect_refused(const std::string& file) {
    Store target = other();
    const auto outcome = target.import_from(anna_, file);
    ASSERT_FALSE(outcome.ok()) << file;
    EXPECT_TRUE(outcome.problem().trouble == Trouble::input || outcome.problem().trouble == Trouble::newer)
        << outcome.problem().message;
    EXPECT_EQ(must(target.list({})).total, 0) << "whole or not at all";
    std::filesystem::remove(other_place().address);
  }
  int count_ = 0;
};
INSTANTIATE_TEST_SUITE_P(Stores, Imports, testing::Values(Kind::file), kind_name);

TEST_P(Imports, RefusesWhatIsNotWholeOrNotSound) {
  const auto set = [](const char* pointer, const Json& value) {
    return [=](Json& json) { json[Json::json_pointer(pointer)] = value; };
  };
  expect_refused(changed(set("/kind", "recipes")));
  expect_refused(changed(set("/layout", 2)));
  expect_refused(changed(set("/enquiries", 3)));
  expect_refused(changed(set("/enquiries/1", "x")));
  expect_refused(changed(set("/enquiries/1/id", "../../etc")));
  expect_refused(changed(set("/enquiries/1/number", -1)));
  expect_refused(changed(set("/enquiries/1/number", 1e300)));
  expect_refused(changed(set("/enquiries/1/revisions", Json::array())));
  expect_refused(changed(set("/enquiries/1/revisions/0/revision", 2)));
  expect_refused(changed(set("/enquiries/0/revisions/0/range_sha256", std::string(64, '0'))));
  expect_refused(changed(set("/enquiries/0/revisions/0/file", "nowhere")));
  expect_refused(changed(set("/enquiries/0/documents/0/name", "../../x")));
  expect_refused(changed(set("/enquiries/0/documents/0/revision", 9)));
  expect_refused(changed(set("/enquiries/1/steps/0/state", "dreamt")));
  expect_refused(changed(set("/enquiries/1/steps/1/follow_up", "soon")));
  expect_refused(changed([](Json&) {}, "documents/1/1/offer.pdf", "swapped"));
  expect_refused(changed([](Json&) {}, "enquiries/1/1.json", "[]"));
  write_file(folder_ / "letter", "no zip");
  expect_refused(folder_ / "letter");
  expect_refused(folder_ / "missing");
  const std::string whole = read_file(folder_ / "all.zip");
  write_file(folder_ / "half.zip", whole.substr(0, whole.size() / 2));
  expect_refused(folder_ / "half.zip");
}

TEST_P(Imports, AZipBombIsNotUnpacked) {
  // 300 MiB of blanks pack to 300 KiB.
  const std::string blanks(300U << 20U, ' ');
  expect_refused(changed([](Json&) {}, "store.json", blanks));
  expect_refused(changed([](Json&) {}, "enquiries/1/1.json", blanks));
  expect_refused(changed([](Json&) {}, "store.json", std::string(1'000'000, '[')));
}

}  // namespace
}  // namespace lobewise::store
