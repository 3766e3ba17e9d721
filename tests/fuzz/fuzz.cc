// libFuzzer for one target, named by LOBEWISE_TARGET: arguments are libFuzzer's own.

#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "tests/fuzz/target.h"

extern "C" int LLVMFuzzerRunDriver(int* count, char*** arguments, int (*target)(const std::uint8_t*, std::size_t));

namespace {
const lobewise::fuzz::Target* target = nullptr;
}  // namespace

int main(int count, char** arguments) {
  const char* name = std::getenv("LOBEWISE_TARGET");
  target = name == nullptr ? nullptr : lobewise::fuzz::find_target(name);
  if (target == nullptr) {
    for (const std::string_view known : lobewise::fuzz::target_names())
      std::printf("%.*s\n", static_cast<int>(known.size()), known.data());
    return name == nullptr ? 0 : 2;
  }
  return LLVMFuzzerRunDriver(&count, &arguments, [](const std::uint8_t* bytes, std::size_t size) {
    target->run({reinterpret_cast<const char*>(bytes), size});
    return 0;
  });
}
