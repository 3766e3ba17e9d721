#pragma once
// Tables of bending discs that are good for losses, one for each stage.

#include <list>
#include <memory>
#include <mutex>

#include "engine/drive/drive.h"

namespace lobewise::api {

/// Solved around the torque that the stage is rated by, so that a stage is solved once whatever is asked of it. May be
/// shared between threads; two that miss the same stage at once solve it both.
class LossTables {
 public:
  /// The same drive on discs that bend: its losses are those of a proof within a few tenths of a percent, its peaks are
  /// not to be used. Errors: those of the discs.
  [[nodiscard]] Result<drive::Drive> bent(const drive::Drive& drive);

 private:
  struct Kept {
    range::Stage stage;
    std::shared_ptr<const drive::StageTable> table;
  };
  [[nodiscard]] Result<std::shared_ptr<const drive::StageTable>> of(const range::Stage& stage);

  std::mutex mutex_;
  std::list<Kept> kept_;
};

}  // namespace lobewise::api
