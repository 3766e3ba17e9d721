#include <iostream>
#include <memory>

#include "apps/cli/commands.h"
#include "apps/cli/job.h"
#include "apps/cli/report_compare.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct CompareOptions : JobOptions {
  bool all = false;
};

int compare(const CompareOptions& options) {
  return main_job("compare", options, [&](const Json& result, const Style& style) {
    std::cout << compare_report(result, style, options.all);
    return code_of_answer(result);
  });
}

}  // namespace

void add_compare(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("compare", "Set the best candidate, or the one named, beside the drive in service");
  const auto options = std::make_shared<CompareOptions>();
  add_enquiry(*command, *options);
  add_build(*command, *options);
  command->add_flag("--all", options->all, "also working and assumptions");
  command->callback([options, &code] { code = compare(*options); });
}

}  // namespace lobewise::cli
