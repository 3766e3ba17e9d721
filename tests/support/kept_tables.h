#pragma once
// Mesh tables that are solved once in a test.
#include <map>
#include <memory>

#include "engine/drive/drive.h"

namespace lobewise::drive {

class KeptTables {
 public:
  using Make = Result<StageTable> (*)(const range::Stage&);
  explicit KeptTables(Make make) : make_(make) {}
  /// Valid as long as these tables are.
  [[nodiscard]] TableSource source() {
    return [this](const range::Stage& stage) -> Result<std::shared_ptr<const StageTable>> {
      auto& kept = tables_[&stage];
      if (kept == nullptr) {
        Result<StageTable> made = make_(stage);
        if (!made) return made.errors();
        kept = std::make_shared<const StageTable>(std::move(*made));
      }
      return kept;
    };
  }

 private:
  Make make_;
  std::map<const range::Stage*, std::shared_ptr<const StageTable>> tables_;
};

}  // namespace lobewise::drive
