// An export into a store that may know some of it already. Nothing that is here is replaced.

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <tuple>

#include "apps/store/content.h"
#include "apps/store/draft_check.h"
#include "apps/store/enquiry_rows.h"
#include "apps/store/transact.h"
#include "apps/store/words.h"
#include "apps/store/zip_file.h"
#include "engine/api/json_io.h"

namespace lobewise::store {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kMostList = 64U << 20U;

std::string member(const Json& json, const char* name, std::size_t most = kMostName) {
  const auto found = json.find(name);
  if (found == json.end() || !found->is_string())
    throw Problem{Trouble::input, fmt::format("The export is not complete: `{}` is missing.", name)};
  const std::string& value = found->get_ref<const std::string&>();
  require_text(value, most, name);
  return value;
}

std::int64_t count(const Json& json, const char* name) {
  const auto found = json.find(name);
  if (found == json.end() || !found->is_number_integer() || found->get<std::int64_t>() < 1 ||
      found->get<std::int64_t>() > 1'000'000'000)
    throw Problem{Trouble::input, fmt::format("The export is not complete: `{}` must be a whole number from 1.", name)};
  return found->get<std::int64_t>();
}

const Json& members(const Json& json, const char* name) {
  const auto found = json.find(name);
  if (found == json.end() || !found->is_array() ||
      !std::all_of(found->begin(), found->end(), [](const Json& item) { return item.is_object(); }))
    throw Problem{Trouble::input, fmt::format("The export is not complete: the list `{}` is missing.", name)};
  return *found;
}

struct Imported {
  RevisionInfo info;
  Draft draft;
};
struct ImportedDocument {
  DocumentInfo info;
  std::string bytes;
};

/// An enquiry of the export, whole and checked.
struct Enquiry {
  std::string id;
  std::int64_t number = 0;
  std::string owner, created, changed, changed_by;
  std::vector<Imported> revisions;
  std::vector<Step> steps;
  std::vector<ImportedDocument> documents;
};

std::string content_of(ZipReader& zip, const std::string& file, std::size_t most, const std::string& hash) {
  std::string bytes = zip.read(file, most);
  if (sha256(bytes) != hash)
    throw Problem{Trouble::input, fmt::format("The export is damaged: {} is not what was saved.", file)};
  return bytes;
}

Enquiry read_enquiry(const Json& json, ZipReader& zip) {
  Enquiry out;
  out.id = member(json, "id");
  if (out.id.size() != 32 || out.id.find_first_not_of("0123456789abcdef") != std::string::npos)
    throw Problem{Trouble::input, "The export is not sound: an `id` has 32 hexadecimal digits."};
  out.number = count(json, "number");
  out.owner = member(json, "owner");
  out.created = member(json, "created");
  out.changed = member(json, "changed");
  out.changed_by = member(json, "changed_by");
  for (const Json& item : members(json, "revisions")) {
    Imported revision;
    revision.info = {count(item, "revision"),         member(item, "saved"),  member(item, "saved_by"),
                     member(item, "note", kMostNote), member(item, "engine"), member(item, "range_sha256"),
                     member(item, "result_sha256")};
    if (revision.info.revision != static_cast<std::int64_t>(out.revisions.size()) + 1)
      throw Problem{Trouble::input,
                    fmt::format("The export is not complete: enquiry {} lacks a revision.", out.number)};
    revision.draft = {zip.read(member(item, "file", 1000), kMostInput),
                      content_of(zip, "content/" + revision.info.range + ".json", kMostRange, revision.info.range),
                      revision.info.engine,
                      content_of(zip, "content/" + revision.info.result + ".json", kMostResult, revision.info.result),
                      revision.info.note};
    check_draft(revision.draft);
    out.revisions.push_back(std::move(revision));
  }
  if (out.revisions.empty())
    throw Problem{Trouble::input, fmt::format("The export is not complete: enquiry {} has no revision.", out.number)};
  for (const Json& item : members(json, "steps")) {
    const std::optional<State> state = state_of(member(item, "state"));
    if (!state) throw Problem{Trouble::input, "The export is not sound: unknown state of an enquiry."};
    out.steps.push_back({member(item, "at"), member(item, "person"), *state, member(item, "follow_up"),
                         member(item, "note", kMostNote)});
    require_date(out.steps.back().follow_up);
  }
  for (const Json& item : members(json, "documents")) {
    ImportedDocument document;
    document.info = {
        count(item, "revision"), member(item, "name"),  member(item, "type"),     member(item, "request", kMostInput),
        member(item, "sha256"),  member(item, "saved"), member(item, "saved_by"), 0};
    require_document(document.info.name, document.info.type);
    if (document.info.revision > static_cast<std::int64_t>(out.revisions.size()))
      throw Problem{Trouble::input, "The export is not sound: a document without its revision."};
    document.bytes = content_of(zip, member(item, "file", 1000), kMostDocument, document.info.sha256);
    out.documents.push_back(std::move(document));
  }
  return out;
}

bool same(const RevisionInfo& a, const RevisionInfo& b) {
  return a.saved == b.saved && a.saved_by == b.saved_by && a.note == b.note && a.engine == b.engine &&
         a.range == b.range && a.result == b.result;
}

/// True when what is here and what is imported did not go on differently.
bool agrees(Connection& connection, const Enquiry& enquiry) {
  for (const Row& row : connection.run(
           "SELECT revision, saved, saved_by, note, engine, range_hash, result_hash, input_hash FROM revision "
           "WHERE enquiry = $1 ORDER BY revision",
           {enquiry.id})) {
    const auto at = static_cast<std::size_t>(integer(row[0]) - 1);
    if (at >= enquiry.revisions.size()) break;
    const Imported& other = enquiry.revisions[at];
    const RevisionInfo here{integer(row[0]), text(row[1]), text(row[2]), text(row[3]),
                            text(row[4]),    text(row[5]), text(row[6])};
    if (!same(here, other.info) || text(row[7]) != sha256(other.draft.input)) return false;
  }
  for (const ImportedDocument& document : enquiry.documents)
    for (const Row& row :
         connection.run("SELECT sha256 FROM document WHERE enquiry = $1 AND revision = $2 AND name = $3",
                        {enquiry.id, document.info.revision, document.info.name}))
      if (text(row[0]) != document.info.sha256) return false;
  return true;
}

/// The same for the same content, so that importing twice adds once.
std::string id_apart(const Enquiry& enquiry) {
  std::string all = enquiry.id;
  for (const Imported& revision : enquiry.revisions)
    all += revision.info.saved + revision.info.result + sha256(revision.draft.input);
  for (const ImportedDocument& document : enquiry.documents) all += document.info.name + document.info.sha256;
  return sha256(all).substr(0, 32);
}

/// Steps of both sides in the order of time.
std::vector<Step> merged(Connection& connection, const Enquiry& enquiry) {
  std::vector<Step> steps = enquiry.steps;
  for (const Row& row :
       connection.run("SELECT at, person, state, follow_up, note FROM step WHERE enquiry = $1", {enquiry.id}))
    steps.push_back(
        {text(row[0]), text(row[1]), state_of(text(row[2])).value_or(State::asked), text(row[3]), text(row[4])});
  const auto key = [](const Step& s) { return std::tie(s.at, s.person, s.state, s.follow_up, s.note); };
  std::sort(steps.begin(), steps.end(), [&](const Step& a, const Step& b) { return key(a) < key(b); });
  steps.erase(std::unique(steps.begin(), steps.end(), [&](const Step& a, const Step& b) { return key(a) == key(b); }),
              steps.end());
  return steps;
}

/// Adds what is not here yet. @returns true when something was
bool add(Connection& connection, const Enquiry& enquiry) {
  const std::vector<Row> known = connection.run("SELECT number, revisions FROM enquiry WHERE id = $1", {enquiry.id});
  const std::int64_t have = known.empty() ? 0 : integer(known[0][1]);
  bool changed = known.empty();
  if (known.empty()) {
    std::int64_t number = enquiry.number;
    if (connection.run("SELECT 1 FROM enquiry WHERE number = $1", {number}).empty())
      connection.run("UPDATE counter SET value = $1 WHERE name = 'enquiry' AND value < $1", {number});
    else
      number = next_number(connection);
    connection.run(
        "INSERT INTO enquiry (id, number, version, revisions, title, customer, owner, state, follow_up, created, "
        "changed, changed_by, search) VALUES ($1, $2, 0, 0, '', '', $3, 'asked', '', $4, $5, $6, '')",
        {enquiry.id, number, enquiry.owner, enquiry.created, enquiry.changed, enquiry.changed_by});
  }
  for (const Imported& revision : enquiry.revisions) {
    if (revision.info.revision <= have) continue;
    insert_revision(connection, enquiry.id, revision.info, revision.draft);
    changed = true;
  }
  for (const ImportedDocument& document : enquiry.documents) {
    const DocumentInfo& info = document.info;
    if (!connection
             .run("SELECT 1 FROM document WHERE enquiry = $1 AND revision = $2 AND name = $3",
                  {enquiry.id, info.revision, info.name})
             .empty())
      continue;
    connection.run(
        "INSERT INTO document (enquiry, revision, name, type, request, sha256, saved, saved_by) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
        {enquiry.id, info.revision, info.name, info.type, info.request, keep(connection, document.bytes), info.saved,
         info.saved_by});
    changed = true;
  }
  const std::vector<Step> steps = merged(connection, enquiry);
  const std::int64_t before =
      integer(connection.run("SELECT count(*) FROM step WHERE enquiry = $1", {enquiry.id}).at(0).at(0));
  changed = changed || static_cast<std::int64_t>(steps.size()) != before;
  if (!changed) return false;
  connection.run("DELETE FROM step WHERE enquiry = $1", {enquiry.id});
  for (std::size_t i = 0; i < steps.size(); ++i)
    insert_step(connection, enquiry.id, static_cast<std::int64_t>(i) + 1, steps[i]);
  const Step last = steps.empty() ? Step{} : steps.back();
  const auto revisions = std::max(have, static_cast<std::int64_t>(enquiry.revisions.size()));
  connection.run("UPDATE enquiry SET version = version + 1, revisions = $1, state = $2, follow_up = $3 WHERE id = $4",
                 {revisions, std::string(name_of(last.state)), last.follow_up, enquiry.id});
  refresh(connection, enquiry.id);
  return true;
}

}  // namespace

Outcome<Counts> Store::import_from(const Actor& by, const std::string& file) {
  return in(Access::alone, [&](Connection& connection) {
    require_role(by, Role::engineer);
    ZipReader zip(file);
    const Result<Json> read = api::parse_json(zip.read("store.json", kMostList));
    if (!read || !read->is_object() || read->value("kind", Json()) != "lobewise enquiries")
      throw Problem{Trouble::input, fmt::format("{} is no export of enquiries.", file)};
    if (read->value("layout", Json()) != 1)
      throw Problem{Trouble::newer, fmt::format("{} was exported by a newer Lobewise. Nothing was touched.", file)};
    Counts counts;
    for (const Json& item : members(*read, "enquiries")) {
      Enquiry enquiry = read_enquiry(item, zip);
      if (!agrees(connection, enquiry)) {
        enquiry.id = id_apart(enquiry);
        if (add(connection, enquiry)) ++counts.apart;
      } else {
        (void)add(connection, enquiry);
      }
      ++counts.enquiries;
      counts.revisions += static_cast<std::int64_t>(enquiry.revisions.size());
      counts.documents += static_cast<std::int64_t>(enquiry.documents.size());
    }
    note(connection, by.name, "import", file,
         fmt::format("{} enquiries, {} of them as new ones", counts.enquiries, counts.apart));
    return counts;
  });
}

}  // namespace lobewise::store
