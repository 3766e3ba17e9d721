#pragma once
// Whether words about a drive say that people are lifted or carried by it. Such a job is refused in every door; the
// words are those that plants of several countries write into lists, titles and notes.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.h"

namespace lobewise::demand {

enum class Aboard {
  nobody,   ///< nothing speaks of lifting, or only of material that a conveyor raises
  goods,    ///< a lifting job for goods: its own code applies, and whether anybody rides must be asked
  unclear,  ///< a lift of which nobody says what it carries
  people,   ///< people are lifted or carried
};

struct WhoRides {
  Aboard aboard = Aboard::nobody;
  std::string words;  ///< those that decided, as they were written
};

/// Reads all texts about one drive together: what one of them says of a lift, another may make plain (`Lift 3`, `bucket
/// elevator`). English, German, French, Spanish, Italian, Dutch, Polish, Portuguese, Swedish, Danish, Norwegian, Czech,
/// Slovak, Hungarian, Romanian, Finnish and Turkish words, with or without their accents. A word that is denied (`not
/// for people`) does not count. Words of the trade; common practice, no source.
[[nodiscard]] WhoRides who_rides(const std::vector<std::string_view>& texts);

/// The refusal, where people or an unclear lift are said; nothing otherwise. @param path  field that holds the words
[[nodiscard]] std::optional<Error> people_refused(const WhoRides& who, const std::string& path);

}  // namespace lobewise::demand
