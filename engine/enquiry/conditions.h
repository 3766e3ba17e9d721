#pragma once
// What was said in words rather than in figures, for every document: where it stands, how it is mounted and started.

#include <string>
#include <vector>

#include "engine/demand/demand.h"
#include "engine/enquiry/enquiry.h"

namespace lobewise::enquiry {

/// One line of "what is asked" that is no figure.
struct Condition {
  std::string path;
  std::string label;
  std::string text;
  bool said = false;  ///< by the customer; otherwise it is taken, or nobody said
};

[[nodiscard]] std::vector<Condition> conditions_of(const Enquiry& enquiry);

/// Cautions that the place asks for.
[[nodiscard]] std::vector<demand::Caution> cautions_of(const Enquiry& enquiry, double ambient_low, double altitude);

/// Why nothing is offered at this place, in one sentence; empty when an offer may be made.
[[nodiscard]] std::string not_offered(const Site& site);

}  // namespace lobewise::enquiry
