#include "apps/store/migrations.h"

#include <fmt/format.h>

namespace lobewise::store {
namespace {

/// One list of statements for each format; never edited after a release, only added to.
const std::vector<std::vector<const char*>>& migrations() {
  static const std::vector<std::vector<const char*>> kMigrations{
      {
          "CREATE TABLE meta (name TEXT PRIMARY KEY, value TEXT NOT NULL{end}",
          "CREATE TABLE counter (name TEXT PRIMARY KEY, value {int} NOT NULL{end}",
          "INSERT INTO counter (name, value) VALUES ('enquiry', 0)",
          // Inputs, ranges, results and documents, each once: named by the SHA-256 of what was kept.
          "CREATE TABLE content (sha256 TEXT PRIMARY KEY, size {int} NOT NULL, packed {int} NOT NULL, "
          "bytes {bytes} NOT NULL{end}",
          "CREATE TABLE enquiry (id TEXT PRIMARY KEY, number {int} NOT NULL UNIQUE, version {int} NOT NULL, "
          "revisions {int} NOT NULL, title TEXT NOT NULL, customer TEXT NOT NULL, owner TEXT NOT NULL, "
          "state TEXT NOT NULL, follow_up TEXT NOT NULL, created TEXT NOT NULL, changed TEXT NOT NULL, "
          "changed_by TEXT NOT NULL, search TEXT NOT NULL{end}",
          "CREATE TABLE revision (enquiry TEXT NOT NULL REFERENCES enquiry (id), revision {int} NOT NULL, "
          "saved TEXT NOT NULL, saved_by TEXT NOT NULL, note TEXT NOT NULL, engine TEXT NOT NULL, "
          "input_hash TEXT NOT NULL REFERENCES content (sha256), range_hash TEXT NOT NULL REFERENCES content (sha256), "
          "result_hash TEXT NOT NULL REFERENCES content (sha256), PRIMARY KEY (enquiry, revision){end}",
          "CREATE TABLE step (enquiry TEXT NOT NULL REFERENCES enquiry (id), step {int} NOT NULL, at TEXT NOT NULL, "
          "person TEXT NOT NULL, state TEXT NOT NULL, follow_up TEXT NOT NULL, note TEXT NOT NULL, "
          "PRIMARY KEY (enquiry, step){end}",
          "CREATE TABLE document (enquiry TEXT NOT NULL, revision {int} NOT NULL, name TEXT NOT NULL, "
          "type TEXT NOT NULL, request TEXT NOT NULL, sha256 TEXT NOT NULL REFERENCES content (sha256), "
          "saved TEXT NOT NULL, saved_by TEXT NOT NULL, PRIMARY KEY (enquiry, revision, name), "
          "FOREIGN KEY (enquiry, revision) REFERENCES revision (enquiry, revision){end}",
          "CREATE INDEX enquiry_follow_up ON enquiry (follow_up)",
          "CREATE INDEX enquiry_changed ON enquiry (changed)",
      },
      {
          "CREATE TABLE person (name TEXT PRIMARY KEY, role TEXT NOT NULL, active {int} NOT NULL, "
          "password TEXT NOT NULL, created TEXT NOT NULL{end}",
          "CREATE TABLE session (token TEXT PRIMARY KEY, person TEXT NOT NULL REFERENCES person (name), "
          "csrf TEXT NOT NULL, expires {int} NOT NULL{end}",
          "CREATE TABLE attempt (id TEXT PRIMARY KEY, subject TEXT NOT NULL, at {int} NOT NULL{end}",
          "CREATE INDEX attempt_subject ON attempt (subject, at)",
          "CREATE TABLE audit (id TEXT PRIMARY KEY, at TEXT NOT NULL, person TEXT NOT NULL, action TEXT NOT NULL, "
          "subject TEXT NOT NULL, detail TEXT NOT NULL{end}",
          "CREATE INDEX audit_at ON audit (at)",
      },
  };
  return kMigrations;
}

}  // namespace

const std::vector<Table>& tables() {
  static const std::vector<Table> kTables{
      {"counter", {"name"}, {"name", "value"}},
      {"content", {"sha256"}, {"sha256", "size", "packed", "bytes"}},
      {"enquiry",
       {"id"},
       {"id", "number", "version", "revisions", "title", "customer", "owner", "state", "follow_up", "created",
        "changed", "changed_by", "search"}},
      {"revision",
       {"enquiry", "revision"},
       {"enquiry", "revision", "saved", "saved_by", "note", "engine", "input_hash", "range_hash", "result_hash"}},
      {"step", {"enquiry", "step"}, {"enquiry", "step", "at", "person", "state", "follow_up", "note"}},
      {"document",
       {"enquiry", "revision", "name"},
       {"enquiry", "revision", "name", "type", "request", "sha256", "saved", "saved_by"}},
      {"person", {"name"}, {"name", "role", "active", "password", "created"}},
      {"audit", {"id"}, {"id", "at", "person", "action", "subject", "detail"}},
  };
  return kTables;
}

std::int64_t format_of(Connection& connection) {
  if (!connection.has_store()) return 0;
  const std::vector<Row> rows = connection.run("SELECT value FROM meta WHERE name = 'format'");
  const std::string written = rows.empty() ? "" : text(rows[0].at(0));
  if (written.empty() || written.size() > 9 || written.find_first_not_of("0123456789") != std::string::npos)
    throw Problem{Trouble::damaged,
                  "The store does not say its format; it is damaged. Put the last backup back: "
                  "lobewise store restore BACKUP."};
  const std::int64_t format = std::stoll(written);
  if (format > kFormat)
    throw Problem{Trouble::newer,
                  fmt::format("This store was written by a newer Lobewise (format {}; this one knows up to "
                              "{}). Nothing was touched. Use the newer Lobewise.",
                              format, kFormat)};
  return format;
}

void migrate(Connection& connection, std::int64_t format) {
  Transaction transaction(connection, Access::alone);
  // Read again inside: another program may have done it since.
  const std::int64_t from = format_of(connection);
  for (std::int64_t next = from; next < format; ++next)
    for (const char* statement : migrations()[static_cast<std::size_t>(next)])
      connection.run(connection.words(statement));
  if (from < format) {
    if (from == 0) connection.sign();
    connection.run("INSERT INTO meta (name, value) VALUES ('format', $1) ON CONFLICT (name) DO UPDATE SET value = $1",
                   {std::to_string(format)});
  }
  transaction.commit();
}

}  // namespace lobewise::store
