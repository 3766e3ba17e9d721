#include "apps/store/place.h"

#include <cstdlib>
#include <filesystem>
#include <regex>

namespace lobewise::store {

std::string Place::shown() const {
  if (!team) return address;
  // Credentials stand before the last @ of the authority, or as a parameter.
  std::string out = address;
  const std::size_t start = out.find("://") + 3;
  const std::size_t end = out.find_first_of("/?", start);
  const std::size_t at = out.rfind('@', end);
  if (at != std::string::npos && at >= start) out.erase(start, at + 1 - start);
  return std::regex_replace(out, std::regex("(password=)[^&]*"), "$1…");
}

Outcome<Place> parse_place(const std::string& text) {
  Place place;
  place.address = text;
  place.team = text.rfind("postgresql://", 0) == 0 || text.rfind("postgres://", 0) == 0;
  if (text.empty() || text == ":memory:")
    return Problem{Trouble::input, "A store needs the path of a file, or postgresql://HOST/DATABASE."};
  return place;
}

std::string default_place() {
  if (const char* named = std::getenv("LOBEWISE_STORE"); named != nullptr && *named != '\0') return named;
  std::filesystem::path folder;
  if (const char* data = std::getenv("XDG_DATA_HOME"); data != nullptr && *data != '\0')
    folder = data;
  else if (const char* home = std::getenv("HOME"); home != nullptr)
    folder = std::filesystem::path(home) / ".local/share";
  return (folder / "lobewise/store.lobewise").string();
}

}  // namespace lobewise::store
