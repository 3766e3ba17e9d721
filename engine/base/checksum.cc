#include "engine/base/checksum.h"

#include <fmt/format.h>

#include <cstdint>

namespace lobewise {

std::string checksum(std::string_view text, std::string_view before) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const std::string_view part : {before, text})
    for (const char c : part) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  return fmt::format("{:016x}", hash);
}

}  // namespace lobewise
