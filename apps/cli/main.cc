// lobewise: parse the command line; every command has a file of its own.

#include <CLI/CLI.hpp>
#include <exception>
#include <iostream>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"

namespace lobewise::cli {
namespace {

int run(int argc, char** argv) {
  CLI::App app{
      "Sizes a cycloidal speed reducer for a driven machine and proves it, with the working shown.\n"
      "Results are engineering estimates; local codes and a licensed engineer decide."};
  app.require_subcommand(1);
  app.set_version_flag("--version", LOBEWISE_VERSION);
  int code = kAnswered;
  for (const auto add :
       {add_prove, add_compare, add_size, add_handover, add_check, add_rate, add_cases, add_schema, add_range,
        add_workspace, add_api, add_store, add_survey, add_log, add_visit_sheet, add_example})
    add(app, code);
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
