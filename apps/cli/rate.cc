#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/job.h"
#include "apps/cli/report.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct RateOptions : JobOptions {
  std::vector<std::string> speeds;
  std::string hours, ambient;
};

int rate(const RateOptions& options) {
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

}  // namespace

void add_rate(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("rate", "Allowable torque of every frame, ratio and speed, with what limits it");
  const auto options = std::make_shared<RateOptions>();
  command->add_option("--range", options->range_file, "range, JSON");
  command->add_option("--speed", options->speeds, "input speeds, e.g. '1450 rpm'");
  command->add_option("--life", options->hours, "service life, e.g. '20000 h'");
  command->add_option("--ambient", options->ambient, "ambient temperature, e.g. '30 °C'");
  add_units_and_json(*command, *options);
  command->callback([options, &code] { code = rate(*options); });
}

}  // namespace lobewise::cli
