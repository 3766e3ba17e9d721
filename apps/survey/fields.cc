#include "apps/survey/fields.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/base/latin.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

struct Named {
  const char* id;
  const char* path;  ///< of the enquiry; null: only the list uses it
  const char* unit;  ///< null: the usual one of its quantity
  bool essential;
  std::vector<std::string> names;
};

// Words of headings in English and German, from maintenance lists in general use; common practice, no source.
const std::vector<Named>& named() {
  static const std::vector<Named> list{
      {"note",
       nullptr,
       nullptr,
       false,
       {"remark", "remarks", "comment", "comments", "note", "notes", "bemerkung", "bemerkungen"}},
      {"rated_power",
       "machine.measured.rated_power",
       "kW",
       true,
       {"rated power", "motor power", "motor rating", "nameplate power", "installed power", "installed",
        "nominal power", "power", "pn", "p n", "motor size", "motor", "hp", "kw", "leistung", "motorleistung",
        "nennleistung"}},
      {"rated_speed",
       "machine.measured.rated_speed",
       "rpm",
       true,
       {"motor speed", "rated speed", "nominal speed", "nameplate speed", "input speed", "n1", "n 1", "motor rpm",
        "motordrehzahl", "nenndrehzahl"}},
      {"rated_current",
       "machine.measured.rated_current",
       "A",
       true,
       {"rated current", "nominal current", "nameplate current", "nameplate amps", "rated amps", "nominal amps",
        "full load amps", "full load current", "motor current", "fla", "in", "i n", "current", "strom", "nennstrom"}},
      {"power_factor",
       "machine.measured.power_factor",
       nullptr,
       false,
       {"power factor", "cos phi", "cosphi", "cos", "pf"}},
      {"efficiency",
       "machine.measured.efficiency",
       "%",
       false,
       {"motor efficiency", "efficiency", "eta", "wirkungsgrad"}},
      {"measured_current",
       "machine.measured.measured_current",
       "A",
       true,
       {"measured current", "actual current", "running current", "running amps", "amps running", "run amps",
        "measured amps", "amps measured", "load current", "typical amps", "amps", "current draw", "i measured",
        "i meas", "i act", "betriebsstrom", "gemessener strom", "strom gemessen"}},
      {"measured_power",
       "machine.measured.measured_power",
       "kW",
       true,
       {"measured power", "power measured", "actual power", "absorbed power", "power draw", "power consumption",
        "consumed power", "electrical power", "active power", "p1", "p measured", "p meas", "kw measured",
        "gemessene leistung", "leistungsaufnahme"}},
      {"measured_torque",
       "machine.measured.measured_torque",
       "N·m",
       true,
       {"torque", "measured torque", "output torque", "working torque", "running torque", "load torque",
        "required torque", "t2", "m2", "drehmoment"}},
      {"load_share",
       "machine.measured.load_share",
       "%",
       true,
       {"motor load", "load", "load share", "loading", "utilisation", "utilization", "auslastung"}},
      {"speed",
       "machine.measured.speed",
       "rpm",
       true,
       {"output speed", "driven speed", "shaft speed", "driven shaft speed", "driven shaft", "machine speed",
        "output rpm", "rpm out", "speed", "n2", "n 2", "rpm", "drehzahl", "abtriebsdrehzahl", "abtrieb"}},
      {"ratio",
       nullptr,
       nullptr,
       true,
       {"ratio", "gear ratio", "reduction ratio", "reduction", "i", "i ges", "ubersetzung", "uebersetzung"}},
      {"train_efficiency",
       "machine.measured.train_efficiency",
       "%",
       false,
       {"gearbox efficiency", "gear efficiency", "train efficiency"}},
      {"start_factor",
       "machine.measured.start_factor",
       nullptr,
       false,
       {"start factor", "starting factor", "breakaway factor"}},
      {"run_up_time",
       "machine.measured.run_up_time",
       "s",
       false,
       {"run up time", "start time", "starting time", "hochlaufzeit"}},
      {"feed", "machine.measured.feed", nullptr, false, {"feed", "load type", "type of load", "load character"}},
      {"can_run_back", "machine.measured.can_run_back", nullptr, false, {"runs back", "can run back"}},
      {"hours_per_day",
       "duty.hours_per_day",
       "h",
       false,
       {"hours per day", "hours day", "hrs day", "hrs per day", "h day", "h d", "h per day", "running hours per day",
        "daily hours", "run time per day", "stunden pro tag", "stunden tag", "h tag", "betriebsstunden pro tag"}},
      {"days_per_year",
       "duty.days_per_year",
       nullptr,
       false,
       {"days per year", "days year", "days a year", "d year", "d a", "tage pro jahr", "tage jahr"}},
      {"hours_per_week",
       nullptr,
       "h",
       false,
       {"hours per week", "hours week", "hours a week", "hrs week", "hrs per week", "h week", "h wk", "h w",
        "h per week", "weekly hours", "running hours per week", "operating hours per week", "operating hours a week",
        "run time per week", "stunden pro woche", "stunden woche", "wochenstunden", "h woche",
        "betriebsstunden pro woche"}},
      {"days_per_week",
       nullptr,
       nullptr,
       false,
       {"days per week", "days week", "days a week", "d week", "d wk", "d w", "operating days per week",
        "tage pro woche", "tage woche"}},
      {"hours_per_year",
       nullptr,
       "h",
       false,
       {"hours per year", "hours year", "hrs year", "h year", "h a", "h y", "annual hours", "running hours",
        "operating hours", "run hours", "betriebsstunden", "stunden pro jahr", "h jahr"}},
      {"starts_per_hour",
       "duty.starts_per_hour",
       "1/h",
       false,
       {"starts per hour", "starts hour", "starts h", "starts", "schaltungen pro stunde", "anlaufe pro stunde"}},
      {"reversals_per_hour", "duty.reversals_per_hour", "1/h", false, {"reversals per hour", "reversals"}},
      {"ambient_high",
       "site.ambient_high",
       "°C",
       false,
       {"ambient", "ambient temperature", "ambient max", "max ambient", "ambient high", "t amb", "tamb", "temperature",
        "max temperature", "umgebungstemperatur"}},
      {"ambient_low",
       "site.ambient_low",
       "°C",
       false,
       {"ambient min", "min ambient", "ambient low", "min temperature"}},
      {"altitude", "site.altitude", "m", false, {"altitude", "elevation", "hohe"}},
      {"place",
       "site.place",
       nullptr,
       false,
       {"indoor outdoor", "indoors outdoors", "inside outside", "environment", "aufstellung"}},
      {"washed_down", "site.washed_down", nullptr, false, {"washed down", "wash down", "washdown"}},
      {"dusty", "site.dusty", nullptr, false, {"dusty", "dust", "staub"}},
      {"food_area", "site.food_area", nullptr, false, {"food area", "food"}},
      {"explosive_atmosphere",
       "site.explosive_atmosphere",
       nullptr,
       false,
       {"explosive atmosphere", "explosive", "ex zone", "ex"}},
      {"link",
       "connection.link",
       nullptr,
       false,
       {"connection", "link", "coupling", "output connection", "drive connection", "power transmission", "transmission",
        "chain belt coupling", "verbindung"}},
      {"pitch_diameter",
       "connection.pitch_diameter",
       "mm",
       false,
       {"pitch diameter", "sprocket diameter", "sprocket", "pulley diameter", "pcd"}},
      {"radial_force",
       "connection.radial_force",
       "N",
       false,
       {"radial force", "radial load", "overhung load", "radialkraft"}},
      {"frequency",
       "supply.frequency",
       "Hz",
       false,
       {"frequency", "mains frequency", "line frequency", "hz", "frequenz", "netzfrequenz"}},
      {"voltage", "supply.voltage", "V", false, {"voltage", "volts", "spannung"}},
      {"starting",
       "supply.starting",
       nullptr,
       false,
       {"starting", "starter", "starting method", "start method", "method of starting", "starter type", "motor control",
        "anlauf", "anlaufart"}},
      {"poles", "supply.poles", nullptr, false, {"poles", "number of poles", "no of poles", "polzahl"}},
      {"efficiency_class",
       "supply.efficiency_class",
       nullptr,
       false,
       {"efficiency class", "ie class", "ie", "effizienzklasse"}},
      {"orientation",
       "mounting.orientation",
       nullptr,
       false,
       {"orientation", "mounting position", "shaft position", "einbaulage"}},
      {"mounting", "mounting.kind", nullptr, false, {"mounting", "foot flange", "befestigung", "bauform"}},
      {"life", "wishes.life", "h", false, {"design life", "required life", "service life", "lebensdauer"}},
      {"speed_tolerance", "wishes.speed_tolerance", "%", false, {"speed tolerance", "drehzahltoleranz"}},
      {"service_factor",
       "wishes.service_factor",
       nullptr,
       false,
       {"service factor", "required service factor", "sf", "s f", "betriebsfaktor"}},
      {"gear",
       nullptr,
       nullptr,
       false,
       {"gearbox", "gear unit", "gear type", "gearbox type", "gear unit type", "reducer", "reducer type",
        "existing gearbox", "present gear", "getriebe", "getriebetyp", "getriebeart"}},
      {"gear_torque",
       nullptr,
       "N·m",
       false,
       {"rated torque", "nominal torque", "gearbox rated torque", "gear rated torque", "gear unit rating",
        "gearbox torque", "gearbox rating", "t2n", "mn2", "nenndrehmoment"}},
      {"stoppage_hours",
       nullptr,
       "h",
       false,
       {"downtime", "downtime hours", "down time", "stoppage hours", "stoppage", "hours lost", "lost hours",
        "hours down", "downtime per year", "stillstand", "stillstandszeit"}},
      {"stoppages",
       nullptr,
       nullptr,
       false,
       {"stoppages", "failures", "failures per year", "stops per year", "breakdowns", "ausfalle"}},
      {"stoppage_cost",
       nullptr,
       nullptr,
       false,
       {"cost per hour", "downtime cost", "cost of downtime", "stoppage cost", "cost of an hour", "stillstandskosten"}},
  };
  return list;
}

/// Words that lists use for choices, beside keys and labels of the enquiry.
constexpr std::pair<const char*, const char*> kChoiceWords[] = {
    {"dol", "direct"},
    {"d o l", "direct"},
    {"direct on line", "direct"},
    {"direkt", "direct"},
    {"y d", "star_delta"},
    {"star delta", "star_delta"},
    {"wye delta", "star_delta"},
    {"stern dreieck", "star_delta"},
    {"soft", "soft_starter"},
    {"soft start", "soft_starter"},
    {"softstarter", "soft_starter"},
    {"sanftanlauf", "soft_starter"},
    {"vfd", "inverter"},
    {"vsd", "inverter"},
    {"fc", "inverter"},
    {"fu", "inverter"},
    {"drive", "inverter"},
    {"frequency converter", "inverter"},
    {"frequenzumrichter", "inverter"},
    {"indoor", "indoors"},
    {"inside", "indoors"},
    {"innen", "indoors"},
    {"halle", "indoors"},
    {"outdoor", "outdoors_sun"},
    {"outdoors", "outdoors_sun"},
    {"outside", "outdoors_sun"},
    {"aussen", "outdoors_sun"},
    {"roof", "outdoors_shaded"},
    {"shaded", "outdoors_shaded"},
    {"under roof", "outdoors_shaded"},
    {"chain", "single_chain"},
    {"kette", "single_chain"},
    {"duplex chain", "double_chain"},
    {"belt", "v_belt"},
    {"v belts", "v_belt"},
    {"keilriemen", "v_belt"},
    {"timing belt", "toothed_belt"},
    {"zahnriemen", "toothed_belt"},
    {"gear", "pinion"},
    {"ritzel", "pinion"},
    {"open gear", "pinion"},
    {"direct coupled", "coupling"},
    {"kupplung", "coupling"},
    {"shaft mounted", "coupling"},
    {"hollow shaft", "coupling"},
    {"uniform", "even"},
    {"steady", "even"},
    {"smooth", "even"},
    {"moderate", "uneven"},
    {"medium", "uneven"},
    {"heavy", "lumps"},
    {"shock", "lumps"},
    {"shocks", "lumps"},
    {"lumpy", "lumps"},
    {"rough", "lumps"},
    {"feet", "foot"},
    {"b3", "foot"},
    {"b5", "flange"},
    {"down", "output_down"},
    {"up", "output_up"},
    {"vertical down", "output_down"},
    {"premium", "ie3"},
    {"high", "ie2"},
};

/// Words for machines beside the engine's own.
constexpr std::pair<const char*, const char*> kMachineWords[] = {
    {"belt", "belt_conveyor"},
    {"conveyor", "belt_conveyor"},
    {"conveyor belt", "belt_conveyor"},
    {"bandforderer", "belt_conveyor"},
    {"gurtforderer", "belt_conveyor"},
    {"forderband", "belt_conveyor"},
    {"screw", "screw_conveyor"},
    {"auger", "screw_conveyor"},
    {"schnecke", "screw_conveyor"},
    {"forderschnecke", "screw_conveyor"},
    {"elevator", "bucket_elevator"},
    {"becherwerk", "bucket_elevator"},
    {"scraper", "chain_conveyor"},
    {"drag chain", "chain_conveyor"},
    {"kettenforderer", "chain_conveyor"},
    {"rollenbahn", "roller_conveyor"},
    {"drum", "rotary_drum"},
    {"trommel", "rotary_drum"},
    {"trommel screen", "rotary_drum"},
    {"kiln", "rotary_drum"},
    {"dryer", "rotary_drum"},
    {"drehrohr", "rotary_drum"},
    {"mixer", "paddle_mixer"},
    {"mischer", "paddle_mixer"},
    {"stirrer", "agitator"},
    {"ruhrwerk", "agitator"},
    {"winch", "hoist"},
    {"crane hoist", "hoist"},
    {"hubwerk", "hoist"},
    {"trolley", "travel_drive"},
    {"fahrantrieb", "travel_drive"},
    {"slewing", "slewing_drive"},
    {"apron", "apron_feeder"},
    {"feeder", "apron_feeder"},
    {"measured", "measured"},
};

/// Words for the kind of the present gear unit, the first that a cell holds; the beginning of a word serves. The order
/// matters: an epicycloidal unit is a planetary one, a helical worm unit is a worm unit.
constexpr std::pair<const char*, const char*> kGearWords[] = {
    {"planet", "planetary"},
    {"epicyc", "planetary"},
    {"epicic", "planetary"},
    {"epicyk", "planetary"},
    {"umlauf", "planetary"},
    {"bolygo", "planetary"},
    {"gezegen", "planetary"},
    {"cyclo", "cycloidal"},
    {"zyklo", "cycloidal"},
    {"ciclo", "cycloidal"},
    {"cykl", "cycloidal"},
    {"sykl", "cycloidal"},
    {"ciklo", "cycloidal"},
    {"worm", "worm"},
    {"schneck", "worm"},
    {"vis sans fin", "worm"},
    {"roue et vis", "worm"},
    {"sinfin", "worm"},
    {"sin fin", "worm"},
    {"senza fine", "worm"},
    {"sem fim", "worm"},
    {"slimak", "worm"},
    {"snackv", "worm"},
    {"snekk", "worm"},
    {"snekov", "worm"},
    {"csiga", "worm"},
    {"melc", "worm"},
    {"kierukka", "worm"},
    {"sonsuz", "worm"},
    {"bevel", "bevel_helical"},
    {"kegel", "bevel_helical"},
    {"coniqu", "bevel_helical"},
    {"conic", "bevel_helical"},
    {"stozkow", "bevel_helical"},
    {"kuzel", "bevel_helical"},
    {"konisk", "bevel_helical"},
    {"flachgetr", "parallel_shaft"},
    {"parallel", "parallel_shaft"},
    {"paralel", "parallel_shaft"},
    {"rownoleg", "parallel_shaft"},
    {"offset", "parallel_shaft"},
    {"helical", "helical_in_line"},
    {"stirnrad", "helical_in_line"},
    {"inline", "helical_in_line"},
    {"in line", "helical_in_line"},
    {"coaxial", "helical_in_line"},
    {"koaxial", "helical_in_line"},
    {"helicoid", "helical_in_line"},
    {"elicoid", "helical_in_line"},
    {"coassial", "helical_in_line"},
    {"tandwiel", "helical_in_line"},
    {"walcow", "helical_in_line"},
    {"celn", "helical_in_line"},
    {"kuggv", "helical_in_line"},
    {"tandhjul", "helical_in_line"},
    {"spur", "helical_in_line"},
};
/// A belt in front of one of these makes it a belt and gear unit.
constexpr const char* kBeltWords[] = {"belt", "riemen", "courroie", "correa", "cinghia",
                                      "riem", "pas ",   "remen",    "rem "};

struct Schema {
  const Json& root;
  [[nodiscard]] const Json* at(std::string_view path) const {
    const Json* node = &root;
    while (!path.empty()) {
      const std::size_t dot = path.find('.');
      const auto properties = node->find("properties");
      if (properties == node->end()) return nullptr;
      const auto found = properties->find(std::string(path.substr(0, dot)));
      if (found == properties->end()) return nullptr;
      node = &*found;
      path = dot == std::string_view::npos ? "" : path.substr(dot + 1);
    }
    return node;
  }
};

/// Kind, quantity and choices of a field as the enquiry describes it; false for records and lists.
bool describe(const Json& schema, Field& field) {
  if (field.label.empty()) field.label = schema.value("title", field.id);
  if (schema.contains("enum")) {
    field.kind = Kind::choice;
    const Json labels = schema.value("x-labels", Json::object());
    for (const Json& value : schema["enum"]) {
      field.values.push_back(value);
      field.labels.push_back(labels.value(field.values.back(), field.values.back()));
    }
    return true;
  }
  if (schema.contains("x-quantity")) {
    field.kind = Kind::quantity;
    for (const QuantityInfo& q : all_quantities())
      if (q.key == schema["x-quantity"].get_ref<const std::string&>()) field.quantity = q.quantity;
    if (field.unit.empty()) field.unit = display_unit(field.quantity, UnitSystem::si);
    return true;
  }
  const Json type = schema.value("type", Json());
  if (type == "boolean") field.kind = Kind::flag;
  if (type == "integer") {
    field.kind = Kind::quantity;
    field.quantity = Quantity::number;
  }
  return type == "boolean" || type == "integer" || type == "string";
}

/// What only a list says: words and quantity.
std::pair<const char*, Quantity> own_label(std::string_view id) {
  if (id == "note") return {"Note", Quantity::number};
  if (id == "ratio") return {"Ratio of the present gear unit", Quantity::number};
  if (id == "hours_per_week") return {"Running time a week", Quantity::duration};
  if (id == "days_per_week") return {"Days a week", Quantity::number};
  if (id == "hours_per_year") return {"Running time a year", Quantity::duration};
  if (id == "gear") return {"Present gear unit", Quantity::number};
  if (id == "gear_torque") return {"Rated torque of the present gear unit", Quantity::torque};
  if (id == "stoppage_hours") return {"Stoppages a year, hours", Quantity::duration};
  if (id == "stoppages") return {"Stoppages a year, times", Quantity::number};
  return {"Cost of an hour of stoppage", Quantity::money_rate};
}

void add_leaves(const Json& schema, const std::string& path, std::vector<Field>& fields) {
  const auto properties = schema.find("properties");
  if (properties == schema.end()) return;
  for (const auto& [key, child] : properties->items()) {
    const std::string here = path.empty() ? key : path + "." + key;
    if (child.contains("properties")) {
      add_leaves(child, here, fields);
      continue;
    }
    if (std::any_of(fields.begin(), fields.end(), [&](const Field& f) { return f.path == here; })) continue;
    Field field;
    field.id = field.path = here;
    if (!describe(child, field)) continue;
    // Machine by machine: `Mass flow` of one kind is the same column for the next.
    const bool of_machine = here.starts_with("machine.") && !here.starts_with("machine.measured.");
    const std::string name = words_of(field.label);
    const bool taken = std::any_of(fields.begin(), fields.end(), [&](const Field& f) {
      const bool named = !f.path.starts_with("machine.") || f.path.starts_with("machine.measured.");
      return named && f.quantity == field.quantity && std::find(f.names.begin(), f.names.end(), name) != f.names.end();
    });
    if (of_machine && !taken) field.names = {name};
    fields.push_back(std::move(field));
  }
}

}  // namespace

std::string words_of(std::string_view text) {
  static constexpr std::pair<std::string_view, std::string_view> kLetters[] = {
      {"ß", "ss"}, {"φ", " phi"}, {"ϕ", " phi"}, {"η", "eta"}, {"₁", "1"}, {"₂", "2"}, {"%", " % "}};
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = text.substr(i);
    const auto* letter = std::find_if(std::begin(kLetters), std::end(kLetters),
                                      [&](const auto& pair) { return rest.starts_with(pair.first); });
    if (letter != std::end(kLetters)) {
      out += letter->second;
      i += letter->first.size();
      continue;
    }
    const CodePoint c = code_point_at(text, i);
    const char base = base_letter(c.code);
    out += base == '\0' ? ' ' : base;
    i += c.length;
  }
  std::string single;
  for (const char c : out)
    if (c != ' ' || (!single.empty() && single.back() != ' ')) single += c;
  if (!single.empty() && single.back() == ' ') single.pop_back();
  return single;
}

Fields::Fields(const Json& enquiry_schema) {
  const Schema schema{enquiry_schema};
  const auto text = [&](const char* id, const char* label, std::vector<std::string> names) {
    Field field;
    field.id = id;
    field.label = label;
    field.names = std::move(names);
    fields_.push_back(std::move(field));
  };
  text("tag", "Tag",
       {"tag",  "tag no",  "equipment no", "equipment number", "equipment id", "asset",  "asset no", "asset id",
        "item", "item no", "drive no",     "machine no",       "inventory no", "inv no", "ident",    "id",
        "no",   "nr",      "pos",          "position",         "anlagen nr",   "kks"});
  text("title", "Drive",
       {"description", "name", "drive", "drive name", "equipment", "application", "machine", "machine name",
        "driven machine", "service", "bezeichnung", "benennung", "antrieb", "maschine"});
  text("machine", "Kind of machine",
       {"machine type", "machine kind", "kind of machine", "type of machine", "driven machine type", "kind", "type",
        "maschinenart", "art der maschine", "typ"});
  text("area", "Area",
       {"area", "hall", "line", "location", "plant area", "section", "bereich", "halle", "ort", "linie"});
  for (const Named& entry : named()) {
    Field field;
    field.id = entry.id;
    field.names = entry.names;
    field.essential = entry.essential;
    if (entry.unit != nullptr) field.unit = entry.unit;
    if (entry.path != nullptr) {
      field.path = entry.path;
      const Json* node = schema.at(field.path);
      if (node == nullptr || !describe(*node, field)) continue;
    } else {
      const auto [label, quantity] = own_label(field.id);
      field.label = label;
      field.quantity = quantity;
      field.kind = field.id == "note" || field.id == "gear" ? Kind::text : Kind::quantity;
    }
    fields_.push_back(std::move(field));
  }
  add_leaves(enquiry_schema, "", fields_);
  if (const Json* machine = schema.at("machine"))
    for (const auto& [key, kind] : (*machine)["properties"].items())
      machines_.emplace_back(key, kind.value("title", key));
}

const Field* Fields::find(std::string_view id) const {
  for (const Field& field : fields_)
    if (field.id == id || (!field.path.empty() && field.path == id)) return &field;
  return nullptr;
}

std::optional<std::string> Fields::machine_of(std::string_view text) const {
  const std::string words = words_of(text);
  if (words.empty()) return std::nullopt;
  for (const auto& [key, label] : machines_)
    if (words == words_of(key) || words == words_of(label)) return key;
  for (const auto& [word, key] : kMachineWords)
    if (words == word) return key;
  return std::nullopt;
}

std::optional<std::string> gear_of(std::string_view text) {
  const std::string words = " " + words_of(text) + " ";
  const auto says = [&](const char* word) { return words.find(std::string(" ") + word) != std::string::npos; };
  for (const auto& [word, kind] : kGearWords) {
    // `Kegelradgetriebe` begins with its word, `Winkelschneckengetriebe` holds it.
    if (words.find(word) == std::string::npos) continue;
    const bool helical = std::string_view(kind) == "helical_in_line" || std::string_view(kind) == "parallel_shaft";
    if (helical && std::any_of(std::begin(kBeltWords), std::end(kBeltWords), says)) return "belt_and_gear";
    return kind;
  }
  return std::nullopt;
}

std::optional<std::string> choice_of(const Field& field, std::string_view text) {
  const std::string words = words_of(text);
  for (std::size_t i = 0; i < field.values.size(); ++i)
    if (words == words_of(field.values[i]) || words == words_of(field.labels[i])) return field.values[i];
  for (const auto& [word, key] : kChoiceWords)
    if (words == word && std::find(field.values.begin(), field.values.end(), key) != field.values.end()) return key;
  return std::nullopt;
}

std::optional<bool> flag_of(std::string_view text) {
  static constexpr std::array<std::string_view, 6> kYes{"yes", "y", "x", "true", "1", "ja"};
  static constexpr std::array<std::string_view, 5> kNo{"no", "n", "false", "0", "nein"};
  const std::string words = words_of(text);
  if (std::find(kYes.begin(), kYes.end(), words) != kYes.end()) return true;
  if (std::find(kNo.begin(), kNo.end(), words) != kNo.end()) return false;
  return std::nullopt;
}

}  // namespace lobewise::survey
