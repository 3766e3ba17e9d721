#pragma once
// Which question to the customer is worth asking next: the one whose answer moves the verdict most.

#include "engine/api/json_io.h"
#include "engine/drive/drive.h"
#include "engine/result/proof.h"

namespace lobewise::api {

/// At most six questions of the requirement, the one whose answers move the evidence most first: [{path, text,
/// finding?, check?, low?, high?, decides}]. Each question is answered both ways (both ends of the range that was
/// taken, or the other words there are), the same build is assembled again with the same stage tables, and its checks
/// are looked at. `low` and `high` are the margins of the check that moves most, `decides` whether some check holds
/// with one answer and does not with the other. Margins beyond half a limit on either side do not count: what is far
/// away decides nothing. A question that cannot be put into the enquiry moves the running torque by its own influence
/// instead.
/// @param enquiry    as it was read
/// @param looked_at  so many questions are answered, those first that move the torques of the machine most
[[nodiscard]] Json worth_asking(const Json& enquiry, const drive::Drive& drive, std::size_t looked_at = 100);
[[nodiscard]] std::vector<result::Question> ranked_questions(const Json& enquiry, const drive::Drive& drive,
                                                             std::size_t looked_at = 100);

}  // namespace lobewise::api
