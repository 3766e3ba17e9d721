#pragma once
// What is offered, as fields that documents need (docs/api.md, `offer`).

#include "engine/api/json_io.h"
#include "engine/drive/drive.h"

namespace lobewise::api {

/// {mounting, orientation, input_speed, output_speed, motor?, lubricant, mass, price, currency, range}
[[nodiscard]] Json offer_json(const drive::Drive& drive, const range::Range& range);

}  // namespace lobewise::api
