#include "engine/api/loss_tables.h"

#include <algorithm>

#include "engine/drive/coarse_table.h"
#include "engine/sizing/rating.h"

namespace lobewise::api {

Result<std::shared_ptr<const drive::StageTable>> LossTables::of(const range::Stage& stage) {
  {
    const std::lock_guard lock(mutex_);
    const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& kept) { return kept.stage == stage; });
    if (found != kept_.end()) return found->table;
  }
  const Result<double> torque = sizing::reference_torque(stage);
  if (!torque) return torque.errors();
  Result<drive::StageTable> made = drive::coarse_bending_table(stage, *torque);
  if (!made) return made.errors();
  auto table = std::make_shared<const drive::StageTable>(std::move(*made));
  const std::lock_guard lock(mutex_);
  kept_.push_back({stage, table});
  return table;
}

Result<drive::Drive> LossTables::bent(const drive::Drive& drive) {
  drive::Drive out = drive;
  for (std::size_t i = 0; i < out.tables.size(); ++i) {
    Result<std::shared_ptr<const drive::StageTable>> table = of(*drive.build.stages[i].stage);
    if (!table) return table.errors();
    out.tables[i] = std::move(*table);
  }
  return out;
}

}  // namespace lobewise::api
