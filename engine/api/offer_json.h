#pragma once
// What is offered, as fields that documents need (docs/api.md, `offer`).

#include "engine/api/json_io.h"
#include "engine/drive/drive.h"

namespace lobewise::api {

/// A price, or in its place that nothing is offered.
[[nodiscard]] Json price_json(double price, const enquiry::Requirement& requirement);
/// {mounting, orientation, input_speed, output_speed, motor?, lubricant, mass, lifting, price, offered, currency,
/// range}
[[nodiscard]] Json offer_json(const drive::Drive& drive, const range::Range& range);

}  // namespace lobewise::api
