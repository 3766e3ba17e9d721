#pragma once
// HTML to PDF by a headless browser, and where sections ended up.

#include <map>
#include <string>

#include "engine/base/result.h"

namespace lobewise::handover {

/// Path of the browser: environment LOBEWISE_BROWSER, else `chromium` on the path; empty when there is none.
[[nodiscard]] std::string find_browser();

/// Prints a file. Nothing is loaded from the network; the browser gets a fresh profile and is stopped after two
/// minutes.
/// @param date  of the document, ISO 8601: the same HTML and date give the same bytes
/// @returns the PDF. Errors: no browser, it failed or gave no PDF.
[[nodiscard]] Result<std::string> print_pdf(const std::string& browser, const std::string& html,
                                            const std::string& date);

/// The PDF without what depends on when and on which browser it was printed: time, program, counted names. All in
/// place, so that every offset in the file stays true. @param date  ISO 8601
[[nodiscard]] std::string reproducible(std::string pdf, const std::string& date);

/// Page (from 1) of every named destination of a PDF as this browser writes it (objects in plain text). Empty when the
/// structure is another one.
[[nodiscard]] std::map<std::string, int> destination_pages(const std::string& pdf);

}  // namespace lobewise::handover
