#include "apps/cli/read_file.h"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <fstream>
#include <sstream>

#include "engine/api/json_io.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

Result<std::string> slurp(const std::string& file, std::size_t most) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return input_error("", file, "this file cannot be read");
  std::string text(most + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (in.bad() || (in.gcount() == 0 && !in.eof())) return input_error("", file, "this file cannot be read");
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (text.size() > most) return input_error("", file, fmt::format("larger than {} KiB", most / 1024));
  return text;
}

struct TooMuch {
  std::string message;
};

/// Aliases are expanded here, so the budget of values stops an alias bomb.
Json convert(const YAML::Node& node, const std::string& path, int depth, std::size_t& budget,
             std::map<std::string, int>& lines) {
  if (depth > 32) throw TooMuch{"nested deeper than 32 levels"};
  if (budget-- == 0) throw TooMuch{"more than 20000 values"};
  if (!path.empty() && node.Mark().line >= 0) lines.emplace(path, node.Mark().line + 1);
  switch (node.Type()) {
    case YAML::NodeType::Map: {
      Json out = Json::object();
      for (const auto& item : node) {
        const std::string key = item.first.as<std::string>();
        out[key] = convert(item.second, path.empty() ? key : path + "." + key, depth + 1, budget, lines);
      }
      return out;
    }
    case YAML::NodeType::Sequence: {
      Json out = Json::array();
      for (std::size_t i = 0; i < node.size(); ++i)
        out.push_back(convert(node[i], fmt::format("{}[{}]", path, i), depth + 1, budget, lines));
      return out;
    }
    case YAML::NodeType::Scalar:
      return node.Scalar();
    default:
      return nullptr;
  }
}

}  // namespace

Result<Document> read_document(const std::string& file) {
  const Result<std::string> text = slurp(file, 1U << 20U);
  if (!text) return text.errors();
  return parse_document(*text, file);
}

Result<Document> parse_document(const std::string& text, const std::string& name) {
  Document document;
  try {
    std::size_t budget = 20000;
    document.json = convert(YAML::Load(text), "", 0, budget, document.lines);
  } catch (const YAML::Exception& problem) {
    Error error = input_error("", name, fmt::format("not readable as YAML: {}", problem.msg));
    error.line = problem.mark.line + 1;
    return error;
  } catch (const TooMuch& problem) {
    return input_error("", name, problem.message);
  }
  if (!document.json.is_object()) return input_error("", name, "fields such as `machine:` are needed");
  return document;
}

Result<Json> read_json(const std::string& file) {
  const Result<std::string> text = slurp(file, 64U << 20U);
  if (!text) return text.errors();
  Result<Json> json = api::parse_json(*text);
  if (!json) return input_error("", file, json.errors().front().message);
  return json;
}

void add_lines(Errors& errors, const std::map<std::string, int>& lines) {
  for (Error& error : errors) {
    for (std::string path = error.path; !path.empty() && error.line == 0;) {
      if (const auto it = lines.find(path); it != lines.end()) error.line = it->second;
      const std::size_t cut = path.find_last_of(".[");
      path = cut == std::string::npos ? "" : path.substr(0, cut);
    }
  }
}

}  // namespace lobewise::cli
