#pragma once
// Reading of case files: their units, single inputs, keys that no case holds, and the parameters of a stage that mesh
// and elastic cases share.
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/result.h"
#include "engine/contact/mesh_losses.h"

namespace lobewise::api {

// Units of the files.
inline constexpr double kMm = 1e-3;
inline constexpr double kMpa = 1e6;
inline constexpr double kNmm = 1e-3;
inline constexpr double kPerMm = 1e3;  // N/mm -> N/m, also 1/mm -> 1/m
inline constexpr double kMmPerN = 1e-3;

/// Reads inputs of one object and collects what is wrong.
class CaseReader {
 public:
  /// @param path  in front of every key in the errors, e.g. `params.`
  CaseReader(const nlohmann::json& object, std::string path, Errors& errors)
      : object_(object), path_(std::move(path)), errors_(errors) {}

  [[nodiscard]] bool has(const char* key) const;  ///< is there and not null
  double number(const char* key, std::optional<double> fallback = {});
  int count(const char* key);
  bool flag(const char* key, bool fallback);
  contact::LawKind law(const char* key);
  std::string text(const char* key);
  std::vector<double> numbers(const char* key);
  void reject(const char* key, const nlohmann::json& value, const char* message);

 private:
  const nlohmann::json* find(const char* key, bool optional);
  const nlohmann::json& object_;
  std::string path_;
  Errors& errors_;
};

/// An error for every key of an object that is not among those known, with the nearest of them.
/// @param path  in front of the key, e.g. `params.`
void refuse_unknown(const nlohmann::json& object, const std::string& path, std::initializer_list<const char*> known,
                    Errors& errors);

/// One stage as case files give it in `params`.
struct StageInput {
  contact::MeshModel model;
  contact::MeshFriction friction;
};

/// Reads and checks `params`; every error carries the file's own key.
Result<StageInput> read_params(const nlohmann::json& params, const std::string& path);

}  // namespace lobewise::api
