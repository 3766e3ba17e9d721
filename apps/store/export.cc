// Everything in a form that any program can read, and back. docs/store.md describes the layout.

#include <fmt/format.h>
#include <unistd.h>

#include <nlohmann/json.hpp>
#include <set>

#include "apps/store/content.h"
#include "apps/store/copy.h"
#include "apps/store/transact.h"
#include "apps/store/zip_file.h"

namespace lobewise::store {
namespace {

using Json = nlohmann::json;

constexpr const char* kKind = "lobewise enquiries";
constexpr int kLayout = 1;

std::string dump(const Json& json) { return json.dump(1, ' ', false, Json::error_handler_t::replace); }

void add_content(Connection& connection, ZipWriter& zip, std::set<std::string>& done, const std::string& hash) {
  if (done.insert(hash).second) zip.add("content/" + hash + ".json", fetch(connection, hash));
}

Json revisions_json(Connection& connection, ZipWriter& zip, std::set<std::string>& done, const std::string& id,
                    std::int64_t number) {
  Json list = Json::array();
  for (const Row& row : connection.run(
           "SELECT revision, saved, saved_by, note, engine, range_hash, result_hash, input_hash FROM revision "
           "WHERE enquiry = $1 ORDER BY revision",
           {id})) {
    const std::string file = fmt::format("enquiries/{}/{}.json", number, integer(row[0]));
    zip.add(file, fetch(connection, text(row[7])));
    add_content(connection, zip, done, text(row[5]));
    add_content(connection, zip, done, text(row[6]));
    list.push_back({{"revision", integer(row[0])},
                    {"saved", text(row[1])},
                    {"saved_by", text(row[2])},
                    {"note", text(row[3])},
                    {"engine", text(row[4])},
                    {"range_sha256", text(row[5])},
                    {"result_sha256", text(row[6])},
                    {"file", file}});
  }
  return list;
}

Json documents_json(Connection& connection, ZipWriter& zip, const std::string& id, std::int64_t number) {
  Json list = Json::array();
  for (const Row& row :
       connection.run("SELECT revision, name, type, request, sha256, saved, saved_by FROM document WHERE enquiry = $1 "
                      "ORDER BY revision, name",
                      {id})) {
    const std::string file = fmt::format("documents/{}/{}/{}", number, integer(row[0]), text(row[1]));
    zip.add(file, fetch(connection, text(row[4])));
    list.push_back({{"revision", integer(row[0])},
                    {"name", text(row[1])},
                    {"type", text(row[2])},
                    {"request", text(row[3])},
                    {"sha256", text(row[4])},
                    {"saved", text(row[5])},
                    {"saved_by", text(row[6])},
                    {"file", file}});
  }
  return list;
}

}  // namespace

Outcome<Counts> Store::export_to(const std::string& file) {
  return in(Access::read, [&](Connection& connection) {
    require_new_file(file);
    const std::string part = fmt::format("{}.{}.part", file, random_id().substr(0, 8));
    try {
      ZipWriter zip(part);
      std::set<std::string> done;
      Json enquiries = Json::array();
      for (const Row& row :
           connection.run("SELECT id, number, title, customer, owner, state, follow_up, created, changed, changed_by "
                          "FROM enquiry ORDER BY number")) {
        const std::string id = text(row[0]);
        const std::int64_t number = integer(row[1]);
        Json steps = Json::array();
        for (const Row& step : connection.run(
                 "SELECT at, person, state, follow_up, note FROM step WHERE enquiry = $1 ORDER BY step", {id}))
          steps.push_back({{"at", text(step[0])},
                           {"person", text(step[1])},
                           {"state", text(step[2])},
                           {"follow_up", text(step[3])},
                           {"note", text(step[4])}});
        enquiries.push_back({{"id", id},
                             {"number", number},
                             {"title", text(row[2])},
                             {"customer", text(row[3])},
                             {"owner", text(row[4])},
                             {"state", text(row[5])},
                             {"follow_up", text(row[6])},
                             {"created", text(row[7])},
                             {"changed", text(row[8])},
                             {"changed_by", text(row[9])},
                             {"revisions", revisions_json(connection, zip, done, id, number)},
                             {"steps", steps},
                             {"documents", documents_json(connection, zip, id, number)}});
      }
      Json people = Json::array();
      for (const Row& row : connection.run("SELECT name, role, active FROM person ORDER BY name"))
        people.push_back({{"name", text(row[0])}, {"role", text(row[1])}, {"active", integer(row[2]) != 0}});
      Json audit = Json::array();
      for (const Row& row : connection.run("SELECT at, person, action, subject, detail FROM audit ORDER BY at, id"))
        audit.push_back({text(row[0]), text(row[1]), text(row[2]), text(row[3]), text(row[4])});
      zip.add("audit.json", dump(audit));
      zip.add("store.json", dump({{"kind", kKind},
                                  {"layout", kLayout},
                                  {"exported", time()},
                                  {"engine", LOBEWISE_VERSION},
                                  {"enquiries", enquiries},
                                  {"people", people}}));
      zip.finish();
      publish(part, file);
    } catch (...) {
      ::unlink(part.c_str());
      throw;
    }
    return count_all(connection);
  });
}

}  // namespace lobewise::store
