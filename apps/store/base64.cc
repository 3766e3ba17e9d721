#include "apps/store/base64.h"

#include <sodium.h>

namespace lobewise::store {

std::optional<std::string> from_base64(const std::string& text) {
  std::string bytes(text.size() / 4 * 3 + 3, '\0');
  std::size_t size = 0;
  if (sodium_base642bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), text.data(), text.size(), nullptr,
                        &size, nullptr, sodium_base64_VARIANT_ORIGINAL) != 0)
    return std::nullopt;
  bytes.resize(size);
  return bytes;
}

}  // namespace lobewise::store
