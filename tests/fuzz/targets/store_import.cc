// An export that somebody changed: the parts of the input are its entries. `@NAME` in store.json stands for the
// SHA-256 of the part `content:NAME`, which lies where an export has it; so an input can be sound.

#include <fmt/format.h>

#include "apps/store/content.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/small_store.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void store_import(std::string_view bytes) {
  constexpr std::string_view kContent = "content:";
  std::vector<Part> parts = parts_of(bytes);
  std::vector<std::string> kept;
  kept.reserve(2 * parts.size());
  std::string list;
  Part* list_part = nullptr;
  for (Part& part : parts)
    if (part.name == "store.json") list_part = &part, list = std::string(part.bytes);
  for (Part& part : parts) {
    if (part.name.substr(0, kContent.size()) != kContent) continue;
    const std::string mark = fmt::format("@{}", part.name.substr(kContent.size())),
                      hash = store::sha256(std::string(part.bytes));
    if (mark.size() < 2) continue;
    for (std::size_t at = 0, most = 0; (at = list.find(mark, at)) != std::string::npos && most < 100; ++most)
      list.replace(at, mark.size(), hash);
    kept.push_back(fmt::format("content/{}.json", hash));
    part.name = kept.back();
  }
  if (list_part != nullptr) list_part->bytes = list;
  const std::string file = zip_of(parts);
  store::Outcome<store::Store> store = store::Store::open(small_store());
  require(store.ok(), "the small store opens");
  const store::Outcome<store::Counts> counts = store->import_from({"anna", store::Role::engineer}, file);
  require_known(counts);
  const store::Outcome<std::vector<std::string>> wrong = store->check();
  require_known(wrong);
  require(wrong.ok() && wrong->empty(), "whatever came in, the store is sound",
          wrong.ok() && !wrong->empty() ? wrong->front() : "");
  require(store->list({})->total >= 1, "nothing that was here is lost");
}

}  // namespace lobewise::fuzz
