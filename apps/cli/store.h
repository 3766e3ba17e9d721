#pragma once
// `lobewise store …`

#include <CLI/CLI.hpp>

namespace lobewise::cli {

/// Adds the subcommand with its own ones. @param code  takes the exit code
void add_store(CLI::App& app, int& code);

}  // namespace lobewise::cli
