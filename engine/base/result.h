#pragma once
// Errors as values. Nothing in the engine throws for something a user wrote; every error names the field, the offending
// text and what is allowed, and a reader of a file collects all of them before it gives up.

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace lobewise {

enum class ErrorKind {
  input,     ///< something a person wrote is missing, unknown or out of range
  data,      ///< a data or range file contradicts itself
  model,     ///< outside the validity of a model (geometry that cannot exist, no equilibrium …)
  internal,  ///< a broken invariant: our fault, never the user's
};

/// One thing that is wrong, in one sentence a person can act on.
struct Error {
  ErrorKind kind = ErrorKind::input;
  std::string path;       ///< field path such as `machine.belt.speed`; empty when it concerns no single field
  std::string offending;  ///< the text or value found there
  std::string message;    ///< one clear sentence that says what is allowed
  int line = 0;           ///< line of the user's file, 0 when unknown
};

using Errors = std::vector<Error>;

/// Either a value or at least one error.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT(google-explicit-constructor)
  Result(Error error)
      : state_(std::in_place_index<1>, Errors{std::move(error)}) {}             // NOLINT(google-explicit-constructor)
  Result(Errors errors) : state_(std::in_place_index<1>, std::move(errors)) {}  // NOLINT(google-explicit-constructor)

  [[nodiscard]] bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }
  [[nodiscard]] const T& value() const& { return std::get<0>(state_); }
  [[nodiscard]] T& value() & { return std::get<0>(state_); }
  [[nodiscard]] T&& value() && { return std::get<0>(std::move(state_)); }
  [[nodiscard]] const Errors& errors() const { return std::get<1>(state_); }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

 private:
  std::variant<T, Errors> state_;
};

inline Error input_error(std::string path, std::string offending, std::string message) {
  return {ErrorKind::input, std::move(path), std::move(offending), std::move(message), 0};
}
inline Error model_error(std::string path, std::string offending, std::string message) {
  return {ErrorKind::model, std::move(path), std::move(offending), std::move(message), 0};
}

}  // namespace lobewise
