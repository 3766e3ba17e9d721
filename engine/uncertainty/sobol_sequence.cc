#include "engine/uncertainty/sobol_sequence.h"

#include <array>

namespace lobewise::uncertainty {
namespace {

/// x^s + a_1 x^(s-1) + … + a_(s-1) x + 1, inner coefficients as the bits of `inner`, and the first direction numbers.
struct Polynomial {
  int degree = 0;
  std::uint32_t inner = 0;
  std::array<std::uint32_t, 16> start{};
};

/// Dimensions 2 … 21 of Joe and Kuo's table `new-joe-kuo-6` (from memory).
constexpr std::array<Polynomial, 20> kJoeKuo{{
    {1, 0, {1}},
    {2, 1, {1, 3}},
    {3, 1, {1, 3, 1}},
    {3, 2, {1, 1, 1}},
    {4, 1, {1, 1, 3, 3}},
    {4, 4, {1, 3, 5, 13}},
    {5, 2, {1, 1, 5, 5, 17}},
    {5, 4, {1, 1, 5, 5, 5}},
    {5, 7, {1, 1, 7, 11, 19}},
    {5, 11, {1, 1, 5, 1, 1}},
    {5, 13, {1, 1, 1, 3, 11}},
    {5, 14, {1, 3, 5, 5, 31}},
    {6, 1, {1, 3, 3, 9, 7, 49}},
    {6, 13, {1, 1, 1, 15, 21, 21}},
    {6, 16, {1, 3, 1, 13, 27, 49}},
    {6, 19, {1, 1, 1, 15, 7, 5}},
    {6, 22, {1, 3, 1, 15, 13, 25}},
    {6, 25, {1, 1, 5, 5, 19, 61}},
    {7, 1, {1, 3, 7, 11, 23, 15, 103}},
    {7, 4, {1, 3, 7, 13, 13, 15, 69}},
}};

/// A polynomial over two elements is primitive when x has the largest order modulo it.
bool primitive(int degree, std::uint32_t inner) {
  const std::uint32_t top = 1U << static_cast<unsigned>(degree);
  const std::uint32_t polynomial = top | (inner << 1U) | 1U;
  std::uint32_t state = 1;
  for (std::uint32_t step = 1; step < top; ++step) {
    state <<= 1U;
    if ((state & top) != 0) state ^= polynomial;
    if (state == 1) return step == top - 1;
  }
  return false;
}

Polynomial next(const Polynomial& last) {
  Polynomial found = last;
  do {
    if (++found.inner >= 1U << static_cast<unsigned>(found.degree - 1)) {
      ++found.degree;
      found.inner = 0;
    }
  } while (!primitive(found.degree, found.inner));
  // Any odd number below 2^i serves as the i-th.
  for (int i = 0; i < found.degree; ++i) {
    const std::uint64_t drawn = mixed(found.inner + 1, static_cast<std::uint64_t>(1000 * found.degree + i));
    found.start[static_cast<std::size_t>(i)] =
        (static_cast<std::uint32_t>(drawn) & ((1U << static_cast<unsigned>(i + 1)) - 1U)) | 1U;
  }
  return found;
}

std::uint32_t flip(std::uint64_t seed, std::uint32_t digits) {
  return static_cast<std::uint32_t>(mixed(seed, digits) >> 63U);
}

}  // namespace

std::uint64_t mixed(std::uint64_t seed, std::uint64_t number) {
  std::uint64_t z = seed + (number + 1) * 0x9E3779B97F4A7C15ULL;
  for (int round = 0; round < 2; ++round) {
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    z ^= z >> 31U;
  }
  return z;
}

SobolSequence::SobolSequence(int dimensions, std::uint64_t scramble) : scramble_(scramble) {
  Polynomial polynomial;
  for (int d = 0; d < dimensions; ++d) {
    std::vector<std::uint32_t> v(kBits);
    if (d == 0) {
      for (unsigned i = 0; i < kBits; ++i) v[i] = 1U << (kBits - 1 - i);
      directions_.push_back(std::move(v));
      continue;
    }
    const auto row = static_cast<std::size_t>(d - 1);
    polynomial = row < kJoeKuo.size() ? kJoeKuo[row] : next(polynomial);
    const auto s = static_cast<unsigned>(polynomial.degree);
    for (unsigned i = 0; i < kBits; ++i) {
      if (i < s) {
        v[i] = polynomial.start[i] << (kBits - 1 - i);
        continue;
      }
      v[i] = v[i - s] ^ (v[i - s] >> s);
      for (unsigned k = 1; k < s; ++k)
        if (((polynomial.inner >> (s - 1 - k)) & 1U) != 0) v[i] ^= v[i - k];
    }
    directions_.push_back(std::move(v));
  }
}

double SobolSequence::at(std::uint32_t point, int dimension) const {
  const std::vector<std::uint32_t>& v = directions_[static_cast<std::size_t>(dimension)];
  // Gray code of the number, as the sequence is usually printed.
  std::uint32_t gray = point ^ (point >> 1U), digits = 0;
  for (std::size_t bit = 0; gray != 0; gray >>= 1U, ++bit)
    if ((gray & 1U) != 0) digits ^= v[bit];
  if (scramble_ == 0) return digits * 0x1.0p-32;
  const std::uint64_t seed = mixed(scramble_, static_cast<std::uint64_t>(dimension));
  std::uint32_t turned = 0;
  for (unsigned level = 0; level < kBits; ++level) {
    const unsigned shift = kBits - 1 - level;
    // The digits before this one, behind a leading 1 that says how many they are.
    const std::uint32_t before = level == 0 ? 1U : (1U << level) | (digits >> (shift + 1));
    turned |= (((digits >> shift) & 1U) ^ flip(seed, before)) << shift;
  }
  return (turned + 0.5) * 0x1.0p-32;
}

}  // namespace lobewise::uncertainty
