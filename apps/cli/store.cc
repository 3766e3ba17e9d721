// lobewise store: an office's enquiries from the command line.

#include "apps/store/store.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <pwd.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>

#include "apps/cli/commands.h"
#include "apps/cli/handover.h"
#include "apps/cli/job.h"
#include "apps/cli/read_file.h"
#include "apps/cli/terminal.h"
#include "apps/store/head_json.h"
#include "apps/store/record.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;
using store::Head;
using store::Outcome;
using store::Problem;
using store::Store;
using store::Trouble;

struct Ask {
  std::string place = store::default_place();
  std::string file, range, note, state, due, owner, name, role = "engineer", date, paper = "a4", only, units;
  std::vector<std::string> words;
  std::string build;
  std::optional<std::string> follow_up, new_owner;
  std::int64_t number = 0, revision = 0, version = -1, most = 50;
  bool json = false, enquiry = false, inactive = false;
};

/// Exit codes as of the other commands; see README.md.
int code_of(Trouble trouble) {
  switch (trouble) {
    case Trouble::damaged:
    case Trouble::newer:
    case Trouble::foreign:
      return 3;
    case Trouble::internal:
      return 70;
    default:
      return 2;
  }
}

template <class T>
T take(Outcome<T> outcome) {
  if (!outcome) throw outcome.problem();
  return std::move(*outcome);
}

Store open(const Ask& ask) { return take(Store::open(take(store::parse_place(ask.place)))); }

/// Who holds the file or the password of the database is above the roles of a team.
store::Actor actor() {
  const passwd* user = getpwuid(getuid());
  return {user != nullptr ? user->pw_name : "command line", store::Role::keeper};
}

Style style() {
  Style out;
  out.colour = isatty(STDOUT_FILENO) != 0 && std::getenv("NO_COLOR") == nullptr;
  return out;
}

std::string minute(const std::string& time) {
  return time.size() < 16 ? time : time.substr(0, 10) + " " + time.substr(11, 5);
}
void print(const Json& json) { std::cout << json.dump(1, ' ', false, Json::error_handler_t::replace) << '\n'; }

void say(const Head& head, const Ask& ask, const char* what) {
  if (ask.json) return print(store::head_json(head));
  std::cout << fmt::format("Enquiry {} {}: revision {}, {}{}\n", head.number, what, head.revisions, name_of(head.state),
                           head.follow_up.empty() ? "" : ", follow up on " + head.follow_up);
}

void say(const store::Counts& counts, const std::string& what) {
  std::cout << fmt::format("{} (enquiries: {}, revisions: {}, documents: {})\n", what, counts.enquiries,
                           counts.revisions, counts.documents);
  if (counts.apart > 0)
    std::cout << fmt::format("Gone on differently here, so the imported ones stand beside them as new enquiries: {}\n",
                             counts.apart);
}

void list(const Ask& ask) {
  store::Query query;
  query.text = fmt::format("{}", fmt::join(ask.words, " "));
  if (!ask.state.empty()) query.state = store::state_of(ask.state);
  query.due = ask.due;
  query.owner = ask.owner;
  query.limit = ask.most;
  Store store = open(ask);
  const store::Page page = take(store.list(query));
  if (ask.json) {
    Json heads = Json::array();
    for (const Head& head : page.heads) heads.push_back(store::head_json(head));
    return print({{"enquiries", heads}, {"total", page.total}});
  }
  std::vector<std::vector<std::string>> rows{{"No.", "State", "Follow up", "Changed", "By", "Customer", "Title"}};
  for (const Head& head : page.heads)
    rows.push_back({std::to_string(head.number), std::string(name_of(head.state)), head.follow_up, minute(head.changed),
                    head.changed_by, head.customer, head.title});
  std::cout << table(rows, {0}, style());
  if (page.total > static_cast<std::int64_t>(page.heads.size()))
    std::cout << fmt::format("{} of {}; --most shows more\n", page.heads.size(), page.total);
}

void show(const Ask& ask) {
  Store store = open(ask);
  const Head head = take(store.head(ask.number));
  const store::Revision revision = take(store.revision(ask.number, ask.revision));
  if (ask.enquiry) return print(Json::parse(revision.draft.input)["enquiry"]);
  const std::vector<store::RevisionInfo> revisions = take(store.revisions(ask.number));
  const std::vector<store::Step> steps = take(store.history(ask.number));
  const std::vector<store::DocumentInfo> documents = take(store.documents(ask.number));
  if (ask.json) {
    Json out = store::head_json(head);
    out["revision"] = {{"revision", revision.info.revision},
                       {"saved", revision.info.saved},
                       {"saved_by", revision.info.saved_by},
                       {"note", revision.info.note},
                       {"engine", revision.info.engine},
                       {"range_sha256", revision.info.range},
                       {"result_sha256", revision.info.result},
                       {"input", Json::parse(revision.draft.input)},
                       {"range", Json::parse(revision.draft.range)},
                       {"result", Json::parse(revision.draft.result)}};
    return print(out);
  }
  std::cout << fmt::format("{}\n{}{}\n\n", style().bold(fmt::format("Enquiry {}  {}", head.number, head.title)),
                           head.customer.empty() ? "" : head.customer + ", ", name_of(head.state));
  if (!head.follow_up.empty()) std::cout << "Follow up on " << head.follow_up << '\n';
  std::cout << fmt::format("Owner {}; version {}\n\n", head.owner, head.version);
  std::vector<std::vector<std::string>> rows{{"Rev.", "Saved", "By", "Engine", "Range", "Result", "Note"}};
  for (const store::RevisionInfo& info : revisions)
    rows.push_back({std::to_string(info.revision), minute(info.saved), info.saved_by, info.engine,
                    info.range.substr(0, 12), info.result.substr(0, 12), info.note});
  std::cout << table(rows, {0}, style()) << '\n';
  rows = {{"Step", "When", "By", "Follow up", "Note"}};
  for (const store::Step& step : steps)
    rows.push_back({std::string(name_of(step.state)), minute(step.at), step.person, step.follow_up, step.note});
  std::cout << table(rows, {}, style());
  if (documents.empty()) return;
  rows = {{"Rev.", "Document", "Bytes", "Saved", "By"}};
  for (const store::DocumentInfo& info : documents)
    rows.push_back(
        {std::to_string(info.revision), info.name, std::to_string(info.size), minute(info.saved), info.saved_by});
  std::cout << '\n' << table(rows, {0, 2}, style());
}

/// Input of a revision from a file; a range beside it when named.
Json read_input(const Ask& ask) {
  const auto value_of = [](auto result) {
    if (!result)
      throw Problem{Trouble::input,
                    fmt::format("{}: {}", result.errors().front().offending, result.errors().front().message)};
    return std::move(*result);
  };
  Json input{{"enquiry", value_of(read_document(ask.file)).json}};
  if (!ask.range.empty()) input["range"] = value_of(read_json(ask.range));
  return input;
}

store::Document read_document_file(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  store::Document document;
  std::string& bytes = document.bytes;
  bytes.resize(store::kMostDocument + 1);
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  if (in.bad() || (bytes.empty() && !in.eof())) throw Problem{Trouble::input, file + " cannot be read."};
  const std::filesystem::path path(file);
  document.name = path.filename().string();
  const std::string tail = path.extension().string();
  document.type = tail == ".pdf"    ? "application/pdf"
                  : tail == ".html" ? "text/html"
                  : tail == ".json" ? "application/json"
                  : tail == ".svg"  ? "image/svg+xml"
                                    : "application/octet-stream";
  return document;
}

/// The file as it was written, comments included, stays with the revision.
void keep_file(Store& store, const Ask& ask, const Head& head) {
  store::Document document = read_document_file(ask.file);
  document.name = "enquiry" + std::string(document.type == "application/json" ? ".json" : ".yaml");
  (void)take(store.attach(actor(), head.number, head.revisions, document));
}

void save(const Ask& ask) {
  Store store = open(ask);
  const api::Session& session = cli::session();
  const Head head = take(store.save(actor(), take(store::make_draft(session, read_input(ask), ask.note))));
  keep_file(store, ask, head);
  say(head, ask, "saved");
}

void revise(const Ask& ask) {
  Store store = open(ask);
  const std::int64_t version = ask.version >= 0 ? ask.version : take(store.head(ask.number)).version;
  const api::Session& session = cli::session();
  const store::Draft draft = take(store::make_draft(session, read_input(ask), ask.note));
  const Head head = take(store.revise(actor(), ask.number, version, draft));
  keep_file(store, ask, head);
  say(head, ask, "revised");
}

void state(const Ask& ask) {
  Store store = open(ask);
  const std::int64_t version = ask.version >= 0 ? ask.version : take(store.head(ask.number)).version;
  const store::NewStep step{*store::state_of(ask.state), ask.follow_up, ask.new_owner, ask.note};
  say(take(store.step(actor(), ask.number, version, step)), ask, "noted");
}

void attach(const Ask& ask) {
  Store store = open(ask);
  const store::DocumentInfo info = take(store.attach(actor(), ask.number, ask.revision, read_document_file(ask.file)));
  std::cout << fmt::format("{} kept with revision {} of enquiry {}\n", info.name, info.revision, ask.number);
}

void document(const Ask& ask) {
  Store store = open(ask);
  const store::Document document = take(store.document(ask.number, ask.revision, ask.name));
  const std::string file = ask.file.empty() ? document.name : ask.file;
  std::error_code error;
  if (std::filesystem::exists(file, error))
    throw Problem{Trouble::input, file + " exists already. Nothing was written."};
  std::ofstream out(file, std::ios::binary);
  out.write(document.bytes.data(), static_cast<std::streamsize>(document.bytes.size()));
  out.close();
  if (!out) throw Problem{Trouble::access, file + " cannot be written."};
  std::cout << file << '\n';
}

/// The kept proof beside the one of now: verdicts that turned first, then figures.
void show_moved(const Json& moved, const std::string& units, std::ostream& out) {
  const char* system = units == "us" ? "us" : "si";
  const auto words = [](const Json& side, const char* key) {
    std::string text = side.value(key, std::string("–"));
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
  };
  const Json &before = moved["before"], &after = moved["after"];
  for (const char* key : {"build", "error"})
    if (before.value(key, "") != after.value(key, ""))
      out << fmt::format("  {}: {} -> {}\n", std::string(key) == "build" ? "Build" : "Refused", before.value(key, "–"),
                         after.value(key, "–"));
  if (!moved["turned"].empty()) {
    std::vector<std::vector<std::string>> rows{{"verdict that turned", "as saved", "now"}};
    for (const Json& turned : moved["turned"])
      rows.push_back({turned["finding"], words(turned, "before"), words(turned, "after")});
    out << table(rows, {}, style());
  }
  if (moved["checks"].empty()) return;
  const auto shown = [&](const Json& check, const char* side, const char* key) {
    return check.contains(side) ? check[side][key].value(system, std::string()) : std::string("–");
  };
  const auto margin = [](const Json& check, const char* side) {
    return check.contains(side) ? fmt::format("{:.1f} %", 100 * check[side]["margin"].get<double>()) : std::string("–");
  };
  std::vector<std::vector<std::string>> rows{
      {"finding", "figure that moved", "as saved", "now", "limit as saved", "now", "margin as saved", "now"}};
  for (const Json& check : moved["checks"])
    rows.push_back({check["finding"], check["check"], shown(check, "before", "figure"), shown(check, "after", "figure"),
                    shown(check, "before", "limit"), shown(check, "after", "limit"), margin(check, "before"),
                    margin(check, "after")});
  out << table(rows, {2, 3, 4, 5, 6, 7}, style());
}

int remake(const Ask& ask) {
  Store store = open(ask);
  const store::Revision revision = take(store.revision(ask.number, ask.revision));
  const api::Session& session = cli::session();
  const store::Remade remade = store::remake(session, revision);
  if (ask.json) {
    Json out = remade.moved;
    out["saved"] = revision.info.saved;
    out["saved_engine"] = revision.draft.engine;
    out["engine"] = remade.engine;
    out["identical"] = remade.identical;
    out["result"] = remade.result;
    print(out);
  }
  std::ostream& out = ask.json ? std::cerr : std::cout;
  const std::string name = fmt::format("Revision {} of enquiry {}", revision.info.revision, ask.number);
  if (remade.identical) {
    out << fmt::format("{} comes out as it was saved on {}, byte for byte.\n", name, revision.info.saved.substr(0, 10));
    return 0;
  }
  out << fmt::format("{} was saved with engine {} and comes out differently with engine {}{}.\n", name,
                     revision.draft.engine, remade.engine,
                     remade.same_engine ? ", though the version is the same" : "");
  show_moved(remade.moved, ask.units.empty() ? remade.result.value("units", "si") : ask.units, out);
  if (remade.moved["turned"].empty() && remade.moved["checks"].empty()) {
    out << "No verdict turned and no figure of a check moved. What differs besides:\n";
    for (const std::string& line : remade.differences) out << paragraph(line, 4, "  ");
  }
  out << "The saved result and the documents of the revision stay as they are.\n";
  return 4;
}

/// Makes the documents of a revision from what was kept with it, and keeps them with it. @returns 4 when one of them
/// differs from the one that was kept before
int hand_over(const Ask& ask) {
  Store store = open(ask);
  const store::Revision revision = take(store.revision(ask.number, ask.revision));
  const Json input = Json::parse(revision.draft.input);
  handover::Order order;
  order.enquiry = input["enquiry"];
  order.range = Json::parse(revision.draft.range);
  order.build = input.value("build", Json());
  order.units = ask.units;
  HandoverOptions options;
  options.out = ask.file;
  options.paper = ask.paper;
  options.only = ask.only;
  options.date = ask.date.empty() ? revision.info.saved.substr(0, 10) : ask.date;
  const api::Session& session = cli::session();
  const Result<HandedOver> made = write_handover(
      [&](const std::string& call, const Json& asked) { return session.registry().run(call, asked); }, order, options);
  if (!made) throw Problem{Trouble::input, made.errors().front().message};
  std::cout << made->report;
  if (revision.draft.engine != LOBEWISE_VERSION)
    std::cout << fmt::format("The revision was saved with engine {}, this one is {}.\n", revision.draft.engine,
                             LOBEWISE_VERSION);
  const Json request{{"date", options.date}, {"paper", options.paper}, {"units", ask.units}};
  int differs = 0;
  for (const std::string& name : made->files) {
    store::Document document = read_document_file((std::filesystem::path(ask.file) / name).string());
    document.request = request.dump();
    const Outcome<store::DocumentInfo> info = store.attach(actor(), ask.number, revision.info.revision, document);
    if (info) continue;
    if (info.problem().trouble != Trouble::conflict) throw info.problem();
    std::cout << fmt::format("  ! {} differs from the one kept with the revision, which stays as it is\n", name);
    differs = 4;
  }
  if (differs == 0)
    std::cout << fmt::format("Kept with revision {} of enquiry {}; those kept before came out the same.\n",
                             revision.info.revision, ask.number);
  return differs;
}

void restore(const Ask& ask) {
  const store::Place place = take(store::parse_place(ask.place));
  std::error_code error;
  if (!place.team && !std::filesystem::exists(place.address, error)) {
    Store store = take(Store::create(place));
    const std::string before = place.address + ".empty";
    const store::Counts counts = take(store.restore(actor(), ask.file, before));
    std::filesystem::remove(before, error);
    return say(counts, "Restored to " + place.shown());
  }
  Outcome<Store> store = Store::open(place);
  if (!store && !place.team && store.problem().trouble == Trouble::damaged)
    throw Problem{Trouble::damaged,
                  fmt::format("{0} is damaged and is not overwritten. Move {0}, {0}-wal and {0}-shm away, "
                              "keep them, and restore again.",
                              place.address)};
  if (!store) throw store.problem();
  const std::string before =
      fmt::format("{}.before-restore-{}", place.team ? "lobewise-team" : place.address, store::now() / 1000);
  const store::Counts counts = take(store->restore(actor(), ask.file, before));
  say(counts, "Restored to " + place.shown());
  std::cout << "What was there before: " << before << '\n';
}

int check(const Ask& ask) {
  Store store = open(ask);
  const std::vector<std::string> wrong = take(store.check());
  for (const std::string& line : wrong) std::cout << paragraph(line, 2);
  if (wrong.empty()) std::cout << "Every byte is as it was saved.\n";
  return wrong.empty() ? 0 : 3;
}

void person(const Ask& ask) {
  Store store = open(ask);
  store::Person person;
  person.name = ask.name;
  person.active = !ask.inactive;
  person.role = ask.role == "keeper"   ? store::Role::keeper
                : ask.role == "reader" ? store::Role::reader
                                       : store::Role::engineer;
  std::string password;
  if (!ask.inactive) {
    if (isatty(STDIN_FILENO) != 0) {
      const char* typed = getpass("Password (empty: as it was): ");
      password = typed == nullptr ? "" : typed;
    } else {
      std::getline(std::cin, password);
    }
  }
  person = take(store.set_person(actor(), person, password));
  std::cout << fmt::format("{}: {}{}\n", person.name, name_of(person.role), person.active ? "" : ", may not sign in");
}

void people(const Ask& ask) {
  Store store = open(ask);
  std::vector<std::vector<std::string>> rows{{"Name", "Role", "May sign in"}};
  for (const store::Person& known : take(store.people()))
    rows.push_back({known.name, name_of(known.role), known.active ? "yes" : "no"});
  std::cout << table(rows, {}, style());
}

void audit(const Ask& ask) {
  Store store = open(ask);
  std::vector<std::vector<std::string>> rows{{"When (UTC)", "Who", "What", "", ""}};
  for (const store::AuditLine& line : take(store.audit(ask.most)))
    rows.push_back({minute(line.at), line.person, line.action, line.subject, line.detail});
  std::cout << table(rows, {}, style());
}

}  // namespace

void add_store(CLI::App& app, int& code) {
  CLI::App* top = app.add_subcommand("store", "Keep enquiries, their revisions and documents; see docs/store.md");
  top->require_subcommand(1);
  const auto ask = std::make_shared<Ask>();
  top->add_option("--store", ask->place,
                  "file, or postgresql://… of a team; LOBEWISE_STORE, or a file of yours, when left out");
  const auto add = [&, ask](const char* name, const char* help, auto function) {
    CLI::App* command = top->add_subcommand(name, help);
    command->callback([ask, &code, function] {
      try {
        if constexpr (std::is_void_v<decltype(function(*ask))>) {
          function(*ask);
          code = 0;
        } else {
          code = function(*ask);
        }
      } catch (const Problem& problem) {
        std::cerr << paragraph(problem.message, 2);
        code = code_of(problem.trouble);
      }
    });
    return command;
  };
  const auto number = [&](CLI::App* command) {
    command->add_option("number", ask->number, "of the enquiry")->required();
  };
  const auto json = [&](CLI::App* command) { command->add_flag("--json", ask->json, "print JSON"); };
  const auto revision = [&](CLI::App* command) {
    command->add_option("--revision", ask->revision, "the latest when left out");
  };
  const auto version = [&](CLI::App* command) {
    command->add_option("--based-on", ask->version, "version that was changed; a newer one is a conflict");
  };
  const std::vector<std::string> states(store::kStates.begin(), store::kStates.end());

  add("init", "Make an empty store", [](const Ask& a) {
    const Store made = take(Store::create(take(store::parse_place(a.place))));
    std::cout << "A new store at " << made.place().shown() << '\n';
  });
  CLI::App* list_command = add("list", "List enquiries, the last changed first", list);
  CLI::App* search_command = add("search", "List enquiries in which all the words occur", list);
  search_command->add_option("words", ask->words, "words of title, customer, notes or the enquiry itself")->required();
  for (CLI::App* command : {list_command, search_command}) {
    command->add_option("--state", ask->state)->check(CLI::IsMember(states));
    command->add_option("--due", ask->due, "with a follow-up on or before this day, e.g. 2026-03-09");
    command->add_option("--owner", ask->owner);
    command->add_option("--most", ask->most)->capture_default_str();
    json(command);
  }
  CLI::App* show_command = add("show", "One enquiry with its revisions, steps and documents", show);
  number(show_command);
  revision(show_command);
  json(show_command);
  show_command->add_flag("--enquiry", ask->enquiry, "print the enquiry alone, ready to be changed and saved again");
  const auto input = [&](CLI::App* command) {
    command->add_option("enquiry", ask->file, "YAML or JSON")->required();
    command->add_option("--range", ask->range, "range, JSON; the invented demo range when left out");
    command->add_option("--note", ask->note, "why");
    json(command);
  };
  input(add("save", "Save an enquiry as a new one", save));
  CLI::App* revise_command = add("revise", "Save the next revision of an enquiry", revise);
  number(revise_command);
  input(revise_command);
  version(revise_command);
  CLI::App* state_command = add("state", "Note where an enquiry stands", state);
  number(state_command);
  state_command->add_option("state", ask->state, fmt::format("{}", fmt::join(states, ", ")))
      ->required()
      ->check(CLI::IsMember(states));
  state_command->add_option("--follow-up", ask->follow_up, "day to come back to it, e.g. 2026-03-09; '' for none");
  state_command->add_option("--owner", ask->new_owner, "who looks after it");
  state_command->add_option("--note", ask->note);
  version(state_command);
  json(state_command);
  CLI::App* attach_command = add("attach", "Keep a document with a revision", attach);
  number(attach_command);
  attach_command->add_option("file", ask->file)->required();
  revision(attach_command);
  CLI::App* document_command = add("document", "Take a document out again", document);
  number(document_command);
  document_command->add_option("name", ask->name)->required();
  document_command->add_option("--out", ask->file, "file to write; its own name when left out");
  revision(document_command);
  CLI::App* remake_command = add(
      "remake", "Prove a saved revision again and say what moved: verdicts that turned first, then figures", remake);
  number(remake_command);
  revision(remake_command);
  json(remake_command);
  remake_command->add_option("--units", ask->units, "si or us; the enquiry's own when left out")
      ->check(CLI::IsMember({"si", "us"}));
  CLI::App* handover_command =
      add("handover", "Make the documents of a saved revision from what was kept with it, and keep them with it",
          hand_over);
  number(handover_command);
  revision(handover_command);
  handover_command->add_option("--out", ask->file, "folder")->required();
  handover_command->add_option("--date", ask->date, "of issue; the day the revision was saved when left out");
  handover_command->add_option("--paper", ask->paper)->check(CLI::IsMember({"a4", "letter"}))->capture_default_str();
  handover_command->add_option("--units", ask->units, "si or us; the enquiry's own when left out")
      ->check(CLI::IsMember({"si", "us"}));
  handover_command->add_option("--only", ask->only, "documents, with commas between; all when left out");
  const auto file = [&](CLI::App* command, const char* help) {
    command->add_option("file", ask->file, help)->required();
  };
  file(add("backup", "Write everything to a new file, which is a store itself",
           [](const Ask& a) { say(take(open(a).backup(a.file)), "Backup " + a.file); }),
       "new file");
  file(add("restore", "Replace everything by a backup; what is there is kept beside it", restore), "backup");
  file(add("export", "Write everything but passwords as a zip of JSON and documents",
           [](const Ask& a) { say(take(open(a).export_to(a.file)), "Export " + a.file); }),
       "new file");
  file(add("import", "Add the enquiries of an export; nothing is replaced",
           [](const Ask& a) { say(take(open(a).import_from(actor(), a.file)), "Imported"); }),
       "export");
  add("check", "Say whether every byte is as it was saved", check);
  CLI::App* person_command =
      add("person", "Add or change a person of a team; the password comes from standard input", person);
  person_command->add_option("name", ask->name)->required();
  person_command->add_option("--role", ask->role)
      ->check(CLI::IsMember({"reader", "engineer", "keeper"}))
      ->capture_default_str();
  person_command->add_flag("--inactive", ask->inactive, "may not sign in any more");
  add("people", "List the people of a team", people);
  add("audit", "Who did what, newest first", audit)->add_option("--most", ask->most)->capture_default_str();
}

}  // namespace lobewise::cli
