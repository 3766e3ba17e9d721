#pragma once
// Commands, one file each. Each adds its subcommand; `code` becomes its exit code.

namespace CLI {
class App;
}

namespace lobewise::cli {

void add_prove(CLI::App& app, int& code);
void add_compare(CLI::App& app, int& code);
void add_size(CLI::App& app, int& code);
void add_handover(CLI::App& app, int& code);
void add_check(CLI::App& app, int& code);
void add_rate(CLI::App& app, int& code);
/// `mesh` and `elastic`: case files of the two mesh models.
void add_cases(CLI::App& app, int& code);
void add_schema(CLI::App& app, int& code);
void add_range(CLI::App& app, int& code);
void add_workspace(CLI::App& app, int& code);
/// `api`: one request, one result.
void add_api(CLI::App& app, int& code);
void add_store(CLI::App& app, int& code);
/// `survey`: a plant's list of drives.
void add_survey(CLI::App& app, int& code);
/// `log`: examination of a load log.
void add_log(CLI::App& app, int& code);
/// `visit-sheet`: a form to fill in at the machine.
void add_visit_sheet(CLI::App& app, int& code);
void add_example(CLI::App& app, int& code);

}  // namespace lobewise::cli
