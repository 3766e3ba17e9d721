#include <iostream>
#include <memory>
#include <string>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/job.h"
#include "apps/cli/report_parts.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

int check(const JobOptions& options) {
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

}  // namespace

void add_check(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand("check", "Read an enquiry or a range and say what is wrong or missing");
  const auto options = std::make_shared<JobOptions>();
  add_enquiry(*command, *options);
  command->callback([options, &code] { code = check(*options); });
}

}  // namespace lobewise::cli
