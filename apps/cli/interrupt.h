#pragma once
// Ctrl-C asks a long job to stop at the next line; a second one ends the program at once.

namespace lobewise::cli {

class Interrupt {
 public:
  Interrupt();
  ~Interrupt();
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;
  [[nodiscard]] static bool asked();
};

}  // namespace lobewise::cli
