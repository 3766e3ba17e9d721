#pragma once
// Who works with a store.

#include <cstdint>
#include <string>

namespace lobewise::store {

enum class Role {
  reader,    ///< sees everything, changes nothing
  engineer,  ///< works with enquiries
  keeper,    ///< also people, restore and the audit log
};
[[nodiscard]] constexpr const char* name_of(Role role) {
  constexpr const char* kNames[] = {"reader", "engineer", "keeper"};
  return kNames[static_cast<int>(role)];
}

inline constexpr Role kRoles[] = {Role::reader, Role::engineer, Role::keeper};

/// Who asks for a change.
struct Actor {
  std::string name;
  Role role = Role::engineer;
};

struct Person {
  std::string name;
  Role role = Role::reader;
  bool active = true;
};

struct SignedIn {
  std::string token;  ///< the session's; only its hash is kept. Empty when it was looked up.
  std::string csrf;   ///< what a request that changes something must carry beside the cookie
  Person person;
};

struct AuditLine {
  std::string at, person, action, subject, detail;
};

inline constexpr std::size_t kLeastPassword = 12;  ///< characters; NIST SP 800-63B asks for at least 8 (from memory)
inline constexpr std::int64_t kSessionLife = 12 * 3600'000;  ///< a working day [ms]
inline constexpr std::int64_t kAttempts = 5;                 ///< wrong passwords for a name before a wait
inline constexpr std::int64_t kAttemptsOfAddress = 30;       ///< from one address: an office shares one
inline constexpr std::int64_t kAttemptWindow = 15 * 60'000;  ///< [ms]

}  // namespace lobewise::store
