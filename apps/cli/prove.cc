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

struct ProveOptions : JobOptions {
  std::string why;
};

int prove(const ProveOptions& options) {
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

}  // namespace

void add_prove(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("prove", "Answer every question about the best candidate, or about the one named");
  const auto options = std::make_shared<ProveOptions>();
  add_enquiry(*command, *options);
  command->add_option("--why", options->why, "open one finding, or demand: its working, sources and gaps");
  command->add_option("--samples", options->samples, "samples of everything uncertain, 200 when left out; 0: none")
      ->check(CLI::Range(0, 5000));
  command
      ->add_option("--made", options->made,
                   "units as made to solve under load (16 to 2048): what one out of a hundred does; 0: none")
      ->check(CLI::Range(0, 2048));
  add_build(*command, *options);
  command->callback([options, &code] { code = prove(*options); });
}

}  // namespace lobewise::cli
