// A request at the store's door, from somebody who is signed in.

#include "apps/server/store_door.h"
#include "engine/api/json_io.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/small_store.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void door(std::string_view bytes) {
  static server::Engines engines;
  store::Outcome<store::Store> store = store::Store::open(small_store());
  require(store.ok(), "the small store opens");
  for (const store::Role role : {store::Role::reader, store::Role::keeper}) {
    const server::Answer answer = server::StoreDoor(*store, engines).answer({"anna", role}, bytes);
    const Result<nlohmann::json> json = api::parse_json(answer.body);
    require(json.ok() && json->is_object(), "an answer is a JSON object", answer.body);
    require(answer.status != 500, "no problem is our own", answer.body);
  }
}

}  // namespace lobewise::fuzz
