#pragma once
// Several load cases side by side: the widest vectors that the machine has, the same digits on every machine.
#include <cstddef>

namespace lobewise::contact::elastic {

/// Load cases (right sides) treated together: what is common to them is read once for all.
inline constexpr int kBlock = 8;

// Vectors of the compiler; unaligned, and allowed to look at any double.
using Pair = double __attribute__((vector_size(16), aligned(8), may_alias));  ///< every machine has them
using Quad = double __attribute__((vector_size(32), aligned(8), may_alias));  ///< in functions marked LOBEWISE_WIDE

/// Vectors in a block.
template <class Lanes>
inline constexpr int kParts = kBlock / static_cast<int>(sizeof(Lanes) / sizeof(double));

template <class Lanes>
[[gnu::always_inline]] inline Lanes* lanes(double* x, std::size_t place) {
  return reinterpret_cast<Lanes*>(x + place * kBlock);
}
template <class Lanes>
[[gnu::always_inline]] inline const Lanes* lanes(const double* x, std::size_t place) {
  return reinterpret_cast<const Lanes*>(x + place * kBlock);
}

#if defined(__x86_64__)
/// Marks the twin of a function that works with Quad. Without fused multiply-add, so that rounding is everywhere alike.
#define LOBEWISE_WIDE [[gnu::target("avx2")]]
inline bool has_wide() { return __builtin_cpu_supports("avx2") != 0; }
#endif

}  // namespace lobewise::contact::elastic
