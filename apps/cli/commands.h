#pragma once
// Commands with a file of their own. Each adds its subcommand; `code` becomes its exit code.

namespace CLI {
class App;
}

namespace lobewise::cli {

/// `survey`: a plant's list of drives.
void add_survey(CLI::App& app, int& code);
/// `log`: examination of a load log.
void add_log(CLI::App& app, int& code);
/// `visit-sheet`: a form to fill in at the machine.
void add_example(CLI::App& app, int& code);
void add_visit_sheet(CLI::App& app, int& code);

}  // namespace lobewise::cli
