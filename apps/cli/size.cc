#include <iostream>
#include <memory>

#include "apps/cli/commands.h"
#include "apps/cli/job.h"
#include "apps/cli/report.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct SizeOptions : JobOptions {
  bool all = false;
};

int size(const SizeOptions& options) {
  return main_job("size", options, [&](const Json& result, const Style& style) {
    std::cout << candidates_report(result, style, options.all ? 10000 : 12);
    return code_of_answer(result);
  });
}

}  // namespace

void add_size(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("size", "Look at every frame and ratio, best first, and say why the others fell out");
  const auto options = std::make_shared<SizeOptions>();
  add_enquiry(*command, *options);
  command->add_flag("--all", options->all, "show all of them");
  command->callback([options, &code] { code = size(*options); });
}

}  // namespace lobewise::cli
