#include "tests/fuzz/targets/small_store.h"

#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/fuzz/target.h"

namespace lobewise::fuzz {
namespace {

constexpr std::int64_t kMoment = 1'800'000'000'000;

std::string make() {
  store::Place place;
  place.address = work_folder() + "/model.lobewise";
  {
    store::Outcome<store::Store> store = store::Store::create(place, [] { return kMoment; });
    require(store.ok(), "a store can be made");
    const store::Actor by{"anna", store::Role::engineer};
    const store::Draft draft{R"({"enquiry":{"title":"Cullet conveyor","customer":"Glass recycling"}})",
                             R"({"name":"a range"})", "0.0", R"({"findings":[]})", "first"};
    require(store->save(by, draft).ok(), "a store takes an enquiry");
    require(store->attach(by, 1, 1, {"offer.txt", "text/plain", "", "bytes of an offer"}).ok(),
            "a store takes a document");
  }
  std::ifstream in(place.address, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

const std::string& small_store_bytes() {
  static const std::string kBytes = make();
  return kBytes;
}

store::Place store_of(std::string_view bytes) {
  store::Place place;
  place.address = work_folder() + "/harmed.lobewise";
  for (const char* tail : {"", "-wal", "-shm", "-journal", ".format-1"}) std::filesystem::remove(place.address + tail);
  std::ofstream(place.address, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  return place;
}

store::Place small_store() { return store_of(small_store_bytes()); }

void require_known(const store::Problem& problem) {
  require(problem.trouble != store::Trouble::internal, "no problem is our own", problem.message);
}

}  // namespace lobewise::fuzz
