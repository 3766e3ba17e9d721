#include "engine/sizing/rescue.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/enquiry/assumed.h"
#include "engine/sizing/price.h"
#include "engine/sizing/why.h"

namespace lobewise::sizing {
namespace {

/// Builds that are tried with discs that bend: each costs a fraction of a second.
constexpr std::size_t kMostBending = 3;
/// What bending discs can mend: they take 5 to 13 % off the loads of rigid ones (solved stages of the demo range,
/// docs/theory/rating.md), which life feels with the 10/3 power. As margins of the least of all promises and of
/// contact.
constexpr double kMendable = -1.2, kMendableContact = -0.2;
/// Further off than this it is another speed, whatever tolerance was meant; common practice, no source.
constexpr double kAnotherSpeed = 0.25;
/// A tolerance that refuses no ratio.
constexpr double kAnySpeed = 1e3;
/// Builds looked at to find one that carries the load at a neighbouring speed.
constexpr std::size_t kMostLooks = 24;
/// Share of the mains frequency that an inverter gives to a standard motor without a fan of its own and without loss of
/// torque; common practice, no source.
constexpr double kInverterLow = 0.5, kInverterHigh = 1.0;

/// The nearest speed first, of one speed the one that is preferred.
void sort_by_speed(std::vector<Candidate>& list) {
  std::stable_sort(list.begin(), list.end(), [](const Candidate& a, const Candidate& b) {
    const double error_a = std::abs(a.ratio_error), error_b = std::abs(b.ratio_error);
    return error_a != error_b ? error_a < error_b : preferred(a, b);
  });
}

/// Of those on one side of the speed (or either, side 0) the first that serves, its speed set apart.
/// @param list  sorted by speed
std::optional<Candidate> first_that_carries(const enquiry::Requirement& any_speed, const Sources& sources,
                                            const std::vector<Candidate>& list, int side) {
  std::size_t looked = 0;
  enquiry::Requirement with_its_motor = any_speed;
  for (const Candidate& candidate : list) {
    if (side * candidate.ratio_error < 0) continue;
    if (looked++ == kMostLooks) return std::nullopt;
    Candidate seen = candidate;
    with_its_motor.poles = candidate.poles;
    look(with_its_motor, sources.tables, seen);
    if (seen.fell_out.empty() && seen.serves()) return seen;
  }
  return std::nullopt;
}

/// ", on an inverter at 47 Hz"; empty when none would do.
void add_inverter(const enquiry::Requirement& requirement, const Candidate& candidate, Text& text) {
  if (requirement.inverter_low < requirement.inverter_high) return;
  const double share = 1 / (1 + candidate.ratio_error);
  if (share < kInverterLow || share > kInverterHigh) return;
  text.pattern += ", which an inverter closes at {}";
  text.values.push_back({share * requirement.frequency, Quantity::frequency});
}

/// The build that serves with other poles than those asked for, or nothing.
std::optional<Candidate> with_other_poles(const enquiry::Requirement& requirement, const range::Range& range,
                                          const Sources& sources) {
  if (!requirement.poles || requirement.motor_speed) return std::nullopt;
  enquiry::Requirement free = requirement;
  free.poles.reset();
  std::vector<Candidate> inside;
  const double price = price_of_mass(range);
  for (drive::Build& build : drive::all_builds(range))
    if (Candidate candidate = glance(free, std::move(build), price); candidate.fell_out.empty())
      inside.push_back(std::move(candidate));
  std::stable_sort(inside.begin(), inside.end(), preferred);
  return first_that_carries(free, sources, inside, 0);
}

Text off_speed_text(const enquiry::Requirement& requirement, const std::vector<Candidate>& nearest,
                    const std::optional<Candidate>& other_poles) {
  Text text{"No build that carries {} turns the shaft at {} within {}.",
            {{requirement.torque, Quantity::torque},
             {requirement.speed, Quantity::angular_speed},
             {requirement.speed_tolerance, Quantity::share}}};
  const char* begin = " Nearest are ";
  if (nearest.size() == 1) begin = " Nearest is ";
  for (const Candidate& candidate : nearest) {
    text.pattern +=
        fmt::format("{}{}, {{}} too {}", begin, candidate.build.name(), candidate.ratio_error > 0 ? "fast" : "slow");
    text.values.push_back({std::abs(candidate.ratio_error), Quantity::share});
    add_inverter(requirement, candidate, text);
    begin = " and ";
  }
  text.pattern += "; a chain or belt behind it may close it too.";
  if (other_poles) {
    text.pattern += fmt::format(" With a motor of {} poles {} would meet it, {{}} off.", other_poles->poles,
                                other_poles->build.name());
    text.values.push_back({std::abs(other_poles->ratio_error), Quantity::share});
  }
  return text;
}

Text failing_text(const enquiry::Requirement& requirement, const std::vector<Candidate>& failed) {
  Text text{"No build of this range serves {} at {}.",
            {{requirement.torque, Quantity::torque}, {requirement.speed, Quantity::angular_speed}}};
  const auto closest =
      std::find_if(failed.begin(), failed.end(), [](const Candidate& c) { return c.failure.has_value(); });
  if (closest == failed.end()) return text;
  const Text reason = why_not(*closest);
  text.pattern += fmt::format(" The closest is {}, which fails at {}.", closest->build.name(), reason.pattern);
  text.values.insert(text.values.end(), reason.values.begin(), reason.values.end());
  return text;
}

}  // namespace

bool mendable(const Candidate& candidate) {
  if (!candidate.fell_out.empty() || candidate.serves() || worst_promise(candidate) < kMendable) return false;
  return std::none_of(candidate.margins.begin(), candidate.margins.end(), [](const Margin& margin) {
    return margin.id == "contact" && margin.of_build && margin.of_build->margin < kMendableContact;
  });
}

std::optional<Candidate> mend(const enquiry::Requirement& requirement, const Sources& sources,
                              const std::vector<Candidate>& failed, const Candidate* best) {
  if (!sources.bending) return std::nullopt;
  std::vector<const Candidate*> near;
  for (const Candidate& candidate : failed)
    if (mendable(candidate) && (best == nullptr || preferred(candidate, *best))) near.push_back(&candidate);
  std::stable_sort(near.begin(), near.end(),
                   [](const Candidate* a, const Candidate* b) { return shortfall(*a) < shortfall(*b); });
  if (near.size() > kMostBending) near.resize(kMostBending);
  std::optional<Candidate> mended;
  for (const Candidate* candidate : near) {
    Candidate bent = *candidate;
    look(requirement, sources.bending, bent);
    bent.bending = true;
    if (bent.serves() && (!mended || preferred(bent, *mended))) mended = std::move(bent);
  }
  if (!mended) return mended;
  std::vector<const Candidate*> others;
  for (const Candidate& candidate : failed)
    if (candidate.build.name() != mended->build.name()) others.push_back(&candidate);
  mended->why = why_chosen(*mended, others);
  return mended;
}

Rescue rescue(const enquiry::Requirement& requirement, const range::Range& range, const Sources& sources,
              const std::vector<Candidate>& failed, std::vector<Candidate> off_speed) {
  Rescue out;
  sort_by_speed(off_speed);
  enquiry::Requirement any_speed = requirement;
  any_speed.speed_tolerance = kAnySpeed;
  for (const int side : {-1, 1})
    if (std::optional<Candidate> found = first_that_carries(any_speed, sources, off_speed, side))
      out.nearest.push_back(std::move(*found));
  sort_by_speed(out.nearest);
  const bool assumed = enquiry::assumed(requirement, "wishes.speed_tolerance");
  if (!out.nearest.empty() && assumed && std::abs(out.nearest.front().ratio_error) <= kAnotherSpeed) {
    Candidate chosen = out.nearest.front();
    look(requirement, sources.tables, chosen);
    if (chosen.fell_out.empty() && chosen.serves()) {
      chosen.why = {
          chosen.ratio_error > 0
              ? "No build that serves comes nearer to the speed: it turns {} too fast. Nobody said how far the "
                "speed may be off; {} was taken."
              : "No build that serves comes nearer to the speed: it turns {} too slow. Nobody said how far the "
                "speed may be off; {} was taken.",
          {{std::abs(chosen.ratio_error), Quantity::share}, {requirement.speed_tolerance, Quantity::share}}};
      if (out.nearest.size() > 1) {
        const Candidate& other = out.nearest.back();
        chosen.why.pattern += fmt::format(" On the other side there is {}, {{}} too {}.", other.build.name(),
                                          other.ratio_error > 0 ? "fast" : "slow");
        chosen.why.values.push_back({std::abs(other.ratio_error), Quantity::share});
      }
      out.chosen = std::move(chosen);
      return out;
    }
  }
  const bool speed_stands_in_the_way = !out.nearest.empty();
  out.why_none = speed_stands_in_the_way
                     ? off_speed_text(requirement, out.nearest, with_other_poles(requirement, range, sources))
                     : failing_text(requirement, failed);
  return out;
}

}  // namespace lobewise::sizing
