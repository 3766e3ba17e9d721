#include "engine/base/text.h"

namespace lobewise {

std::string render(const Text& text, UnitSystem system) {
  std::string out;
  std::size_t next = 0;
  for (std::size_t i = 0; i < text.pattern.size(); ++i) {
    if (text.pattern.compare(i, 2, "{}") == 0 && next < text.values.size()) {
      const Value& value = text.values[next++];
      out += format_quantity(value.si, value.quantity, system);
      ++i;
    } else {
      out += text.pattern[i];
    }
  }
  return out;
}

}  // namespace lobewise
