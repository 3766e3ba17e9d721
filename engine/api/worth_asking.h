#pragma once
// Which question to the customer is worth asking next: the one whose answer moves the verdict most.

#include "engine/api/json_io.h"
#include "engine/drive/drive.h"
#include "engine/result/proof.h"

namespace lobewise::api {

/// judge::worth_asking as [{path, text, finding?, check?, low?, high?, decides, effect?}]: an answer is put into the
/// enquiry by its path.
/// @param enquiry    as it was read
/// @param looked_at  so many questions are answered, those first that move the torques of the machine most
[[nodiscard]] std::vector<result::Question> worth_asking(const Json& enquiry, const drive::Drive& drive,
                                                         std::size_t looked_at = 100);

}  // namespace lobewise::api
