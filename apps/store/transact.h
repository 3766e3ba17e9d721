#pragma once
// How every function of the store runs. Included by its .cc files only.

#include "apps/store/store.h"

namespace lobewise::store {

/// Thrown by a connection when its database asks to begin again: two changes crossed.
struct Again {
  Problem problem;  ///< what it is if it goes on
};

template <class Action>
auto Store::in(Access access, Action action) -> Outcome<decltype(action(std::declval<Connection&>()))> {
  const std::lock_guard lock(*mutex_);
  return guarded([&] {
    constexpr int kTries = 5;
    for (int left = kTries;; --left) {
      try {
        Transaction transaction(*connection_, access);
        auto value = action(*connection_);
        transaction.commit();
        return value;
      } catch (const Again& again) {
        if (left <= 1) throw again.problem;
      }
    }
  });
}

/// Throws `denied` for somebody who may not.
inline void require_role(const Actor& by, Role least) {
  if (static_cast<int>(by.role) < static_cast<int>(least))
    throw Problem{Trouble::denied,
                  by.name + " may look at this store, but this needs the role `" + name_of(least) + "`."};
}

}  // namespace lobewise::store
