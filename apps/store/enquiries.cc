// Enquiries, their revisions and where they stand.

#include <fmt/format.h>

#include <algorithm>

#include "apps/store/content.h"
#include "apps/store/draft_check.h"
#include "apps/store/enquiry_rows.h"
#include "apps/store/transact.h"
#include "apps/store/words.h"

namespace lobewise::store {

std::optional<State> state_of(std::string_view name) {
  const auto found = std::find(kStates.begin(), kStates.end(), name);
  if (found == kStates.end()) return std::nullopt;
  return static_cast<State>(found - kStates.begin());
}

namespace {

constexpr const char* kHead =
    "SELECT number, id, version, revisions, title, customer, owner, state, follow_up, created, changed, changed_by "
    "FROM enquiry ";

Head read_head(const Row& row) {
  Head head;
  head.number = integer(row[0]);
  head.id = text(row[1]);
  head.version = integer(row[2]);
  head.revisions = integer(row[3]);
  head.title = text(row[4]);
  head.customer = text(row[5]);
  head.owner = text(row[6]);
  head.state = state_of(text(row[7])).value_or(State::asked);
  head.follow_up = text(row[8]);
  head.created = text(row[9]);
  head.changed = text(row[10]);
  head.changed_by = text(row[11]);
  return head;
}

void require_version(const Head& head, std::int64_t version) {
  if (head.version == version) return;
  throw Problem{
      Trouble::conflict,
      fmt::format(
          "Enquiry {} was changed by {} on {} at {} UTC (revision {}, {}); yours was made from an older state of it. "
          "Nothing of yours was written: look at the newer one, then save yours again or as a new "
          "enquiry.",
          head.number, head.changed_by, head.changed.substr(0, 10),
          head.changed.size() >= 16 ? head.changed.substr(11, 5) : "", head.revisions, name_of(head.state))};
}

RevisionInfo read_info(const Row& row) {
  return {integer(row[0]), text(row[1]), text(row[2]), text(row[3]), text(row[4]), text(row[5]), text(row[6])};
}

constexpr const char* kInfo = "SELECT revision, saved, saved_by, note, engine, range_hash, result_hash";

}  // namespace

void insert_revision(Connection& connection, const std::string& id, const RevisionInfo& info, const Draft& draft) {
  connection.run(
      "INSERT INTO revision (enquiry, revision, saved, saved_by, note, engine, input_hash, range_hash, result_hash) "
      "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)",
      {id, info.revision, info.saved, info.saved_by, draft.note, draft.engine, keep(connection, draft.input),
       keep(connection, draft.range), keep(connection, draft.result)});
}

void insert_step(Connection& connection, const std::string& id, std::int64_t number, const Step& step) {
  connection.run(
      "INSERT INTO step (enquiry, step, at, person, state, follow_up, note) VALUES ($1, $2, $3, $4, $5, $6, $7)",
      {id, number, step.at, step.person, std::string(name_of(step.state)), step.follow_up, step.note});
}

Summary summary(Connection& connection, const std::string& id) {
  std::string notes, latest;
  for (const Row& row :
       connection.run("SELECT note, input_hash FROM revision WHERE enquiry = $1 ORDER BY revision", {id})) {
    notes += fold(text(row[0])) + "\n";
    latest = text(row[1]);
  }
  for (const Row& row : connection.run("SELECT note FROM step WHERE enquiry = $1 ORDER BY step", {id}))
    notes += fold(text(row[0])) + "\n";
  Summary out = summary_of(fetch(connection, latest));
  out.search += notes;
  return out;
}

void refresh(Connection& connection, const std::string& id) {
  const Summary now = summary(connection, id);
  connection.run("UPDATE enquiry SET title = $1, customer = $2, search = $3 WHERE id = $4",
                 {now.title, now.customer, now.search, id});
}

Head require_head(Connection& connection, std::int64_t number) {
  const std::vector<Row> rows = connection.run(std::string(kHead) + "WHERE number = $1", {number});
  if (rows.empty()) throw Problem{Trouble::not_found, fmt::format("There is no enquiry {} in this store.", number)};
  return read_head(rows[0]);
}

std::int64_t next_number(Connection& connection) {
  return integer(
      connection.run("UPDATE counter SET value = value + 1 WHERE name = 'enquiry' RETURNING value").at(0).at(0));
}

Outcome<Page> Store::list(const Query& query) {
  return in(Access::read, [&](Connection& connection) {
    require_date(query.due);
    std::string where = "WHERE 1 = 1";
    std::vector<Value> values;
    const auto add = [&](const char* condition, std::string value) {
      values.emplace_back(std::move(value));
      where += fmt::format(fmt::runtime(condition), values.size());
    };
    if (query.state) add(" AND state = ${}", std::string(name_of(*query.state)));
    if (!query.owner.empty()) add(" AND owner = ${}", query.owner);
    if (!query.due.empty()) add(" AND follow_up <> '' AND follow_up <= ${}", query.due);
    const std::string words = fold(line_of(query.text, kMostName));
    for (std::size_t at = 0; at < words.size();) {
      const std::size_t end = std::min(words.find(' ', at), words.size());
      if (end > at) add(" AND search LIKE ${} ESCAPE '\\'", anywhere(words.substr(at, end - at)));
      at = end + 1;
    }
    Page page;
    page.total = integer(connection.run("SELECT count(*) FROM enquiry " + where, values).at(0).at(0));
    const std::int64_t limit = std::clamp<std::int64_t>(query.limit, 0, 1000);
    const std::int64_t offset = std::max<std::int64_t>(query.offset, 0);
    for (const Row& row : connection.run(
             fmt::format("{}{} ORDER BY {} LIMIT {} OFFSET {}", kHead, where,
                         query.due.empty() ? "changed DESC, number DESC" : "follow_up, number", limit, offset),
             values))
      page.heads.push_back(read_head(row));
    return page;
  });
}

Outcome<Head> Store::head(std::int64_t number) {
  return in(Access::read, [&](Connection& connection) { return require_head(connection, number); });
}

Outcome<std::vector<RevisionInfo>> Store::revisions(std::int64_t number) {
  return in(Access::read, [&](Connection& connection) {
    const Head head = require_head(connection, number);
    std::vector<RevisionInfo> list;
    for (const Row& row :
         connection.run(std::string(kInfo) + " FROM revision WHERE enquiry = $1 ORDER BY revision", {head.id}))
      list.push_back(read_info(row));
    return list;
  });
}

Outcome<std::vector<Step>> Store::history(std::int64_t number) {
  return in(Access::read, [&](Connection& connection) {
    const Head head = require_head(connection, number);
    std::vector<Step> list;
    for (const Row& row : connection.run(
             "SELECT at, person, state, follow_up, note FROM step WHERE enquiry = $1 ORDER BY step", {head.id}))
      list.push_back(
          {text(row[0]), text(row[1]), state_of(text(row[2])).value_or(State::asked), text(row[3]), text(row[4])});
    return list;
  });
}

Outcome<Revision> Store::revision(std::int64_t number, std::int64_t revision) {
  return in(Access::read, [&](Connection& connection) {
    const Head head = require_head(connection, number);
    const std::int64_t wanted = revision == 0 ? head.revisions : revision;
    const std::vector<Row> rows = connection.run(
        std::string(kInfo) + ", input_hash FROM revision WHERE enquiry = $1 AND revision = $2", {head.id, wanted});
    if (rows.empty())
      throw Problem{Trouble::not_found,
                    fmt::format("Enquiry {} has no revision {}; the latest is {}.", number, wanted, head.revisions)};
    Revision out{read_info(rows[0]), {}};
    out.draft = {fetch(connection, text(rows[0][7])), fetch(connection, out.info.range), out.info.engine,
                 fetch(connection, out.info.result), out.info.note};
    return out;
  });
}

Outcome<Head> Store::save(const Actor& by, const Draft& draft) {
  return in(Access::write, [&](Connection& connection) {
    require_role(by, Role::engineer);
    check_draft(draft);
    const std::string at = time(), id = random_id(), who = line_of(by.name, kMostName);
    const std::int64_t number = next_number(connection);
    connection.run(
        "INSERT INTO enquiry (id, number, version, revisions, title, customer, owner, state, follow_up, created, "
        "changed, changed_by, search) VALUES ($1, $2, 1, 1, '', '', $3, 'asked', '', $4, $4, $3, '')",
        {id, number, who, at});
    insert_revision(connection, id, {1, at, who, "", "", "", ""}, draft);
    insert_step(connection, id, 1, {at, who, State::asked, "", ""});
    refresh(connection, id);
    const Head head = require_head(connection, number);
    note(connection, who, "save", fmt::format("enquiry {}", number), head.title);
    return head;
  });
}

Outcome<Head> Store::revise(const Actor& by, std::int64_t number, std::int64_t version, const Draft& draft) {
  return in(Access::write, [&](Connection& connection) {
    require_role(by, Role::engineer);
    check_draft(draft);
    const std::string at = time(), who = line_of(by.name, kMostName);
    const Head before = require_head(connection, number);
    require_version(before, version);
    const std::vector<Row> changed = connection.run(
        "UPDATE enquiry SET version = version + 1, revisions = revisions + 1, changed = $1, changed_by = $2 "
        "WHERE id = $3 AND version = $4 RETURNING revisions",
        {at, who, before.id, version});
    if (changed.empty()) require_version(require_head(connection, number), version);
    insert_revision(connection, before.id, {integer(changed.at(0).at(0)), at, who, "", "", "", ""}, draft);
    refresh(connection, before.id);
    note(connection, who, "revise", fmt::format("enquiry {}", number), draft.note);
    return require_head(connection, number);
  });
}

Outcome<Head> Store::step(const Actor& by, std::int64_t number, std::int64_t version, const NewStep& step) {
  return in(Access::write, [&](Connection& connection) {
    require_role(by, Role::engineer);
    require_text(step.note, kMostNote, "A note");
    const std::string at = time(), who = line_of(by.name, kMostName);
    const Head before = require_head(connection, number);
    require_version(before, version);
    const std::string follow_up = step.follow_up.value_or(before.follow_up);
    require_date(follow_up);
    const std::string owner = step.owner.value_or(before.owner);
    require_text(owner, kMostName, "An owner");
    const std::vector<Row> changed = connection.run(
        "UPDATE enquiry SET version = version + 1, state = $1, follow_up = $2, owner = $3, changed = $4, "
        "changed_by = $5 WHERE id = $6 AND version = $7 RETURNING version",
        {std::string(name_of(step.state)), follow_up, owner, at, who, before.id, version});
    if (changed.empty()) require_version(require_head(connection, number), version);
    const std::vector<Row> last =
        connection.run("SELECT coalesce(max(step), 0) FROM step WHERE enquiry = $1", {before.id});
    insert_step(connection, before.id, integer(last.at(0).at(0)) + 1, {at, who, step.state, follow_up, step.note});
    refresh(connection, before.id);
    note(connection, who, "step", fmt::format("enquiry {}", number), std::string(name_of(step.state)));
    return require_head(connection, number);
  });
}

}  // namespace lobewise::store
