// Text of others on its way into a page, a drawing, a formula.

#include "apps/handover/text.h"

#include <pugixml.hpp>

#include "apps/survey/table.h"
#include "engine/base/formula/print.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {
void text(std::string_view bytes) {
  const std::string cleaned = handover::clean(bytes), marked = handover::markup(bytes);
  require(survey::is_utf8(cleaned) && handover::clean(cleaned) == cleaned, "clean text is UTF-8 and stays as it is",
          cleaned);
  pugi::xml_document document;
  const std::string element = "<e a=\"" + marked + "\">" + marked + "</e>";
  require(document.load_string(element.c_str(), pugi::parse_ws_pcdata | pugi::parse_escapes),
          "text in markup is well formed", element);
  const pugi::xml_node node = document.child("e");
  require(cleaned == node.attribute("a").value(), "an attribute holds the text", element);
  require(cleaned == node.text().get(), "an element holds the text", element);
  require(node.first_child() == node.last_child(), "text makes no element", element);
  const std::string css = handover::css_string(bytes);
  require(css.find_first_of("\"'<>{};:\n/*@") == std::string::npos, "text cannot leave a CSS string", css);
  require(handover::code_points(handover::shortened(bytes, 20)).size() <= 20, "a shortened text is short", bytes);
  const std::string symbol = "<e>" + formula::mathml_symbol(cleaned) + "</e>";
  require(document.load_string(symbol.c_str(), pugi::parse_default), "a symbol is well formed", symbol);
}

}  // namespace lobewise::fuzz
