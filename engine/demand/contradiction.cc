#include "engine/demand/contradiction.h"

#include <fmt/format.h>

namespace lobewise::demand {

Error contradiction(const Said& first, const Said& second, const std::string& why) {
  return input_error(first.path, first.value, fmt::format("contradicts {} ({}): {}", second.path, second.value, why));
}

}  // namespace lobewise::demand
