#pragma once
#include "engine/model/describe.h"
#include "engine/range/range.h"

namespace lobewise::model {

template <>
const RecordType& describe<range::Range>();
template <>
const RecordType& describe<range::Frame>();
template <>
const RecordType& describe<mechanism::StageGeometry>();

}  // namespace lobewise::model
