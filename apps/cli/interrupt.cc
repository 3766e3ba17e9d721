#include "apps/cli/interrupt.h"

#include <csignal>

namespace lobewise::cli {
namespace {

volatile std::sig_atomic_t interrupted = 0;

extern "C" void on_interrupt(int signal) {
  interrupted = 1;
  std::signal(signal, SIG_DFL);  // the next one ends the program
}

}  // namespace

Interrupt::Interrupt() {
  interrupted = 0;
  std::signal(SIGINT, on_interrupt);
  std::signal(SIGTERM, on_interrupt);
}
Interrupt::~Interrupt() {
  std::signal(SIGINT, SIG_DFL);
  std::signal(SIGTERM, SIG_DFL);
}
bool Interrupt::asked() { return interrupted != 0; }

}  // namespace lobewise::cli
