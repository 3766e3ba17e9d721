// Who may do what: passwords, sessions, attempts.

#include <fmt/format.h>
#include <sodium.h>

#include <array>

#include "apps/store/content.h"
#include "apps/store/transact.h"
#include "apps/store/words.h"

namespace lobewise::store {
namespace {

Role role_of(const std::string& name) {
  for (const Role role : kRoles)
    if (name == name_of(role)) return role;
  return Role::reader;
}

/// argon2id (RFC 9106) with libsodium's interactive limits: 64 MiB, two passes.
std::string hash_of(const std::string& password) {
  std::array<char, crypto_pwhash_STRBYTES> out{};
  if (crypto_pwhash_str_alg(out.data(), password.data(), password.size(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                            crypto_pwhash_MEMLIMIT_INTERACTIVE, crypto_pwhash_ALG_ARGON2ID13) != 0)
    throw Problem{Trouble::internal, "internal error: no memory for hashing a password"};
  return out.data();
}

/// One at a time, so that many attempts do not take the memory of the machine.
bool fits(const std::string& hash, const std::string& password) {
  static std::mutex one;
  const std::lock_guard lock(one);
  return crypto_pwhash_str_verify(hash.c_str(), password.data(), password.size()) == 0;
}

SignedIn read_session(const Row& row) { return {"", text(row[0]), {text(row[1]), role_of(text(row[2])), true}}; }

}  // namespace

Outcome<bool> Store::needs_sign_in() {
  if (place_.team) return true;
  return in(Access::read, [&](Connection& connection) {
    return !connection.run("SELECT 1 FROM person WHERE active = 1 LIMIT 1").empty();
  });
}

Outcome<std::vector<Person>> Store::people() {
  return in(Access::read, [&](Connection& connection) {
    std::vector<Person> list;
    for (const Row& row : connection.run("SELECT name, role, active FROM person ORDER BY name"))
      list.push_back({text(row[0]), role_of(text(row[1])), integer(row[2]) != 0});
    return list;
  });
}

Outcome<Person> Store::set_person(const Actor& by, const Person& person, const std::string& password) {
  return in(Access::write, [&](Connection& connection) {
    require_role(by, Role::keeper);
    require_text(person.name, 100, "A name");
    if (person.name.empty() || line_of(person.name, 100) != person.name || person.name.front() == ' ' ||
        person.name.back() == ' ')
      throw Problem{Trouble::input, "A name is needed, without blanks at its ends."};
    const bool known = !connection.run("SELECT 1 FROM person WHERE name = $1", {person.name}).empty();
    if (!known || !password.empty()) {
      require_text(password, 1024, "A password");
      if (password.size() < kLeastPassword)
        throw Problem{Trouble::input, fmt::format("A password has at least {} characters.", kLeastPassword)};
    }
    const std::string hash = password.empty() ? "" : hash_of(password);
    const std::string role = name_of(person.role);
    if (known)
      connection.run(
          "UPDATE person SET role = $1, active = $2, password = CASE WHEN $3 = '' THEN password ELSE $3 END "
          "WHERE name = $4",
          {role, std::int64_t{person.active}, hash, person.name});
    else
      connection.run("INSERT INTO person (name, role, active, password, created) VALUES ($1, $2, $3, $4, $5)",
                     {person.name, role, std::int64_t{person.active}, hash, time()});
    connection.run("DELETE FROM session WHERE person = $1", {person.name});
    note(connection, by.name, known ? "change person" : "add person", person.name,
         fmt::format("{}, {}{}", role, person.active ? "active" : "not active", hash.empty() ? "" : ", new password"));
    return person;
  });
}

Outcome<SignedIn> Store::sign_in(const std::string& name, const std::string& password, const std::string& address) {
  return guarded([&] {
    const std::string subjects[] = {"name " + line_of(fold(name), 100), "from " + line_of(address, 100)};
    const Problem denied{Trouble::denied, "Name or password is wrong."};
    struct Known {
      std::string hash;
      Person person;
      std::string attempt;
    };
    // The attempt is counted before the password is looked at: many at once cannot slip through together.
    const Outcome<Known> known = in(Access::alone, [&](Connection& connection) {
      const std::int64_t at = clock_();
      connection.run("DELETE FROM attempt WHERE at < $1", {at - kAttemptWindow});
      connection.run("DELETE FROM session WHERE expires < $1", {at});
      for (const std::string& subject : subjects) {
        const std::vector<Row> rows =
            connection.run("SELECT count(*), coalesce(min(at), 0) FROM attempt WHERE subject = $1", {subject});
        const std::int64_t most = subject == subjects[0] ? kAttempts : kAttemptsOfAddress;
        if (integer(rows[0][0]) >= most)
          throw Problem{Trouble::wait, fmt::format("Too many attempts. Try again in {} minutes.",
                                                   (integer(rows[0][1]) + kAttemptWindow - at) / 60'000 + 1)};
      }
      Known out;
      out.attempt = random_id();
      for (std::size_t i = 0; i < 2; ++i)
        connection.run("INSERT INTO attempt (id, subject, at) VALUES ($1, $2, $3)",
                       {out.attempt + (i == 0 ? "n" : "a"), subjects[i], at});
      if (!sound_text(name)) return out;
      const std::vector<Row> rows =
          connection.run("SELECT password, name, role FROM person WHERE name = $1 AND active = 1", {name});
      if (!rows.empty()) {
        out.hash = text(rows[0][0]);
        out.person = {text(rows[0][1]), role_of(text(rows[0][2])), true};
      }
      return out;
    });
    if (!known) throw known.problem();
    // An unknown name takes as long as a wrong password.
    static const std::string kNobody = hash_of(random_id());
    const bool right = fits(known->hash.empty() ? kNobody : known->hash, password.substr(0, 1024));
    const Outcome<SignedIn> signed_in = in(Access::write, [&](Connection& connection) {
      SignedIn out;
      if (!right || known->hash.empty()) {
        note(connection, line_of(name, 100), "refused", "sign-in", "from " + address);
        return out;
      }
      out = {random_id() + random_id(), random_id() + random_id(), known->person};
      connection.run("DELETE FROM attempt WHERE id = $1 OR id = $2", {known->attempt + "n", known->attempt + "a"});
      connection.run("INSERT INTO session (token, person, csrf, expires) VALUES ($1, $2, $3, $4)",
                     {sha256(out.token), out.person.name, out.csrf, clock_() + kSessionLife});
      note(connection, out.person.name, "sign in", "", "from " + address);
      return out;
    });
    if (!signed_in) throw signed_in.problem();
    if (signed_in->token.empty()) throw denied;
    return *signed_in;
  });
}

Outcome<SignedIn> Store::session(const std::string& token) {
  return in(Access::read, [&](Connection& connection) {
    const std::vector<Row> rows = connection.run(
        "SELECT s.csrf, p.name, p.role FROM session s JOIN person p ON p.name = s.person "
        "WHERE s.token = $1 AND s.expires > $2 AND p.active = 1",
        {sha256(token), clock_()});
    if (rows.empty()) throw Problem{Trouble::denied, "Sign in first."};
    return read_session(rows[0]);
  });
}

Outcome<Done> Store::sign_out(const std::string& token) {
  return in(Access::write, [&](Connection& connection) {
    for (const Row& row : connection.run("DELETE FROM session WHERE token = $1 RETURNING person", {sha256(token)}))
      note(connection, text(row[0]), "sign out", "", "");
    return Done{};
  });
}

}  // namespace lobewise::store
