#pragma once
// Which question to the customer is worth asking next: the one whose answer moves the verdict most.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/base/function_ref.h"
#include "engine/drive/drive.h"

namespace lobewise::judge {

/// One field of an enquiry as a customer might answer it: a yes, a word of its list, or an SI number. A list has one
/// entry, written as `duty.shocks.0.torque`.
struct Said {
  std::string path;
  std::variant<bool, std::string, double> value;
};
using Answer = std::vector<Said>;

/// The enquiry with an answer in it; nothing when it cannot be taken.
using Hear = FunctionRef<std::optional<enquiry::Requirement>(const Answer&)>;

/// A question and what its answers do.
struct Asked {
  std::string path = {}, text = {};
  bool decides = false;  ///< some check holds with one answer and does not with the other
  /// The finding it moves, without a check where no figure is weighed.
  std::string finding = {};
  std::string check = {};    ///< that moves most; empty: none
  double low = 0, high = 0;  ///< its margins
  double moves = 0;          ///< what it is ranked by
};

/// At most six questions of the requirement and those that stand before any figure, the one whose answers move the
/// evidence most first. Each question is answered both ways (both ends of the range that was taken, or the other words
/// there are), the same build is assembled again with the same stage tables, and its checks are looked at. Margins
/// beyond half a limit on either side do not count: what is far away decides nothing. A question that cannot be put
/// into the enquiry moves the running torque by its own influence instead.
/// @param looked_at  so many questions are answered, those first that move the torques of the machine most
[[nodiscard]] std::vector<Asked> worth_asking(const drive::Drive& drive, Hear hear, std::size_t looked_at);

}  // namespace lobewise::judge
