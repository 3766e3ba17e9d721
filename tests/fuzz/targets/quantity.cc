// A number with its unit; the first byte names the quantity.

#include "engine/base/quantity.h"

#include <cmath>

#include "engine/base/unit_word.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void quantity(std::string_view bytes) {
  if (bytes.empty()) return;
  const auto all = all_quantities();
  const Quantity asked = all[static_cast<unsigned char>(bytes[0]) % all.size()].quantity;
  const std::string_view text = bytes.substr(1);
  (void)is_unit(text, asked);
  const Result<double> number = parse_number(text, "field");
  if (number) require(std::isfinite(*number), "a number that was read is finite", text);
  const Result<double> value = parse_quantity(text, asked, "field");
  if (!value) {
    require(!value.errors().empty() && !value.errors().front().message.empty(), "an error says what is wrong", text);
    return;
  }
  require(std::isfinite(*value), "a value that was read is finite", text);
  // A temperature is shown to a tenth of its degree.
  const double shown_to = asked == Quantity::temperature ? 0.051 : 1e-6;
  for (const UnitSystem system : {UnitSystem::si, UnitSystem::us}) {
    const std::string shown = format_quantity(*value, asked, system, 9);
    const Result<double> again = parse_quantity(shown, asked, "field");
    require(again.ok(), "what is shown can be read", shown);
    require(std::fabs(*again - *value) <= 1e-6 * std::fabs(*value) + shown_to || std::fabs(*value) > 1e15 ||
                std::fabs(*value) < 1e-6,
            "what is shown is what was read", shown);
  }
}

}  // namespace lobewise::fuzz
