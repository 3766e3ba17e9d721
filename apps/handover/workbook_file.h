#pragma once
// A workbook on the disk.

#include <xlsxwriter.h>

#include <cstdio>
#include <ctime>
#include <string>
#include <utility>
#include <vector>

namespace lobewise::handover {

/// An empty workbook that says when it was issued, so that the same answers give the same bytes.
/// @param title  goes into the file's properties
/// @param date   ISO 8601
inline lxw_workbook* dated_workbook(const std::string& file, std::string title, const std::string& date) {
  lxw_workbook_options options{};
  lxw_workbook* book = workbook_new_opt(file.c_str(), &options);
  lxw_doc_properties properties{};
  properties.title = title.data();
  std::tm day{};
  if (std::sscanf(date.c_str(), "%d-%d-%d", &day.tm_year, &day.tm_mon, &day.tm_mday) == 3) {
    day.tm_year -= 1900;
    day.tm_mon -= 1;
    properties.created = timegm(&day);
  }
  workbook_set_properties(book, &properties);
  return book;
}

/// A sheet with its headings frozen on top, wide as said, to be printed one page wide.
inline lxw_worksheet* headed_sheet(lxw_workbook* book, const char* name, lxw_format* head,
                                   const std::vector<std::pair<const char*, double>>& columns) {
  lxw_worksheet* sheet = workbook_add_worksheet(book, name);
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const auto column = static_cast<lxw_col_t>(i);
    worksheet_set_column(sheet, column, column, columns[i].second, nullptr);
    worksheet_write_string(sheet, 0, column, columns[i].first, head);
  }
  worksheet_freeze_panes(sheet, 1, 0);
  worksheet_repeat_rows(sheet, 0, 0);
  worksheet_set_landscape(sheet);
  worksheet_fit_to_pages(sheet, 1, 0);
  return sheet;
}

}  // namespace lobewise::handover
