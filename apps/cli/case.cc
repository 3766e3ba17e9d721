#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/job.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

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

int run_case(const char* call, const JobOptions& options) {
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

}  // namespace

void add_cases(CLI::App& app, int& code) {
  for (const char* name : {"mesh", "elastic"}) {
    CLI::App* command =
        app.add_subcommand(name, std::string("Solve a case file of the ") +
                                     (std::string(name) == "mesh" ? "rigid mesh models" : "elastic disc"));
    const auto options = std::make_shared<JobOptions>();
    command->add_option("case", options->file, "case, JSON (mm, N, MPa, rad)")->required();
    command->add_flag("--json", options->json, "print JSON (the only form)");
    command->callback([options, &code, name] { code = run_case(name, *options); });
  }
}

}  // namespace lobewise::cli
