#include <iostream>
#include <memory>
#include <string>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/job.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct SchemaOptions : JobOptions {
  std::string name;
};

int schema(const SchemaOptions& options) {
  const Result<Json> result =
      session().registry().run("schema", options.name.empty() ? Json::object() : Json{{"of", options.name}});
  if (!result) return refuse(result.errors(), options);
  if (options.name.empty() && !options.json) {
    for (const char* list : {"calls", "results"}) {
      std::cout << (list == std::string_view("calls") ? "Calls, with the schema of their input\n" : "\nResults\n");
      for (const Json& one : (*result)[list])
        std::cout << "  " << pad(one["name"].get<std::string>(), 30) << ' ' << one["help"].get<std::string>() << '\n';
    }
    return kAnswered;
  }
  print(*result);
  return kAnswered;
}

}  // namespace

void add_schema(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("schema", "List calls and results, or print the schema of one, of enquiry or range");
  const auto options = std::make_shared<SchemaOptions>();
  command->add_option("of", options->name, "enquiry, range, a result's or a call's name");
  command->add_flag("--json", options->json, "list as JSON");
  command->callback([options, &code] { code = schema(*options); });
}

void add_range(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand("range", "Print the invented demo range as JSON (SI)");
  command->callback([&code] {
    const Result<Json> result = session().registry().run("range", Json::object());
    if (result) print(*result);
    code = result ? kAnswered : refuse(result.errors(), JobOptions{});
  });
}

}  // namespace lobewise::cli
