#include "apps/handover/sheets.h"

#include <fmt/format.h>

#include <set>

#include "apps/handover/page.h"
#include "apps/handover/text.h"
#include "apps/handover/unit_views.h"
#include "engine/base/quantity.h"

namespace lobewise::handover {
namespace {

std::string millimetres(const Source& source, const Json& metres) {
  return fmt::format("{} {}", length_text(metres.get<double>(), source.units), source.units == "us" ? "in" : "mm");
}

const Json* finding(const Source& source, const char* id) {
  for (const Json& f : source.prove["findings"])
    if (f["id"] == id) return &f;
  return nullptr;
}

/// Answer and notes of a finding as list items.
std::string told_by(const Source& source, const char* id) {
  const Json* f = finding(source, id);
  if (f == nullptr) return "";
  std::string out = fmt::format("<li>{}</li>", markup(source.shown((*f)["answer"])));
  for (const Json& note : (*f)["notes"]) out += fmt::format("<li>{}</li>", markup(source.shown(note)));
  return out;
}

Table unit_table(const Source& source) {
  const Json& offer = source.offer();
  const Json& d = source.dimensions;
  Table t{"facts", {}, {}};
  const auto row = [&](const char* label, const std::string& value) { t.rows.push_back({label, markup(value)}); };
  row("Unit", source.build_name());
  row("Range", fmt::format("{}, version {}", offer["range"].value("name", std::string("–")),
                           offer["range"].value("version", std::string("–"))));
  row("Ratio", fmt::format("{}:1, the output turns {} the motor", format_number(offer["ratio"].get<double>(), 6),
                           d["bodies"].size() == 1 ? "against" : "with"));
  row("Mounting and position",
      fmt::format("{}, {}", words(d["mounting"].get<std::string>()), said_in_words(source, "mounting.orientation")));
  row("Output shaft",
      fmt::format("⌀{} × {}", millimetres(source, d["shaft"]["diameter"]), millimetres(source, d["shaft"]["length"])));
  row("Key", fmt::format("{} × {} × {}", millimetres(source, d["shaft"]["key_width"]),
                         millimetres(source, d["shaft"]["key_height"]), millimetres(source, d["shaft"]["key_length"])));
  row("Mass without motor", source.shown(offer["mass"]));
  const Json& lifting = offer["lifting"];
  if (lifting.contains("centre")) {
    row("Mass with motor, estimated",
        fmt::format("{} ({} to {})", source.shown(lifting["mass"]), source.shown(lifting["mass_low"]),
                    source.shown(lifting["mass_high"])));
    row("Centre of mass with motor", source.shown(lifting["centre"]) + " from the shoulder of the output shaft");
  }
  return t;
}

Table motor_table(const Source& source) {
  Table t{"facts", {}, {}};
  const Json& motor = source.offer()["motor"];
  const auto row = [&](const char* label, const std::string& value) { t.rows.push_back({label, markup(value)}); };
  row("Power, poles", fmt::format("{}, {} poles", source.shown(motor["power"]), motor["poles"].get<int>()));
  row("Mains", source.shown(motor["frequency"]));
  row("Speed at full load", source.shown(motor["speed"]));
  if (motor.contains("voltage")) {
    row("Voltage", source.shown(motor["voltage"]));
    row("Rated current, estimated", source.shown(motor["current"]));
  }
  const std::string frame = motor["frame"];
  row("Standard frame", frame.empty() ? "to be agreed" : frame);
  if (source.dimensions.contains("motor") && source.dimensions["motor"].is_object()) {
    const Json& m = source.dimensions["motor"];
    row("Its shaft",
        fmt::format("⌀{} × {}", millimetres(source, m["shaft_diameter"]), millimetres(source, m["shaft_length"])));
    if (m.contains("flange")) row("Its flange", m["flange"]["name"].get<std::string>());
  }
  return t;
}

Table fill_table(const Source& source) {
  Table t{"facts", {"Housing", "Lubricant", "Quantity"}, {}};
  for (const Json& fill : source.offer()["lubricant"]["fills"])
    t.rows.push_back(
        {markup(fill["frame"].get<std::string>()), markup(source.lubricant()), markup(source.shown(fill["volume"]))});
  return t;
}

std::string open_points(const Source& source) {
  std::string out;
  for (const Json& f : source.prove["findings"]) {
    const std::string verdict = f["verdict"];
    if (verdict == "holds") continue;
    out += fmt::format("<li>{}: {}", verdict_mark(verdict, true), markup(f["question"].get<std::string>()));
    if (f.contains("condition")) out += fmt::format(" It holds if {}.", markup(source.shown(f["condition"])));
    out += "</li>";
  }
  return out.empty() ? "<p>None: every question holds.</p>" : "<ul>" + out + "</ul>";
}

/// Frequencies that only damage shows, a line for each bearing: `outer ring` of `input bearing: outer ring`.
Table damage_table(const Source& source, const Json& orders) {
  Table t{"damage", {"Bearing"}, {}};
  for (const Json& row : orders) {
    const std::string name = row["name"];
    const std::size_t colon = name.find(": ");
    if (row["sum"] != "damage" || colon == std::string::npos) continue;
    const std::string bearing = markup(sentence_case(name.substr(0, colon))), part = markup(name.substr(colon + 2));
    if (t.rows.empty() || t.rows.back()[0] != bearing) t.rows.push_back({bearing});
    t.rows.back().push_back(fmt::format("{}<div class=\"small\">order {:.4g}</div>",
                                        markup(source.shown(row["frequency"])), row["order"].get<double>()));
    if (t.rows.size() == 1) t.head.push_back(part);
  }
  return t;
}

std::string order_table(const Source& source) {
  std::string out;
  for (const Json& stage : source.excitations["stages"]) {
    Table t{"orders", {"What it comes from", "Order", "Frequency", ""}, {}};
    for (const Json& row : stage["orders"]) {
      const std::string sum = row["sum"];
      if (sum == "damage") continue;
      const std::string remark = sum == "cancels" ? "cancels between the discs: seen only when they share badly"
                                 : sum == "adds"  ? "all discs add up"
                                                  : "";
      t.rows.push_back({markup(sentence_case(row["name"].get<std::string>())),
                        fmt::format("{:.4g}", row["order"].get<double>()), markup(source.shown(row["frequency"])),
                        remark});
    }
    const Table damage = damage_table(source, stage["orders"]);
    out += fmt::format("<h3>Stage of {}, {} lobes</h3>{}", markup(stage["frame"].get<std::string>()),
                       stage["lobes"].get<int>(), t.html());
    if (!damage.rows.empty())
      out += "<div class=\"together\"><h4>Seen only with damage to a bearing</h4>" + damage.html() + "</div>";
  }
  return out;
}

Table record_table(const Source& source) {
  Table t{"fill", {"Measured", "Expected", "Empty", "After 1 h", "At full load"}, {}};
  const bool us = source.units == "us";
  const char* speed = us ? "in/s" : "mm/s";
  const Json* heat = finding(source, "heat");
  const auto expected = [&](const Json* f, std::size_t check) -> std::string {
    if (f == nullptr || (*f)["checks"].size() <= check) return "–";
    return markup(source.shown((*f)["checks"][check]["figure"])) + " at the hottest";
  };
  t.rows.push_back({"Speed of the output shaft", markup(source.shown(source.offer()["output_speed"])), "", "", ""});
  t.rows.push_back({"Current of the motor, all three phases [A]", "nameplate", "", "", ""});
  t.rows.push_back({"Temperature of the lubricant", expected(heat, 0), "", "", ""});
  t.rows.push_back({"Temperature of the surroundings", "", "", "", ""});
  t.rows.push_back({fmt::format("Vibration velocity, output bearing, three directions [{}]", speed),
                    "first run is the reference", "", "", ""});
  t.rows.push_back({fmt::format("Vibration velocity, motor side, three directions [{}]", speed),
                    "first run is the reference", "", "", ""});
  t.rows.push_back(
      {fmt::format("Sound level at {} [dB(A)]", us ? "3 ft" : "1 m"), "first run is the reference", "", "", ""});
  t.rows.push_back({"Run-up time [s]", "", "", "", ""});
  return t;
}

std::string ticks(std::initializer_list<std::string> items) {
  std::string out = "<ul class=\"ticks\">";
  for (const std::string& item : items) out += "<li class=\"tick\">" + item + "</li>";
  return out + "</ul>\n";
}

/// Whether a caution stands at the top of the sheet already.
bool at_the_top(const Source& source, std::string_view key) {
  const Json& all = source.prove["cautions"];
  for (std::size_t i = 0; i < std::min(kCautionsAtTheTop, all.size()); ++i)
    if (all[i]["key"] == key) return true;
  return false;
}

/// Seals, breather and fill that the place asks for, in words for the order.
std::string fittings(const Source& source) {
  std::string out;
  for (const Json& caution : source.prove["cautions"])
    for (const char* key : {"explosive", "food", "food_leak", "food_residue", "washdown", "dust", "outdoors", "cold"})
      if (caution["key"] == key && !at_the_top(source, key))
        out += fmt::format("<li>{}</li>", markup(caution["text"].get<std::string>()));
  return out.empty() ? "" : "<h3>What the place asks of seals, breather and fill</h3><ul>" + out + "</ul>";
}

}  // namespace

std::string order_sheet(const Source& source) {
  const Json& offer = source.offer();
  std::string body = masthead(source, "Order sheet") + refusal(source) + first_cautions(source) + "<h2>The unit</h2>" +
                     unit_table(source).html();
  if (offer.contains("motor")) body += "<h2>The motor</h2>" + motor_table(source).html();
  body += "<div class=\"together\"><h2>Lubricant</h2>" + fill_table(source).html() + "</div>";
  Table duty{"facts", {}, {}};
  for (const Json& line : source.prove["requirement"])
    duty.rows.push_back({markup(line["label"].get<std::string>()), markup(source.shown(line["value"])),
                         line["assumed"].get<bool>() ? "assumed: please confirm" : ""});
  for (const Json& condition : source.prove["conditions"])
    duty.rows.push_back({markup(condition["label"].get<std::string>()), markup(condition["text"].get<std::string>()),
                         condition["said"].get<bool>() ? "" : "not said: please confirm"});
  body += "<h2>The duty and the place it was proved for</h2>" + duty.html() + fittings(source);
  body += "<div class=\"together\"><h2>Open points</h2>" + open_points(source) + "</div>";
  Table price{"right", {}, {}};
  price.rows.push_back(
      {"Price without motor", markup(source.shown(offer["price"]) + " " + offer["currency"].get<std::string>())});
  price.rows.push_back({"Valid until", markup(source.order.valid_until)});
  price.rows.push_back({"Quantity", ""});
  price.rows.push_back({"Wanted on site by", ""});
  body += "<div class=\"together\"><h2>Order</h2>" + price.html() +
          "<div class=\"sign\"><div>Ordered: name, date, signature</div><div>Confirmed: name, date, "
          "signature</div></div></div>" +
          range_note(source);
  return html_page(source, "Order sheet", body);
}

std::string commissioning_sheet(const Source& source) {
  const bool us = source.units == "us";
  std::string body = masthead(source, "Commissioning sheet") + refusal(source) + first_cautions(source);
  body += "<h2>Cautions that follow</h2>" + further_cautions(source);
  body += "<div class=\"together\"><h2>Lifting</h2>" +
          ticks({"Slings and shackles chosen for the heavier mass; nobody under the load.",
                 "Unit hangs level before it is moved on; set down on timber, not on the shaft end."}) +
          "</div>";
  body +=
      "<h2>Standing and alignment</h2>" +
      ticks({source.dimensions["mounting"] == "flange"
                 ? "Face flat and clean, spigot in its seat; bolts of the flange tightened crosswise."
                 : "Base flat and stiff; no foot lifts when its bolt is loosened. Shim until it does not.",
             "Coupling or wheel pushed on with the thread in the shaft end, never with a hammer.",
             "Coupling aligned within what its maker allows, measured after the bolts are tight; measured again warm. "
             "Where nothing is said, " +
                 std::string(us ? "0.002 in of offset and 0.001 in across 1 in"
                                : "0.05 mm of offset and 0.1 mm across 100 mm") +
                 " of angle are a usual aim (common practice, no source).",
             "Chain or belt tension as calculated, no tighter; wheel as near to the shoulder as it goes.",
             "Air can reach the whole housing; no paint or dirt on the breather.",
             "Guards closed. Direction of rotation checked with the motor uncoupled."});
  body +=
      "<div class=\"together\"><h2>Lubricant</h2>" + fill_table(source).html() +
      ticks({"Filled to the level for this position with the unit standing still; level checked again after the first "
             "run.",
             "Other oils were not mixed in."}) +
      "<ul>" + told_by(source, "lubrication") + "</ul></div>";
  body += "<h2>First run</h2>" +
          ticks({"Turned by hand or inched through one revolution of the output: no hard spot.",
                 "Empty for at least half an hour, then load raised in steps (common practice, no source).",
                 "Listened to and felt at every step; stopped at any knock, smell or sudden warmth.",
                 "Bolts tightened again after the first day, alignment checked again."}) +
          "<ul>" + told_by(source, "heat") + told_by(source, "motor") + told_by(source, "motion") + "</ul>";
  body += "<div class=\"together\"><h2>What to measure and write down</h2>" + record_table(source).html() +
          "<div class=\"sign\"><div>Commissioned: name, date, signature</div><div>Plant: name, date, "
          "signature</div></div></div>";
  body +=
      "<h2>Where to look in a vibration spectrum</h2><p>Frequencies at " +
      markup(source.shown(source.offer()["input_speed"])) +
      " of the motor; orders count per revolution of it. A line that grows against the first run says more than any "
      "fixed limit.</p>" +
      order_table(source);
  return html_page(source, "Commissioning sheet", body);
}

}  // namespace lobewise::handover
