#include "apps/server/engines.h"

#include <algorithm>
#include <thread>

#include "apps/tables/table_folder.h"
#include "engine/api/table_shelf.h"

namespace lobewise::server {

Engines::Engines() {
  const auto shelf = std::make_shared<api::TableShelf>(tables::users_tables());
  for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i)
    free_.push_back(std::make_unique<api::Session>(shelf));
}

Engines::Lease Engines::take(std::chrono::milliseconds patience) {
  std::unique_lock lock(mutex_);
  if (!returned_.wait_for(lock, patience, [&] { return !free_.empty(); })) return {*this, nullptr};
  std::unique_ptr<api::Session> session = std::move(free_.back());
  free_.pop_back();
  return {*this, std::move(session)};
}

void Engines::give_back(std::unique_ptr<api::Session> session) {
  {
    const std::lock_guard lock(mutex_);
    free_.push_back(std::move(session));
  }
  returned_.notify_one();
}

}  // namespace lobewise::server
