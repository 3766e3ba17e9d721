#include "engine/api/table_shelf.h"

#include <algorithm>

namespace lobewise::api {
namespace {

constexpr std::size_t kMostTables = 400;  // a table is some 50 kB
constexpr std::size_t kMostDiscs = 16;    // a disc is a few MB

}  // namespace

template <class Make>
TableShelf::Table TableShelf::get(const range::Stage& stage, double torque, Kind kind, Make make) {
  const auto found = std::find_if(tables_.begin(), tables_.end(), [&](const KeptTable& kept) {
    return kept.torque == torque && kept.kind == kind && kept.stage == stage;
  });
  if (found != tables_.end()) {
    tables_.splice(tables_.begin(), tables_, found);
    return tables_.front().table;
  }
  Result<drive::StageTable> made = make();
  if (!made) return made.errors();
  tables_.push_front({stage, torque, kind, std::make_shared<const drive::StageTable>(std::move(*made))});
  if (tables_.size() > kMostTables) tables_.pop_back();
  return tables_.front().table;
}

TableShelf::Table TableShelf::rigid(const range::Stage& stage, double torque) {
  return get(stage, torque, Kind::rigid, [&] { return drive::rigid_stage_table(stage, torque); });
}

TableShelf::Table TableShelf::rough(const range::Stage& stage, double torque) {
  return get(stage, torque, Kind::rough, [&] { return drive::rough_stage_table(stage, torque); });
}

TableShelf::Table TableShelf::elastic(const range::Stage& stage, double torque) {
  return get(stage, torque, Kind::elastic, [&]() -> Result<drive::StageTable> {
    const Result<contact::ElasticDisc> flexible = disc(stage);
    if (!flexible) return flexible.errors();
    return drive::elastic_stage_table(stage, *flexible, torque);
  });
}

Result<contact::ElasticDisc> TableShelf::disc(const range::Stage& stage) {
  const auto found =
      std::find_if(discs_.begin(), discs_.end(), [&](const KeptDisc& kept) { return kept.stage == stage; });
  if (found != discs_.end()) {
    discs_.splice(discs_.begin(), discs_, found);
    return discs_.front().disc;
  }
  Result<contact::ElasticDisc> made = drive::elastic_disc_of(stage);
  if (!made) return made.errors();
  discs_.push_front({stage, *made});
  if (discs_.size() > kMostDiscs) discs_.pop_back();
  return made;
}

}  // namespace lobewise::api
