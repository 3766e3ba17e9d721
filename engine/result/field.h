#pragma once
// How a result is described: once, with key and meaning. Output, typed reading, schema and the page's types come from
// that description.
//
//   template <> const RecordType& describe<result::Check>() {
//     static const RecordType type{"check", "", "A figure against its limit", {
//       out<&Check::name>("name", "what is compared"),
//     }};
//     return type;
//   }
//
// A std::optional member is left out when it is absent; every other member is always there, an empty list too. Fields
// that share a key are alternatives of another kind: the last one that is there is written.

#include "engine/model/describe.h"

namespace lobewise::result {

/// @param quantity  of a bare number; it is SI
template <auto Member>
model::Field out(std::string_view key, std::string_view meaning, Quantity quantity = Quantity::number) {
  model::Field field = model::field<Member>(key, "", meaning, quantity);
  using Type = typename model::detail::MemberOf<decltype(Member)>::Type;
  if constexpr (!model::detail::Unwrap<Type>::optional) {
    field.required = true;
    field.present = [](const void*) { return true; };
  }
  return field;
}

/// Left out when the text or list is empty.
template <auto Member>
model::Field out_if_any(std::string_view key, std::string_view meaning, Quantity quantity = Quantity::number) {
  return model::field<Member>(key, "", meaning, quantity).with_default();
}

/// The text that stands where a field of the same key has nothing.
template <auto Member>
model::Field or_text(std::string_view key, std::string_view meaning) {
  model::Field field = out_if_any<Member>(key, meaning);
  field.required = true;
  return field;
}

/// Null instead of being left out.
template <auto Member>
model::Field out_or_null(std::string_view key, std::string_view meaning) {
  model::Field field = out<Member>(key, meaning);
  field.required = true;
  return field;
}

/// Word of an enum in results, and what a person reads in its place.
template <class E>
[[nodiscard]] std::string word(E value) {
  return std::string(model::choices_of<E>()[static_cast<std::size_t>(value)].key);
}
template <class E>
[[nodiscard]] std::string label(E value) {
  return std::string(model::choices_of<E>()[static_cast<std::size_t>(value)].label);
}

}  // namespace lobewise::result
