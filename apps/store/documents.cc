// Documents kept with a revision.

#include <fmt/format.h>

#include "apps/store/content.h"
#include "apps/store/draft_check.h"
#include "apps/store/enquiry_rows.h"
#include "apps/store/transact.h"
#include "apps/store/words.h"

namespace lobewise::store {
namespace {

constexpr const char* kInfo =
    "SELECT revision, name, type, request, d.sha256, saved, saved_by, size FROM document d "
    "JOIN content c ON c.sha256 = d.sha256 WHERE enquiry = $1";

DocumentInfo read_info(const Row& row) {
  return {integer(row[0]), text(row[1]), text(row[2]), text(row[3]),
          text(row[4]),    text(row[5]), text(row[6]), integer(row[7])};
}

}  // namespace

Outcome<DocumentInfo> Store::attach(const Actor& by, std::int64_t number, std::int64_t revision,
                                    const Document& document) {
  return in(Access::write, [&](Connection& connection) {
    require_role(by, Role::engineer);
    require_document(document.name, document.type);
    require_text(document.request, kMostInput, "A document's request");
    if (document.bytes.size() > kMostDocument)
      throw Problem{Trouble::input, fmt::format("A document has at most {} MiB.", kMostDocument >> 20U)};
    const Head head = require_head(connection, number);
    const std::int64_t wanted = revision == 0 ? head.revisions : revision;
    if (wanted < 1 || wanted > head.revisions)
      throw Problem{Trouble::not_found, fmt::format("Enquiry {} has no revision {}.", number, wanted)};
    const std::string hash = keep(connection, document.bytes), who = line_of(by.name, kMostName);
    connection.run(
        "INSERT INTO document (enquiry, revision, name, type, request, sha256, saved, saved_by) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8) ON CONFLICT (enquiry, revision, name) DO NOTHING",
        {head.id, wanted, document.name, document.type, document.request, hash, time(), who});
    DocumentInfo kept = read_info(
        connection.run(std::string(kInfo) + " AND revision = $2 AND name = $3", {head.id, wanted, document.name})
            .at(0));
    if (kept.sha256 != hash)
      throw Problem{
          Trouble::conflict,
          fmt::format("Revision {} of enquiry {} has another '{}' already, saved by {} at {}. It stays as it is: "
                      "save a new revision, or take another name.",
                      wanted, number, document.name, kept.saved_by, kept.saved)};
    note(connection, who, "attach", fmt::format("enquiry {} revision {}", number, wanted), document.name);
    return kept;
  });
}

Outcome<std::vector<DocumentInfo>> Store::documents(std::int64_t number) {
  return in(Access::read, [&](Connection& connection) {
    const Head head = require_head(connection, number);
    std::vector<DocumentInfo> list;
    for (const Row& row : connection.run(std::string(kInfo) + " ORDER BY revision, name", {head.id}))
      list.push_back(read_info(row));
    return list;
  });
}

Outcome<Document> Store::document(std::int64_t number, std::int64_t revision, const std::string& name) {
  return in(Access::read, [&](Connection& connection) {
    const Head head = require_head(connection, number);
    const std::int64_t wanted = revision == 0 ? head.revisions : revision;
    if (!sound_text(name)) throw Problem{Trouble::input, "A document's name must be UTF-8 text without NUL."};
    const std::vector<Row> rows =
        connection.run(std::string(kInfo) + " AND revision = $2 AND name = $3", {head.id, wanted, name});
    if (rows.empty())
      throw Problem{Trouble::not_found, fmt::format("Revision {} of enquiry {} has no document '{}'.", wanted, number,
                                                    line_of(name, kMostName))};
    const DocumentInfo info = read_info(rows[0]);
    return Document{info.name, info.type, info.request, fetch(connection, info.sha256)};
  });
}

}  // namespace lobewise::store
