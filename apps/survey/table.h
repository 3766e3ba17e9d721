#pragma once
// A table somebody gives us, row by row: XLSX or CSV. Suspect all of them; memory does not grow with the number of
// rows.

#include <memory>
#include <string>
#include <vector>

#include "engine/base/result.h"

namespace lobewise::survey {

struct Cell {
  std::string text;    ///< UTF-8, trimmed, no control characters
  bool plain = false;  ///< stored as a number: decimal point, nothing between thousands
};

struct Row {
  long number = 0;  ///< as a spreadsheet counts, from 1
  std::vector<Cell> cells;

  [[nodiscard]] bool blank() const;
};

/// Limits on what is read, so that a small file cannot eat the machine.
inline constexpr std::size_t kMostColumns = 1024;
inline constexpr std::size_t kLongestRow = 1U << 20U;  ///< [bytes]
inline constexpr long kMostRows = 1'000'000;

class TableReader {
 public:
  virtual ~TableReader() = default;
  /// The next row that is not blank; false at the end. Errors: the file breaks a limit or its own format.
  [[nodiscard]] virtual Result<bool> next(Row& row) = 0;
  /// Share of the file that has been read, 0 … 1.
  [[nodiscard]] virtual double share_read() const = 0;
  /// Name of the sheet, empty for CSV.
  [[nodiscard]] virtual const std::string& sheet() const = 0;
};

/// Opens by content, not by name: a zip archive is taken as XLSX, all else as CSV.
/// @param sheet  name of the sheet, empty for the first one
/// Errors: not readable, an old binary workbook, no such sheet (the sheets are named), limits.
[[nodiscard]] Result<std::unique_ptr<TableReader>> open_table(const std::string& file, const std::string& sheet);
[[nodiscard]] Result<std::unique_ptr<TableReader>> open_csv(const std::string& file);
[[nodiscard]] Result<std::unique_ptr<TableReader>> open_xlsx(const std::string& file, const std::string& sheet);

/// Column of a spreadsheet: 0 -> A, 26 -> AA.
[[nodiscard]] std::string letters(std::size_t column);
/// Text fit for a cell: control characters become blanks, blanks at both ends go; what is not UTF-8 is read as
/// Windows-1252 (which contains Latin-1).
[[nodiscard]] std::string clean(std::string_view text);
[[nodiscard]] bool is_utf8(std::string_view text);

}  // namespace lobewise::survey
