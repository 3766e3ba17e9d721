#pragma once
// Triangular factor of a sparse symmetric matrix, kept so that a block of right sides goes through it at the speed of
// the arithmetic.
#include <span>
#include <vector>

#include "engine/contact/elastic/lanes.h"

namespace lobewise::contact::elastic {

/// K = L D L^T. Neighbouring columns whose rows below them are the same are kept as panels of up to four, so that a
/// right side is read and written once for four columns.
class PanelFactor {
 public:
  /// Columns of L strictly below the diagonal, rows rising.
  struct Columns {
    std::span<const int> starts;  ///< one more than columns
    std::span<const int> rows;
    std::span<const double> entries;
    std::span<const double> diagonal;  ///< of D
  };
  PanelFactor() = default;
  /// @param wanted  places where right sides of `solve_wanted` are not zero and its answers are read
  PanelFactor(const Columns& columns, const std::vector<char>& wanted);

  /// [place][right side] in, answers out.
  void solve(std::vector<double>& x) const;
  /// As `solve`, without the columns that neither feel a wanted place nor tell one anything; what stands there in `x`
  /// afterwards has no meaning.
  void solve_wanted(std::vector<double>& x) const;

 private:
  struct Panel {
    int first = 0, width = 0;
    int rows_begin = 0, rows_end = 0;
    std::size_t entries_begin = 0;  ///< the triangle inside the panel by rows, then `width` entries for every row
    bool wanted = false;
  };
  template <class Lanes>
  void sweep(double* x, bool all) const;
#if defined(__x86_64__)
  void sweep_wide(double* x, bool all) const;
#endif
  void solve(std::vector<double>& x, bool all) const;

  std::vector<Panel> panels_;
  std::vector<int> rows_;
  std::vector<double> entries_, inverse_diagonal_;
};

}  // namespace lobewise::contact::elastic
