#pragma once
// The one source of every document: results of the engine's calls for one enquiry.

#include <functional>
#include <nlohmann/json.hpp>
#include <string>

#include "engine/base/result.h"

namespace lobewise::handover {

using Json = nlohmann::json;

/// The engine's door.
using Ask = std::function<Result<Json>(const std::string& call, const Json& input)>;

struct Order {
  Json enquiry;               ///< as read from the file
  Json range;                 ///< own range, null for the demo range
  Json build;                 ///< build to hand over, null for the best
  std::string units;          ///< `si`, `us`, or empty for the enquiry's own
  std::string paper = "a4";   ///< `a4` or `letter`
  std::string date;           ///< of issue, ISO 8601
  std::string valid_until;    ///< of the price, ISO 8601
  double model_size = 0.160;  ///< outside of the demonstration model [m]
  double clearance = 0.2e-3;  ///< gap between its moving parts [m]
  bool print = true;          ///< PDF files beside the HTML
  std::string step_writer;    ///< path of the program `lobewise_step`, empty when it was not built
  std::string offline_page;   ///< path of the one-file workspace, empty when it was not built
};

struct Source {
  Order order;
  std::string units;  ///< `si` or `us`
  Json prove, size, dimensions, excitations;
  Json outline;  ///< of `mechanism_outline`; outlines have the printing clearance at the model's scale, or `refused`
  Json compare;  ///< with the cases; null without a drive in service

  /// Text of a quantity or sentence in these units; plain text as it is. Not escaped.
  [[nodiscard]] std::string shown(const Json& both) const;
  [[nodiscard]] std::string title() const;
  [[nodiscard]] std::string customer() const;
  [[nodiscard]] std::string build_name() const;
  /// False when no build of the range serves and the closest one is shown instead: then nothing is offered.
  [[nodiscard]] bool serves() const { return !prove.contains("why_none"); }
  /// `Offered`, or that it is not.
  [[nodiscard]] std::string offered_as() const;
  [[nodiscard]] std::string lubricant() const;
  /// Value of a fact of the drive; motor and lubricant in these units too.
  [[nodiscard]] std::string fact(const Json& fact) const;
  [[nodiscard]] const Json& offer() const { return prove["offer"]; }
};

/// Asks the engine for everything. Errors: the enquiry's own.
[[nodiscard]] Result<Source> gather(const Ask& ask, Order order);

}  // namespace lobewise::handover
