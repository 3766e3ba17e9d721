#pragma once
// Sessions of the engine for many requests: each serves one at a time and keeps its mesh tables.

#include <chrono>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <vector>

#include "engine/api/registry.h"

namespace lobewise::server {

class Engines {
 public:
  /// As many as the machine has processors: more at once would only wait for each other.
  Engines();

  /// A session, given back when it goes out of scope.
  class Lease {
   public:
    Lease(Engines& from, std::unique_ptr<api::Session> session) : from_(&from), session_(std::move(session)) {}
    ~Lease() {
      if (session_) from_->give_back(std::move(session_));
    }
    Lease(Lease&&) = default;
    Lease& operator=(Lease&&) = delete;
    explicit operator bool() const { return session_ != nullptr; }
    const api::Session& operator*() const { return *session_; }
    const api::Session* operator->() const { return session_.get(); }

   private:
    Engines* from_;
    std::unique_ptr<api::Session> session_;
  };
  /// Waits for a free one. @returns an empty lease when none became free in time
  [[nodiscard]] Lease take(std::chrono::milliseconds patience = std::chrono::seconds(20));

 private:
  void give_back(std::unique_ptr<api::Session> session);

  std::mutex mutex_;
  std::condition_variable returned_;
  std::vector<std::unique_ptr<api::Session>> free_;
};

}  // namespace lobewise::server
