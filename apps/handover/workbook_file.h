#pragma once
// A workbook on the disk.

#include <xlsxwriter.h>

#include <cstdio>
#include <ctime>
#include <string>

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

}  // namespace lobewise::handover
