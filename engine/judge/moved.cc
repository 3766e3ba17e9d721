#include "engine/judge/moved.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewise::judge {
namespace {

bool same(double a, double b) { return std::abs(a - b) <= kMoved * std::max(std::abs(a), std::abs(b)); }
bool same(const KeptCheck& a, const KeptCheck& b) {
  return same(a.figure, b.figure) && same(a.limit, b.limit) && same(a.margin, b.margin);
}

const KeptFinding* find(const std::vector<KeptFinding>& list, const std::string& id) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const KeptFinding& f) { return f.id == id; });
  return found == list.end() ? nullptr : &*found;
}

/// How far a margin moved; a check that one side lacks counts as moved without end.
double distance(const MovedCheck& check) {
  if (!check.before || !check.after) return std::numeric_limits<double>::infinity();
  return std::abs(check.after->margin - check.before->margin);
}

/// Two checks of one name stand in the order in which they were kept.
void compare(const KeptFinding& before, const KeptFinding& after, std::vector<MovedCheck>& out) {
  std::vector<const KeptCheck*> left;
  for (const KeptCheck& check : after.checks) left.push_back(&check);
  for (const KeptCheck& was : before.checks) {
    const auto is = std::find_if(left.begin(), left.end(), [&](const KeptCheck* c) { return c->name == was.name; });
    if (is == left.end()) {
      out.push_back({before.id, was, std::nullopt});
      continue;
    }
    if (!same(was, **is)) out.push_back({before.id, was, **is});
    left.erase(is);
  }
  for (const KeptCheck* is : left) out.push_back({after.id, std::nullopt, *is});
}

}  // namespace

Moved moved(const std::vector<KeptFinding>& before, const std::vector<KeptFinding>& after) {
  Moved out;
  const auto pair = [&](const KeptFinding& was, const KeptFinding& is) {
    if (was.verdict != is.verdict) out.turned.push_back({was.id, was.verdict, is.verdict});
    compare(was, is, out.checks);
  };
  for (const KeptFinding& was : before) {
    const KeptFinding* is = find(after, was.id);
    pair(was, is != nullptr ? *is : KeptFinding{was.id, ""});
  }
  for (const KeptFinding& is : after)
    if (find(before, is.id) == nullptr) pair({is.id, ""}, is);
  const auto turned = [&](const MovedCheck& check) {
    return std::any_of(out.turned.begin(), out.turned.end(),
                       [&](const Turned& t) { return t.finding == check.finding; });
  };
  std::stable_sort(out.checks.begin(), out.checks.end(), [&](const MovedCheck& a, const MovedCheck& b) {
    const bool first = turned(a), second = turned(b);
    return first != second ? first : distance(a) > distance(b);
  });
  return out;
}

}  // namespace lobewise::judge
