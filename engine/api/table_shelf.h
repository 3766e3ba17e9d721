#pragma once
// Mesh tables that were built already. They follow from the stage and the torque alone, so keeping them changes no
// result.

#include <list>
#include <memory>

#include "engine/drive/stage_table.h"

namespace lobewise::api {

/// Not shared between threads. Keeps the most recent ones.
class TableShelf {
 public:
  using Table = Result<std::shared_ptr<const drive::StageTable>>;
  [[nodiscard]] Table rigid(const range::Stage& stage, double torque);
  [[nodiscard]] Table rough(const range::Stage& stage, double torque);
  [[nodiscard]] Table elastic(const range::Stage& stage, double torque);
  /// The flexible discs of a stage.
  [[nodiscard]] Result<contact::ElasticDisc> disc(const range::Stage& stage);

 private:
  enum class Kind { rough, rigid, elastic };
  struct KeptTable {
    range::Stage stage;
    double torque;
    Kind kind;
    std::shared_ptr<const drive::StageTable> table;
  };
  struct KeptDisc {
    range::Stage stage;
    contact::ElasticDisc disc;
  };
  template <class Make>
  Table get(const range::Stage& stage, double torque, Kind kind, Make make);

  std::list<KeptTable> tables_;  ///< most recent first
  std::list<KeptDisc> discs_;
};

}  // namespace lobewise::api
