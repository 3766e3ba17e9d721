// The candidate beside what stands there: `compare`, and what a drawing of the geared pair needs: `gear_pair`.

#include <fmt/format.h>

#include <algorithm>

#include "engine/api/calls.h"
#include "engine/api/main_job.h"
#include "engine/base/constants.h"
#include "engine/incumbent/tooth_load.h"
#include "engine/result/beside.h"
#include "engine/result/job.h"

namespace lobewise::api {
namespace {

constexpr int kFigureSamples = 60;  ///< of the candidate's figures
constexpr int kLossSamples = 60;
constexpr int kCaseSamples = 2000;

void add_cases(const evidence::Evaluation& nominal, const drive::Drive& drive, const incumbent::GearUnit& unit,
               result::Comparison& out) {
  const std::vector<std::string> gaps = evidence::missing_for_case(drive);
  out.missing.insert(out.missing.end(), gaps.begin(), gaps.end());
  if (!gaps.empty()) return;
  const cost::DriveLosses losses = evidence::candidate_losses(drive, nominal, kLossSamples);
  const evidence::Against first = evidence::deciding(drive.requirement);
  const evidence::Against second =
      first == evidence::Against::present ? evidence::Against::replacement : evidence::Against::present;
  for (evidence::Against against : {first, second}) {
    // A unit that cannot stay is no option to set anything against.
    if (against == evidence::Against::present && first == evidence::Against::replacement) continue;
    const std::optional<evidence::CaseOf> setup = evidence::case_of(drive, unit, losses, against);
    if (!setup) {
      out.missing.emplace_back("a quote for a new unit of the present kind");
      continue;
    }
    Result<evidence::CaseStudy> study = evidence::study(*setup, against, kCaseSamples);
    if (!study) {
      out.missing.push_back(study.errors().front().message);
      continue;
    }
    study->spare = evidence::spare_answer(drive, unit, losses, against);
    if (study->hangs_on_spare())
      out.missing.emplace_back("whether a spare of the present unit lies on the shelf (economics.spare_on_shelf)");
    out.cases.push_back(result::of(*study));
  }
}

/// Everything that sets the unit in service beside the candidate.
void set_beside(const Job& job, const drive::Drive& drive, const evidence::Evaluation& nominal,
                const incumbent::GearUnit& unit, result::Comparison& out, evidence::Finding& cautions) {
  const enquiry::Incumbent& seen = *job.requirement.incumbent;
  const incumbent::UnitDuty duty = evidence::duty_of(drive, nominal);
  const std::vector<incumbent::Axis> axes = incumbent::compare(
      unit, evidence::offer_of(job.requirement), evidence::candidate_figures(drive, nominal, kFigureSamples));
  out.incumbent = result::of(unit);
  if (!seen.trouble.empty()) out.incumbent->trouble = seen.trouble;
  out.axes = result::of(axes);
  out.troubles = result::troubles_of(seen, unit, duty);
  if (job.requirement.not_offered.empty())
    add_cases(nominal, drive, unit, out);
  else
    out.missing.push_back(job.requirement.not_offered);
  out.verdict = result::sentences(evidence::fair_words(axes, unit, duty, seen));
  for (const result::Case& one : out.cases) out.verdict.push_back(one.answer);
  out.charts.push_back(result::of(evidence::efficiency_beside(drive, nominal, unit)));
  out.working = result::steps_of(incumbent::unit_working(unit, duty));
  std::size_t number = 0;
  for (const std::string& text : incumbent::replacement_cautions(unit))
    cautions.cautions.push_back({fmt::format("instead_{}", number++), text});
}

Result<Json> compare(const Json& input, TableShelf& shelf) {
  Job job;
  const Errors errors = read_job(input, {"enquiry", "range", "build"}, job);
  if (!errors.empty()) return errors;
  judge::Choice choice;
  const Result<drive::Drive> drive = chosen_drive(input, job, shelf, choice);
  if (!drive) return drive.errors();
  const evidence::Evaluation nominal = evidence::evaluate(*drive, {});
  result::Comparison out;
  out.build = result::of(drive->build);
  out.build_name = drive->build.name();
  out.fit = result::of(evidence::fit_beside(*drive));
  out.why_none = result::if_any(choice.none);
  std::vector<evidence::Finding> cautions(1);
  out.missing = evidence::missing_of_incumbent(job.requirement);
  if (out.missing.empty()) {
    const Result<incumbent::GearUnit> unit = evidence::unit_beside(*drive, nominal);
    if (!unit) return unit.errors();
    set_beside(job, *drive, nominal, *unit, out, cautions[0]);
  }
  cautions[0].cautions.push_back(
      {"case_estimate",
       "The comparison is an estimate over ranges, no promise. Nobody measured the unit that stands there: where its "
       "teeth are unknown, a set is designed to the same duty by a textbook method."});
  result::fill(job.enquiry, job.requirement, cautions, out);
  return write(out);
}

// ---- The geared pair ----

Json point_json(const incumbent::Point& p) { return Json::array({p.x, p.y}); }

Json outline_json(const incumbent::PairGeometry& geometry, bool wheel, int points) {
  Json list = Json::array();
  for (const incumbent::Point& p : incumbent::tooth_outline(geometry, wheel, points)) list.push_back(point_json(p));
  return list;
}

/// A pair as drawn, with what loads it. A bevel stage is drawn as its virtual cylindrical pair.
struct Drawn {
  const incumbent::PairGeometry* pair = nullptr;
  incumbent::MeshLoad load;
  incumbent::PairDuty duty;
  const char* note = "";
};

std::optional<Drawn> drawn(const incumbent::UnitStage& stage, const incumbent::GearMaterial& material, double time) {
  using incumbent::StageKind;
  if (!stage.pair || !stage.rating) return std::nullopt;
  Drawn out;
  out.pair = &*stage.pair;
  out.duty.pinion_torque = stage.input_torque;
  out.duty.pinion_speed = stage.input_speed;
  out.duty.service_time = time;
  if (stage.kind == StageKind::bevel) {
    out.duty = incumbent::bevel_duty(*stage.bevel, stage.input_torque, stage.input_speed, time);
    out.note = "The bevel pair is drawn as its virtual cylindrical pair at the middle of the face.";
  }
  if (stage.kind == StageKind::planetary) {
    out.duty = incumbent::sun_duty(*stage.planetary, stage.input_torque, stage.input_speed, time);
    out.note = "Sun and one planet; the other planets carry the same.";
  }
  out.load = {out.duty.pinion_torque, out.duty.pinion_speed,
              incumbent::contact_modulus(material.modulus, material.poisson, material.modulus, material.poisson),
              stage.rating->dynamic * stage.rating->distribution * out.duty.load_factor};
  return out;
}

Json radii_json(double reference, double base, double tip, double pitch) {
  return Json{{"reference", reference}, {"base", base}, {"tip", tip}, {"pitch", pitch}};
}

Json pair_json(const incumbent::PairGeometry& g) {
  return Json{{"pinion_teeth", g.pair.pinion.teeth},
              {"wheel_teeth", g.pair.wheel.teeth},
              {"internal", g.pair.internal},
              {"module", g.pair.module},
              {"helix", g.pair.helix},
              {"face_width", g.pair.face_width},
              {"centre_distance", g.centre_distance},
              {"working_angle", g.working_angle},
              {"contact_ratio", g.contact_ratio},
              {"overlap_ratio", g.overlap_ratio},
              {"pinion_radii", radii_json(g.r1, g.rb1, g.ra1, g.rw1)},
              {"wheel_radii", radii_json(g.r2, g.rb2, g.ra2, g.rw2)}};
}

Json contact_json(const incumbent::ToothContact& c) {
  Json json{{"pair", c.pair},   {"in_section", c.in_section}, {"share", c.share},
            {"force", c.force}, {"pressure", c.pressure},     {"sliding", c.sliding}};
  if (c.in_section) json["point"] = point_json(c.point);
  return json;
}

Result<int> whole(const Json& input, const char* key, int fallback, int low, int high) {
  if (!input.contains(key) || input[key].is_null()) return fallback;
  const Json& value = input[key];
  if (!value.is_number_integer() || value.get<long long>() < low || value.get<long long>() > high)
    return input_error(key, value.dump().substr(0, 40), fmt::format("a whole number from {} to {}", low, high));
  return value.get<int>();
}

/// The stage to draw: the one named, else the last one that has a pair (it carries most).
Result<std::size_t> stage_to_draw(const Json& input, const incumbent::GearUnit& unit) {
  const Result<int> named = whole(input, "stage", -1, 0, std::max(0, static_cast<int>(unit.stages.size()) - 1));
  if (!named) return named.errors();
  for (std::size_t i = unit.stages.size(); i-- > 0;) {
    if (*named >= 0 && i != static_cast<std::size_t>(*named)) continue;
    if (unit.stages[i].pair) return i;
  }
  return model_error("stage", *named >= 0 ? std::to_string(*named) : "",
                     "no stage with a pair of involute gears there: a worm, a belt or a cycloidal unit is not drawn");
}

Result<Json> gear_pair(const Json& input) {
  Job job;
  const Errors errors = read_job(input, {"enquiry", "range", "stage", "steps", "points"}, job);
  if (!errors.empty()) return errors;
  const Result<int> steps = whole(input, "steps", 48, 8, 360), points = whole(input, "points", 12, 4, 60);
  if (!steps) return steps.errors();
  if (!points) return points.errors();
  enquiry::Incumbent seen = job.requirement.incumbent.value_or(enquiry::Incumbent{});
  const bool assumed = !seen.kind.has_value();
  if (assumed) seen.kind = incumbent::UnitKind::helical_in_line;
  const incumbent::UnitDuty duty = evidence::duty_of(job.requirement);
  const Result<incumbent::GearUnit> unit = evidence::unit_beside(seen, duty);
  if (!unit) return unit.errors();
  const Result<std::size_t> index = stage_to_draw(input, *unit);
  if (!index) return index.errors();
  const std::optional<Drawn> drawing = drawn(unit->stages[*index], unit->material, duty.service_time);
  const incumbent::PairGeometry& g = *drawing->pair;

  Json angles = Json::array(), pinion = Json::array(), wheel = Json::array(), contacts = Json::array();
  const double pitch = 2 * kPi / g.pair.pinion.teeth;
  for (int i = 0; i < *steps; ++i) {
    const incumbent::MeshInstant now = incumbent::mesh_instant(g, drawing->load, pitch * i / *steps);
    angles.push_back(now.pinion_angle);
    pinion.push_back(now.pinion_tooth_angle);
    wheel.push_back(now.wheel_tooth_angle);
    Json list = Json::array();
    for (const incumbent::ToothContact& c : now.contacts) list.push_back(contact_json(c));
    contacts.push_back(std::move(list));
  }
  const incumbent::MeshCycle cycle = incumbent::mesh_cycle(g, drawing->load);
  Json stages = Json::array();
  for (const incumbent::UnitStage& stage : unit->stages)
    stages.push_back(
        {{"kind", incumbent::name(stage.kind)}, {"ratio", stage.ratio}, {"drawn", stage.pair.has_value()}});
  return Json{{"unit", write(result::of(*unit))},
              {"kind_assumed", assumed},
              {"stage", *index},
              {"stages", std::move(stages)},
              {"note", drawing->note},
              {"pair", pair_json(g)},
              {"pinion_outline", outline_json(g, false, *points)},
              {"wheel_outline", outline_json(g, true, *points)},
              {"wheel_centre", Json::array({g.pair.internal ? -g.centre_distance : g.centre_distance, 0.0})},
              {"pinion_angles", std::move(angles)},
              {"pinion_tooth_angles", std::move(pinion)},
              {"wheel_tooth_angles", std::move(wheel)},
              {"contacts", std::move(contacts)},
              {"pinion_torque", write(result::amount(drawing->load.torque, Quantity::torque))},
              {"pinion_speed", write(result::amount(drawing->load.pinion_speed, Quantity::angular_speed))},
              {"mean_pairs", cycle.mean_pairs},
              {"fewest_pairs", cycle.fewest_pairs},
              {"most_pairs", cycle.most_pairs},
              {"largest_share", cycle.largest_share},
              {"largest_pressure", write(result::amount(cycle.largest_pressure, Quantity::pressure))},
              {"working", write_list(result::steps_of(incumbent::rating_working(g, unit->material, drawing->duty)))}};
}

Json schema_of_job(Json more) {
  Json properties{{"enquiry", schema_of(model::describe<enquiry::Enquiry>())}, {"range", {{"type", "object"}}}};
  properties.update(more);
  return Json{{"type", "object"}, {"properties", std::move(properties)}, {"required", Json::array({"enquiry"})}};
}

}  // namespace

void add_compare_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf) {
  registry.add(Call{"compare", "The best build, or the one named, beside the drive in service: figures, fit and case.",
                    [shelf](const Json& input) { return compare(input, *shelf); },
                    [] {
                      return schema_of_job({{"build", {{"type", "object"}}}});
                    }});
  registry.add(Call{"gear_pair", "What a drawing of the geared unit's teeth needs: outlines, contacts, loads.",
                    [](const Json& input) { return gear_pair(input); },
                    [] {
                      return schema_of_job({{"stage", {{"type", "integer"}}},
                                            {"steps", {{"type", "integer"}}},
                                            {"points", {{"type", "integer"}}}});
                    }});
}

}  // namespace lobewise::api
