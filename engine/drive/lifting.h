#pragma once
// What hangs on the slings when a unit is put in place.

#include <optional>
#include <string>

#include "engine/base/working.h"
#include "engine/drive/drive.h"

namespace lobewise::drive {

/// Place of the common centre of two bodies on one axis: x = (m_1 x_1 + m_2 x_2)/(m_1 + m_2). Derived.
template <class X>
[[nodiscard]] X common_centre(const X& m_1, const X& x_1, const X& m_2, const X& x_2) {
  return (m_1 * x_1 + m_2 * x_2) / (m_1 + m_2);
}

struct Lifted {
  Coefficient mass;              ///< of the reducer with its motor [kg]; the motor's is an estimate
  std::optional<double> centre;  ///< from the shoulder of the output shaft towards the motor [m]; nothing without motor
  Working working;
};

/// Reducer and motor as two bodies with their centres in the middle of their lengths. Common practice, no source.
[[nodiscard]] Lifted lifted(const Drive& drive);

/// How it is lifted, for a sling man; both unit systems stand in it.
[[nodiscard]] std::string lifting_words(const Lifted& lifted);

}  // namespace lobewise::drive
