// `lobewise example KIND`: an enquiry to start from, and as comments everything else that may be said of the machine.

#include "apps/cli/example.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <iostream>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "engine/api/registry.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct ExampleOptions {
  std::string kind, units = "si";
};

/// `#   belt_mass: … kg/m   Belt mass. One strand, per metre.` for every field of a record.
std::string fields_of(const Json& record, const std::string& units) {
  std::string out;
  for (const Json& key : record["x-order"]) {
    const Json& field = record["properties"][key.get<std::string>()];
    std::string value;
    if (field.contains("enum")) {
      for (const Json& word : field["enum"]) value += (value.empty() ? "" : " | ") + word.get<std::string>();
    } else if (field.value("type", Json()) == "boolean") {
      value = "yes | no";
    } else {
      value = field.value("x-display", Json::object()).value(units, "");
      value = value.empty() ? "…" : "… " + value;
    }
    out += fmt::format("#   {}: {}    {}. {}\n", key.get<std::string>(), value, field.value("title", ""),
                       field.value("description", ""));
  }
  return out;
}

int write_example(const ExampleOptions& options) {
  const Result<Json> schema = api::Session().registry().run("schema", Json{{"of", "enquiry"}});
  if (!schema) return refuse(schema.errors(), "", false);
  const Json& machines = (*schema)["properties"]["machine"]["properties"];
  if (options.kind.empty()) {
    for (const auto& [kind, text] : example_files())
      std::cout << fmt::format("{:<18}{}\n", kind, machines[kind].value("title", ""));
    return kAnswered;
  }
  const auto example = example_files().find(options.kind);
  if (example == example_files().end()) {
    std::string known;
    for (const auto& [kind, text] : example_files()) known += (known.empty() ? "" : ", ") + kind;
    return refuse({input_error("KIND", options.kind, "one of: " + known)}, "", false);
  }
  std::cout
      << example->second
      << fmt::format("\n# What else may be said under machine: {}:  (each in any unit of its kind)\n", options.kind)
      << fields_of(machines[options.kind], options.units)
      << "# … and beside `machine`: duty, site, connection, supply, mounting, wishes, incumbent, economics; "
         "`lobewise schema enquiry` has all of it.\n"
         "# What is left out becomes an assumption with a range: `lobewise check FILE` says which question to ask.\n";
  return kAnswered;
}

}  // namespace

void add_example(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("example", "An enquiry to start from, one for each kind of machine; without KIND the list");
  const auto options = std::make_shared<ExampleOptions>();
  command->add_option("kind", options->kind, "kind of machine, e.g. belt_conveyor");
  command->add_option("--units", options->units, "si or us")->check(CLI::IsMember({"si", "us"}));
  command->callback([options, &code] { code = write_example(*options); });
}

}  // namespace lobewise::cli
