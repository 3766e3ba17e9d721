#include "engine/api/currency.h"

#include <fmt/format.h>

namespace lobewise::api {

Result<std::optional<range::Range>> in_currency_of(const enquiry::Requirement& requirement, const range::Range& range) {
  if (!requirement.economics) return std::optional<range::Range>();
  const enquiry::Economics& money = *requirement.economics;
  const bool two = !money.currency.empty() && money.currency != range.currency;
  if (!two) {
    if (!money.exchange_rate || *money.exchange_rate == 1) return std::optional<range::Range>();
    return input_error(
        "economics.exchange_rate", format_number(*money.exchange_rate, 6),
        money.currency.empty()
            ? fmt::format("a rate needs the currency it leads to: say economics.currency; the range counts "
                          "in {}",
                          range.currency)
            : fmt::format("economics.currency and the range both count in {}: there is nothing to convert",
                          range.currency));
  }
  if (!money.exchange_rate)
    return input_error(
        "economics.currency", money.currency,
        fmt::format("the range counts in {}: say economics.exchange_rate, what 1 {} costs in {}, or leave "
                    "the currency out",
                    range.currency, range.currency, money.currency));
  range::Range converted = range;
  converted.currency = money.currency;
  for (range::Frame& frame : converted.frames)
    for (range::Stage& stage : frame.stages) stage.price *= *money.exchange_rate;
  for (range::TwoStage& pair : converted.two_stage) pair.price *= *money.exchange_rate;
  return std::optional<range::Range>(std::move(converted));
}

}  // namespace lobewise::api
