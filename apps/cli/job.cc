#include "apps/cli/job.h"

#include <unistd.h>

#include <iostream>

#include "apps/cli/exit.h"
#include "apps/tables/table_folder.h"

namespace lobewise::cli {

using Json = nlohmann::json;

const std::shared_ptr<api::TableShelf>& shelf() {
  static const auto kShelf = std::make_shared<api::TableShelf>(tables::users_tables());
  return kShelf;
}

const api::Session& session() {
  static const api::Session kSession(shelf());
  return kSession;
}

void add_units_and_json(CLI::App& command, JobOptions& options) {
  command.add_option("--units", options.units, "si or us; the enquiry's own when left out")
      ->check(CLI::IsMember({"si", "us"}));
  command.add_flag("--json", options.json, "print the result as JSON (SI)");
}

void add_enquiry(CLI::App& command, JobOptions& options) {
  command.add_option("enquiry", options.file, "enquiry, YAML or JSON")->required();
  command.add_option("--range", options.range_file, "range, JSON; the invented demo range when left out");
  command.add_option("--log", options.log.file, "load log, CSV: its duty instead of the enquiry's; see `log`");
  command.add_option("--log-time", options.log.time_column, "heading of its time, the first that fits when left out");
  command.add_option("--log-value", options.log.value_column, "heading of its torque, current or power");
  add_units_and_json(command, options);
}

void add_build(CLI::App& command, JobOptions& options) {
  command.add_option("--frame", options.frame, "this frame instead of the best candidate");
  command.add_option("--lobes", options.lobes, "with this many lobes (the ratio of its stage)");
  command.add_option("--first-frame", options.first_frame, "frame of the first of two stages");
  command.add_option("--first-lobes", options.first_lobes, "lobes of the first stage");
}

Style style_of(const JobOptions& options, const Json& result) {
  return style_for(STDOUT_FILENO, !options.units.empty() ? options.units : result.value("units", std::string("si")));
}

int refuse(Errors errors, const JobOptions& options, const std::map<std::string, int>& lines) {
  return cli::refuse(std::move(errors), options.file, options.json, lines);
}

void print(const Json& result) { std::cout << result.dump(1, ' ', false, Json::error_handler_t::replace) << '\n'; }

Json build_of(const JobOptions& options) {
  Json build;
  if (options.frame.empty()) return build;
  build["frame"] = options.frame;
  if (options.lobes > 0) build["lobes"] = options.lobes;
  if (!options.first_frame.empty()) build["first_frame"] = options.first_frame;
  if (options.first_lobes > 0) build["first_lobes"] = options.first_lobes;
  return build;
}

std::optional<Document> read_enquiry(const JobOptions& options, int& code) {
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

int code_of_answer(const Json& result) { return result.contains("why_none") ? kNothingServes : kAnswered; }

int main_job(const char* call, const JobOptions& options,
             const std::function<int(const Json& result, const Style& style)>& show) {
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
  if (options.made) input["made"] = *options.made;
  const Result<Json> result = session().registry().run(call, input);
  if (!result) return refuse(result.errors(), options, document->lines);
  if (options.json) {
    print(*result);
    return code_of_answer(*result);
  }
  return show(*result, style_of(options, *result));
}

}  // namespace lobewise::cli
