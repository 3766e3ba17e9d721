#include "apps/store/head_json.h"

#include <nlohmann/json.hpp>

namespace lobewise::store {

nlohmann::json head_json(const Head& head) {
  return {{"number", head.number},       {"id", head.id},
          {"version", head.version},     {"revisions", head.revisions},
          {"title", head.title},         {"customer", head.customer},
          {"owner", head.owner},         {"state", name_of(head.state)},
          {"follow_up", head.follow_up}, {"created", head.created},
          {"changed", head.changed},     {"changed_by", head.changed_by}};
}

}  // namespace lobewise::store
