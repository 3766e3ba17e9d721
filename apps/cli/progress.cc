#include "apps/cli/progress.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <iostream>

namespace lobewise::cli {

using Clock = std::chrono::steady_clock;

ProgressLine::ProgressLine() : watched_(isatty(STDERR_FILENO) != 0), started_(Clock::now()), last_(started_) {}

ProgressLine::~ProgressLine() {
  if (shown_) std::cerr << "\r\x1b[K" << std::flush;
}

void ProgressLine::show(double share, const std::string& text) {
  if (!watched_) return;
  const Clock::time_point now = Clock::now();
  if (now - last_ < std::chrono::milliseconds(100)) return;
  last_ = now;
  shown_ = true;
  constexpr int kCells = 24;
  const int full = std::clamp(static_cast<int>(std::lround(share * kCells)), 0, kCells);
  std::string cells;
  for (int i = 0; i < kCells; ++i) cells += i < full ? "█" : "░";
  const double seconds = std::chrono::duration<double>(now - started_).count();
  std::string rest;
  if (share > 0.02) rest = fmt::format(", about {:.0f} s to go", seconds * (1 - share) / share);
  std::cerr << fmt::format("\r\x1b[K{} {:3.0f} %  {}{}", cells, 100 * share, text, rest) << std::flush;
}

}  // namespace lobewise::cli
