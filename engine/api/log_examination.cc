#include "engine/api/log_examination.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/enquiry/present.h"
#include "engine/enquiry/requirement.h"
#include "engine/result/job.h"

namespace lobewise::api {
namespace {

constexpr double kLifeExponent = 10.0 / 3;  ///< of line contact, ISO 281
constexpr std::size_t kMostBlocks = 8;      ///< of the duty block; the list of an enquiry stays readable

demand::LogSetup setup_of(const enquiry::Enquiry& enquiry, const enquiry::Requirement& requirement,
                          demand::Signal signal, Errors& errors) {
  demand::LogSetup setup;
  setup.signal = signal;
  setup.speed = requirement.speed;
  setup.reference_torque = requirement.torque;
  if (signal == demand::Signal::torque) return setup;
  demand::Nameplate motor;
  if (const auto& measured = enquiry.machine.measured) {
    motor.power = measured->rated_power.value_or(0);
    motor.speed = measured->rated_speed.value_or(0);
    motor.current = measured->rated_current.value_or(0);
    motor.power_factor = measured->power_factor.value_or(0);
    motor.efficiency = measured->efficiency.value_or(0);
    setup.train_efficiency = measured->train_efficiency;
  } else {
    const enquiry::Supply supply = enquiry.supply.value_or(enquiry::Supply{});
    const enquiry::Incumbent in = enquiry.incumbent.value_or(enquiry::Incumbent{});
    motor.power = supply.motor_power.value_or(in.motor_power.value_or(0));
    motor.speed = supply.motor_speed.value_or(in.belt_ratio ? 0 : in.input_speed.value_or(0));
  }
  if (!setup.train_efficiency && motor.speed > 0)
    if (const auto train = enquiry::present_train(enquiry, requirement.torque, requirement.speed, motor.speed))
      setup.train_efficiency = train->nominal;
  // What nameplates usually say where nobody read it; the same figures as machine.measured takes.
  if (motor.power_factor <= 0) motor.power_factor = 0.83;
  if (motor.efficiency <= 0) motor.efficiency = 0.90;
  const auto need = [&](double value, const char* path, const char* sentence) {
    if (!(value > 0)) errors.push_back(input_error(path, "", sentence));
  };
  need(motor.power, "machine.measured.rated_power",
       "The log holds motor readings: the rated power of the motor is needed.");
  need(motor.speed, "machine.measured.rated_speed",
       "The log holds motor readings: the rated speed of the motor is needed.");
  if (signal == demand::Signal::current)
    need(motor.current, "machine.measured.rated_current",
         "The log holds currents: the rated current of the motor is needed.");
  setup.motor = motor;
  return setup;
}

/// The spectrum in a few blocks. Levels are put together from the highest down so that each block holds a like share of
/// the damage or of the time; its torque is the power mean, which wears rolling contacts as its levels do.
std::vector<demand::DutyBlock> blocks_of(const std::vector<demand::SpectrumBin>& bins, double torque) {
  std::vector<demand::SpectrumBin> sorted = bins;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const auto& a, const auto& b) { return std::abs(a.torque) > std::abs(b.torque); });
  const auto weight = [&](const demand::SpectrumBin& bin) {
    return bin.share * (1 + std::pow(std::abs(bin.torque) / torque, kLifeExponent));
  };
  double total = 0;
  for (const auto& bin : sorted) total += weight(bin);
  std::vector<demand::DutyBlock> out;
  double share = 0, damage = 0, gathered = 0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    share += sorted[i].share;
    damage += sorted[i].share * std::pow(std::abs(sorted[i].torque) / torque, kLifeExponent);
    gathered += weight(sorted[i]);
    const bool last = i + 1 == sorted.size();
    if (!last && gathered < total / kMostBlocks) continue;
    out.push_back({share, std::pow(damage / share, 1 / kLifeExponent), 1});
    share = damage = gathered = 0;
  }
  return out;
}

/// Cycles in a few sizes, each a quarter above the next smaller one. Every cycle counts with the largest range of its
/// size, which is the safe side; what is below a tenth of the running torque does nothing to a shaft that stands the
/// rest.
std::vector<demand::TorqueCycle> sizes_of(const std::vector<demand::Cycle>& cycles, double torque) {
  constexpr double kStep = 1.25, kSmallest = 0.1;
  std::vector<demand::Cycle> sorted = cycles;
  std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.range > b.range; });
  std::vector<demand::TorqueCycle> out;
  for (const demand::Cycle& cycle : sorted) {
    const double range = cycle.range / torque;
    if (range < kSmallest) break;
    if (out.empty() || range < out.back().range / kStep) out.push_back({range, 0, 0});
    demand::TorqueCycle& size = out.back();
    size.mean = (size.mean * size.per_hour + cycle.mean / torque * cycle.count) / (size.per_hour + cycle.count);
    size.per_hour += cycle.count;
  }
  return out;
}

/// The duty block as an enquiry says it. Shares are rounded so that they add up to 1 exactly.
Json duty_json(const demand::DutySpectrum& spectrum, double torque, double hours_per_day, double running_time) {
  Json blocks = Json::array();
  double left = 100;
  const std::vector<demand::DutyBlock> list = blocks_of(spectrum.bins, torque);
  for (std::size_t i = list.size(); i-- > 0;) {  // the lightest last, so that rounding falls on it
    const demand::DutyBlock& block = list[list.size() - 1 - i];
    const double percent = i == 0 ? left : std::round(1e4 * block.time_share) / 100;
    left -= percent;
    if (percent > 0)
      blocks.push_back(
          {{"time_share", format_number(percent, 6) + " %"}, {"torque", format_number(100 * block.torque, 4) + " %"}});
  }
  Json duty{{"hours_per_day", format_number(hours_per_day / 3600, 4) + " h"},
            {"days_per_year", std::clamp(std::round(running_time / hours_per_day), 1.0, 366.0)},
            {"starts_per_hour", format_number(spectrum.starts_per_hour, 4) + " 1/h"},
            {"blocks", std::move(blocks)}};
  if (spectrum.reversals_per_hour > 0)
    duty["reversals_per_hour"] = format_number(spectrum.reversals_per_hour, 4) + " 1/h";
  for (const demand::SpectrumShock& shock : spectrum.shocks)
    duty["shocks"].push_back({{"what", shock.what},
                              {"torque", std::round(100 * shock.torque / torque) / 100},
                              {"per_year", std::round(shock.per_year)},
                              {"logged", true}});
  for (const demand::TorqueCycle& cycle : sizes_of(spectrum.cycles, torque))
    duty["torque_cycles"].push_back({{"range", format_number(100 * cycle.range, 3) + " %"},
                                     {"mean", format_number(100 * cycle.mean, 3) + " %"},
                                     {"per_hour", std::round(1000 * cycle.per_hour) / 1000}});
  return duty;
}

}  // namespace

Result<LogExamination> LogExamination::open(const Json& enquiry_json, std::string_view header,
                                            std::string_view first_row, const LogColumns& columns) {
  const Result<enquiry::Enquiry> enquiry = read<enquiry::Enquiry>(enquiry_json, Numbers::si);
  if (!enquiry) return enquiry.errors();
  const Result<enquiry::Requirement> requirement = enquiry::require(*enquiry);
  if (!requirement) return requirement.errors();
  const Result<LogFormat> format = read_log_header(header, first_row, columns);
  if (!format) return format.errors();
  Errors errors;
  const demand::LogSetup setup = setup_of(*enquiry, *requirement, format->signal, errors);
  if (!errors.empty()) return errors;
  Result<demand::LoadLog> log = demand::LoadLog::open(setup);
  if (!log) return log.errors();
  Job job{requirement->torque, requirement->hours_per_day, requirement->running_per_year, 0, {}};
  if (setup.motor) {
    constexpr double kUsualTrain = 0.9;  // as the log takes it where nobody says the train
    job.rated = setup.motor->power * setup.train_efficiency.value_or(kUsualTrain) / setup.speed;
    job.plate = format->signal == demand::Signal::current
                    ? fmt::format("{} (machine.measured.rated_current)",
                                  format_quantity(setup.motor->current, Quantity::current, UnitSystem::si))
                    : format_quantity(setup.motor->power, Quantity::power, UnitSystem::si) + " (its rated power)";
  }
  return LogExamination(std::move(*log), *format, std::move(job));
}

namespace {

/// Share of the running time in which the motor would carry more than twice its rating: no motor does that for long.
double share_beyond(const std::vector<demand::SpectrumBin>& bins, double rated) {
  double share = 0;
  for (const demand::SpectrumBin& bin : bins)
    if (std::abs(bin.torque) > 2 * rated) share += bin.share;
  return share;
}

}  // namespace

Result<Json> LogExamination::result() const {
  const Result<demand::DutySpectrum> spectrum = log_.spectrum(job_.hours_per_day, job_.running_time);
  if (!spectrum) return spectrum.errors();
  constexpr double kMomentsOnly = 0.1;  // of the running time
  if (const double beyond = job_.rated > 0 ? share_beyond(spectrum->bins, job_.rated) : 0; beyond > kMomentsOnly)
    return input_error(
        "log", fmt::format("{:.0f} % of the running time", 100 * beyond),
        fmt::format("for so long the log says more than twice what a motor of {} can give: the plate, the "
                    "column or its unit is misread",
                    job_.plate));
  const demand::LogCounts& counts = log_.counts();
  const auto torque = [](double si) { return write(result::amount(si, Quantity::torque)); };
  Json bins = Json::array(), cycles = Json::array(), shocks = Json::array(), assumptions = Json::array(),
       questions = Json::array();
  for (const demand::SpectrumBin& bin : spectrum->bins)
    bins.push_back({{"torque", torque(bin.torque)}, {"of_running", bin.torque / job_.torque}, {"share", bin.share}});
  for (const demand::Cycle& cycle : spectrum->cycles)
    cycles.push_back({{"range", torque(cycle.range)}, {"mean", torque(cycle.mean)}, {"per_hour", cycle.count}});
  for (const demand::SpectrumShock& shock : spectrum->shocks)
    shocks.push_back({{"what", shock.what},
                      {"torque", torque(shock.torque)},
                      {"of_running", shock.torque / job_.torque},
                      {"per_year", shock.per_year}});
  for (const Assumption& assumption : spectrum->assumptions) assumptions.push_back(write(result::of(assumption)));
  for (const demand::Question& question : spectrum->questions) questions.push_back(question.text);
  return Json{{"counts",
               {{"rows", counts.rows},
                {"unreadable", counts.unreadable},
                {"out_of_order", counts.out_of_order},
                {"gaps", counts.gaps},
                {"starts", counts.starts},
                {"reversals", counts.reversals},
                {"running", write(result::amount(counts.running, Quantity::duration))},
                {"resting", write(result::amount(counts.resting, Quantity::duration))},
                {"highest", torque(counts.highest)},
                {"lowest", torque(counts.lowest)}}},
              {"running_torque", torque(job_.torque)},
              {"equivalent", torque(demand::equivalent_torque(spectrum->bins, kLifeExponent))},
              {"spectrum", std::move(bins)},
              {"cycles", std::move(cycles)},
              {"starts_per_hour", spectrum->starts_per_hour},
              {"reversals_per_hour", spectrum->reversals_per_hour},
              {"shocks", std::move(shocks)},
              {"assumptions", std::move(assumptions)},
              {"questions", std::move(questions)},
              {"duty", duty_json(*spectrum, job_.torque, job_.hours_per_day, job_.running_time)}};
}

}  // namespace lobewise::api
