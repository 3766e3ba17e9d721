#pragma once
// What a store holds, as plain records. Times are UTC, `2026-03-09T14:05:00.000Z`; dates `2026-03-09`.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewise::store {

/// Where an enquiry stands, in the order of the trade.
enum class State { asked, visited, offered, ordered, delivered, commissioned, lost };
inline constexpr std::array<std::string_view, 7> kStates{"asked",     "visited",      "offered", "ordered",
                                                         "delivered", "commissioned", "lost"};
[[nodiscard]] constexpr std::string_view name_of(State state) { return kStates[static_cast<std::size_t>(state)]; }
[[nodiscard]] std::optional<State> state_of(std::string_view name);

/// An enquiry as it stands in a list.
struct Head {
  std::int64_t number = 0;     ///< what people call it; unique in this store
  std::string id;              ///< unique everywhere, survives a move to another store
  std::int64_t version = 0;    ///< grows with every change: revision or step
  std::int64_t revisions = 0;  ///< the number of the latest one, from 1
  std::string title, customer, owner;
  State state = State::asked;
  std::string follow_up;  ///< date, empty for none
  std::string created, changed, changed_by;
};

struct Query {
  std::string text;  ///< words that must all occur, in any case
  std::optional<State> state;
  std::string due;  ///< follow-up on or before this date
  std::string owner;
  std::int64_t limit = 100, offset = 0;
};

struct Page {
  std::vector<Head> heads;  ///< by follow-up date when `due` was asked, else the last changed first
  std::int64_t total = 0;   ///< of all pages
};

/// Everything a revision's document is made from.
struct Draft {
  std::string input;   ///< JSON: {"enquiry": …, "build"?: …}, what people wrote
  std::string range;   ///< JSON of the range, whole
  std::string engine;  ///< version of the engine
  std::string result;  ///< JSON: the engine's answer to `prove`, findings or errors
  std::string note;    ///< why this revision
};

struct RevisionInfo {
  std::int64_t revision = 0;
  std::string saved, saved_by, note, engine;
  std::string range;   ///< SHA-256 of the range's JSON: its version beyond doubt
  std::string result;  ///< SHA-256 of the result's JSON
};

struct Revision {
  RevisionInfo info;
  Draft draft;
};

struct NewStep {
  State state = State::asked;
  std::optional<std::string> follow_up;  ///< date; empty: none; nullopt: as it was
  std::optional<std::string> owner;      ///< nullopt: as it was
  std::string note;
};

struct Step {
  std::string at, person;
  State state = State::asked;
  std::string follow_up, note;
};

struct Document {
  std::string name;     ///< a file's name, no path
  std::string type;     ///< media type
  std::string request;  ///< JSON of what it was made by, empty when it came from elsewhere
  std::string bytes;
};

struct DocumentInfo {
  std::int64_t revision = 0;
  std::string name, type, request, sha256, saved, saved_by;
  std::int64_t size = 0;
};

struct Counts {
  std::int64_t enquiries = 0, revisions = 0, documents = 0;
  std::int64_t apart = 0;  ///< import only: enquiries that became new ones because both sides had gone on
};

/// Limits of what may be kept.
inline constexpr std::size_t kMostInput = 1U << 20U;      ///< bytes of an enquiry
inline constexpr std::size_t kMostRange = 16U << 20U;     ///< of a range
inline constexpr std::size_t kMostResult = 64U << 20U;    ///< of a result
inline constexpr std::size_t kMostDocument = 64U << 20U;  ///< of a document
inline constexpr std::size_t kMostNote = 4000;            ///< of a note
inline constexpr std::size_t kMostName = 200;             ///< of a title, customer, owner, file name

}  // namespace lobewise::store
