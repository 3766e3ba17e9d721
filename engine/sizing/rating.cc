#include "engine/sizing/rating.h"

#include <algorithm>

#include "engine/sizing/rater.h"

namespace lobewise::sizing {
const char* words(Criterion criterion) {
  switch (criterion) {
    case Criterion::lobe_pressure:
      return "lobe contact pressure";
    case Criterion::pin_pressure:
      return "output pin contact pressure";
    case Criterion::pin_bending:
      return "output pin bending";
    case Criterion::eccentric_bearing:
      return "eccentric bearing life";
    case Criterion::input_bearing:
      return "input bearing life";
    case Criterion::shaft:
      return "output shaft";
    case Criterion::key:
      return "key";
    case Criterion::heat:
      break;
  }
  return "heat";
}

Result<Tables> rating_tables(const drive::Build& build, const drive::TableSource& source) {
  Tables tables;
  for (const drive::StageRef& ref : build.stages) {
    Result<std::shared_ptr<const drive::StageTable>> table = source(*ref.stage);
    if (!table) return table.errors();
    tables.push_back(std::move(*table));
  }
  return tables;
}

Result<Rating> rate(const drive::Build& build, const Tables& tables, const RatingConditions& conditions) {
  const Result<Rater> rater = Rater::make(build, tables, conditions);
  if (!rater) return rater.errors();
  Rating rating;
  rating.criteria = rater->criteria();
  std::stable_sort(rating.criteria.begin(), rating.criteria.end(),
                   [](const CriterionTorque& a, const CriterionTorque& b) { return a.torque < b.torque; });
  rating.too_fast = rater->too_fast();
  rating.torque = rating.too_fast ? 0 : rating.criteria.front().torque;
  return rating;
}

Result<Working> rating_working(const drive::Build& build, const Tables& tables, const RatingConditions& conditions) {
  const Result<Rater> rater = Rater::make(build, tables, conditions);
  if (!rater) return rater.errors();
  Working working;
  for (const CriterionTorque& criterion : rater->criteria()) rater->explain(criterion, working);
  return working;
}

}  // namespace lobewise::sizing
