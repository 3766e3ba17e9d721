#include "apps/handover/print_pdf.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cctype>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string_view>
#include <vector>

#include "apps/handover/run_program.h"

namespace lobewise::handover {
namespace fs = std::filesystem;
namespace {

constexpr std::string_view kCreator = "\n/Creator (";

}  // namespace

std::string find_browser() {
  if (const char* given = std::getenv("LOBEWISE_BROWSER")) return given;
  const char* path = std::getenv("PATH");
  std::string rest = path == nullptr ? "" : path;
  while (!rest.empty()) {
    const std::size_t cut = std::min(rest.find(':'), rest.size());
    const std::string candidate = rest.substr(0, cut) + "/chromium";
    if (access(candidate.c_str(), X_OK) == 0) return candidate;
    rest = cut < rest.size() ? rest.substr(cut + 1) : "";
  }
  return "";
}

namespace {

/// Names of structure elements, `(node00000211)`, count what the browser happened to make before: they become ranks, in
/// place and in their order.
void rank_names(std::string& pdf) {
  constexpr std::string_view kOpen = "(node", kDefined = "/ID ";
  constexpr std::size_t kDigits = 8;
  std::vector<std::size_t> places;
  std::set<std::string> names;
  constexpr std::size_t kHead = 8;  // `%PDF-1.4`: room to look back
  for (std::size_t at = pdf.find(kOpen, kHead); at != std::string::npos; at = pdf.find(kOpen, at + 1)) {
    const std::string digits = pdf.substr(at + kOpen.size(), kDigits);
    const bool whole = digits.find_first_not_of("0123456789") == std::string::npos &&
                       pdf.compare(at + kOpen.size() + digits.size(), 1, ")") == 0;
    if (!whole || pdf.compare(at - 7, 7, "/Title ") == 0) continue;  // a heading of that name stays
    places.push_back(at + kOpen.size());
    if (pdf.compare(at - kDefined.size(), kDefined.size(), kDefined) == 0) names.insert(digits);
  }
  std::map<std::string, std::string> rank;
  for (const std::string& name : names) rank.emplace(name, fmt::format("{:0{}}", rank.size() + 1, kDigits));
  for (std::size_t place : places)
    if (const auto found = rank.find(pdf.substr(place, kDigits)); found != rank.end())
      pdf.replace(place, kDigits, found->second);
}

}  // namespace

std::string reproducible(std::string pdf, const std::string& date) {
  std::string day;
  for (char c : date)
    if (std::isdigit(static_cast<unsigned char>(c)) != 0) day += c;
  // A parenthesis inside a text of others is written with a backslash: these can only be the entries themselves.
  const auto put = [&](std::string_view key, std::size_t length, std::string text) {
    const std::size_t at = pdf.find(key);
    if (at == std::string::npos || at + key.size() + length > pdf.size()) return;
    text.resize(length, key == kCreator ? ' ' : '0');
    pdf.replace(at + key.size(), length, text);
  };
  constexpr std::size_t kTime = 14;  // YYYYMMDDhhmmss
  put("\n/CreationDate (D:", kTime, day);
  put("\n/ModDate (D:", kTime, day);
  if (const std::size_t at = pdf.find(kCreator); at != std::string::npos) {
    const std::size_t from = at + kCreator.size(), end = pdf.find(")\n", from);
    if (end != std::string::npos) put(kCreator, end - from, "Lobewise");
  }
  rank_names(pdf);
  return pdf;
}

Result<std::string> print_pdf(const std::string& browser, const std::string& html, const std::string& date) {
  const TemporaryFolder folder;
  const auto fail = [&](const char* message) { return Error{ErrorKind::internal, "", browser, message, 0}; };
  if (folder.path().empty()) return fail("no temporary folder can be made");
  const fs::path in = folder.path() / "in.html", out = folder.path() / "out.pdf";
  std::ofstream(in, std::ios::binary) << html;
  std::vector<std::string> words{browser,
                                 "--headless",
                                 "--disable-gpu",
                                 "--font-render-hinting=none",  // paper has no pixels to fit letters to
                                 "--disable-quic",
                                 "--no-first-run",
                                 "--disable-background-networking",
                                 "--disable-component-update",
                                 "--disable-sync",
                                 "--disable-extensions",
                                 "--user-data-dir=" + (folder.path() / "profile").string(),
                                 "--no-pdf-header-footer",
                                 "--generate-pdf-document-outline",
                                 "--print-to-pdf=" + out.string(),
                                 "file://" + in.string()};
  if (geteuid() == 0) words.insert(words.begin() + 1, "--no-sandbox");  // its sandbox refuses to start for root
  if (run_program(words) != 0) return fail("the browser could not print");
  std::ifstream stream(out, std::ios::binary);
  std::string pdf{std::istreambuf_iterator<char>(stream), {}};
  if (pdf.rfind("%PDF-", 0) != 0) return fail("the browser gave no PDF");
  return reproducible(std::move(pdf), date);
}

namespace {

/// Positive number at `i`, which moves behind it; -1 when there is none.
int number_at(const std::string& text, std::size_t& i) {
  while (i < text.size() && std::isspace(static_cast<unsigned char>(text[i])) != 0) ++i;
  int value = -1;
  for (; i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0 && value < 100000000; ++i)
    value = (value < 0 ? 0 : value * 10) + (text[i] - '0');
  return value;
}

std::string object(const std::string& pdf, int id) {
  const std::string head = fmt::format("\n{} 0 obj", id);
  const std::size_t from = pdf.find(head);
  if (from == std::string::npos) return "";
  return pdf.substr(from, pdf.find("endobj", from) - from);
}

/// Leaves of the page tree in order.
void pages_below(const std::string& pdf, int id, int depth, std::map<int, int>& page_of) {
  const std::string node = object(pdf, id);
  std::size_t i = node.find("/Kids");
  if (depth > 20 || node.empty()) return;
  if (i == std::string::npos) {
    const int page = static_cast<int>(page_of.size()) + 1;
    page_of.emplace(id, page);
    return;
  }
  i = node.find('[', i) + 1;
  while (i < node.size() && node[i] != ']') {
    const int kid = number_at(node, i);
    if (kid < 0) break;
    pages_below(pdf, kid, depth + 1, page_of);
    (void)number_at(node, i);
    i = node.find('R', i) + 1;
    while (i < node.size() && std::isspace(static_cast<unsigned char>(node[i])) != 0) ++i;
  }
}

int reference(const std::string& text, const char* key) {
  std::size_t i = text.find(key);
  if (i == std::string::npos) return -1;
  i += std::string(key).size();
  return number_at(text, i);
}

}  // namespace

std::map<std::string, int> destination_pages(const std::string& pdf) {
  const std::size_t catalog = pdf.find("/Type /Catalog");
  if (catalog == std::string::npos) return {};
  const std::string root = pdf.substr(catalog, pdf.find("endobj", catalog) - catalog);
  std::map<int, int> page_of;
  pages_below(pdf, reference(root, "/Pages"), 0, page_of);
  const std::string dests = object(pdf, reference(root, "/Dests"));
  std::map<std::string, int> out;
  for (std::size_t i = dests.find("/"); i != std::string::npos; i = dests.find("/", i)) {
    const std::size_t bracket = dests.find(" [", i);
    if (bracket == std::string::npos) break;
    const std::string name = dests.substr(i + 1, bracket - i - 1);
    std::size_t at = bracket + 2;
    const auto page = page_of.find(number_at(dests, at));
    if (page != page_of.end()) out[name] = page->second;
    i = dests.find(']', at);
    if (i == std::string::npos) break;
  }
  return out;
}

}  // namespace lobewise::handover
