#include "engine/api/calls.h"

namespace lobewise::api {

void add_calls(Registry&) {}

}  // namespace lobewise::api
