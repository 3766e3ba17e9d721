// A store's file that somebody changed: five bytes of input are a place in it and the byte that stands there now.

#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/small_store.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void store_file(std::string_view bytes) {
  std::string file = small_store_bytes();
  for (std::size_t at = 0; at + 5 <= bytes.size(); at += 5) {
    std::size_t place = 0;
    for (std::size_t k = 0; k < 4; ++k) place = place << 8U | static_cast<unsigned char>(bytes[at + k]);
    file[place % file.size()] = bytes[at + 4];
  }
  store::Outcome<store::Store> store = store::Store::open(store_of(file));
  require_known(store);
  if (!store) return;
  const store::Actor by{"anna", store::Role::engineer};
  store::Query query;
  query.text = "conveyor";
  require_known(store->list(query));
  require_known(store->head(1));
  require_known(store->revision(1, 0));
  require_known(store->history(1));
  require_known(store->document(1, 1, "offer.txt"));
  require_known(store->check());
  require_known(store->step(by, 1, 2, {store::State::offered, {}, {}, ""}));
}

}  // namespace lobewise::fuzz
