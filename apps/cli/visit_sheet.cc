// `lobewise visit-sheet`: a page to fill in by hand at the machine, made from the description of the enquiry, so that
// it asks for what the enquiry knows, in the same words and units.

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <fstream>
#include <iostream>
#include <set>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/job.h"
#include "apps/handover/text.h"
#include "engine/api/registry.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct SheetOptions {
  std::string machine, units = "si", out;
};

constexpr const char* kStyle = R"css(
  @page { size: PAPER; margin: 9mm 10mm; }
  * { box-sizing: border-box; }
  body { font: 7.6pt/1.25 Inter, "Liberation Sans", Arial, sans-serif; color: #111; margin: 0; }
  @media screen { body { max-width: 190mm; margin: 8mm auto; } }
  h1 { font-size: 13pt; font-weight: 650; margin: 0; letter-spacing: -0.01em; }
  header { display: flex; justify-content: space-between; align-items: baseline; border-bottom: 1.2pt solid #111; padding-bottom: 1.2mm; }
  header p { margin: 0; color: #555; }
  .caution { border: 0.8pt solid #111; border-left: 3pt solid #111; padding: 1.2mm 2mm; margin: 1.8mm 0; }
  .caution b { font-weight: 650; }
  .columns { columns: 2; column-gap: 7mm; padding-right: 0.3mm; }
  section { margin: 0 0 1.6mm; }
  h2 { font-size: 8.4pt; font-weight: 650; margin: 1.2mm 0 0.3mm; border-bottom: 0.5pt solid #111; break-after: avoid; }
  h2 span { font-weight: 400; color: #555; font-size: 7pt; }
  .field { display: flex; align-items: flex-end; min-height: 4.9mm; break-inside: avoid; }
  .field .what { flex: 0 1 auto; padding-right: 1.5mm; }
  .field .what small { color: #555; font-size: 6.4pt; }
  .field .room { flex: 1 1 18mm; min-width: 16mm; border-bottom: 0.5pt solid #777; height: 4mm; }
  .field .unit { flex: 0 0 auto; min-width: 8mm; padding-left: 1mm; color: #333; }
  .needed .what::before { content: "\25CF\00A0"; font-size: 6pt; }
  .tick { white-space: nowrap; margin-right: 1.8mm; }
  .tick i { display: inline-block; width: 2.5mm; height: 2.5mm; border: 0.6pt solid #111; vertical-align: -0.3mm; margin-right: 0.7mm; }
  .pairs { display: grid; grid-template-columns: 1fr 1fr; column-gap: 3mm; }
  .pairs .field { min-height: 4.6mm; }
  .pairs .room { flex-basis: 6mm; min-width: 6mm; }
  .ticks { flex-wrap: wrap; min-height: 0; padding: 0.5mm 0 0.3mm; align-items: baseline; }
  table { border-collapse: collapse; table-layout: fixed; width: 100%; margin-top: 0.8mm; }
  th, td { border: 0.5pt solid #777; height: 4.6mm; font-weight: 400; text-align: left; padding: 0 1mm; font-size: 6.8pt; }
  th { width: 36%; }
  .sketch { border: 0.5pt solid #777; height: 14mm; padding: 0.6mm 1mm; color: #555; font-size: 6.8pt; }
  footer { border-top: 0.5pt solid #111; margin-top: 1mm; padding-top: 0.6mm; color: #555; font-size: 6.6pt; }
)css";

class Sheet {
 public:
  Sheet(const Json& schema, const std::string& units) : schema_(schema), units_(units) {}

  /// Fields whose absence the enquiry refuses: path -> the question to ask.
  void need(const std::string& path, const std::string& question) { needed_[path] = question; }

  void open(const std::string& title, const std::string& help = "") {
    out_ += fmt::format("<section><h2>{}{}</h2>\n", handover::markup(title),
                        help.empty() ? "" : " <span>" + handover::markup(help) + "</span>");
  }
  void close() { out_ += "</section>\n"; }

  void room(const std::string& label, const std::string& unit = "", const std::string& help = "", bool needed = false) {
    out_ += fmt::format(
        "<div class=\"field{}\"><span class=\"what\">{}{}</span><span class=\"room\"></span><span "
        "class=\"unit\">{}</span></div>\n",
        needed ? " needed" : "", handover::markup(label),
        help.empty() ? "" : " <small>" + handover::markup(help) + "</small>", handover::markup(unit));
  }
  void ticks(const std::string& label, const std::vector<std::string>& words, bool needed = false) {
    out_ += fmt::format("<div class=\"field ticks{}\"><span class=\"what\">{}</span>", needed ? " needed" : "",
                        handover::markup(label));
    for (const std::string& word : words)
      out_ += fmt::format("<span class=\"tick\"><i></i>{}</span>", handover::markup(word));
    out_ += "</div>\n";
  }
  void raw(std::string_view html) { out_ += html; }

  /// Every field of a record, those that are needed first.
  void fields(const std::string& path, const std::set<std::string>& without = {}) {
    const Json* record = at(path);
    if (record == nullptr) return;
    const Json order = record->value("x-order", Json::array());
    for (const bool needed : {true, false})
      for (const Json& key : order) {
        const std::string name = key.get<std::string>();
        const std::string here = path + "." + name;
        if (needed_.contains(here) == needed && !without.contains(name)) field((*record)["properties"][name], here);
      }
  }
  /// Some fields of a record, two in a row and without their help.
  void pairs(const std::string& path, std::initializer_list<const char*> names) {
    const Json* record = at(path);
    if (record == nullptr) return;
    out_ += "<div class=\"pairs\">\n";
    for (const char* name : names) {
      Json short_one = (*record)["properties"][name];
      short_one["description"] = "";
      field(short_one, path + "." + name);
    }
    out_ += "</div>\n";
  }
  void field(const Json& schema, const std::string& path) {
    const std::string label = schema.value("title", path);
    const auto question = needed_.find(path);
    const bool needed = question != needed_.end();
    if (schema.contains("enum")) {
      const Json labels = schema.value("x-labels", Json::object());
      std::vector<std::string> words;
      for (const Json& value : schema["enum"])
        words.push_back(labels.value(value.get<std::string>(), value.get<std::string>()));
      ticks(label, words, needed);
    } else if (schema.value("type", Json()) == "boolean") {
      ticks(label, {"yes", "no"}, needed);
    } else if (schema.contains("x-display") || schema.value("type", Json()) == "integer" ||
               schema.value("type", Json()) == "string") {
      std::string unit = schema.value("x-display", Json::object()).value(units_, "");
      // Conveyors are not measured in millimetres.
      if (unit == "mm" && schema.value("maximum", 0.0) > 50) unit = "m";
      if (unit == "in" && schema.value("maximum", 0.0) > 50) unit = "ft";
      room(label, unit, needed && !question->second.empty() ? question->second : schema.value("description", ""),
           needed);
    }
  }
  [[nodiscard]] const Json* at(const std::string& path) const {
    const Json* node = &schema_;
    for (std::size_t from = 0; from < path.size();) {
      const std::size_t dot = std::min(path.find('.', from), path.size());
      const std::string key = path.substr(from, dot - from);
      if (!node->contains("properties") || !(*node)["properties"].contains(key)) return nullptr;
      node = &(*node)["properties"][key];
      from = dot + 1;
    }
    return node;
  }
  [[nodiscard]] const std::string& html() const { return out_; }

 private:
  const Json& schema_;
  std::string units_;
  std::map<std::string, std::string> needed_;
  std::string out_;
};

/// The question at the end of `… is needed here. How fast does it turn?`, or nothing.
std::string question_in(const std::string& message) {
  const std::size_t end = message.rfind('?');
  if (end == std::string::npos) return "";
  const std::size_t begin = message.find_last_of(".:;", end);
  const std::size_t word = begin == std::string::npos ? 0 : message.find_first_not_of(' ', begin + 1);
  return message.substr(word, end - word + 1);
}

Result<std::string> page(const SheetOptions& options) {
  const api::Session& session = cli::session();
  const Result<Json> schema = session.registry().run("schema", Json{{"of", "enquiry"}});
  if (!schema) return schema.errors();
  Sheet sheet(*schema, options.units);
  const Json& machines = (*schema)["properties"]["machine"];
  const std::string kind = options.machine.empty() ? "measured" : options.machine;
  const Json* machine = sheet.at("machine." + kind);
  if (machine == nullptr) {
    std::string known;
    for (const Json& key : machines.value("x-order", Json::array()))
      known += (known.empty() ? "" : ", ") + key.get<std::string>();
    return input_error("--machine", options.machine, "one of: " + known);
  }
  // What an empty machine is refused for is what must be asked.
  const Result<Json> checked =
      session.registry().run("check", Json{{"enquiry", {{"machine", {{kind, Json::object()}}}}}});
  if (!checked)
    for (const Error& error : checked.errors()) sheet.need(error.path, question_in(error.message));

  sheet.open("Machine: " + machine->value("title", kind),
             options.machine.empty() ? "or what moves:" : machine->value("description", ""));
  if (options.machine.empty()) {
    std::vector<std::string> words;
    for (const Json& key : machines.value("x-order", Json::array()))
      if (key != "measured")
        words.push_back(machines["properties"][key.get<std::string>()].value("title", key.get<std::string>()));
    sheet.ticks("", words);
  }
  sheet.fields("machine." + kind);
  sheet.close();
  sheet.open("Duty");
  sheet.fields("duty", {"blocks", "shocks", "pattern"});
  if (const Json* pattern = sheet.at("duty.pattern")) sheet.field(*pattern, "duty.pattern");
  sheet.raw(
      "<table><tr><th>part of the day [%]</th><td></td><td></td><td></td><td></td></tr>"
      "<tr><th>load [% of full]</th><td></td><td></td><td></td><td></td></tr>"
      "<tr><th>jams, overloads a year</th><td></td><td></td><td></td><td></td></tr>"
      "<tr><th>what happened, what broke</th><td colspan=\"4\"></td></tr></table>\n");
  sheet.close();
  sheet.open("Place");
  sheet.fields("site", {"washed_down", "dusty", "food_area", "explosive_atmosphere"});
  sheet.pairs("site", {"washed_down", "dusty", "food_area", "explosive_atmosphere"});
  sheet.close();
  sheet.open("On the output shaft");
  sheet.fields("connection", {"efficiency"});
  sheet.close();
  sheet.open("Supply and motor", "nameplate");
  // The nameplate of a measured drive stands with the machine.
  if (kind != "measured") sheet.pairs("supply", {"motor_power", "motor_speed"});
  sheet.pairs("supply", {"frequency", "voltage"});
  sheet.fields("supply", {"motor_power", "motor_speed", "frequency", "voltage", "inverter_low", "inverter_high"});
  sheet.pairs("supply", {"inverter_low", "inverter_high"});
  sheet.close();
  sheet.open("Room and mounting");
  sheet.fields("mounting", {"max_length", "max_width", "max_height", "lifting"});
  sheet.pairs("mounting", {"max_length", "max_width", "max_height", "lifting"});
  sheet.close();
  sheet.open("What is there now");
  if (const Json* gear = sheet.at("incumbent.kind")) sheet.field(*gear, "incumbent.kind");
  sheet.pairs("incumbent", {"ratio", "rated_power", "rated_torque", "input_speed", "running_time", "oil_viscosity_40"});
  sheet.room("What went wrong with it, how often");
  sheet.pairs("incumbent.dimensions", {"shaft_height", "shaft_diameter", "shaft_length", "foot_length", "foot_width",
                                       "flange_bolt_circle", "length", "mass"});
  sheet.pairs("economics", {"stops_per_year", "repair_time", "stop_cost", "energy_price"});
  sheet.close();
  sheet.open("What is asked for");
  sheet.pairs("wishes", {"life", "reliability", "speed_tolerance", "service_factor", "unit_share"});
  sheet.close();
  sheet.raw(
      "<section><div class=\"sketch\">Sketch: shafts, distances, direction of rotation, which way the load pulls; "
      "photographs taken</div></section>\n");

  std::string style = kStyle;
  style.replace(style.find("PAPER"), 5, options.units == "us" ? "Letter" : "A4");
  return fmt::format(
      "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
      "<title>Visit sheet</title><style>{}</style></head><body>\n"
      "<header><h1>Visit sheet</h1><p>\u25CF cannot be left out &nbsp; every unit may be struck out and another "
      "written</p></header>\n"
      "<div class=\"field\"><span class=\"what\">Plant</span><span class=\"room\"></span><span class=\"what\">&nbsp; "
      "Drive, "
      "tag</span><span class=\"room\"></span><span class=\"what\">&nbsp; Date, by</span><span "
      "class=\"room\"></span></div>\n"
      "<div class=\"caution\"><b>Before you come near:</b> sign in and follow the plant\u2019s rules. Look and read "
      "nameplates "
      "with every guard in place. Open nothing and measure nothing inside until the plant has isolated the drive, "
      "locked it "
      "out and tagged it, stored energy is discharged (raised or hanging load, wound-up belt or chain, springs, "
      "pressure) and "
      "a start has been tried in vain. A drive may start by itself. Housings can be hot. Only an electrician clamps a "
      "meter "
      "on live cables.</div>\n"
      "<div class=\"columns\">\n{}</div>\n"
      "<footer>Full load means the heaviest steady running of the heaviest day. What stays empty becomes an assumption "
      "with "
      "a range, and is named as one.</footer>\n"
      "</body></html>\n",
      style, sheet.html());
}

int write_sheet(const SheetOptions& options) {
  const Result<std::string> html = page(options);
  if (!html) return refuse(html.errors(), "", false);
  if (options.out.empty()) {
    std::cout << *html;
    return kAnswered;
  }
  std::ofstream out(options.out, std::ios::binary | std::ios::trunc);
  out << *html;
  out.close();
  if (!out) return refuse({input_error("--out", options.out, "this file cannot be written")}, "", false);
  return kAnswered;
}

}  // namespace

void add_visit_sheet(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand("visit-sheet", "A page to print and fill in by hand at the machine");
  const auto options = std::make_shared<SheetOptions>();
  command->add_option("--machine", options->machine,
                      "kind of machine, e.g. belt_conveyor; by what the motor draws when left out");
  command->add_option("--units", options->units, "si on A4, or us on Letter")->check(CLI::IsMember({"si", "us"}));
  command->add_option("--out", options->out, "page, HTML; standard output when left out");
  command->callback([options, &code] { code = write_sheet(*options); });
}

}  // namespace lobewise::cli
