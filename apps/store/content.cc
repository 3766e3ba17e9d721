#include "apps/store/content.h"

#include <fmt/format.h>
#include <sodium.h>
#include <zlib.h>

#include <array>

namespace lobewise::store {
namespace {

void start_sodium() {
  static const bool kReady = sodium_init() >= 0;
  if (!kReady) throw Problem{Trouble::internal, "internal error: no source of random numbers"};
}

std::string hex(const unsigned char* bytes, std::size_t size) {
  std::string out(2 * size + 1, '\0');
  sodium_bin2hex(out.data(), out.size(), bytes, size);
  out.pop_back();
  return out;
}

std::string pack(const std::string& bytes) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  std::string out(size, '\0');
  if (compress2(reinterpret_cast<Bytef*>(out.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()),
                static_cast<uLong>(bytes.size()), Z_BEST_SPEED) != Z_OK)
    return bytes;
  out.resize(size);
  return out;
}

}  // namespace

std::string sha256(const std::string& bytes) {
  start_sodium();
  std::array<unsigned char, crypto_hash_sha256_BYTES> out{};
  crypto_hash_sha256(out.data(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  return hex(out.data(), out.size());
}

std::string random_id() {
  start_sodium();
  std::array<unsigned char, 16> out{};
  randombytes_buf(out.data(), out.size());
  return hex(out.data(), out.size());
}

std::string keep(Connection& connection, const std::string& bytes) {
  std::string hash = sha256(bytes);
  std::string packed = pack(bytes);
  const bool smaller = packed.size() < bytes.size();
  connection.run(
      "INSERT INTO content (sha256, size, packed, bytes) VALUES ($1, $2, $3, $4) ON CONFLICT (sha256) DO NOTHING",
      {hash, static_cast<std::int64_t>(bytes.size()), std::int64_t{smaller},
       Bytes{smaller ? std::move(packed) : bytes}});
  return hash;
}

std::string fetch(Connection& connection, const std::string& hash) {
  const std::vector<Row> rows = connection.run("SELECT size, packed, bytes FROM content WHERE sha256 = $1", {hash});
  const Problem damaged{Trouble::damaged,
                        fmt::format("What was kept as {} is missing or is not what was saved. Put the "
                                    "last backup back: lobewise store restore BACKUP.",
                                    hash.substr(0, 12))};
  if (rows.empty()) throw damaged;
  const auto* stored = std::get_if<Bytes>(&rows[0].at(2));
  const auto size = static_cast<std::size_t>(integer(rows[0].at(0)));
  if (stored == nullptr || size > (1U << 30U)) throw damaged;
  std::string bytes = stored->bytes;
  if (integer(rows[0].at(1)) != 0) {
    uLongf length = static_cast<uLongf>(size);
    bytes.assign(size, '\0');
    if (uncompress(reinterpret_cast<Bytef*>(bytes.data()), &length,
                   reinterpret_cast<const Bytef*>(stored->bytes.data()),
                   static_cast<uLong>(stored->bytes.size())) != Z_OK ||
        length != size)
      throw damaged;
  }
  if (sha256(bytes) != hash) throw damaged;
  return bytes;
}

}  // namespace lobewise::store
