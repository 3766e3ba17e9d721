#pragma once
// A small store to put harm to.

#include "apps/store/store.h"

namespace lobewise::fuzz {

/// A fresh copy of it in the work folder, always the same bytes.
[[nodiscard]] store::Place small_store();
/// Those bytes.
[[nodiscard]] const std::string& small_store_bytes();
/// Replaces the copy.
[[nodiscard]] store::Place store_of(std::string_view bytes);

/// What no input may lead to.
template <class T>
void require_known(const store::Outcome<T>& outcome);
void require_known(const store::Problem& problem);

template <class T>
void require_known(const store::Outcome<T>& outcome) {
  if (!outcome) require_known(outcome.problem());
}

}  // namespace lobewise::fuzz
