#include "engine/evidence/find_made.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/formula/record.h"
#include "engine/contact/hertz.h"
#include "engine/evidence/body_temperatures.h"
#include "engine/strength/coefficients.h"
#include "engine/strength/line_life.h"
#include "engine/uncertainty/coverage.h"
#include "engine/uncertainty/distributions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::MadeUnits;
using drive::UnitLoads;
using formula::input;
using formula::inputs;
using formula::record;
using formula::Term;

constexpr const char* kSource = "derived, docs/theory/tolerances.md";

template <class Items, class Figure>
std::vector<double> list_of(const Items& items, Figure figure) {
  std::vector<double> list;
  for (const auto& item : items) list.push_back(figure(item));
  return list;
}

/// What a unit must keep: what limits it, and how its own loads are held against it.
struct Limits {
  const Drive& drive;
  const Evaluation& e;
  /// Largest force over the perfect unit's at which no fatigue below the surface is expected.
  [[nodiscard]] double force_ratio() const {
    return std::pow(strength::kFatigueLimitPressure / e.working.lobe_pressure, 2);
  }
  /// Share of such units that reach the life asked for, their lobes and ring rollers hit so many times as hard.
  [[nodiscard]] double reliability(double damage_ratio) const {
    drive::Lives lives = e.lives;
    for (drive::PartLife& part : lives.parts)
      if (part.stage + 1 == static_cast<int>(drive.build.stages.size()) &&
          (part.id.rfind("lobes", 0) == 0 || part.id.rfind("rollers", 0) == 0))
        part.hours_90 /= damage_ratio;
    return lives.reliability_at(lives.hours);
  }
};

bool assembles(const drive::UnitPlay& unit) { return unit.assembled.lost_motion >= 0; }
bool preloaded(const drive::UnitPlay& unit) { return unit.running.lost_motion < 0; }

bool holds(const UnitLoads& unit, const Limits& limits) {
  return assembles(unit.play) && !preloaded(unit.play) && unit.solved && unit.force_ratio <= limits.force_ratio() &&
         limits.reliability(unit.damage_ratio) >= limits.drive.requirement.reliability;
}

Check share_check(const char* name, const ShareOfUnits& share, double limit, Basis basis) {
  Check check{name, share.share, limit, Quantity::share, false, share.low, share.high};
  check.basis = basis;
  return check;
}

/// Share and interval, figure by figure.
void write_share(const char* symbol, const char* meaning, const ShareOfUnits& share, Working& working) {
  const std::string list = fmt::format("{}_i", symbol);
  const Term blocks = inputs(list, fmt::format("{}, in each of {} independent samples", meaning, drive::kScrambles),
                             share.by_scramble, Quantity::share);
  const Term mean_share = record(working, symbol, meaning, Quantity::share, mean(blocks), kSource);
  const double t = uncertainty::student_quantile(0.975, drive::kScrambles - 1);
  const Term n = input("n_s", "independent samples", drive::kScrambles);
  record(working, fmt::format("u_{}", symbol).c_str(), "half width of its 95 % interval by the samples' scatter",
         Quantity::share,
         input("t_s", "Student's, 97.5 %, one degree of freedom less than samples", t) *
             sqrt(sum((blocks - mean_share) * (blocks - mean_share)) / (n * (n - 1))),
         "JCGM 100:2008, 4.2 and G.3, from memory");
}

void write_widths(const tolerance::Widths& w, const char* source, Working& working) {
  const Term capability = input("C_p", "capability: zone over six standard deviations", w.capability);
  struct Line {
    const char *symbol, *meaning;
    double width;
  };
  for (const Line& line : {Line{"pitch", "circle of the ring rollers, all together", w.pitch_radius},
                           {"place", "centre of each ring roller, either way", w.roller_position},
                           {"roller", "radius of each ring roller", w.roller_radius},
                           {"rollers", "radius of all ring rollers together", w.roller_radius_batch},
                           {"form", "form of each flank", w.profile_form},
                           {"profile", "size of the profiles together", w.profile_batch},
                           {"hole", "centre of each output hole, either way", w.hole_position},
                           {"hole_radius", "radius of each output hole", w.hole_radius},
                           {"holes", "radius of all output holes together", w.hole_radius_batch},
                           {"pin", "centre of each output pin, either way", w.pin_position},
                           {"pin_radius", "radius of each output roller", w.pin_radius},
                           {"pins", "radius of all output rollers together", w.pin_radius_batch}})
    record(working, fmt::format("s_{}", line.symbol).c_str(),
           fmt::format("standard deviation: {}", line.meaning).c_str(), Quantity::length,
           input(fmt::format("T_{}", line.symbol), fmt::format("whole width of its tolerance: {}", line.meaning),
                 line.width, Quantity::length) /
               (6 * capability),
           source);
}

Chart bars(const char* id, const char* title, const char* x, const char* y, Quantity y_quantity) {
  Chart chart{id, title, x, y, Quantity::number, y_quantity, {}};
  chart.bars = true;
  return chart;
}

/// Units sorted by a figure, each a point of a line over the share of units below it.
Series sorted_units(const char* name, std::vector<double> figures) {
  std::sort(figures.begin(), figures.end());
  Series line{name, {}, {}};
  for (std::size_t i = 0; i < figures.size(); ++i) {
    line.x.push_back((static_cast<double>(i) + 0.5) / static_cast<double>(figures.size()));
    line.y.push_back(figures[i]);
  }
  return line;
}

void write_charts(const MadeUnits& units, double limit, Finding& out) {
  Chart forces{"made_forces",
               "Largest lobe force of every unit over the perfect unit's, sorted",
               "Share of units below",
               "Largest force over the perfect unit's",
               Quantity::share,
               Quantity::number,
               {}};
  forces.series = {
      sorted_units("units as made", list_of(units.loads, [](const UnitLoads& u) { return u.force_ratio; })),
      {"no fatigue expected below", {0, 1}, {limit, limit}, true},
      {"perfect unit", {0, 1}, {1, 1}, true}};
  out.charts.push_back(std::move(forces));
  Chart lost{"made_lost_motion",
             "Lost motion of every unit without load, sorted",
             "Share of units below",
             "Lost motion at the output",
             Quantity::share,
             Quantity::angle,
             {}};
  lost.series = {
      sorted_units("as assembled", list_of(units.plays, [](const drive::UnitPlay& u) { return u.assembled.widest; })),
      sorted_units("at its own temperature, where it is least",
                   list_of(units.plays, [](const drive::UnitPlay& u) { return u.running.lost_motion; })),
      {"none: preloaded below", {0, 1}, {0, 0}, true}};
  out.charts.push_back(std::move(lost));
  Chart loaded{"made_loaded_lobes",
               "Lobes of a disc that carry at full load, sorted",
               "Share of units below",
               "Lobes that carry",
               Quantity::share,
               Quantity::number,
               {}};
  loaded.series = {sorted_units("units as made", list_of(units.loads, [](const UnitLoads& u) { return u.loaded; })),
                   {"perfect unit", {0, 1}, {units.perfect_loaded, units.perfect_loaded}, true}};
  out.charts.push_back(std::move(loaded));
  Chart what = bars("made_sources", "What the scatter of the least play comes from", "Source",
                    "Share of the variance it has a part in", Quantity::share);
  for (std::size_t i = 0; i < tolerance::kSources; ++i)
    what.series.push_back(
        {tolerance::kSourceNames[i], {static_cast<double>(i)}, {std::clamp(units.of_lost_motion.total[i], 0.0, 1.0)}});
  out.charts.push_back(std::move(what));
  Chart buys = bars("made_tightened", "Lost motion that 95 of 100 units stay below, with one tolerance halved",
                    "Tolerance halved", "Lost motion", Quantity::angle);
  for (std::size_t i = 0; i + 1 < tolerance::kSources; ++i)  // the temperature has no tolerance
    buys.series.push_back({tolerance::kSourceNames[i], {static_cast<double>(i)}, {units.tightened_lost_motion[i]}});
  buys.series.push_back(
      {"none",
       {static_cast<double>(tolerance::kSources - 1)},
       {drive::quantile_of(list_of(units.plays, [](const drive::UnitPlay& u) { return u.assembled.widest; }), 0.95)}});
  out.charts.push_back(std::move(buys));
}

double out_of_hundred(double share) { return std::round(100 * share); }

}  // namespace

ShareOfUnits share_of_units(const std::vector<bool>& units_hold) {
  ShareOfUnits out;
  const std::size_t block = units_hold.size() / drive::kScrambles;
  for (int s = 0; s < drive::kScrambles; ++s) {
    const auto begin = units_hold.begin() + static_cast<std::ptrdiff_t>(block) * s;
    out.by_scramble.push_back(static_cast<double>(std::count(begin, begin + static_cast<std::ptrdiff_t>(block), true)) /
                              static_cast<double>(block));
  }
  out.share = std::accumulate(out.by_scramble.begin(), out.by_scramble.end(), 0.0) / drive::kScrambles;
  double squares = 0;
  for (const double share : out.by_scramble) squares += (share - out.share) * (share - out.share);
  const double half = uncertainty::student_quantile(0.975, drive::kScrambles - 1) *
                      std::sqrt(squares / (drive::kScrambles * (drive::kScrambles - 1.0)));
  out.low = std::max(0.0, out.share - half);
  out.high = std::min(1.0, out.share + half);
  const auto n = static_cast<int>(units_hold.size());
  const auto failed = static_cast<int>(std::count(units_hold.begin(), units_hold.end(), false));
  if (failed == 0) out.low = 1 - uncertainty::share_at_most(0, n, 0.95);
  if (failed == n) out.high = uncertainty::share_at_most(0, n, 0.95);
  return out;
}

Result<MadeFinding> made(const Drive& drive, const contact::ElasticDisc& disc, int loaded) {
  const Evaluation e = evaluate(drive, {});
  const drive::BodyTemperatures cold = cold_bodies(drive, {}), warm = warm_bodies(drive, e);
  const range::Stage& stage = drive.build.last();
  const bool stated = stage.manufacture.has_value();
  drive::MadeOptions options;
  options.loaded = (loaded + drive::kScrambles - 1) / drive::kScrambles * drive::kScrambles;
  Result<MadeUnits> solved = drive::made_units(drive, disc, cold, warm, options);
  if (!solved) return solved.errors();
  const MadeUnits& units = *solved;
  const Limits limits{drive, e};

  MadeFinding out;
  Finding& finding = out.finding;
  finding.id = "made";
  finding.question = "What does one unit out of a hundred do?";
  for (const UnitLoads& unit : units.loads) out.holds.push_back(holds(unit, limits));
  const auto flags = [&](auto&& test) {
    std::vector<bool> list;
    for (const drive::UnitPlay& play : units.plays) list.push_back(test(play));
    return list;
  };
  ShareOfUnits hold = share_of_units(out.holds);
  ShareOfUnits together = share_of_units(flags(assembles));
  ShareOfUnits free = share_of_units(flags([](const drive::UnitPlay& u) { return !preloaded(u); }));
  const std::vector<double> ratios = list_of(units.loads, [](const UnitLoads& u) { return u.force_ratio; });
  const double median = drive::quantile_of(ratios, 0.5);
  const double high = drive::quantile_of(ratios, 0.95);
  double high_low = high, high_high = high;
  if (!stated)
    // Nobody said how exactly it is made: the shares lie between those of a fine and a coarse grade.
    for (const int grade : {tolerance::kFineGrade, tolerance::kCoarseGrade}) {
      drive::MadeOptions other = options;
      other.grade = grade;
      other.sensitivities = false;
      other.loaded = std::max(drive::kScrambles, options.loaded / 4 / drive::kScrambles * drive::kScrambles);
      other.unloaded /= 4;
      const Result<MadeUnits> of_grade = drive::made_units(drive, disc, cold, warm, other);
      if (!of_grade) return of_grade.errors();
      const auto widen = [](ShareOfUnits& share, const std::vector<bool>& list) {
        const ShareOfUnits found = share_of_units(list);
        share.low = std::min(share.low, found.share);
        share.high = std::max(share.high, found.share);
      };
      std::vector<bool> whole, joined, running;
      for (const UnitLoads& unit : of_grade->loads) whole.push_back(holds(unit, limits));
      for (const drive::UnitPlay& play : of_grade->plays) {
        joined.push_back(assembles(play));
        running.push_back(!preloaded(play));
      }
      widen(hold, whole);
      widen(together, joined);
      widen(free, running);
      const double other_high =
          drive::quantile_of(list_of(of_grade->loads, [](const UnitLoads& u) { return u.force_ratio; }), 0.95);
      high_low = std::min(high_low, other_high);
      high_high = std::max(high_high, other_high);
    }

  const bool wished = drive.requirement.unit_share.has_value();
  const double asked = drive.requirement.unit_share.value_or(kUsualUnitShare);
  const Basis basis = stated && wished ? Basis::promise : Basis::assumed;
  finding.checks.push_back(share_check("share of units as made that hold", hold, asked, basis));
  finding.checks.push_back(
      share_check("share of units that can be put together without force", together, asked, basis));
  finding.checks.push_back(share_check("share of units that keep play when they run", free, asked, basis));
  Check force{"largest lobe force over a perfect unit's, of 95 units in 100",
              high,
              limits.force_ratio(),
              Quantity::number,
              true,
              {},
              {}};
  if (!stated) force.low = high_low, force.high = high_high;
  force.basis = basis;
  finding.checks.push_back(std::move(force));

  finding.answer = {
      "Of 100 units as made {} hold ({} to {}); the largest force on a lobe is {} times the perfect unit's in the "
      "middle one, {} times in one of twenty; {} of 100 run preloaded.",
      {{out_of_hundred(hold.share), Quantity::number},
       {out_of_hundred(hold.low), Quantity::number},
       {out_of_hundred(hold.high), Quantity::number},
       {std::round(10 * median) / 10, Quantity::number},
       {std::round(10 * high) / 10, Quantity::number},
       {out_of_hundred(1 - free.share), Quantity::number}}};
  finding.notes.push_back(
      {"This counts units, over manufacture and temperature, on this machine as the enquiry and the models have it. "
       "What is open in those stands with each finding, and is not multiplied with it.",
       {}});
  if (!stated)
    finding.notes.push_back(
        {fmt::format(
             "The range does not say how exactly its parts are made: grade {} of ISO 286-1 is taken, between {} "
             "and {} (common practice, no source). Ask the maker.",
             tolerance::kUsualGrade, tolerance::kFineGrade, tolerance::kCoarseGrade),
         {}});
  if (!wished)
    finding.notes.push_back(
        {"Nobody wished for a share of units that must hold; {} is taken (common practice, no source).",
         {{kUsualUnitShare, Quantity::share}}});
  if (together.share < 1)
    finding.notes.push_back(
        {"Tolerances wider than the clearance: {} of all units ({} to {}) leave no play at some place even as cold as "
         "the "
         "drawing and go together with force, or by choosing parts that match.",
         {{1 - together.share, Quantity::share},
          {1 - together.high, Quantity::share},
          {1 - together.low, Quantity::share}}});
  if (const double perfect = limits.reliability(1); perfect < drive.requirement.reliability)
    finding.notes.push_back({"The perfect unit itself misses the life asked for: no unit can hold.", {}});
  if (hold.share < 1) {
    const auto of_hundred = [&](auto fails) {
      return 100.0 * static_cast<double>(std::count_if(units.loads.begin(), units.loads.end(), fails)) /
             static_cast<double>(units.loads.size());
    };
    finding.notes.push_back(
        {"Of 100 units {} miss the life asked for ({} of such units, all their parts together), {} are pressed beyond "
         "what lobes bear without fatigue, {} lack play; a unit may count at more than one place.",
         {{std::round(of_hundred(
               [&](const UnitLoads& u) { return limits.reliability(u.damage_ratio) < drive.requirement.reliability; })),
           Quantity::number},
          {drive.requirement.reliability, Quantity::share},
          {std::round(of_hundred([&](const UnitLoads& u) { return u.force_ratio > limits.force_ratio(); })),
           Quantity::number},
          {std::round(of_hundred([&](const UnitLoads& u) { return !assembles(u.play) || preloaded(u.play); })),
           Quantity::number}}});
  }
  const std::vector<double> damage = list_of(units.loads, [](const UnitLoads& u) { return u.damage_ratio; });
  finding.notes.push_back(
      {"By the sum of F^4 over every pair of lobe and roller the lobes last {} of the perfect unit's life in the "
       "middle "
       "unit, {} in one of twenty: a proud roller meets a given lobe once in as many turns as there are rollers.",
       {{1 / drive::quantile_of(damage, 0.5), Quantity::share},
        {1 / drive::quantile_of(damage, 0.95), Quantity::share}}});
  const auto counted = list_of(units.loads, [](const UnitLoads& u) { return u.loaded; });
  finding.notes.push_back(
      {"Of a disc {} to {} lobes carry in 90 of 100 units, {} in the perfect one: the disc bends, so that their number "
       "changes less than the largest force.",
       {{std::round(drive::quantile_of(counted, 0.05)), Quantity::number},
        {std::round(drive::quantile_of(counted, 0.95)), Quantity::number},
        {std::round(units.perfect_loaded), Quantity::number}}});
  const auto hardest = std::max_element(units.of_lost_motion.total.begin(), units.of_lost_motion.total.end());
  finding.notes.push_back(
      {fmt::format("What decides the play of a unit most: {}.",
                   tolerance::kSourceNames[static_cast<std::size_t>(hardest - units.of_lost_motion.total.begin())]),
       {}});

  Working& working = finding.working;
  write_widths(units.widths,
               stated ? "tolerances of the range; six standard deviations: common practice, no source"
                      : "ISO 286-1, formula from memory; assumed grade: common practice, no source",
               working);
  write_share("h", "share of units that hold", hold, working);
  write_share("m", "share of units that can be put together", together, working);
  write_share("q", "share of units that keep play when they run", free, working);
  record(
      working, "r_limit", "largest force over the perfect unit's without fatigue below the surface", Quantity::number,
      pow(input("p_lim", "pressure up to which none is expected", strength::kFatigueLimitPressure, Quantity::pressure) /
              input("p_0", "pressure of the perfect unit's hardest pressed lobe", e.working.lobe_pressure,
                    Quantity::pressure),
          2),
      "[johnson1985] ch. 4.2, from memory: force with the square of the pressure");
  for (const auto& [symbol, share, value] : {std::tuple{"r_50", 0.5, median}, {"r_95", 0.95, high}})
    formula::record_looked_up(working, symbol,
                              fmt::format("largest lobe force over the perfect unit's, {:g} %", 100 * share).c_str(),
                              Quantity::number, value,
                              fmt::format("the {} units under load in the order of this figure, the one at {:g} %",
                                          units.loads.size(), 100 * share),
                              {}, kSource);
  write_charts(units, limits.force_ratio(), finding);

  finding.left_out = {
      fmt::format("{} units under load with discs that bend at {} stated crank angles over a turn of the output, {} "
                  "units without load to first order.",
                  units.loads.size(), tolerance::kAngles, units.plays.size()),
      "The last stage alone; rollers of the eccentric bearing, eccentricity and the angle between the discs are "
      "perfect.",
      "Normal distributions about the middle of each tolerance; parts are not chosen to match each other.",
      "Surroundings and load: one of the temperatures between cold and settled for each unit, full load for all."};
  finding.verdict = judge(finding.checks);
  if (finding.verdict == Verdict::holds_if) {
    const auto scarce = std::find_if(finding.checks.begin(), finding.checks.end(), [](const Check& check) {
      return check.margin() >= 0 && check.low && !check.at_most && *check.low < check.limit;
    });
    if (basis == Basis::assumed)
      finding.condition = {
          fmt::format("{}{}",
                      stated ? "parts are made as the range states them" : "the maker keeps the tolerances taken here",
                      wished ? "" : " and this share of units is enough"),
          {}};
    else if (scarce != finding.checks.end())
      finding.condition = {fmt::format("the {} is more than {{}}: the {} units looked at show no more than {{}}",
                                       scarce->name, units.loads.size()),
                           {{scarce->limit, Quantity::share}, {*scarce->low, Quantity::share}}};
  }
  out.units = std::move(*solved);
  return out;
}

}  // namespace lobewise::evidence
