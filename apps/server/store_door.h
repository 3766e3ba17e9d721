#pragma once
// The store for the page: {"call": …, "input": …} in, one result out, as at the engine's door. docs/api.md lists the
// calls. Nothing of HTTP here.

#include <string>

#include "apps/server/engines.h"
#include "apps/store/store.h"

namespace lobewise::server {

struct Answer {
  int status = 200;  ///< of HTTP
  std::string body;  ///< JSON
};

/// {"errors": [{kind, trouble, path, message}]} with the status that fits.
[[nodiscard]] Answer refusal(const store::Problem& problem);

class StoreDoor {
 public:
  StoreDoor(store::Store& store, Engines& engines) : store_(store), engines_(engines) {}
  /// Never throws. What `by` may not do is refused by the store itself.
  [[nodiscard]] Answer answer(const store::Actor& by, std::string_view request) const;

 private:
  store::Store& store_;
  Engines& engines_;
};

}  // namespace lobewise::server
