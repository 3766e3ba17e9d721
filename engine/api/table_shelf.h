#pragma once
// Mesh tables that were built already, one a stage and kind. They follow from the stage alone, so keeping them changes
// no result.

#include <functional>
#include <list>
#include <memory>
#include <mutex>

#include "engine/api/table_keeper.h"
#include "engine/drive/stage_table.h"

namespace lobewise::api {

/// Keeps the most recent ones; may be shared between threads, which then wait for each other only for the same table.
class TableShelf {
 public:
  /// @param keeper  where tables outlive the program; null: nowhere
  explicit TableShelf(std::shared_ptr<TableKeeper> keeper = nullptr) : keeper_(std::move(keeper)) {}
  using Table = Result<std::shared_ptr<const drive::StageTable>>;
  [[nodiscard]] Table rigid(const range::Stage& stage);
  [[nodiscard]] Table elastic(const range::Stage& stage);
  /// The flexible discs of a stage.
  [[nodiscard]] Result<contact::ElasticDisc> disc(const range::Stage& stage);

 private:
  enum class Kind { rigid, elastic };
  /// What follows from a stage, made by the first who asks.
  template <class Made>
  struct Kept {
    range::Stage stage;
    Kind kind = Kind::elastic;
    std::mutex making;
    std::shared_ptr<const Made> made;
  };
  template <class Made>
  using Shelf = std::list<std::shared_ptr<Kept<Made>>>;  ///< most recent first

  template <class Made>
  Result<std::shared_ptr<const Made>> get(Shelf<Made>& shelf, std::size_t most, const range::Stage& stage, Kind kind,
                                          const std::function<Result<Made>()>& make);

  /// From the shelf, else from the keeper, else solved and kept.
  [[nodiscard]] Table table(const range::Stage& stage, Kind kind,
                            const std::function<Result<drive::StageTable>()>& solve);

  std::shared_ptr<TableKeeper> keeper_;
  std::mutex mutex_;  ///< of the lists
  Shelf<drive::StageTable> tables_;
  Shelf<contact::ElasticDisc> discs_;
};

}  // namespace lobewise::api
