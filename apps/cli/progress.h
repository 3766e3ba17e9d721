#pragma once
// A progress line on a terminal; silent when nobody watches.

#include <chrono>
#include <string>

namespace lobewise::cli {

class ProgressLine {
 public:
  ProgressLine();
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  /// @param share  done 0 … 1; @param text  what is counted
  void show(double share, const std::string& text);

 private:
  bool watched_;
  bool shown_ = false;
  std::chrono::steady_clock::time_point started_, last_;
};

}  // namespace lobewise::cli
