#include "engine/contact/elastic/panel_factor.h"

namespace lobewise::contact::elastic {
namespace {

constexpr int kWidest = 4;

template <class Lanes, int kWidth>
[[gnu::always_inline]] inline void forward(double* x, int first, std::span<const int> rows, const double* entry) {
  Lanes own[kWidth][kParts<Lanes>];
  for (int w = 0; w < kWidth; ++w) {
    Lanes* here = lanes<Lanes>(x, first + w);
    for (int k = 0; k < kParts<Lanes>; ++k) own[w][k] = here[k];
    for (int before = 0; before < w; ++before, ++entry)
      for (int k = 0; k < kParts<Lanes>; ++k) own[w][k] -= *entry * own[before][k];
    for (int k = 0; k < kParts<Lanes>; ++k) here[k] = own[w][k];
  }
  for (const int row : rows) {
    Lanes* target = lanes<Lanes>(x, row);
    for (int k = 0; k < kParts<Lanes>; ++k) {
      Lanes sum = target[k];
      for (int w = 0; w < kWidth; ++w) sum -= entry[w] * own[w][k];
      target[k] = sum;
    }
    entry += kWidth;
  }
}

template <class Lanes, int kWidth>
[[gnu::always_inline]] inline void backward(double* x, int first, std::span<const int> rows, const double* triangle,
                                            const double* inverse_diagonal) {
  Lanes own[kWidth][kParts<Lanes>];
  for (int w = 0; w < kWidth; ++w)
    for (int k = 0; k < kParts<Lanes>; ++k) own[w][k] = lanes<Lanes>(x, first + w)[k] * inverse_diagonal[w];
  const double* entry = triangle + kWidth * (kWidth - 1) / 2;
  for (const int row : rows) {
    const Lanes* known = lanes<Lanes>(x, row);
    for (int w = 0; w < kWidth; ++w)
      for (int k = 0; k < kParts<Lanes>; ++k) own[w][k] -= entry[w] * known[k];
    entry += kWidth;
  }
  for (int w = kWidth - 1; w >= 0; --w) {
    const double* row = triangle + w * (w - 1) / 2;
    for (int before = 0; before < w; ++before)
      for (int k = 0; k < kParts<Lanes>; ++k) own[before][k] -= row[before] * own[w][k];
    for (int k = 0; k < kParts<Lanes>; ++k) lanes<Lanes>(x, first + w)[k] = own[w][k];
  }
}

}  // namespace

PanelFactor::PanelFactor(const Columns& columns, const std::vector<char>& wanted) {
  const int count = static_cast<int>(columns.diagonal.size());
  const auto length = [&](int column) { return columns.starts[column + 1] - columns.starts[column]; };
  // A place that is wanted passes everything on to its parent, the first row below it, and is told by it.
  std::vector<char> reached(wanted);
  for (int column = 0; column < count; ++column)
    if (reached[column] && length(column) > 0) reached[columns.rows[columns.starts[column]]] = 1;

  entries_.reserve(columns.entries.size());
  inverse_diagonal_.reserve(columns.diagonal.size());
  for (int column = 0; column < count;) {
    Panel panel;
    panel.first = column;
    panel.width = 1;
    const auto same_rows_below = [&](int at) {
      return length(at) > 0 && columns.rows[columns.starts[at]] == at + 1 && length(at) == length(at + 1) + 1;
    };
    while (panel.width < kWidest && same_rows_below(column + panel.width - 1)) ++panel.width;
    const int last = column + panel.width - 1;
    panel.entries_begin = entries_.size();
    for (int w = 1; w < panel.width; ++w)
      for (int before = 0; before < w; ++before)
        entries_.push_back(columns.entries[columns.starts[column + before] + w - before - 1]);
    panel.rows_begin = static_cast<int>(rows_.size());
    for (int i = 0; i < length(last); ++i) {
      rows_.push_back(columns.rows[columns.starts[last] + i]);
      for (int w = 0; w < panel.width; ++w)
        entries_.push_back(columns.entries[columns.starts[column + w] + (panel.width - 1 - w) + i]);
    }
    panel.rows_end = static_cast<int>(rows_.size());
    for (int w = 0; w < panel.width; ++w) {
      inverse_diagonal_.push_back(1 / columns.diagonal[column + w]);
      panel.wanted = panel.wanted || reached[column + w];
    }
    panels_.push_back(panel);
    column += panel.width;
  }
}

template <class Lanes>
[[gnu::always_inline]] inline void PanelFactor::sweep(double* x, bool all) const {
  const auto rows_of = [&](const Panel& panel) {
    return std::span(rows_.data() + panel.rows_begin, rows_.data() + panel.rows_end);
  };
  for (const Panel& panel : panels_) {
    if (!panel.wanted && !all) continue;
    const auto rows = rows_of(panel);
    const double* entry = &entries_[panel.entries_begin];
    switch (panel.width) {
      case 1:
        forward<Lanes, 1>(x, panel.first, rows, entry);
        break;
      case 2:
        forward<Lanes, 2>(x, panel.first, rows, entry);
        break;
      case 3:
        forward<Lanes, 3>(x, panel.first, rows, entry);
        break;
      default:
        forward<Lanes, 4>(x, panel.first, rows, entry);
        break;
    }
  }
  for (auto panel = panels_.rbegin(); panel != panels_.rend(); ++panel) {
    if (!panel->wanted && !all) continue;
    const auto rows = rows_of(*panel);
    const double* entry = &entries_[panel->entries_begin];
    const double* inverse = &inverse_diagonal_[panel->first];
    switch (panel->width) {
      case 1:
        backward<Lanes, 1>(x, panel->first, rows, entry, inverse);
        break;
      case 2:
        backward<Lanes, 2>(x, panel->first, rows, entry, inverse);
        break;
      case 3:
        backward<Lanes, 3>(x, panel->first, rows, entry, inverse);
        break;
      default:
        backward<Lanes, 4>(x, panel->first, rows, entry, inverse);
        break;
    }
  }
}

#if defined(__x86_64__)
LOBEWISE_WIDE void PanelFactor::sweep_wide(double* x, bool all) const { sweep<Quad>(x, all); }
#endif

void PanelFactor::solve(std::vector<double>& x, bool all) const {
#if defined(__x86_64__)
  if (has_wide()) return sweep_wide(x.data(), all);
#endif
  sweep<Pair>(x.data(), all);
}

void PanelFactor::solve(std::vector<double>& x) const { solve(x, true); }
void PanelFactor::solve_wanted(std::vector<double>& x) const { solve(x, false); }

}  // namespace lobewise::contact::elastic
