#include "engine/demand/people.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/latin.h"
#include "engine/demand/people_words.h"

namespace lobewise::demand {
namespace {

using Phrases = std::vector<std::string>;

/// A word of a text, folded, with its place there.
struct Token {
  std::string word;
  std::size_t begin = 0, end = 0;
};
using Tokens = std::vector<Token>;

/// Appends a letter; ae, oe and ue become a, o and u, as do the letters with two dots.
void append(std::string& word, char letter) {
  if (letter == 'e' && !word.empty() && (word.back() == 'a' || word.back() == 'o' || word.back() == 'u')) return;
  word += letter;
}

Tokens tokens_of(std::string_view text) {
  Tokens out;
  Token now;
  const auto close = [&] {
    if (!now.word.empty()) out.push_back(std::move(now));
    now = {};
  };
  for (std::size_t i = 0; i < text.size();) {
    const CodePoint c = code_point_at(text, i);
    const std::size_t end = i + c.length;
    const char letter = base_letter(c.code);
    if (letter == ' ') {
      close();
    } else {
      if (now.word.empty()) now.begin = i;
      if (letter == 0)
        now.word.append(text.substr(i, end - i));  // of another alphabet: kept as it is
      else
        append(now.word, letter);
      now.end = end;
    }
    i = end;
  }
  close();
  return out;
}

/// As texts are folded.
Phrases folded(const people_words::Words& words) {
  Phrases out;
  for (const char* phrase : words) {
    std::string text;
    for (const char letter : std::string_view(phrase)) append(text, letter);
    out.push_back(std::move(text));
  }
  return out;
}

struct Lexicon {
  Phrases people = folded(people_words::kPeople), persons = folded(people_words::kPersons),
          not_aboard = folded(people_words::kNotAboard), carries = folded(people_words::kCarries),
          lift = folded(people_words::kLift), lifts_goods = folded(people_words::kLiftsGoods),
          hoists = folded(people_words::kHoists), goods = folded(people_words::kGoods),
          buckets = folded(people_words::kBuckets), before_lift = folded(people_words::kBeforeLift),
          after_lift = folded(people_words::kAfterLift), no = folded(people_words::kNo),
          forbidden = folded(people_words::kForbidden), length = folded(people_words::kLength);
};
const Lexicon& lexicon() {
  static const Lexicon words;
  return words;
}

/// `*` at either end or in the middle stands for any letters.
bool fits(std::string_view pattern, std::string_view word) {
  const std::size_t star = pattern.find('*');
  if (star == std::string_view::npos) return pattern == word;
  const std::string_view head = pattern.substr(0, star);
  if (!word.starts_with(head)) return false;
  pattern.remove_prefix(star + 1);
  if (pattern.empty()) return true;
  for (std::size_t at = head.size(); at <= word.size(); ++at)
    if (fits(pattern, word.substr(at))) return true;
  return false;
}

/// Number of words of `phrase` that the text says from word `at` on; 0: it says something else.
std::size_t says(const Tokens& text, std::size_t at, std::string_view phrase) {
  std::size_t count = 0;
  while (true) {
    const std::size_t blank = phrase.find(' ');
    if (at + count >= text.size() || !fits(phrase.substr(0, blank), text[at + count].word)) return 0;
    ++count;
    if (blank == std::string_view::npos) return count;
    phrase.remove_prefix(blank + 1);
  }
}

std::size_t says_any(const Tokens& text, std::size_t at, const Phrases& phrases) {
  for (const std::string& phrase : phrases)
    if (const std::size_t count = says(text, at, phrase)) return count;
  return 0;
}

bool any_at(const Tokens& text, std::size_t first, std::size_t end, const Phrases& words) {
  for (std::size_t i = first; i < std::min(end, text.size()); ++i)
    if (says_any(text, i, words) > 0) return true;
  return false;
}

bool is_number(std::string_view word) { return !word.empty() && word.front() >= '0' && word.front() <= '9'; }

constexpr std::size_t kNear = 3;  ///< words

/// Whether what the words [first, end) say is denied. `No. 3` denies nothing.
bool denied(const Tokens& text, std::size_t first, std::size_t end) {
  for (std::size_t i = first > kNear ? first - kNear : 0; i < end; ++i)
    if (says_any(text, i, lexicon().no) > 0 && !(i + 1 < text.size() && is_number(text[i + 1].word))) return true;
  return any_at(text, end, end + kNear, lexicon().forbidden);
}

std::string quoted(std::string_view text, const Tokens& tokens, std::size_t first, std::size_t end) {
  return std::string(text.substr(tokens[first].begin, tokens[end - 1].end - tokens[first].begin));
}

/// First and one past the last word that say that people ride; equal when none do.
std::pair<std::size_t, std::size_t> people_in(const Tokens& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::size_t count = says_any(text, i, lexicon().people);
    if (count > 0 && !denied(text, i, i + count)) return {i, i + count};
  }
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (says_any(text, i, lexicon().persons) == 0) continue;
    if (any_at(text, i > 0 ? i - 1 : 0, i + 2, lexicon().not_aboard)) continue;
    const std::size_t from = i > kNear ? i - kNear : 0, to = std::min(i + kNear + 1, text.size());
    for (std::size_t j = from; j < to; ++j) {
      if (j == i || says_any(text, j, lexicon().carries) == 0) continue;
      const std::size_t first = std::min(i, j), end = std::max(i, j) + 1;
      if (!denied(text, first, end)) return {first, end};
    }
  }
  return {0, 0};
}

/// `lift 14 m` or `grain elevator`: material is raised.
bool raises_material(const Tokens& text, std::size_t lift) {
  if (lift + 1 < text.size()) {
    const std::string& next = text[lift + 1].word;
    if (says_any(text, lift + 1, lexicon().after_lift) > 0) return true;
    if (is_number(next)) {
      const std::size_t letters = next.find_first_not_of("0123456789");
      if (letters != std::string::npos && any_at({{next.substr(letters), 0, 0}}, 0, 1, lexicon().length)) return true;
      if (any_at(text, lift + 2, lift + 4, lexicon().length)) return true;
    }
  }
  return any_at(text, lift > 2 ? lift - 2 : 0, lift, lexicon().before_lift);
}

}  // namespace

WhoRides who_rides(const std::vector<std::string_view>& texts) {
  const Lexicon& known = lexicon();
  WhoRides lift, goods;
  bool cleared = false;  // somebody says what the lift carries
  for (const std::string_view text : texts) {
    const Tokens tokens = tokens_of(text);
    if (const auto [first, end] = people_in(tokens); end > first)
      return {Aboard::people, quoted(text, tokens, first, end)};
    const bool says_goods = any_at(tokens, 0, tokens.size(), known.goods);
    cleared = cleared || any_at(tokens, 0, tokens.size(), known.buckets);
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      std::size_t count = says_any(tokens, i, known.lifts_goods);
      cleared = cleared || count > 0;
      if (count == 0) count = says_any(tokens, i, known.hoists);
      if (count > 0) {
        goods = {Aboard::goods, quoted(text, tokens, i, i + count)};
        i += count - 1;
        continue;
      }
      if (says_any(tokens, i, known.lift) == 0 || raises_material(tokens, i) || denied(tokens, i, i + 1)) continue;
      (says_goods ? goods : lift) = {says_goods ? Aboard::goods : Aboard::unclear, quoted(text, tokens, i, i + 1)};
    }
  }
  return lift.aboard == Aboard::unclear && !cleared ? lift : goods;
}

std::optional<Error> people_refused(const WhoRides& who, const std::string& path) {
  if (who.aboard == Aboard::people)
    return input_error(path, who.words,
                       fmt::format("'{}' says that people are lifted or carried: that is refused here, in every form; "
                                   "such drives have their own codes and need a specialist who is allowed to release "
                                   "them",
                                   who.words));
  if (who.aboard == Aboard::unclear)
    return input_error(path, who.words,
                       fmt::format("'{}' may carry people, and lifting people is refused here: say what it lifts, as "
                                   "in 'goods lift' or 'bucket elevator'",
                                   who.words));
  return std::nullopt;
}

}  // namespace lobewise::demand
