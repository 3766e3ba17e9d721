#include "engine/result/amount.h"

#include <fmt/format.h>

#include <algorithm>

namespace lobewise::result {

Amount amount(double si, Quantity quantity) {
  return {si,
          {},
          std::string(info(quantity).key),
          format_quantity(si, quantity, UnitSystem::si),
          format_quantity(si, quantity, UnitSystem::us)};
}

Amount amount(const std::vector<double>& si, Quantity quantity) {
  constexpr std::size_t kShown = 4;
  const auto words = [&](UnitSystem system) {
    std::string out;
    for (std::size_t i = 0; i < std::min(kShown, si.size()); ++i)
      out += fmt::format("{}{}", i > 0 ? ", " : "", format_quantity(si[i], quantity, system));
    return si.size() > kShown ? fmt::format("{} … ({} values)", out, si.size()) : out;
  };
  return {0, si, std::string(info(quantity).key), words(UnitSystem::si), words(UnitSystem::us)};
}

Sentence sentence(const Text& text) { return {render(text, UnitSystem::si), render(text, UnitSystem::us)}; }

std::vector<Sentence> sentences(const std::vector<Text>& texts) {
  std::vector<Sentence> out;
  out.reserve(texts.size());
  for (const Text& text : texts) out.push_back(sentence(text));
  return out;
}

std::optional<Sentence> if_any(const Text& text) {
  return text.empty() ? std::nullopt : std::optional<Sentence>(sentence(text));
}

}  // namespace lobewise::result

namespace lobewise::model {

using namespace result;  // NOLINT(google-build-using-namespace): the records that are described here

template <>
const RecordType& describe<Amount>() {
  static const RecordType type{
      "amount",
      "",
      "A figure, in SI and as it is written in both systems of units",
      {out<&Amount::value>("value", "SI"), out_if_any<&Amount::list>("value", "SI; a list of values under one symbol"),
       out<&Amount::quantity>("quantity", "what kind of figure it is; `units` lists them"),
       out<&Amount::si>("si", "with its unit, in the units of the SI"),
       out<&Amount::us>("us", "with its unit, in US units")}};
  return type;
}

template <>
const RecordType& describe<Sentence>() {
  static const RecordType type{
      "sentence",
      "",
      "Words with figures in them",
      {out<&Sentence::si>("si", "figures in the units of the SI"), out<&Sentence::us>("us", "figures in US units")}};
  return type;
}

}  // namespace lobewise::model
