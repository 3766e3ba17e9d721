#include "apps/cli/handover.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "apps/cli/terminal.h"
#include "apps/handover/handover.h"
#include "apps/handover/run_program.h"
#include "engine/api/json_io.h"
#include "engine/base/quantity.h"

namespace lobewise::cli {
namespace {

using Day = std::chrono::year_month_day;

std::string text_of(Day day) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

Result<Day> read_day(const std::string& text) {
  int year = 0;
  unsigned month = 0, day = 0;
  char rest = 0;
  if (std::sscanf(text.c_str(), "%4d-%2u-%2u%c", &year, &month, &day, &rest) == 3) {
    const Day date{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
    if (date.ok()) return date;
  }
  return input_error("--date", text, "a day such as 2026-11-25 is needed");
}

Day today() { return Day(std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now())); }

Errors read_length(const std::string& text, const char* path, double low, double high, double& into) {
  if (text.empty()) return {};
  const Result<double> value = parse_quantity(text, Quantity::length, path);
  if (!value) return value.errors();
  if (*value < low || *value > high)
    return {input_error(path, text,
                        fmt::format("allowed: {} to {}", format_quantity(low, Quantity::length, UnitSystem::si),
                                    format_quantity(high, Quantity::length, UnitSystem::si)))};
  into = *value;
  return {};
}

Result<std::vector<std::string>> read_only(const std::string& text) {
  static const std::vector<std::string> kKnown{"proposal", "drawing", "order", "commissioning", "findings",
                                               "workings", "model",   "step",  "offline"};
  std::vector<std::string> names;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t end = std::min(text.find(',', i), text.size());
    const std::string name = text.substr(i, end - i);
    if (std::find(kKnown.begin(), kKnown.end(), name) == kKnown.end())
      return input_error("--only", name,
                         "known: proposal, drawing, order, commissioning, findings, workings, model, step, offline");
    names.push_back(name);
    i = end + 1;
  }
  return names;
}

/// A file beside this program, or where an installed one lies; empty when there is none.
std::string find_beside(std::initializer_list<const char*> places) {
  std::error_code problem;
  const std::filesystem::path folder = std::filesystem::read_symlink("/proc/self/exe", problem).parent_path();
  for (const char* place : places) {
    const std::filesystem::path file = folder / place;
    if (!problem && std::filesystem::exists(file, problem)) return file.lexically_normal().string();
  }
  return "";
}

}  // namespace

namespace {

/// Day, sizes and the programs that stand ready.
Errors complete(handover::Order& order, const HandoverOptions& options) {
  Errors errors = read_length(options.model_size, "--model-size", 0.05, 1, order.model_size);
  if (errors.empty()) errors = read_length(options.clearance, "--clearance", 0, 2e-3, order.clearance);
  if (!errors.empty()) return errors;
  const Result<Day> day = options.date.empty() ? Result<Day>(today()) : read_day(options.date);
  if (!day) return day.errors();
  order.date = text_of(*day);
  order.valid_until = text_of(Day(std::chrono::sys_days(*day) + std::chrono::days(options.valid_days)));
  order.paper = options.paper;
  order.step_writer = find_beside({"lobewise_step"});
  order.offline_page = find_beside({"../share/lobewise/web/handover.html", "../../../web/dist/handover.html"});
  return {};
}

std::string base64(const std::string& bytes) {
  constexpr char kLetters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  const auto at = [&](std::size_t i) { return i < bytes.size() ? static_cast<unsigned char>(bytes[i]) : 0U; };
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const unsigned word = at(i) << 16U | at(i + 1) << 8U | at(i + 2);
    for (unsigned k = 0; k < 4; ++k) out += i + k > bytes.size() ? '=' : kLetters[word >> (18U - 6U * k) & 63U];
  }
  return out;
}

}  // namespace

Result<HandedOver> write_handover(const handover::Ask& ask, handover::Order order, const HandoverOptions& options) {
  const Result<std::vector<std::string>> only = read_only(options.only);
  if (!only) return only.errors();
  if (const Errors errors = complete(order, options); !errors.empty()) return errors;
  const Result<handover::Source> source = handover::gather(ask, std::move(order));
  if (!source) return source.errors();
  const Result<handover::Written> written = handover::hand_over(*source, options.out, *only);
  if (!written) return written.errors();
  std::string report = fmt::format("{}, {}\n", source->title(), source->build_name());
  for (const std::string& file : written->files) report += fmt::format("  {}/{}\n", options.out, file);
  for (const std::string& reason : written->skipped) report += paragraph(reason, 4, "  ! not made: ");
  if (!source->serves()) report += paragraph(source->shown(source->prove["why_none"]), 2, "  ");
  return HandedOver{std::move(report), written->files, source->serves()};
}

std::string answer_handover(const handover::Ask& ask, const std::string& request) {
  using Json = nlohmann::json;
  const auto refuse = [](const Errors& errors) {
    return api::error_json(errors).dump(-1, ' ', false, Json::error_handler_t::replace);
  };
  const Result<Json> input = api::parse_json(request);
  if (!input) return refuse(input.errors());
  const auto text = [&](const char* key) {
    return input->is_object() && input->contains(key) && (*input)[key].is_string() ? (*input)[key].get<std::string>()
                                                                                   : "";
  };
  if (!input->is_object() || !input->contains("enquiry") || !(*input)["enquiry"].is_object())
    return refuse({input_error("enquiry", "", "an enquiry is needed")});
  HandoverOptions options;
  options.only = text("document");
  options.paper = text("paper") == "letter" ? "letter" : "a4";
  if (options.only.empty() || options.only.find(',') != std::string::npos)
    return refuse({input_error("document", options.only, "the name of one document is needed")});
  const Result<std::vector<std::string>> only = read_only(options.only);
  if (!only) return refuse(only.errors());
  handover::Order order;
  order.enquiry = (*input)["enquiry"];
  order.range = input->value("range", Json());
  order.build = input->value("build", Json());
  order.units = text("units") == "us" || text("units") == "si" ? text("units") : "";
  order.print = input->value("preview", Json()) != Json(true);
  if (const Errors errors = complete(order, options); !errors.empty()) return refuse(errors);
  const Result<handover::Source> source = handover::gather(ask, std::move(order));
  if (!source) return refuse(source.errors());
  const handover::TemporaryFolder folder;
  const Result<handover::Written> written = handover::hand_over(*source, folder.path().string(), *only);
  if (!written) return refuse(written.errors());
  Json files = Json::array();
  for (const std::string& name : written->files) {
    std::ifstream stream(folder.path() / name, std::ios::binary);
    files.push_back({{"name", name}, {"content", base64({std::istreambuf_iterator<char>(stream), {}})}});
  }
  return Json{{"files", files}, {"skipped", written->skipped}}.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lobewise::cli
