#pragma once
// A record is described once: its fields with key, label, unit, limits and help. Reading, validation, schema, form
// hints and documentation all come from that description; no other place lists the fields of a record.
//
//   template <> const RecordType& describe<Belt>() {
//     static const RecordType type{"belt_conveyor", "Belt conveyor", "…", {
//       field<&Belt::lift>("lift", "Lift", "Height between …", Quantity::length, {0, 500}),
//     }};
//     return type;
//   }
//
// A `std::optional` member may be left out; any other member must be given unless the field is marked
// `.with_default()`.

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "engine/base/quantity.h"
#include "engine/base/span.h"

namespace lobewise::model {

struct RecordType;

/// Description of a record type; specialised beside each record.
template <class T>
const RecordType& describe();

struct Choice {
  std::string_view key;    ///< word in files
  std::string_view label;  ///< words on the screen
};

/// The words of an enum in the order of its values; specialised beside each enum.
template <class E>
const std::vector<Choice>& choices_of();

struct Limits {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
};

enum class FieldKind { quantity, span, count, text, choice, flag, record, quantity_list, text_list, record_list };

/// One field: what it is and how to reach it in a record given as `void*`.
struct Field {
  std::string_view key;
  std::string_view label;
  std::string_view help;
  FieldKind kind = FieldKind::text;
  Quantity quantity = Quantity::number;
  Limits limits;
  bool required = false;
  const std::vector<Choice>* choices = nullptr;
  const RecordType& (*record)() = nullptr;  ///< element type of record and record_list

  bool (*present)(const void* object) = nullptr;
  double (*number)(const void* object) = nullptr;  ///< quantity, count, choice index, flag
  void (*set_number)(void* object, double value) = nullptr;
  const Span& (*span)(const void* object) = nullptr;
  void (*set_span)(void* object, const Span& value) = nullptr;
  const std::string& (*text)(const void* object) = nullptr;
  void (*set_text)(void* object, std::string value) = nullptr;
  const void* (*child)(const void* object) = nullptr;  ///< record
  void* (*make_child)(void* object) = nullptr;         ///< record, lists; creates an absent one
  std::size_t (*size)(const void* object) = nullptr;   ///< lists
  const void* (*item)(const void* object, std::size_t index) = nullptr;
  void* (*append)(void* object) = nullptr;  ///< lists: address of the new last element (double, string or record)
  void (*clear)(void* object) =
      nullptr;  ///< makes an optional field absent or a list empty; null when it cannot be absent

  [[nodiscard]] Field with_default() const {
    Field copy = *this;
    copy.required = false;
    return copy;
  }
};

struct RecordType {
  std::string_view key;
  std::string_view label;
  std::string_view help;
  std::vector<Field> fields;
  bool one_of = false;  ///< exactly one of the fields is given (a choice between records)
};

namespace detail {

template <class T>
struct Unwrap {
  using type = T;
  static constexpr bool optional = false;
};
template <class T>
struct Unwrap<std::optional<T>> {
  using type = T;
  static constexpr bool optional = true;
};

template <class T>
struct Element {
  using type = void;
};
template <class T>
struct Element<std::vector<T>> {
  using type = T;
};

template <class MemberPointer>
struct MemberOf;
template <class R, class T>
struct MemberOf<T R::*> {
  using Record = R;
  using Type = T;
};

}  // namespace detail

/// Describes a member; the kind follows from its type: double, Span, int, bool, std::string, enum or record, plain, in
/// a std::optional, or (double, std::string, record) in a std::vector, which may be optional too.
template <auto Member>
Field field(std::string_view key, std::string_view label, std::string_view help, Quantity quantity = Quantity::number,
            Limits limits = {}) {
  using R = typename detail::MemberOf<decltype(Member)>::Record;
  using Wrapped = typename detail::MemberOf<decltype(Member)>::Type;
  using T = typename detail::Unwrap<Wrapped>::type;
  constexpr bool kOptional = detail::Unwrap<Wrapped>::optional;
  using Item = typename detail::Element<T>::type;
  struct At {
    static const Wrapped& get(const void* object) { return static_cast<const R*>(object)->*Member; }
    static Wrapped& get(void* object) { return static_cast<R*>(object)->*Member; }
    static const T& value(const void* object) {
      if constexpr (kOptional)
        return *get(object);
      else
        return get(object);
    }
    /// Made when it is absent.
    static T& made(void* object) {
      if constexpr (kOptional) {
        if (!get(object)) get(object) = T{};
        return *get(object);
      } else {
        return get(object);
      }
    }
  };

  Field f;
  f.key = key;
  f.label = label;
  f.help = help;
  f.quantity = quantity;
  f.limits = limits;
  f.required = !kOptional;
  f.present = [](const void* object) {
    if constexpr (kOptional)
      return At::get(object).has_value();
    else if constexpr (std::is_same_v<T, std::string> || !std::is_void_v<Item>)
      return !At::get(object).empty();
    else
      return true;
  };
  if constexpr (kOptional) f.clear = [](void* object) { At::get(object).reset(); };

  if constexpr (std::is_same_v<T, std::string>) {
    f.kind = FieldKind::text;
    f.required = false;
    f.text = [](const void* object) -> const std::string& { return At::value(object); };
    f.set_text = [](void* object, std::string value) { At::get(object) = std::move(value); };
  } else if constexpr (std::is_same_v<T, Span>) {
    f.kind = FieldKind::span;
    f.span = [](const void* object) -> const Span& { return At::value(object); };
    f.set_span = [](void* object, const Span& value) { At::get(object) = value; };
  } else if constexpr (!std::is_void_v<Item>) {
    f.required = false;
    f.size = [](const void* object) { return At::value(object).size(); };
    f.item = [](const void* object, std::size_t index) -> const void* { return &At::value(object)[index]; };
    f.append = [](void* object) -> void* {
      At::made(object).push_back(Item{});
      return &At::made(object).back();
    };
    if constexpr (!kOptional) f.clear = [](void* object) { At::get(object).clear(); };
    f.make_child = [](void* object) -> void* { return &At::made(object); };
    if constexpr (std::is_same_v<Item, double>) {
      f.kind = FieldKind::quantity_list;
    } else if constexpr (std::is_same_v<Item, std::string>) {
      f.kind = FieldKind::text_list;
    } else {
      f.kind = FieldKind::record_list;
      f.record = &describe<Item>;
    }
  } else if constexpr (std::is_same_v<T, double> || std::is_same_v<T, int> || std::is_same_v<T, bool> ||
                       std::is_enum_v<T>) {
    if constexpr (std::is_same_v<T, double>) f.kind = FieldKind::quantity;
    if constexpr (std::is_same_v<T, int>) f.kind = FieldKind::count;
    if constexpr (std::is_same_v<T, bool>) f.kind = FieldKind::flag;
    if constexpr (std::is_enum_v<T>) {
      f.kind = FieldKind::choice;
      f.choices = &choices_of<T>();
    }
    f.number = [](const void* object) { return static_cast<double>(At::value(object)); };
    f.set_number = [](void* object, double value) {
      if constexpr (std::is_enum_v<T>)
        At::get(object) = static_cast<T>(static_cast<int>(value));
      else if constexpr (std::is_same_v<T, bool>)
        At::get(object) = value != 0;
      else
        At::get(object) = static_cast<T>(value);
    };
  } else {
    f.kind = FieldKind::record;
    f.record = &describe<T>;
    f.child = [](const void* object) -> const void* {
      if constexpr (kOptional)
        return At::get(object) ? &*At::get(object) : nullptr;
      else
        return &At::get(object);
    };
    f.make_child = [](void* object) -> void* { return &At::made(object); };
  }
  return f;
}

/// The closest of some words to a mistyped one (edit distance at most a third of its length, at least 2), or empty.
[[nodiscard]] std::string_view nearest_word(std::string_view word, const std::vector<std::string_view>& words);

}  // namespace lobewise::model
