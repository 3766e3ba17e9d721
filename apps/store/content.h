#pragma once
// Bytes kept once, by their hash, packed when that makes them smaller.

#include <string>

#include "apps/store/connection.h"

namespace lobewise::store {

/// SHA-256 (FIPS 180-4) in hexadecimal.
[[nodiscard]] std::string sha256(const std::string& bytes);
/// 128 random bits in hexadecimal.
[[nodiscard]] std::string random_id();

/// Keeps bytes; @returns their hash.
std::string keep(Connection& connection, const std::string& bytes);
/// Takes them out again and compares the hash. Problems: damaged.
[[nodiscard]] std::string fetch(Connection& connection, const std::string& hash);

}  // namespace lobewise::store
