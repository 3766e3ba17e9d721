#pragma once
// The frame of every printed document: style, running heads, sections, tables.

#include <string>
#include <vector>

#include "apps/handover/source.h"

namespace lobewise::handover {

/// A whole HTML file without any script; it loads nothing.
/// @param kind  of document, e.g. `Proposal`; @param body  markup
/// @param landscape  turns the paper
[[nodiscard]] std::string html_page(const Source& source, const std::string& kind, const std::string& body,
                                    bool landscape = false);

/// Head of a document: kind, title, customer, build, date.
[[nodiscard]] std::string masthead(const Source& source, const std::string& kind);

/// A table from cells that are markup already.
struct Table {
  std::string css_class;
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
  [[nodiscard]] std::string html() const;
};

/// Shape and word of a verdict: the shape alone carries the meaning in black and white.
[[nodiscard]] std::string verdict_mark(const std::string& verdict, bool with_word);
/// Bar of how much of a limit is used, with the limit marked; `margin` and `at_most` of a check.
[[nodiscard]] std::string margin_bar(double margin, bool at_most);
/// The check of a finding with the least margin; null without checks.
[[nodiscard]] const Json* decisive_check(const Json& finding);
/// A share in per cent; below one per cent to a tenth, so that what just fails does not read as nothing.
[[nodiscard]] std::string percent(double share);
/// The same without the sign.
[[nodiscard]] std::string percent_figure(double share);
/// `742 MPa ≤ 1500 MPa`, as markup; a line may break before the sign only.
[[nodiscard]] std::string check_text(const Source& source, const Json& check);
/// The unit for people, e.g. what was invented about the range; empty when the range says nothing.
[[nodiscard]] std::string range_note(const Source& source);
/// What was said, or is taken, in words at a path of the enquiry; empty when nothing is. Not escaped.
[[nodiscard]] std::string said_in_words(const Source& source, std::string_view path);

inline constexpr std::size_t kCautionsAtTheTop = 3;
/// The gravest three cautions, for the top of a document, with who acts on each and when.
[[nodiscard]] std::string first_cautions(const Source& source);
/// The cautions that `first_cautions` did not print.
[[nodiscard]] std::string further_cautions(const Source& source);
/// That nothing is offered, for the top of a document; empty where something is.
[[nodiscard]] std::string refusal(const Source& source);

}  // namespace lobewise::handover
