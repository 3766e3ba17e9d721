#pragma once
// What an office keeps: enquiries, each saved state of them with everything its document is made from, the documents
// themselves, and who did what. See docs/store.md.

#include <functional>
#include <memory>
#include <mutex>

#include "apps/store/connection.h"
#include "apps/store/people.h"
#include "apps/store/records.h"

namespace lobewise::store {

/// Milliseconds since 1970, UTC.
using Clock = std::function<std::int64_t()>;
[[nodiscard]] std::int64_t now();

/// One store, open. Functions may be called from several threads; they take turns. Every function that changes
/// something does it whole or not at all, and a change that was answered with a value is on the disk.
/// Problems of all functions beside those named: busy, full, damaged, access, in_doubt, internal.
class Store {
 public:
  /// Makes a store where there is none. Problems: input (there is one already), foreign.
  [[nodiscard]] static Outcome<Store> create(const Place& place, Clock clock = now);
  /// Opens a store; one of an older format is brought up to date, a file after a copy of it was put beside it.
  /// Problems: foreign, newer.
  [[nodiscard]] static Outcome<Store> open(const Place& place, Clock clock = now);

  [[nodiscard]] const Place& place() const { return place_; }

  // Enquiries: enquiries.cc
  [[nodiscard]] Outcome<Page> list(const Query& query);
  [[nodiscard]] Outcome<Head> head(std::int64_t number);
  /// @returns oldest first
  [[nodiscard]] Outcome<std::vector<RevisionInfo>> revisions(std::int64_t number);
  [[nodiscard]] Outcome<std::vector<Step>> history(std::int64_t number);
  /// @param revision  0: the latest
  [[nodiscard]] Outcome<Revision> revision(std::int64_t number, std::int64_t revision);
  /// A new enquiry with its first revision. Problems: input, denied.
  [[nodiscard]] Outcome<Head> save(const Actor& by, const Draft& draft);
  /// The next revision. @param version  of the head the change was made from; problems also: not_found, conflict
  [[nodiscard]] Outcome<Head> revise(const Actor& by, std::int64_t number, std::int64_t version, const Draft& draft);
  /// The next step in the trade's words. Problems: input (date), denied, not_found, conflict.
  [[nodiscard]] Outcome<Head> step(const Actor& by, std::int64_t number, std::int64_t version, const NewStep& step);

  // Documents: documents.cc
  /// Keeps a document with a revision. The same document again is no change; another one of that name is a conflict:
  /// what a customer holds never changes behind its name.
  [[nodiscard]] Outcome<DocumentInfo> attach(const Actor& by, std::int64_t number, std::int64_t revision,
                                             const Document& document);
  [[nodiscard]] Outcome<std::vector<DocumentInfo>> documents(std::int64_t number);
  [[nodiscard]] Outcome<Document> document(std::int64_t number, std::int64_t revision, const std::string& name);

  // Whole stores: copy.cc, export.cc, check.cc
  /// Everything as it is at one moment, into a new file that is a store itself. Problems: input (there is a file).
  [[nodiscard]] Outcome<Counts> backup(const std::string& file);
  /// Replaces everything by the content of a backup, in one change; what was there is first backed up to
  /// `before` (a new file). Problems: those of `open` for the backup.
  [[nodiscard]] Outcome<Counts> restore(const Actor& by, const std::string& file, const std::string& before);
  /// Everything but passwords, as a zip of JSON and documents. Problems: input (there is a file).
  [[nodiscard]] Outcome<Counts> export_to(const std::string& file);
  /// Adds the enquiries of an export. Known ones gain what they lack; where both sides went on differently the
  /// other side's becomes an enquiry of its own. Nothing is replaced. Problems: input (no export, damaged, too large).
  [[nodiscard]] Outcome<Counts> import_from(const Actor& by, const std::string& file);
  /// What is wrong inside, a line each; empty when every byte kept is as it was saved.
  [[nodiscard]] Outcome<std::vector<std::string>> check();

  // People: people.cc
  /// True for a team's store, and for a file as soon as it knows a person.
  [[nodiscard]] Outcome<bool> needs_sign_in();
  [[nodiscard]] Outcome<std::vector<Person>> people();
  /// Adds a person or changes role, password (when not empty) or whether they may sign in. Ends their sessions.
  /// Problems: input (name, password too short).
  [[nodiscard]] Outcome<Person> set_person(const Actor& by, const Person& person, const std::string& password);
  /// Problems: denied (without saying whether the name or the password was wrong), wait.
  [[nodiscard]] Outcome<SignedIn> sign_in(const std::string& name, const std::string& password,
                                          const std::string& address);
  /// The person behind a session's token. Problems: denied.
  [[nodiscard]] Outcome<SignedIn> session(const std::string& token);
  [[nodiscard]] Outcome<Done> sign_out(const std::string& token);
  /// Who did what, newest first.
  [[nodiscard]] Outcome<std::vector<AuditLine>> audit(std::int64_t most);

 private:
  Store(Place place, Clock clock, std::unique_ptr<Connection> connection);
  /// Runs `action(connection)` in one transaction, once more when the database asks for it.
  template <class Action>
  auto in(Access access, Action action) -> Outcome<decltype(action(std::declval<Connection&>()))>;
  [[nodiscard]] std::string time() const;
  void note(Connection& connection, const std::string& person, const std::string& action, const std::string& subject,
            const std::string& detail);

  Place place_;
  Clock clock_;
  std::unique_ptr<std::mutex> mutex_;
  std::unique_ptr<Connection> connection_;
};

}  // namespace lobewise::store
