#include "engine/sizing/why.h"

#include <fmt/format.h>

#include <cmath>

namespace lobewise::sizing {

Text why_chosen(const Candidate& chosen, const std::vector<const Candidate*>& others) {
  const Candidate* dearest_that_fails = nullptr;  // and yet costs less
  const Candidate* as_dear = nullptr;             // serves and is heavier
  std::size_t cheaper = 0;
  for (const Candidate* other : others) {
    if (other == &chosen || !other->fell_out.empty()) continue;
    if (other->serves()) {
      if (!preferred(*other, chosen) && std::round(other->price()) == std::round(chosen.price())) as_dear = other;
      continue;
    }
    if (!other->failure || !preferred(*other, chosen)) continue;
    ++cheaper;
    if (dearest_that_fails == nullptr || preferred(*dearest_that_fails, *other)) dearest_that_fails = other;
  }
  Text text;
  const std::string currency = chosen.build.currency();
  const auto add_price = [&](const Candidate& candidate) {
    text.pattern += fmt::format("{{}}{}{}", currency.empty() ? "" : " ", currency);
    text.values.push_back({candidate.price(), Quantity::money});
  };
  text.pattern = "Of the builds that serve it costs the least together with its motor: ";
  add_price(chosen);
  if (chosen.motor_price > 0) {
    text.pattern += ", of which {} is an estimate for the motor";
    text.values.push_back({chosen.motor_price, Quantity::money});
  }
  text.pattern += ".";
  if (as_dear != nullptr) {
    text.pattern += fmt::format(" {} costs the same and weighs {{}} more.", as_dear->build.name());
    text.values.push_back({as_dear->mass() - chosen.mass(), Quantity::mass});
  }
  if (dearest_that_fails != nullptr) {
    const Text reason = why_not(*dearest_that_fails);
    text.pattern += cheaper == 1 ? " One that costs less does not serve: "
                                 : fmt::format(" {} that cost less do not serve; the dearest of them is ", cheaper);
    text.pattern += dearest_that_fails->build.name() + " (" + reason.pattern + ").";
    text.values.insert(text.values.end(), reason.values.begin(), reason.values.end());
  }
  if (chosen.bending) text.pattern += " With rigid discs it would fail; with discs that bend, as they do, it serves.";
  return text;
}

}  // namespace lobewise::sizing
