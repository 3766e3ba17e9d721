#pragma once
// What can go wrong with a store, as a value. Inside the library a `Problem` unwinds a transaction as an exception; it
// never leaves the library as one.

#include <exception>
#include <string>
#include <utility>
#include <variant>

namespace lobewise::store {

enum class Trouble {
  input,      ///< what was asked for cannot be
  not_found,  ///< no such enquiry, revision, document, person
  conflict,   ///< somebody else changed it in between; nothing was written
  denied,     ///< not signed in, or the role does not allow it
  wait,       ///< too many attempts; later
  busy,       ///< another program holds the store for longer than we wait
  full,       ///< no room left; nothing was written
  damaged,    ///< the file contradicts itself
  newer,      ///< written by a newer Lobewise; nothing was touched
  foreign,    ///< not a store at all
  access,     ///< cannot be opened, read or written
  in_doubt,   ///< the connection broke while a change was being confirmed: look before you save again
  internal,   ///< a defect of ours
};

[[nodiscard]] constexpr const char* name_of(Trouble trouble) {
  constexpr const char* kNames[] = {"input",   "not_found", "conflict", "denied", "wait",     "busy",    "full",
                                    "damaged", "newer",     "foreign",  "access", "in_doubt", "internal"};
  return kNames[static_cast<int>(trouble)];
}

/// One thing that is wrong, in sentences a person can act on.
struct Problem {
  Trouble trouble = Trouble::internal;
  std::string message;
};

struct Done {};

/// A value, or the problem that prevented it.
template <class T>
class [[nodiscard]] Outcome {
 public:
  Outcome(T value) : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT(google-explicit-constructor)
  Outcome(Problem problem)
      : state_(std::in_place_index<1>, std::move(problem)) {}  // NOLINT(google-explicit-constructor)

  [[nodiscard]] bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }
  [[nodiscard]] const Problem& problem() const { return std::get<1>(state_); }
  const T& operator*() const& { return std::get<0>(state_); }
  T& operator*() & { return std::get<0>(state_); }
  T&& operator*() && { return std::get<0>(std::move(state_)); }
  const T* operator->() const { return &std::get<0>(state_); }
  T* operator->() { return &std::get<0>(state_); }

 private:
  std::variant<T, Problem> state_;
};

/// Runs `action` and gives its value, or the Problem it threw.
template <class Action>
auto guarded(Action action) -> Outcome<decltype(action())> {
  try {
    return action();
  } catch (const Problem& problem) {
    return problem;
  } catch (const std::exception& problem) {
    return Problem{Trouble::internal, std::string("internal error: ") + problem.what()};
  }
}

}  // namespace lobewise::store
