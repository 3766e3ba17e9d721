// lobewise: parse the command line, call the engine's door, print.

#include <unistd.h>

#include <CLI/CLI.hpp>
#include <exception>
#include <filesystem>
#include <iostream>
#include <iterator>
#include <map>
#include <optional>
#include <string>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/handover.h"
#include "apps/cli/load_log.h"
#include "apps/cli/read_file.h"
#include "apps/cli/report.h"
#include "apps/cli/report_compare.h"
#include "apps/cli/report_parts.h"
#include "apps/cli/store.h"
#include "apps/cli/terminal.h"
#include "apps/server/server.h"
#include "engine/api/registry.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct Options {
  std::string file;
  std::string range_file;
  std::string units;
  std::string why;
  std::string name;
  std::string frame, first_frame;
  int lobes = 0, first_lobes = 0;
  std::optional<int> samples;  ///< of what is uncertain
  bool json = false;
  bool all = false;
  int port = 4741;
  bool no_browser = false;
  std::string store, public_host;
  std::vector<std::string> speeds;
  std::string hours, ambient;
  LogFile log;
};

/// One session for the one job of this process.
const api::Session& session() {
  static const api::Session kSession;
  return kSession;
}

Style style_of(const Options& options, const Json& result) {
  return style_for(STDOUT_FILENO, !options.units.empty() ? options.units : result.value("units", std::string("si")));
}

int refuse(Errors errors, const Options& options, const std::map<std::string, int>& lines = {}) {
  return cli::refuse(std::move(errors), options.file, options.json, lines);
}

void print(const Json& result) { std::cout << result.dump(1, ' ', false, Json::error_handler_t::replace) << '\n'; }

/// The build named by options, null when none is.
Json build_of(const Options& options) {
  Json build;
  if (options.frame.empty()) return build;
  build["frame"] = options.frame;
  if (options.lobes > 0) build["lobes"] = options.lobes;
  if (!options.first_frame.empty()) build["first_frame"] = options.first_frame;
  if (options.first_lobes > 0) build["first_lobes"] = options.first_lobes;
  return build;
}

/// Reads the enquiry and, when given, puts the duty of a load log into it; ends with the exit code when it cannot.
std::optional<Document> read_enquiry(const Options& options, int& code) {
  Result<Document> document = read_document(options.file);
  if (!document) {
    code = refuse(document.errors(), options);
    return std::nullopt;
  }
  if (options.log.file.empty()) return std::move(*document);
  const Result<ExaminedLog> log = examine_log(document->json, options.log);
  if (!log) {
    const bool about_log = log.errors().front().path.starts_with("log");
    code = cli::refuse(log.errors(), about_log ? options.log.file : options.file, options.json, document->lines);
    return std::nullopt;
  }
  if (log->cancelled) {
    std::cerr << "broken off while the log was read\n";
    code = kCancelled;
    return std::nullopt;
  }
  take_duty(log->result, document->json);
  return std::move(*document);
}

/// The same with and without --json: whatever the verdicts are, a build was offered, or named, or none serves.
int code_of_answer(const Json& result) { return result.contains("why_none") ? kNothingServes : kAnswered; }

/// Reads the enquiry and, when given, the range; runs a call of the main job; hands the result to `show`.
template <class Show>
int main_job(const char* call, const Options& options, Show show) {
  int code = kAnswered;
  const std::optional<Document> document = read_enquiry(options, code);
  if (!document) return code;
  Json input{{"enquiry", document->json}};
  if (!options.range_file.empty()) {
    const Result<Json> range = read_json(options.range_file);
    if (!range) return refuse(range.errors(), options);
    input["range"] = *range;
  }
  if (const Json build = build_of(options); !build.is_null()) input["build"] = build;
  if (options.samples) input["samples"] = *options.samples;
  const Result<Json> result = session().registry().run(call, input);
  if (!result) return refuse(result.errors(), options, document->lines);
  if (options.json) {
    print(*result);
    return code_of_answer(*result);
  }
  return show(*result, style_of(options, *result));
}

int prove(const Options& options) {
  return main_job("prove", options, [&](const Json& result, const Style& style) {
    if (options.why.empty()) {
      std::cout << evidence_report(result, style);
      return code_of_answer(result);
    }
    if (options.why == "demand" || options.why == "torque") {
      std::cout << demand_report(result, style);
      return code_of_answer(result);
    }
    std::vector<std::string_view> ids{"demand"};
    for (const Json& finding : result["findings"]) {
      const std::string& id = finding["id"].get_ref<const std::string&>();
      ids.push_back(id);
      if (id != options.why) continue;
      std::cout << finding_report(finding, style);
      return code_of_answer(result);
    }
    std::string known;
    for (std::string_view id : ids) known += (known.empty() ? "" : ", ") + std::string(id);
    return refuse({input_error("--why", options.why, "no such finding; there are: " + known)}, options);
  });
}

int compare(const Options& options) {
  return main_job("compare", options, [&](const Json& result, const Style& style) {
    std::cout << compare_report(result, style, options.all);
    return code_of_answer(result);
  });
}

int size(const Options& options) {
  return main_job("size", options, [&](const Json& result, const Style& style) {
    std::cout << candidates_report(result, style, options.all ? 10000 : 12);
    return code_of_answer(result);
  });
}

int check(const Options& options) {
  if (options.file.size() > 5 && options.file.substr(options.file.size() - 5) == ".json") {
    const Result<Json> json = read_json(options.file);
    if (json.ok() && json->is_object() && json->contains("frames")) {
      const Result<Json> result = session().registry().run("check", Json{{"range", *json}});
      if (!result) return refuse(result.errors(), options);
      const Json& warnings = (*result)["warnings"];
      std::cout << options.file << ": "
                << (warnings.empty() ? "a sound range\n" : "a range that can be worked with, but\n");
      for (const Json& warning : warnings)
        std::cout << paragraph(warning["path"].get<std::string>() + " = " + warning["offending"].get<std::string>() +
                                   ": " + warning["message"].get<std::string>(),
                               4, "  !");
      return kAnswered;
    }
  }
  return main_job("check", options, [&](const Json& result, const Style& style) {
    std::cout << options.file << ": read without errors\n";
    for (const Json& question : result["questions"])
      std::cout << paragraph(question["text"].get<std::string>(), 4, "  ?");
    std::cout << first_cautions(result["cautions"], style) << further_cautions(result["cautions"], style);
    return kAnswered;
  });
}

/// `params` of the case of that name in the folder of `file`.
std::optional<Json> params_beside(const std::string& file, const std::string& name) {
  std::error_code error;
  const std::filesystem::path folder = std::filesystem::path(file).parent_path();
  for (const auto& entry : std::filesystem::directory_iterator(folder.empty() ? "." : folder, error)) {
    if (entry.path().extension() != ".json") continue;
    const Result<Json> other = read_json(entry.path().string());
    if (other.ok() && other->is_object() && other->contains("params") && other->value("name", Json()) == name)
      return (*other)["params"];
  }
  return std::nullopt;
}

int handover(const Options& options, const HandoverOptions& wanted) {
  int code = kAnswered;
  const std::optional<Document> document = read_enquiry(options, code);
  if (!document) return code;
  handover::Order order;
  order.enquiry = document->json;
  order.units = options.units;
  if (!options.range_file.empty()) {
    const Result<Json> range = read_json(options.range_file);
    if (!range) return refuse(range.errors(), options);
    order.range = *range;
  }
  order.build = build_of(options);
  const Result<HandedOver> made =
      write_handover([](const std::string& call, const Json& input) { return session().registry().run(call, input); },
                     std::move(order), wanted);
  if (!made) return refuse(made.errors(), options, document->lines);
  std::cout << made->report;
  return made->offered ? kAnswered : kNothingServes;
}

int run_case(const char* call, const Options& options) {
  const Result<Json> json = read_json(options.file);
  if (!json) return refuse(json.errors(), options);
  Json input = *json;
  // A two-stage case names its stages by the `name` of the cases beside it.
  for (const char* stage : {"stage1", "stage2"})
    if (input.contains(stage) && input[stage].is_string() && !input["stages"].contains(input[stage]))
      if (std::optional<Json> params = params_beside(options.file, input[stage]))
        input["stages"][input[stage].get<std::string>()] = *params;
  const Result<Json> result = session().registry().run(call, input);
  if (!result) return refuse(result.errors(), options);
  print(*result);
  return kAnswered;
}

int rate(const Options& options) {
  Json input = Json::object();
  if (!options.range_file.empty()) {
    const Result<Json> range = read_json(options.range_file);
    if (!range) return refuse(range.errors(), options);
    input["range"] = *range;
  }
  for (const std::string& speed : options.speeds) input["speeds"].push_back(speed);
  if (!options.hours.empty()) input["hours"] = options.hours;
  if (!options.ambient.empty()) input["ambient"] = options.ambient;
  const Result<Json> result = session().registry().run("rate", input);
  if (!result) return refuse(result.errors(), options);
  if (options.json)
    print(*result);
  else
    std::cout << rating_report(*result, style_of(options, *result));
  return kAnswered;
}

int schema(const Options& options) {
  const Result<Json> result =
      session().registry().run("schema", options.name.empty() ? Json::object() : Json{{"of", options.name}});
  if (!result) return refuse(result.errors(), options);
  if (options.name.empty() && !options.json) {
    for (const Json& call : (*result)["calls"])
      std::cout << pad(call["name"].get<std::string>(), 30) << ' ' << call["help"].get<std::string>() << '\n';
    return kAnswered;
  }
  print(*result);
  return kAnswered;
}

int workspace(const Options& options) {
  server::Options serving;
  const std::optional<std::filesystem::path> site = server::find_site();
  if (!site)
    return refuse({input_error("", "", "the workspace was not built; run tools/build_web.sh (or ./run.sh)")}, options);
  serving.site = *site;
  serving.port = options.port;
  serving.open_browser = !options.no_browser;
  if (!options.file.empty()) {
    const Result<Document> document = read_document(options.file);
    if (!document) return refuse(document.errors(), options);
    serving.enquiry = document->json.dump();
  }
  if (!options.store.empty()) {
    const store::Outcome<store::Place> place = store::parse_place(options.store);
    if (!place) return refuse({input_error("--store", options.store, place.problem().message)}, options);
    serving.store = *place;
  }
  serving.public_host = options.public_host;
  serving.handover = [](const api::Session& engine, const std::string& request) {
    return answer_handover(
        [&](const std::string& call, const Json& input) { return engine.registry().run(call, input); }, request);
  };
  serving.on_ready = [](const std::string& url) {
    std::cout << "Workspace: " << url << "  (stop with Ctrl-C)" << std::endl;
  };
  return server::serve(serving);
}

int api_door() {
  constexpr std::size_t kMost = (64U << 20U) + 1;
  std::string request;
  char buffer[65536];
  while (std::cin.read(buffer, sizeof buffer) || std::cin.gcount() > 0) {
    request.append(buffer, static_cast<std::size_t>(std::cin.gcount()));
    if (request.size() > kMost) break;
  }
  const std::string answer = session().answer(request);
  std::cout << answer << '\n';
  return answer.rfind("{\"errors\":", 0) == 0 ? kInputError : kAnswered;
}

int run(int argc, char** argv) {
  CLI::App app{
      "Sizes a cycloidal speed reducer for a driven machine and proves it, with the working shown.\n"
      "Results are engineering estimates; local codes and a licensed engineer decide."};
  app.require_subcommand(1);
  app.set_version_flag("--version", LOBEWISE_VERSION);
  Options options;
  int code = kAnswered;

  const auto common = [&](CLI::App* command) {
    command->add_option("--units", options.units, "si or us; the enquiry's own when left out")
        ->check(CLI::IsMember({"si", "us"}));
    command->add_flag("--json", options.json, "print the result as JSON (SI)");
  };
  const auto enquiry = [&](CLI::App* command) {
    command->add_option("enquiry", options.file, "enquiry, YAML or JSON")->required();
    command->add_option("--range", options.range_file, "range, JSON; the invented demo range when left out");
    command->add_option("--log", options.log.file, "load log, CSV: its duty instead of the enquiry's; see `log`");
    command->add_option("--log-time", options.log.time_column,
                        "heading of its time, the first that fits when left out");
    command->add_option("--log-value", options.log.value_column, "heading of its torque, current or power");
    common(command);
  };

  const auto build = [&](CLI::App* command) {
    command->add_option("--frame", options.frame, "this frame instead of the best candidate");
    command->add_option("--lobes", options.lobes, "with this many lobes (the ratio of its stage)");
    command->add_option("--first-frame", options.first_frame, "frame of the first of two stages");
    command->add_option("--first-lobes", options.first_lobes, "lobes of the first stage");
  };

  CLI::App* prove_command =
      app.add_subcommand("prove", "Answer every question about the best candidate, or about the one named");
  enquiry(prove_command);
  prove_command->add_option("--why", options.why, "open one finding, or demand: its working, sources and gaps");
  prove_command->add_option("--samples", options.samples, "samples of everything uncertain, 200 when left out; 0: none")
      ->check(CLI::Range(0, 5000));
  build(prove_command);
  prove_command->callback([&] { code = prove(options); });

  CLI::App* compare_command =
      app.add_subcommand("compare", "Set the best candidate, or the one named, beside the drive in service");
  enquiry(compare_command);
  build(compare_command);
  compare_command->add_flag("--all", options.all, "also working and assumptions");
  compare_command->callback([&] { code = compare(options); });

  CLI::App* size_command =
      app.add_subcommand("size", "Look at every frame and ratio, best first, and say why the others fell out");
  enquiry(size_command);
  size_command->add_flag("--all", options.all, "show all of them");
  size_command->callback([&] { code = size(options); });

  CLI::App* handover_command = app.add_subcommand(
      "handover", "Write proposal, drawing, models, sheets and workbook for a customer into a folder");
  HandoverOptions wanted;
  enquiry(handover_command);
  build(handover_command);
  handover_command->add_option("--out", wanted.out, "folder to write into")->required();
  handover_command->add_option("--paper", wanted.paper, "a4 or letter")->check(CLI::IsMember({"a4", "letter"}));
  handover_command->add_option(
      "--only", wanted.only,
      "some of: proposal, drawing, order, commissioning, findings, workings, model, step, offline");
  handover_command->add_option("--date", wanted.date, "day of issue, e.g. 2026-11-25; today when left out");
  handover_command->add_option("--valid-days", wanted.valid_days, "days for which the price stands")
      ->check(CLI::Range(1, 3650));
  handover_command->add_option("--model-size", wanted.model_size, "outside of the printed model, e.g. '160 mm'");
  handover_command->add_option("--clearance", wanted.clearance, "gap between its moving parts, e.g. '0.2 mm'");
  handover_command->callback([&] { code = handover(options, wanted); });

  CLI::App* check_command = app.add_subcommand("check", "Read an enquiry or a range and say what is wrong or missing");
  enquiry(check_command);
  check_command->callback([&] { code = check(options); });

  CLI::App* rate_command =
      app.add_subcommand("rate", "Allowable torque of every frame, ratio and speed, with what limits it");
  rate_command->add_option("--range", options.range_file, "range, JSON");
  rate_command->add_option("--speed", options.speeds, "input speeds, e.g. '1450 rpm'");
  rate_command->add_option("--life", options.hours, "service life, e.g. '20000 h'");
  rate_command->add_option("--ambient", options.ambient, "ambient temperature, e.g. '30 °C'");
  common(rate_command);
  rate_command->callback([&] { code = rate(options); });

  for (const char* name : {"mesh", "elastic"}) {
    CLI::App* command =
        app.add_subcommand(name, std::string("Solve a case file of the ") +
                                     (std::string(name) == "mesh" ? "rigid mesh models" : "elastic disc"));
    command->add_option("case", options.file, "case, JSON (mm, N, MPa, rad)")->required();
    command->add_flag("--json", options.json, "print JSON (the only form)");
    command->callback([&, name] { code = run_case(name, options); });
  }

  CLI::App* schema_command =
      app.add_subcommand("schema", "List the calls, or print the schema of enquiry, range or a call");
  schema_command->add_option("of", options.name, "enquiry, range, or a call's name");
  schema_command->add_flag("--json", options.json, "list as JSON");
  schema_command->callback([&] { code = schema(options); });

  CLI::App* range_command = app.add_subcommand("range", "Print the invented demo range as JSON (SI)");
  range_command->callback([&] {
    const Result<Json> result = session().registry().run("range", Json::object());
    if (result) print(*result);
    code = result ? kAnswered : refuse(result.errors(), options);
  });

  CLI::App* workspace_command =
      app.add_subcommand("workspace", "Open the workspace in a browser of this machine (loopback only)");
  workspace_command->add_option("enquiry", options.file, "enquiry to open, YAML or JSON");
  workspace_command->add_option("--port", options.port, "port, 0 for any free one")->check(CLI::Range(0, 65535));
  workspace_command->add_flag("--no-browser", options.no_browser, "only serve; print the address");
  workspace_command->add_option("--store", options.store, "keep enquiries here: a file, or postgresql://… of a team");
  workspace_command->add_option("--public-host", options.public_host,
                                "name under which a TLS proxy of this machine serves it to a network");
  workspace_command->callback([&] { code = workspace(options); });

  CLI::App* api_command =
      app.add_subcommand("api", "Read one request {\"call\", \"input\"} from standard input, print its result");
  api_command->callback([&] { code = api_door(); });

  add_store(app, code);
  add_survey(app, code);
  add_log(app, code);
  add_visit_sheet(app, code);
  add_example(app, code);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& problem) {
    return app.exit(problem) == 0 ? kAnswered : kUsage;
  }
  return code;
}

}  // namespace
}  // namespace lobewise::cli

int main(int argc, char** argv) {
  try {
    return lobewise::cli::run(argc, argv);
  } catch (const std::exception& problem) {  // a defect of ours: say so instead of dying without a word
    std::cerr << "internal error: " << problem.what() << '\n';
    return 70;
  }
}
