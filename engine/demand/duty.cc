#include "engine/demand/duty.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/demand/given.h"

namespace lobewise::demand {
namespace {

constexpr double kHour = 3600;

void need(Errors& errors, const std::string& path, double value, double low, double high, const char* sentence) {
  if (!(value >= low && value <= high)) errors.push_back(input_error(path, format_number(value, 6), sentence));
}

/// Value said, or an assumption with a question.
double take(DutySpectrum& out, const std::optional<double>& said, const char* name, const char* text,
            const Coefficient& usual, Quantity quantity, const char* question, double influence) {
  if (said) return *said;
  const std::string path = std::string("duty.") + name;
  out.assumptions.push_back({path, text, usual.nominal, usual.low, usual.high, quantity, usual.source});
  out.questions.push_back({path, question, influence});
  return usual.nominal;
}

}  // namespace

const TypicalDay& typical_day(Pattern pattern) {
  static const std::array<TypicalDay, 5> days{{
      {{{1.0, 1.0, 1}}, 0.5, "Full load all day."},
      {{{0.2, 1.0, 1}, {0.4, 0.8, 1}, {0.3, 0.5, 1}, {0.1, 0.3, 1}},
       1,
       "Load comes and goes: a fifth of the time full, most of it at half to four fifths."},
      {{{0.15, 1.0, 1}, {0.35, 0.7, 1}, {0.3, 0.4, 1}, {0.2, 0.15, 1}},
       3,
       "Batches: heavy for a short while, easing, then nearly empty."},
      {{{0.4, 1.0, 1}, {0.6, 0.4, 1}}, 30, "Stops and starts under load many times an hour."},
      {{{0.05, 1.3, 1}, {0.45, 1.0, 1}, {0.5, 0.6, 1}}, 2, "Full load half of the time, with overloads for minutes."},
  }};
  return days[static_cast<std::size_t>(pattern)];
}

Result<DutySpectrum> spectrum_of(const Duty& duty, const Demand& demand) {
  Errors errors;
  if (duty.hours_per_day)
    need(errors, "duty.hours_per_day", *duty.hours_per_day / kHour, 1.0 / 60, 24,
         "Running time a day lies between a minute and 24 hours.");
  if (duty.days_per_year)
    need(errors, "duty.days_per_year", *duty.days_per_year, 1, 366, "Days a year lie between 1 and 366.");
  if (duty.starts_per_hour)
    need(errors, "duty.starts_per_hour", *duty.starts_per_hour, 0, 3600, "Starts an hour lie between 0 and 3600.");
  if (duty.reversals_per_hour)
    need(errors, "duty.reversals_per_hour", *duty.reversals_per_hour, 0, 3600,
         "Reversals an hour lie between 0 and 3600.");
  double sum = 0;
  for (std::size_t i = 0; i < duty.blocks.size(); ++i) {
    const DutyBlock& block = duty.blocks[i];
    const std::string path = fmt::format("duty.blocks[{}].", i);
    need(errors, path + "time_share", block.time_share, 0, 1, "A time share lies between 0 and 1.");
    need(errors, path + "torque", block.torque, -10, 10,
         "Torque of a block is a share of the running torque between -10 and 10.");
    need(errors, path + "speed", block.speed, 0, 3, "Speed of a block is a share of the speed between 0 and 3.");
    sum += block.time_share;
  }
  if (!duty.blocks.empty() && errors.empty() && std::fabs(sum - 1) > 1e-3)
    errors.push_back(
        input_error("duty.blocks", format_number(sum, 6), "The time shares of all blocks must add up to 1."));
  for (std::size_t i = 0; i < duty.shocks.size(); ++i) {
    const std::string path = fmt::format("duty.shocks[{}].", i);
    need(errors, path + "torque", duty.shocks[i].torque, 0, 100,
         "Torque of a shock is a multiple of the running torque between 0 and 100.");
    need(errors, path + "per_year", duty.shocks[i].per_year, 0, 1e8, "Shocks a year lie between 0 and 1e8.");
  }
  for (std::size_t i = 0; i < duty.torque_cycles.size(); ++i) {
    const TorqueCycle& cycle = duty.torque_cycles[i];
    const std::string path = fmt::format("duty.torque_cycles[{}].", i);
    need(errors, path + "range", cycle.range, 0, 20,
         "The range of a cycle is a multiple of the running torque between 0 and 20.");
    need(errors, path + "mean", cycle.mean, -10, 10,
         "The mean of a cycle is a multiple of the running torque between -10 and 10.");
    need(errors, path + "per_hour", cycle.per_hour, 0, 1e6, "Cycles an hour lie between 0 and 1e6.");
  }
  if (!errors.empty()) return errors;

  DutySpectrum out;
  const Pattern pattern = duty.pattern.value_or(Pattern::steady);
  const TypicalDay& day = typical_day(pattern);
  // Influence of a question: what the range does to the life-equivalent torque, time counting with the power 3/10.
  out.hours_per_day = take(out, duty.hours_per_day, "hours_per_day", "Running time a day not said, two shifts taken.",
                           {16 * kHour, 8 * kHour, 24 * kHour, kCommonPractice}, Quantity::duration,
                           "How many hours a day does it run?", 0.35);
  const double days =
      take(out, duty.days_per_year, "days_per_year", "Days a year not said, taken.", {250, 220, 360, kCommonPractice},
           Quantity::number, "How many days a year does it run?", 0.15);
  out.starts_per_hour =
      take(out, duty.starts_per_hour, "starts_per_hour", "Starts an hour not said, taken from the kind of day.",
           {day.starts_per_hour, 0.3 * day.starts_per_hour, 3 * day.starts_per_hour, kCommonPractice},
           Quantity::per_hour, "How often does it start, and always loaded?", 0.1);
  out.reversals_per_hour = duty.reversals_per_hour.value_or(0);
  out.running_time = out.hours_per_day * days;

  const auto& blocks = duty.blocks.empty() ? day.blocks : duty.blocks;
  for (const DutyBlock& block : blocks)
    out.bins.push_back({block.torque * demand.torque.value, block.speed * demand.speed.value,
                        block.time_share / (duty.blocks.empty() ? 1 : sum)});
  if (duty.blocks.empty()) {
    const double steady = 1, mean = equivalent_torque(out.bins, 10.0 / 3) / std::max(demand.torque.value, 1e-300);
    out.assumptions.push_back(
        {"duty.pattern",
         std::string(duty.pattern ? "A usual day of this kind taken: " : "Nothing said of the day: ") + day.text, mean,
         std::min(mean, 0.6), std::max(mean, steady), Quantity::number,
         "common practice, no source; value is the life-equivalent torque over the running torque"});
    out.questions.push_back(
        {"duty.blocks",
         "What share of the day does it run full, half loaded and empty? Is there a log of the motor's amps?",
         duty.pattern ? 0.2 : 0.4});
  }
  const double start = demand.starting_torque.value;
  for (const TorqueCycle& cycle : duty.torque_cycles)
    out.cycles.push_back({cycle.range * demand.torque.value, cycle.mean * demand.torque.value, cycle.per_hour});
  out.cycles_logged = !out.cycles.empty();
  if (out.cycles.empty() && out.starts_per_hour > 0) out.cycles.push_back({start, start / 2, out.starts_per_hour});
  if (duty.torque_cycles.empty() && out.reversals_per_hour > 0)
    out.cycles.push_back({2 * start, 0, out.reversals_per_hour});
  for (const ShockEvent& shock : duty.shocks)
    out.shocks.push_back({shock.what, shock.torque * demand.torque.value, shock.per_year, shock.logged});
  if (duty.shocks.empty())
    out.questions.push_back(
        {"duty.shocks", "Has it ever jammed, been overloaded or broken something? How often?", 0.3});
  rank(out.questions);
  return out;
}

double equivalent_torque(const std::vector<SpectrumBin>& bins, double exponent) {
  double peak = 0;
  for (const SpectrumBin& bin : bins) peak = std::max(peak, std::fabs(bin.torque));
  if (peak == 0) return 0;
  double sum = 0;
  for (const SpectrumBin& bin : bins) sum += bin.share * bin.speed * std::pow(std::fabs(bin.torque) / peak, exponent);
  double turns = 0;
  for (const SpectrumBin& bin : bins) turns += bin.share * bin.speed;
  return peak * std::pow(sum / turns, 1 / exponent);
}

double mean_speed(const std::vector<SpectrumBin>& bins) {
  double sum = 0, share = 0;
  for (const SpectrumBin& bin : bins) {
    sum += bin.share * bin.speed;
    share += bin.share;
  }
  return sum / share;
}

double peak_torque(const DutySpectrum& spectrum) {
  double peak = 0;
  for (const SpectrumBin& bin : spectrum.bins) peak = std::max(peak, std::fabs(bin.torque));
  for (const Cycle& cycle : spectrum.cycles) peak = std::max(peak, std::fabs(cycle.mean) + cycle.range / 2);
  for (const SpectrumShock& shock : spectrum.shocks) peak = std::max(peak, std::fabs(shock.torque));
  return peak;
}

}  // namespace lobewise::demand

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<demand::Pattern>() {
  static const std::vector<Choice> words{{"steady", "full load all day"},
                                         {"varying", "load comes and goes"},
                                         {"batch", "in batches"},
                                         {"stop_and_go", "stops and starts all the time"},
                                         {"overloads", "full load with overloads"}};
  return words;
}

template <>
const RecordType& describe<demand::DutyBlock>() {
  using demand::DutyBlock;
  static const RecordType type{
      "duty_block",
      "Duty block",
      "Part of the running time.",
      {field<&DutyBlock::time_share>("time_share", "Time share", "Of the running time.", Quantity::share, {0, 1}),
       field<&DutyBlock::torque>("torque", "Torque", "Share of the running torque; negative when the load drives.",
                                 Quantity::share, {-10, 10}),
       field<&DutyBlock::speed>("speed", "Speed", "Share of the full speed.", Quantity::share, {0, 3}).with_default()},
      false};
  return type;
}

template <>
const RecordType& describe<demand::ShockEvent>() {
  using demand::ShockEvent;
  static const RecordType type{
      "shock_event",
      "Shock event",
      "What happens now and then.",
      {field<&ShockEvent::what>("what", "What", "In a few words."),
       field<&ShockEvent::torque>("torque", "Torque", "Times the running torque.", Quantity::number, {0, 100}),
       field<&ShockEvent::per_year>("per_year", "Times a year", "How often.", Quantity::number, {0, 1e8}),
       field<&ShockEvent::logged>("logged", "From a log",
                                  "Counted in a load log: its torque cycles count it for fatigue already.")
           .with_default()},
      false};
  return type;
}

template <>
const RecordType& describe<demand::TorqueCycle>() {
  using demand::TorqueCycle;
  static const RecordType type{
      "torque_cycle",
      "Torque cycle",
      "How often the torque goes up and down by so much, counted in a log.",
      {field<&TorqueCycle::range>("range", "Range", "Highest minus lowest, share of the running torque.",
                                  Quantity::share, {0, 20}),
       field<&TorqueCycle::mean>("mean", "Mean", "Half of highest plus lowest, share of the running torque.",
                                 Quantity::share, {-10, 10}),
       field<&TorqueCycle::per_hour>("per_hour", "Times an hour", "Of running.", Quantity::number, {0, 1e6})},
      false};
  return type;
}

template <>
const RecordType& describe<demand::Duty>() {
  using demand::Duty;
  static const RecordType type{
      "duty",
      "Duty",
      "How long it runs at what, how often it starts, what happens now and then.",
      {field<&Duty::hours_per_day>("hours_per_day", "Running time a day", "Hours of running.", Quantity::duration,
                                   {60, 86400}),
       field<&Duty::days_per_year>("days_per_year", "Days a year", "Days on which it runs.", Quantity::number,
                                   {1, 366}),
       field<&Duty::starts_per_hour>("starts_per_hour", "Starts", "An hour of running.", Quantity::per_hour, {0, 3600}),
       field<&Duty::reversals_per_hour>("reversals_per_hour", "Reversals", "Under load, an hour of running.",
                                        Quantity::per_hour, {0, 3600}),
       field<&Duty::pattern>("pattern", "Kind of day", "When there are no figures."),
       field<&Duty::blocks>("blocks", "Blocks", "Shares of the running time; together 1."),
       field<&Duty::shocks>("shocks", "Shocks", "Jams, overloads, impacts."),
       field<&Duty::torque_cycles>("torque_cycles", "Torque cycles",
                                   "From a load log; rule over those of starts and reversals.")},
      false};
  return type;
}

}  // namespace lobewise::model
