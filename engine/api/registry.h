#pragma once
// The only door to the engine for command line, server and WebAssembly: {"call": …, "input": …} -> one result.

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "engine/api/json_io.h"

namespace lobewise::api {

inline constexpr model::Limits kPositive{1e-300, std::numeric_limits<double>::infinity()};
inline constexpr model::Limits kNotNegative{0, std::numeric_limits<double>::infinity()};

/// Input of a formula-level call, read field by field. Collects every error; a field that nobody asked for is an error
/// too. In describing mode it only records which fields a call reads, for the schema.
///
///   [](Arguments& in, Json& out) {
///     const double C = in.number("C", Quantity::force, kPositive);
///     const double P = in.number("P", Quantity::force, kPositive);
///     if (!in.ok()) return;
///     out["hours"] = …;
///   }
class Arguments {
 public:
  explicit Arguments(const Json& input, std::string path = "");
  static Arguments describing();

  /// A number that must be there, SI.
  double number(std::string_view key, Quantity quantity, model::Limits limits = {});
  double number_or(std::string_view key, Quantity quantity, double fallback, model::Limits limits = {});
  [[nodiscard]] bool has(std::string_view key) const;
  int count(std::string_view key, model::Limits limits = {});
  bool flag_or(std::string_view key, bool fallback);
  std::vector<double> numbers(std::string_view key, Quantity quantity, model::Limits limits = {});
  /// A list that may be missing; empty then.
  std::vector<double> numbers_if_given(std::string_view key, Quantity quantity, model::Limits limits = {});
  std::string text(std::string_view key, const std::vector<std::string_view>& allowed);
  std::string text_or(std::string_view key, std::string_view fallback, const std::vector<std::string_view>& allowed);
  /// Any words, at most `longest` bytes.
  std::string free_text(std::string_view key, std::size_t longest);
  /// List of [low, high], bare numbers, low < high.
  std::vector<std::pair<double, double>> intervals(std::string_view key);
  /// Nested record or list of records; hand each back with `absorb` when it has been read.
  Arguments record(std::string_view key);
  std::vector<Arguments> records(std::string_view key);
  void absorb(const Arguments& child);
  /// Adds an error for a field that contradicts another one.
  void refuse(std::string_view key, std::string message);
  /// Adds errors of the engine, e.g. of a Result.
  void refuse(const Errors& errors);

  /// True when everything read so far was there and allowed (never true in describing mode).
  [[nodiscard]] bool ok() const { return errors_.empty() && !describing_; }
  /// All errors, with unknown fields added.
  [[nodiscard]] Errors finish() const;
  [[nodiscard]] Json schema() const;

 private:
  Arguments() = default;
  const Json* find(std::string_view key, bool required);
  void note(std::string_view key, Json schema, bool required);
  [[nodiscard]] std::string path_of(std::string_view key) const;

  Json input_;
  std::string path_;
  Errors errors_;
  std::vector<std::string> known_;
  bool describing_ = false;
  Json properties_ = Json::object();
  Json required_ = Json::array();
};

struct Call {
  std::string name;
  std::string help;
  std::function<Result<Json>(const Json& input)> run;
  std::function<Json()> schema;  ///< of the input
};

class Registry {
 public:
  void add(Call call);
  /// A formula-level call; the function fills `out`, or returns early when `in.ok()` is false.
  void add(std::string name, std::string help, std::function<void(Arguments& in, Json& out)> function);
  [[nodiscard]] const std::vector<Call>& calls() const { return calls_; }
  /// Runs a call. Unknown names are answered with the nearest known one; a result that is not finite is an error.
  [[nodiscard]] Result<Json> run(std::string_view name, const Json& input) const;

 private:
  std::vector<Call> calls_;
};

class TableShelf;

/// The engine with a memory for what is expensive and does not change: mesh tables by stage. Answers do not depend on
/// what was asked before. One session serves one thread at a time; make one for each.
class Session {
 public:
  Session();
  /// @param shelf  not null; may be shared between sessions
  explicit Session(std::shared_ptr<TableShelf> shelf);
  [[nodiscard]] const Registry& registry() const { return registry_; }
  /// Text in, text out, never throws: the result, or {"errors": [...]}.
  [[nodiscard]] std::string answer(std::string_view request) const;

 private:
  std::shared_ptr<TableShelf> shelf_;
  Registry registry_;
};

/// A session for one request.
[[nodiscard]] std::string answer(std::string_view request);

}  // namespace lobewise::api
