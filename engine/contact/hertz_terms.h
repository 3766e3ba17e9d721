#pragma once
// Hertz line contact over its scalar (base/formula/term.h), for workings; see hertz.h.

#include "engine/base/formula/term.h"

namespace lobewise::contact {

/// Peak pressure sqrt(F E*/(pi b rho)) of a contact of length b [Pa].
template <class X>
[[nodiscard]] X line_pressure(const X& force, const X& modulus, const X& length, const X& radius) {
  using namespace formula;
  return sqrt(force * modulus / (pi<X>() * length * radius));
}

}  // namespace lobewise::contact
