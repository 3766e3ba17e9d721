// place: whether a drive of this kind may stand where it is wanted, and can be put there.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

#include "engine/base/constants.h"
#include "engine/drive/lifting.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using enquiry::Requirement;

/// Above this no motor's standard says how it is rated. IEC 60034-1, from memory.
constexpr double kHighest = 4000;

/// A check that counts things of which none is allowed; none: no check.
void add_count(std::string name, std::size_t count, Finding& out) {
  if (count == 0) return;
  Check check{std::move(name), static_cast<double>(count), 0, Quantity::number, true, {}, {}};
  check.zero = -1;
  out.checks.push_back(std::move(check));
}

/// What nobody answered about the place, apart from the explosion.
std::vector<std::string> unanswered(const enquiry::Site& site) {
  std::vector<std::string> list;
  if (!site.dusty) list.emplace_back("dusty");
  if (!site.washed_down) list.emplace_back("washed down");
  if (!site.food_area) list.emplace_back("a food area");
  return list;
}

/// What was said about the place, as parts of a sentence.
std::string stated(const Requirement& requirement) {
  const enquiry::Site& site = requirement.site;
  std::vector<std::string> parts;
  if (site.place)
    parts.emplace_back(*site.place == enquiry::Place::indoors           ? "indoors"
                       : *site.place == enquiry::Place::outdoors_shaded ? "outdoors in the shade"
                                                                        : "outdoors in the sun");
  if (requirement.explosive) parts.emplace_back("in an explosive atmosphere");
  if (requirement.food_area) parts.emplace_back("in a food area");
  if (requirement.washed_down) parts.emplace_back("washed down");
  if (requirement.dusty) parts.emplace_back("dusty");
  return parts.empty() ? "an ordinary place" : fmt::format("{}", fmt::join(parts, ", "));
}

void add_checks(const Drive& drive, Finding& out) {
  const Requirement& requirement = drive.requirement;
  const enquiry::Explosive particulars = requirement.site.explosive.value_or(enquiry::Explosive{});
  if (requirement.explosive) {
    add_count("particulars of the explosive place that nobody stated", enquiry::missing_particulars(particulars).size(),
              out);
    if (particulars.zone)
      out.checks.push_back({"category of equipment that is asked for",
                            static_cast<double>(particulars.category.value_or(enquiry::category_of(*particulars.zone))),
                            2,
                            Quantity::number,
                            false,
                            {},
                            {}});
  }
  if (requirement.food_area)
    add_count("fills that are not registered for a food area", drive.oil.fill.food_grade ? 0 : 1, out);
  out.checks.push_back({"altitude", requirement.altitude, kHighest, Quantity::length, true, {}, {}});
  const auto room = [&](const char* name, double need, const std::optional<double>& there) {
    if (there) out.checks.push_back({name, need, *there, Quantity::length, true, {}, {}});
  };
  room("width", drive.build.frame().dimensions.width, requirement.max_width);
  room("height", drive.build.frame().dimensions.height, requirement.max_height);
  const double shaft_and_unit = drive.build.frame().output.length + drive.build.length();
  const Coefficient motor = drive.motor ? drive::typical_length(*drive.motor) : Coefficient{};
  room("length with shaft end and motor", shaft_and_unit + motor.nominal, requirement.max_length);
  if (requirement.max_length) {
    out.checks.back().low = shaft_and_unit + motor.low;
    out.checks.back().high = shaft_and_unit + motor.high;
  }
  if (requirement.lifting) {
    const drive::Lifted lifted = drive::lifted(drive);
    Check mass{"mass with its motor", lifted.mass.nominal, *requirement.lifting, Quantity::mass, true, {}, {}};
    mass.low = lifted.mass.low;
    mass.high = lifted.mass.high;
    out.checks.push_back(std::move(mass));
  }
}

/// What must be true where it neither holds outright nor fails.
Text condition(const Drive& drive, const std::vector<Check>& checks) {
  const Requirement& requirement = drive.requirement;
  const enquiry::Site& site = requirement.site;
  std::vector<std::string> parts;
  if (requirement.explosive) {
    enquiry::Explosive place = site.explosive.value_or(enquiry::Explosive{});
    const std::string certifier = std::exchange(place.certifier, "");
    parts.push_back(
        fmt::format("{} certifies this very drive for {}, with the ignition hazards of seals, bearings, backstop, "
                    "coupling and oil level assessed (ISO 80079-36 and -37) and the motor certified for itself",
                    certifier, enquiry::in_words(place)));
  } else if (!site.explosive_atmosphere)
    parts.emplace_back("the air around it cannot explode, which nobody said");
  if (const auto open = unanswered(site); !open.empty())
    parts.push_back(fmt::format("the place is not {}, which nobody said", fmt::join(open, ", not ")));
  std::vector<Value> values;
  for (const Check& check : checks)
    if (check.quantity == Quantity::length && check.high && *check.high > check.limit) {
      parts.emplace_back("the motor that is bought is not so long that the drive passes the room there is, {}");
      values.push_back({check.limit, Quantity::length});
    }
  if (requirement.lifting && *requirement.lifting < drive::lifted(drive).mass.high) {
    parts.emplace_back("the motor that is bought is not so heavy that it passes what the hoist lifts, {}");
    values.push_back({*requirement.lifting, Quantity::mass});
  }
  return {fmt::format("{}", fmt::join(parts, "; ")), values};
}

void add_notes(const Drive& drive, Finding& out) {
  const Requirement& requirement = drive.requirement;
  const drive::Lifted lifted = drive::lifted(drive);
  if (requirement.explosive) {
    const enquiry::Explosive particulars = requirement.site.explosive.value_or(enquiry::Explosive{});
    if (const auto hottest = enquiry::hottest_surface(particulars))
      out.notes.push_back({"No surface may pass {}; the heat above is judged against that as well.",
                           {{*hottest, Quantity::temperature}}});
  }
  if (requirement.food_area)
    out.notes.push_back({drive.oil.fill.food_grade
                             ? "The fill is registered for incidental contact with food; its figures are used here."
                             : "No fill of this frame is registered for a food area.",
                         {}});
  if (requirement.washed_down)
    out.notes.push_back(
        {"Washed down: water works through the seals; the lubricant is taken for half as clean in every "
         "life. Order double-lip or cassette seals and a closed breather.",
         {}});
  if (requirement.dusty)
    out.notes.push_back(
        {"Dusty: a layer on the housing and in its fins counts in its heat, grit in the cleanliness of "
         "the lubricant. Order dust lips and a filter breather.",
         {}});
  if (requirement.site.place && *requirement.site.place != enquiry::Place::indoors)
    out.notes.push_back({"Outdoors: a roof, a shielded breather and drain holes belong to it.", {}});
  if (lifted.centre)
    out.notes.push_back(
        {"Lift {} (motor estimated, {} to {}) by slings at the reducer, two of them so far apart that its "
         "centre of mass, {} from the shoulder of the output shaft, hangs between them; never by the "
         "motor's eyebolt.",
         {{lifted.mass.nominal, Quantity::mass},
          {lifted.mass.low, Quantity::mass},
          {lifted.mass.high, Quantity::mass},
          {*lifted.centre, Quantity::length}}});
}

}  // namespace

void write_place(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Requirement& requirement = drive.requirement;
  add_checks(drive, out);
  add_notes(drive, out);
  const drive::Lifted lifted = drive::lifted(drive);
  out.working = lifted.working;
  out.verdict = judge(out.checks);
  if (!requirement.not_offered.empty()) {
    out.answer = {requirement.not_offered, {}};
  } else if (out.verdict == Verdict::does_not_hold) {
    const Check* check = worst(out);
    out.answer = {fmt::format("It may not stand there or cannot be put there: {}.", check->name), {}};
  } else {
    out.answer = {fmt::format("It stands {}, {{}} above the sea.", requirement.site.place || requirement.explosive
                                                                       ? stated(requirement)
                                                                       : "in " + stated(requirement)),
                  {{requirement.altitude, Quantity::length}}};
  }
  // With everything stated the certificate is still to come: an explosive place never holds outright. Nor does one of
  // which nobody said what could break it.
  const bool open = !requirement.site.explosive_atmosphere || !unanswered(requirement.site).empty();
  if ((requirement.explosive || open) && out.verdict == Verdict::holds) out.verdict = Verdict::holds_if;
  if (out.verdict == Verdict::holds_if) out.condition = condition(drive, out.checks);
  if (requirement.explosive)
    for (const std::string& one :
         enquiry::missing_particulars(requirement.site.explosive.value_or(enquiry::Explosive{})))
      out.missing.push_back(one);
  out.left_out = {"Chemicals, salt, radiation and vibration of the place.", "Seals and breather are not computed."};
  out.cautions.push_back({"lifting_unit", drive::lifting_words(lifted)});
}

}  // namespace lobewise::evidence
