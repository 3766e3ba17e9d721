// units.made: what one unit out of a hundred does.
#include <algorithm>

#include "engine/api/calls.h"
#include "engine/api/made_call.h"
#include "engine/api/main_job.h"
#include "engine/range/describe_range.h"
#include "engine/result/job.h"
#include "engine/uncertainty/coverage.h"

namespace lobewise::api {
namespace {

constexpr int kUnits = 128, kFewest = 16, kMost = 2048;

Json shares_json(const std::vector<bool>& list) {
  const evidence::ShareOfUnits share = evidence::share_of_units(list);
  return Json{{"share", share.share}, {"low_95", share.low}, {"high_95", share.high}};
}

Json quantiles_json(const std::vector<double>& values) {
  Json out = Json::object();
  for (const auto& [name, share] : {std::pair{"q05", 0.05}, {"q50", 0.5}, {"q95", 0.95}})
    out[name] = drive::quantile_of(values, share);
  return out;
}

Json units_json(const evidence::MadeFinding& made) {
  Json list = Json::array();
  for (std::size_t i = 0; i < made.units.loads.size(); ++i) {
    const drive::UnitLoads& unit = made.units.loads[i];
    list.push_back({{"holds", static_cast<bool>(made.holds[i])},
                    {"lost_motion", unit.play.assembled.widest},
                    {"least_lost_motion", unit.play.assembled.lost_motion},
                    {"running_lost_motion", unit.play.running.lost_motion},
                    {"transmission_error", unit.play.assembled.transmission_error},
                    {"loaded", unit.loaded},
                    {"force_ratio", unit.force_ratio},
                    {"damage_ratio", unit.damage_ratio}});
  }
  return list;
}

Json figures_json(const drive::MadeUnits& units) {
  std::vector<double> lost, error, loaded, force, damage;
  for (const drive::UnitPlay& play : units.plays) {
    lost.push_back(play.assembled.widest);
    error.push_back(play.assembled.transmission_error);
  }
  for (const drive::UnitLoads& unit : units.loads) {
    loaded.push_back(unit.loaded);
    force.push_back(unit.force_ratio);
    damage.push_back(unit.damage_ratio);
  }
  return Json{{"lost_motion", quantiles_json(lost)},
              {"transmission_error", quantiles_json(error)},
              {"loaded", quantiles_json(loaded)},
              {"force_ratio", quantiles_json(force)},
              {"damage_ratio", quantiles_json(damage)}};
}

Json sources_json(const drive::MadeUnits& units) {
  Json list = Json::array();
  for (std::size_t i = 0; i < tolerance::kSources; ++i)
    list.push_back({{"source", tolerance::kSourceNames[i]},
                    {"first", units.of_lost_motion.first[i]},
                    {"total", units.of_lost_motion.total[i]},
                    {"halved_lost_motion_95", units.tightened_lost_motion[i]},
                    {"halved_preloaded", units.tightened_preloaded[i]}});
  return list;
}

Result<Json> units_made(const Json& input, TableShelf& shelf) {
  Job job;
  const Errors errors = read_job(input, {"enquiry", "range", "build", "units"}, job);
  if (!errors.empty()) return errors;
  const Result<int> units = units_wanted(input, "units", kUnits);
  if (!units) return units.errors();
  if (*units == 0) return input_error("units", "0", "a whole number from 16 to 2048");
  judge::Choice choice;
  const Result<drive::Drive> drive = chosen_drive(input, job, shelf, choice);
  if (!drive) return drive.errors();
  const Result<evidence::MadeFinding> made = made_of(*drive, shelf, *units);
  if (!made) return made.errors();
  std::vector<bool> together, free;
  for (const drive::UnitPlay& play : made->units.plays) {
    together.push_back(play.assembled.lost_motion >= 0);
    free.push_back(play.running.lost_motion >= 0);
  }
  return Json{
      {"build", write(result::of(drive->build))},
      {"build_name", drive->build.name()},
      {"finding", write(result::of(made->finding))},
      {"shares",
       {{"hold", shares_json(made->holds)}, {"go_together", shares_json(together)}, {"keep_play", shares_json(free)}}},
      {"perfect", {{"lobe_force", made->units.perfect_force}, {"loaded", made->units.perfect_loaded}}},
      {"figures", figures_json(made->units)},
      {"sources", sources_json(made->units)},
      {"units", units_json(*made)}};
}

Json units_schema() {
  return Json{{"type", "object"},
              {"properties",
               {{"enquiry", {{"type", "object"}}},
                {"range", {{"type", "object"}}},
                {"build", {{"type", "object"}}},
                {"units",
                 {{"type", "integer"},
                  {"minimum", kFewest},
                  {"maximum", kMost},
                  {"description", "units solved under load; 128 when left out"}}}}},
              {"required", Json::array({"enquiry"})}};
}

}  // namespace

int units_to_show(double share) {
  constexpr int kLeast = 64, kEnough = 512;
  return std::clamp(uncertainty::wilks_trials(share, 0.95, false), kLeast, kEnough);
}

Result<int> units_wanted(const Json& input, const char* key, int otherwise) {
  if (!input.contains(key)) return otherwise;
  const Json& found = input[key];
  if (found.is_number_integer()) {
    const auto count = found.get<long long>();
    if (count == 0 || (count >= kFewest && count <= kMost)) return static_cast<int>(count);
  }
  return input_error(key, found.dump().substr(0, 40), "0, or a whole number from 16 to 2048");
}

Result<evidence::MadeFinding> made_of(const drive::Drive& drive, TableShelf& shelf, int units) {
  const Result<contact::ElasticDisc> disc = shelf.disc(drive.build.last());
  if (!disc) return disc.errors();
  return evidence::made(drive, *disc, units);
}

void add_made_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf) {
  registry.add(Call{"units.made",
                    "Units of a build as they are made: shares that hold, distributions, what drives them.",
                    [shelf](const Json& input) { return units_made(input, *shelf); }, units_schema});
}

}  // namespace lobewise::api
