#include <algorithm>

#include "engine/result/comparison.h"
#include "engine/result/json.h"
#include "engine/result/sizing.h"
#include "engine/result/survey_line.h"

namespace lobewise::result {

const std::vector<const model::RecordType*>& all_results() {
  static const std::vector<const model::RecordType*> all{&model::describe<Proof>(), &model::describe<Checked>(),
                                                         &model::describe<Sizing>(), &model::describe<Comparison>(),
                                                         &model::describe<SurveyLine>()};
  return all;
}

const model::RecordType* result_named(std::string_view key) {
  const auto& all = all_results();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const model::RecordType* type) { return type->key == key; });
  return found == all.end() ? nullptr : *found;
}

}  // namespace lobewise::result
