#include "engine/api/table_shelf.h"

#include <algorithm>

#include "engine/api/json_io.h"
#include "engine/drive/table_bytes.h"
#include "engine/range/describe_range.h"
#include "engine/table_version.h"

namespace lobewise::api {
namespace {

constexpr std::size_t kMostTables = 600;  // a table is some 100 kB
constexpr std::size_t kMostDiscs = 8;     // a disc is a few MB

/// What the mesh of a stage hangs on: not what it weighs and costs.
range::Stage mesh_of(range::Stage stage) {
  stage.price = stage.mass = 0;
  return stage;
}

/// Everything that a table follows from.
std::string key_of(const char* kind, const range::Stage& stage) {
  return std::string(kTableVersion) + kind + write(mesh_of(stage)).dump();
}

}  // namespace

template <class Made>
Result<std::shared_ptr<const Made>> TableShelf::get(Shelf<Made>& shelf, std::size_t most, const range::Stage& stage,
                                                    Kind kind, const std::function<Result<Made>()>& make) {
  std::shared_ptr<Kept<Made>> kept;
  {
    const std::lock_guard lock(mutex_);
    const range::Stage mesh = mesh_of(stage);
    const auto found = std::find_if(shelf.begin(), shelf.end(),
                                    [&](const auto& other) { return other->kind == kind && other->stage == mesh; });
    if (found != shelf.end()) {
      shelf.splice(shelf.begin(), shelf, found);
    } else {
      shelf.push_front(std::make_shared<Kept<Made>>());
      shelf.front()->stage = mesh;
      shelf.front()->kind = kind;
      if (shelf.size() > most) shelf.pop_back();
    }
    kept = shelf.front();
  }
  const std::lock_guard lock(kept->making);
  if (!kept->made) {
    Result<Made> made = make();
    if (!made) return made.errors();
    kept->made = std::make_shared<const Made>(std::move(*made));
  }
  return kept->made;
}

TableShelf::Table TableShelf::table(const range::Stage& stage, Kind kind,
                                    const std::function<Result<drive::StageTable>()>& solve) {
  return get<drive::StageTable>(tables_, kMostTables, stage, kind, [&]() -> Result<drive::StageTable> {
    if (!keeper_) return solve();
    const std::string key = key_of(kind == Kind::rigid ? "rigid" : "bending", stage);
    if (const std::optional<std::string> bytes = keeper_->find(key))
      if (std::optional<drive::StageTable> kept = drive::table_of_bytes(*bytes)) return std::move(*kept);
    Result<drive::StageTable> made = solve();
    if (made) keeper_->keep(key, drive::bytes_of(*made));
    return made;
  });
}

TableShelf::Table TableShelf::rigid(const range::Stage& stage) {
  return table(stage, Kind::rigid, [&] { return drive::rigid_stage_table(stage); });
}

TableShelf::Table TableShelf::elastic(const range::Stage& stage) {
  return table(stage, Kind::elastic, [&]() -> Result<drive::StageTable> {
    const Result<contact::ElasticDisc> flexible = disc(stage);
    if (!flexible) return flexible.errors();
    return drive::elastic_stage_table(stage, *flexible);
  });
}

Result<contact::ElasticDisc> TableShelf::disc(const range::Stage& stage) {
  const Result<std::shared_ptr<const contact::ElasticDisc>> found = get<contact::ElasticDisc>(
      discs_, kMostDiscs, stage, Kind::elastic, [&] { return drive::elastic_disc_of(stage); });
  if (!found) return found.errors();
  return **found;
}

}  // namespace lobewise::api
