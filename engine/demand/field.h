#pragma once
// The fields of a machine, described once beside its physics: checks, assumptions with ranges, questions to the
// customer, and through engine/model/describe.h reading, schema and forms come from this one list.

#include <optional>
#include <vector>

#include "engine/base/working.h"
#include "engine/model/describe.h"

namespace lobewise::demand {

/// What a machine is, for people.
struct MachineInfo {
  const char* id;     ///< name in records
  const char* title;  ///< plain words
  const char* help;   ///< one or two sentences: what it covers and what it does not
};

/// What is taken when nobody says it. An empty source: there is no default, or it depends on other values (then the
/// physics gives it).
using Default = Coefficient;

/// One optional number of machine M.
template <class M>
struct Field {
  model::Field described;
  Default fallback;
  const char* question;  ///< what to ask the customer; empty when not worth asking
  std::optional<double> M::*member;
};

template <class M>
using Fields = std::vector<Field<M>>;

/// @param limits  allowed, SI, both included
template <auto Member>
auto number(std::string_view name, std::string_view label, std::string_view help, Quantity quantity,
            model::Limits limits, Default fallback, const char* question) {
  return Field<typename model::detail::MemberOf<decltype(Member)>::Record>{
      model::field<Member>(name, label, help, quantity, limits), fallback, question, Member};
}

/// Record description of a machine: its numbers, then `others` (choices, flags, lists).
template <class M>
model::RecordType record_type(const Fields<M>& numbers, std::initializer_list<model::Field> others = {}) {
  model::RecordType type{M::kInfo.id, M::kInfo.title, M::kInfo.help, {}, false};
  for (const Field<M>& field : numbers) type.fields.push_back(field.described);
  type.fields.insert(type.fields.end(), others.begin(), others.end());
  return type;
}

}  // namespace lobewise::demand
