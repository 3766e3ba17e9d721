// `lobewise log`: a recorded load, row by row, and the duty block that says the same.

#include <fmt/format.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <fstream>
#include <iostream>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/load_log.h"
#include "apps/cli/read_file.h"
#include "engine/base/quantity.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct LogOptions {
  LogFile log;
  std::string enquiry, units, duty_out;
  bool json = false;
};

std::string shown(const Json& both, const Style& style) { return both.value(style.units, std::string()); }
std::string percent(double share, int digits = 3) { return format_number(100 * share, digits) + " %"; }

/// YAML of the duty block. Every value is a number or text of our own making.
std::string duty_yaml(const Json& duty) {
  const auto scalar = [](const Json& value) {
    return value.is_string() ? value.get<std::string>() : format_number(value.get<double>(), 9);
  };
  std::string out = "duty:\n";
  for (const char* key : {"hours_per_day", "days_per_year", "starts_per_hour", "reversals_per_hour"})
    if (duty.contains(key)) out += fmt::format("  {}: {}\n", key, scalar(duty[key]));
  const auto list = [&](const char* name, std::initializer_list<const char*> keys) {
    if (!duty.contains(name) || duty[name].empty()) return;
    out += fmt::format("  {}:\n", name);
    for (const Json& item : duty[name]) {
      std::string fields;
      for (const char* key : keys)
        fields += fmt::format("{}{}: {}", fields.empty() ? "" : ", ", key, scalar(item[key]));
      out += fmt::format("    - {{{}}}\n", fields);
    }
  };
  list("blocks", {"time_share", "torque"});
  list("shocks", {"what", "torque", "per_year"});
  list("torque_cycles", {"range", "mean", "per_hour"});
  return out;
}

std::string report(const Json& result, const Style& style) {
  const Json& counts = result["counts"];
  std::string out = style.bold("Load log") + '\n';
  const auto line = [&](const char* label, const std::string& value) {
    out += fmt::format("  {} {}\n", pad(label, 34), value);
  };
  const auto whole = [](const Json& n) { return fmt::format("{}", n.get<long long>()); };
  line("Rows taken", whole(counts["rows"]));
  if (counts["unreadable"] != 0) line("Rows that cannot be read", whole(counts["unreadable"]));
  if (counts["out_of_order"] != 0) line("Rows out of order, left out", whole(counts["out_of_order"]));
  if (counts["gaps"] != 0) line("Gaps without a record", whole(counts["gaps"]));
  line("Running", shown(counts["running"], style));
  line("Standing", shown(counts["resting"], style));
  line("Starts",
       fmt::format("{}, {} an hour of running", whole(counts["starts"]), format_number(result["starts_per_hour"], 3)));
  if (counts["reversals"] != 0)
    line("Reversals", fmt::format("{}, {} an hour of running", whole(counts["reversals"]),
                                  format_number(result["reversals_per_hour"], 3)));
  line("Running torque of the enquiry", shown(result["running_torque"], style));
  line("Highest torque", shown(counts["highest"], style));
  line("Lowest torque", shown(counts["lowest"], style));
  line("Torque that wears bearings alike", shown(result["equivalent"], style));

  // Levels are fine; bands of a tenth of the running torque are shown.
  out += '\n' + style.bold("Time at torque (share of the running torque)") + '\n';
  std::map<int, double> bands;
  double largest = 0;
  for (const Json& bin : result["spectrum"]) {
    double& share = bands[static_cast<int>(std::floor(10 * bin["of_running"].get<double>()))];
    share += bin["share"].get<double>();
    largest = std::max(largest, share);
  }
  std::vector<std::vector<std::string>> rows{{"band", "", "time"}};
  for (auto band = bands.rbegin(); band != bands.rend(); ++band)
    rows.push_back({fmt::format("{} … {} %", 10 * band->first, 10 * band->first + 10), bar(band->second / largest),
                    percent(band->second)});
  out += table(rows, {0, 2}, style);

  out += '\n' + style.bold("Torque cycles an hour of running (rainflow, largest first)") + '\n';
  std::vector<Json> cycles(result["cycles"].begin(), result["cycles"].end());
  std::stable_sort(cycles.begin(), cycles.end(),
                   [](const Json& a, const Json& b) { return a["range"]["value"] > b["range"]["value"]; });
  rows = {{"range", "about", "an hour"}};
  constexpr std::size_t kShown = 15;
  for (std::size_t i = 0; i < cycles.size() && i < kShown; ++i)
    rows.push_back(
        {shown(cycles[i]["range"], style), shown(cycles[i]["mean"], style), format_number(cycles[i]["per_hour"], 3)});
  out += table(rows, {0, 1, 2}, style);
  if (cycles.size() > kShown) out += fmt::format("  … and {} smaller ones (--json has all)\n", cycles.size() - kShown);

  out += '\n' + style.bold("Shocks") + '\n';
  rows = {{"what", "highest", "a year"}};
  for (const Json& shock : result["shocks"])
    rows.push_back({shock["what"], fmt::format("{} ({})", shown(shock["torque"], style), percent(shock["of_running"])),
                    format_number(shock["per_year"], 3)});
  out += rows.size() > 1 ? table(rows, {1, 2}, style) : "  none above one and a half times the running torque\n";

  if (!result["assumptions"].empty()) out += '\n' + style.bold("Taken") + '\n';
  for (const Json& assumption : result["assumptions"])
    out += paragraph(fmt::format("{} {} ({} … {}); {}", assumption["text"].get<std::string>(),
                                 shown(assumption["value"], style), shown(assumption["low"], style),
                                 shown(assumption["high"], style), assumption["source"].get<std::string>()),
                     4, "  –");
  if (!result["questions"].empty()) out += '\n' + style.bold("Worth asking next") + '\n';
  for (const Json& question : result["questions"]) out += paragraph(question.get<std::string>(), 4, "  –");
  return out;
}

int run_log(const LogOptions& options) {
  const Result<Document> enquiry = read_document(options.enquiry);
  if (!enquiry) return refuse(enquiry.errors(), options.enquiry, options.json);
  const Result<ExaminedLog> examined = examine_log(enquiry->json, options.log);
  if (!examined) {
    const std::string& path = examined.errors().front().path;
    return refuse(examined.errors(), path.starts_with("log") ? options.log.file : options.enquiry, options.json,
                  enquiry->lines);
  }
  const Json& result = examined->result;
  const std::string duty = duty_yaml(result["duty"]);
  if (options.json)
    std::cout << result.dump(1, ' ', false, Json::error_handler_t::replace) << '\n';
  else
    std::cout << report(
        result, style_for(STDOUT_FILENO, options.units.empty() ? enquiry->json.value("units", "si") : options.units));
  if (!options.duty_out.empty()) {
    std::ofstream out(options.duty_out, std::ios::binary | std::ios::trunc);
    out << "# From a load log" << (examined->cancelled ? ", broken off before its end" : "")
        << "; put it into the enquiry in place of its own duty.\n"
        << duty;
    out.close();
    if (!out)
      return refuse({input_error("--duty-out", options.duty_out, "this file cannot be written")}, options.log.file,
                    options.json);
  } else if (!options.json) {
    std::cout
        << "\nFor the enquiry (--duty-out FILE keeps it, `lobewise prove ENQUIRY --log FILE` takes it at once):\n\n"
        << duty;
  }
  if (!examined->cancelled) return kAnswered;
  std::cerr << "broken off; the figures are those of the rows read so far\n";
  return kCancelled;
}

}  // namespace

void add_log(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand(
      "log", "Examine a load log: time at torque, cycles, starts, shocks, and the duty block for the enquiry");
  const auto options = std::make_shared<LogOptions>();
  command
      ->add_option("log", options->log.file,
                   "log, CSV with units in its headings: Time [s], Torque [N·m] or Current [A] or Power [kW]")
      ->required();
  command->add_option("--enquiry", options->enquiry, "enquiry of the drive, YAML or JSON")->required();
  command->add_option("--time", options->log.time_column, "heading of the time, the first that fits when left out");
  command->add_option("--value", options->log.value_column, "heading of torque, current or power");
  command->add_option("--duty-out", options->duty_out, "write the duty block, YAML");
  command->add_option("--units", options->units, "si or us; the enquiry's own when left out")
      ->check(CLI::IsMember({"si", "us"}));
  command->add_flag("--json", options->json, "print the result as JSON (SI)");
  command->callback([options, &code] { code = run_log(*options); });
}

}  // namespace lobewise::cli
