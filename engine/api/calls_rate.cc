// rate: allowable torque of every build of a range at given input speeds, and what limits it.

#include <algorithm>
#include <optional>
#include <vector>

#include "engine/api/calls.h"
#include "engine/api/table_shelf.h"
#include "engine/enquiry/enquiry.h"
#include "engine/range/demo_range.h"
#include "engine/range/describe_range.h"
#include "engine/result/job.h"
#include "engine/sizing/rating.h"

namespace lobewise::api {
namespace {

/// Full-load speeds of 8-, 6-, 4- and 2-pole motors at 50 Hz [1/min]. Common practice, no source.
constexpr double kUsualSpeeds[] = {720, 960, 1450, 2900};
constexpr double kPerMinute = 2 * kPi / 60;

struct RateRequest {
  std::optional<range::Range> range;
  std::optional<enquiry::BuildChoice> build;
  std::vector<double> speeds;
  double hours = sizing::RatingConditions{}.hours * 3600;
  double ambient = sizing::RatingConditions{}.ambient;
  double air_speed = sizing::RatingConditions{}.air_speed;
};

const model::RecordType& request_type() {
  using model::field;
  static const model::RecordType type{
      "rate",
      "Rating",
      "What a range carries",
      {
          field<&RateRequest::range>("range", "Range", "The invented demo range when left out"),
          field<&RateRequest::build>("build", "Build", "Only this one, with the working"),
          field<&RateRequest::speeds>("speeds", "Input speeds", "720, 960, 1450 and 2900 rpm when left out",
                                      Quantity::angular_speed, {0.1, 1000})
              .with_default(),
          field<&RateRequest::hours>("hours", "Life", "Basic life asked of the bearings", Quantity::duration,
                                     {3600, 3.6e9})
              .with_default(),
          field<&RateRequest::ambient>("ambient", "Ambient temperature", "", Quantity::temperature, {200, 350})
              .with_default(),
          field<&RateRequest::air_speed>("air_speed", "Air speed", "Over the housing", Quantity::speed, {0, 50})
              .with_default(),
      }};
  return type;
}

Json row_json(const drive::Build& build, double speed, const sizing::Rating& rating) {
  const drive::BuildName name = drive::name_of(build);
  Json row{{"frame", name.frame}, {"lobes", *name.lobes}, {"build_name", build.name()}};
  if (name.first_lobes) {
    row["first_frame"] = name.first_frame;
    row["first_lobes"] = *name.first_lobes;
  }
  row["ratio"] = build.ratio();
  row["speed"] = write(result::amount(speed, Quantity::angular_speed));
  row["torque"] = write(result::amount(rating.torque, Quantity::torque));
  const auto criterion_name = [&](const sizing::CriterionTorque& criterion) {
    const std::string words = sizing::words(criterion.criterion);
    return build.stages.size() > 1 && criterion.stage == 0 ? words + " (first stage)" : words;
  };
  row["limited_by"] = rating.too_fast ? "input speed" : criterion_name(rating.criteria.front());
  Json criteria = Json::array();
  for (const sizing::CriterionTorque& criterion : rating.criteria)
    criteria.push_back(
        {{"name", criterion_name(criterion)}, {"torque", write(result::amount(criterion.torque, Quantity::torque))}});
  row["criteria"] = std::move(criteria);
  return row;
}

Result<std::vector<drive::Build>> builds_of(const RateRequest& request, const range::Range& range) {
  if (!request.build) return drive::all_builds(range);
  const enquiry::BuildChoice& choice = *request.build;
  const Result<drive::Build> build =
      drive::find_build(range, {choice.frame, choice.lobes, choice.first_frame, choice.first_lobes});
  if (!build) return build.errors();
  return std::vector<drive::Build>{*build};
}

Result<Json> rate(const Json& input, TableShelf& shelf) {
  RateRequest request;
  Errors errors;
  read_record(input, request_type(), &request, "", Numbers::si, errors);
  if (errors.empty() && request.range) errors = range::check(*request.range);
  if (!errors.empty()) return errors;
  const range::Range& range = request.range ? *request.range : range::demo_range();
  if (request.speeds.empty())
    for (const double speed : kUsualSpeeds) request.speeds.push_back(speed * kPerMinute);
  const Result<std::vector<drive::Build>> builds = builds_of(request, range);
  if (!builds) return builds.errors();

  sizing::RatingConditions conditions;
  conditions.hours = request.hours / 3600;
  conditions.ambient = request.ambient;
  conditions.air_speed = request.air_speed;
  // The whole range at once needs quick tables; one build is worth discs that bend.
  const drive::TableSource source = [&](const range::Stage& stage) {
    return request.build ? shelf.elastic(stage) : shelf.rigid(stage);
  };
  std::string model;
  Json rows = Json::array();
  for (const drive::Build& build : *builds) {
    const Result<sizing::Tables> tables = sizing::rating_tables(build, source);
    if (!tables) return tables.errors();
    model = tables->back()->model;
    for (const double speed : request.speeds) {
      conditions.input_speed = speed;
      const Result<sizing::Rating> rating = sizing::rate(build, *tables, conditions);
      if (!rating) return rating.errors();
      Json row = row_json(build, speed, *rating);
      if (request.build) {
        const Result<Working> working = sizing::rating_working(build, *tables, conditions);
        if (!working) return working.errors();
        row["working"] = write_list(result::steps_of(*working));
      }
      rows.push_back(std::move(row));
    }
  }
  return Json{{"range", range.name},
              {"note", range.note},
              {"model", model},
              {"hours", write(result::amount(request.hours, Quantity::duration))},
              {"ambient", write(result::amount(request.ambient, Quantity::temperature))},
              {"rows", std::move(rows)}};
}

}  // namespace

void add_rate_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf) {
  registry.add(Call{"rate", "Allowable torque of every frame, ratio and speed of a range, with what limits it.",
                    [shelf](const Json& input) { return rate(input, *shelf); },
                    [] { return schema_of(request_type()); }});
}

}  // namespace lobewise::api
