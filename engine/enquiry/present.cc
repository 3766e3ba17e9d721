#include "engine/enquiry/present.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/demand/nameplate.h"

namespace lobewise::enquiry {
namespace {

constexpr const char* kPractice = "common practice, no source";
/// Of a train of which nothing is known; as machine.measured takes it.
constexpr Coefficient kTrain{0.90, 0.75, 0.96, kPractice};
/// Slip of a cage motor at its rating. Common practice, no source; small motors reach the upper end.
constexpr Coefficient kSlip{0.03, 0.01, 0.08, kPractice};
constexpr double kMostSlip = 0.15;  ///< of any plate; common practice, no source

std::string shown(double si, Quantity quantity) { return format_quantity(si, quantity, UnitSystem::si); }

double synchronous_speed(double frequency, int poles) { return 4 * kPi * frequency / poles; }

/// Speed of the motor on its plate. Behind a belt the unit's input turns more slowly than the motor.
std::optional<double> motor_speed(const Enquiry& e) {
  if (e.supply && e.supply->motor_speed) return e.supply->motor_speed;
  if (e.incumbent && !e.incumbent->belt_ratio) return e.incumbent->input_speed;
  return std::nullopt;
}

struct Said {
  double value = 0;
  const char* path = "";
};
/// Plate of the motor that runs the machine today, with the field that holds it.
std::optional<Said> motor_power(const Enquiry& e) {
  if (e.incumbent && e.incumbent->motor_power) return Said{*e.incumbent->motor_power, "incumbent.motor_power"};
  if (e.supply && e.supply->motor_power) return Said{*e.supply->motor_power, "supply.motor_power"};
  return std::nullopt;
}

/// A measured drive behind a unit of known kind. What the train passes on depends on the torque, which depends on it:
/// repeated until it stays, which two rounds do within a thousandth (losses change slowly with load).
Result<demand::Demand> measured_behind(const Enquiry& e) {
  demand::MeasuredDrive drive = *e.machine.measured;
  Result<demand::Demand> demand = demand::compute(drive);
  constexpr int kRounds = 3;
  for (int round = 0; round < kRounds && demand && demand->torque.value > 0; ++round) {
    const double speed = demand->speed.value;
    drive.train =
        present_train(e, demand->torque.value, speed, drive.rated_speed.value_or(motor_speed(e).value_or(speed)));
    if (!drive.train) break;
    demand = demand::compute(drive);
  }
  return demand;
}

/// Speeds on the plates: of the motor, of the output shaft.
struct PlateSpeeds {
  std::optional<double> input, output;
  bool input_said = false, ratio_said = false;
};
PlateSpeeds plate_speeds(const Enquiry& e) {
  PlateSpeeds out;
  const Supply supply = e.supply.value_or(Supply{});
  const Incumbent in = e.incumbent.value_or(Incumbent{});
  out.input = motor_speed(e);
  out.input_said = out.input.has_value();
  out.output = in.output_speed;
  if (!out.input && out.output && in.ratio) out.input = *out.output * *in.ratio;
  if (!out.input && (supply.poles || out.output))
    out.input = (1 - kSlip.nominal) *
                synchronous_speed(supply.frequency.value_or(usual_frequency(supply)), supply.poles.value_or(4));
  if (!out.output && in.ratio && out.input) {
    out.output = *out.input / *in.ratio;
    out.ratio_said = true;
  }
  return out;
}

Result<demand::Demand> demand_of_plates(const Enquiry& e) {
  const PlateSpeeds speeds = plate_speeds(e);
  const Incumbent in = e.incumbent.value_or(Incumbent{});
  const std::optional<Said> motor = motor_power(e);
  std::optional<double> power = motor ? std::optional(motor->value) : in.rated_power;
  const bool by_torque = !power && in.rated_torque;
  std::string missing;
  const auto need = [&](bool there, const char* what) {
    if (!there) missing += (missing.empty() ? "" : "; ") + std::string(what);
  };
  const bool none = !power && !by_torque && !speeds.output;
  need(power || by_torque, "power (supply.motor_power, incumbent.motor_power or incumbent.rated_power)");
  need(speeds.output.has_value(), speeds.input
                                      ? "incumbent.ratio or incumbent.output_speed"
                                      : "speed (supply.motor_speed or incumbent.input_speed) with incumbent.ratio, or "
                                        "incumbent.output_speed");
  if (!missing.empty())
    return input_error("machine", "",
                       fmt::format("Say what is driven: exactly one machine. {}: {}.",
                                   none ? "Where nobody can describe it, the plates of the present drive serve"
                                        : "The plates of the present drive would serve, but there is missing",
                                   missing));
  demand::Plates plates;
  plates.output_speed = *speeds.output;
  plates.input_speed = *speeds.input;
  plates.ratio_said = speeds.ratio_said;
  plates.efficiency = kTrain;
  plates.power = power.value_or(by_torque ? *in.rated_torque * *speeds.output / kTrain.nominal : 0);
  constexpr int kRounds = 3;
  for (int round = 0; round < kRounds; ++round) {
    const double torque = demand::rated_output_torque(plates.power, plates.efficiency.nominal, plates.output_speed);
    const std::optional<Coefficient> train = present_train(e, torque, plates.output_speed, plates.input_speed);
    if (!train) break;
    plates.efficiency = *train;
    if (by_torque) plates.power = *in.rated_torque * plates.output_speed / train->nominal;
  }
  Result<demand::Demand> demand = demand::compute(plates);
  if (demand && !speeds.input_said && speeds.ratio_said) {
    const double speed = *speeds.input;
    demand->assumptions.push_back({"supply.motor_speed", "Speed of the motor taken from its poles and a usual slip.",
                                   speed, speed * (1 - kSlip.high) / (1 - kSlip.nominal),
                                   speed * (1 - kSlip.low) / (1 - kSlip.nominal), Quantity::angular_speed, kPractice});
    demand->questions.push_back({"supply.motor_speed", "What speed does the motor's plate say?", 0.1});
  }
  return demand;
}

/// Whether a plate may say this speed.
bool runs(double speed, double frequency, int poles) {
  const double synchronous = synchronous_speed(frequency, poles);
  return speed < synchronous && speed > (1 - kMostSlip) * synchronous;
}
bool runs(double speed, double frequency) {
  constexpr int kPoles[] = {2, 4, 6, 8, 10, 12};
  return std::any_of(std::begin(kPoles), std::end(kPoles), [&](int poles) { return runs(speed, frequency, poles); });
}

void check_motor_speed(const Enquiry& e, Errors& errors) {
  if (!e.supply || !e.supply->motor_speed || !e.supply->frequency) return;
  const double speed = *e.supply->motor_speed, frequency = *e.supply->frequency;
  const std::optional<int>& poles = e.supply->poles;
  if (poles ? runs(speed, frequency, *poles) : runs(speed, frequency)) return;
  std::string fits;
  for (const double hertz : {50.0, 60.0})
    for (const int p : {2, 4, 6, 8})
      if (fits.empty() && runs(speed, hertz, p)) fits = fmt::format("; it is one of {} poles at {:.0f} Hz", p, hertz);
  errors.push_back(input_error(
      "supply.motor_speed", shown(speed, Quantity::angular_speed),
      poles ? fmt::format("a motor of {} poles (supply.poles) at {} (supply.frequency) runs a little below {}{}",
                          *poles, shown(frequency, Quantity::frequency),
                          shown(synchronous_speed(frequency, *poles), Quantity::angular_speed), fits)
            : fmt::format("no plate of a motor says that at {} (supply.frequency){}",
                          shown(frequency, Quantity::frequency), fits)));
}

void check_speeds(const Incumbent& in, Errors& errors, std::vector<demand::Question>& doubts) {
  if (!in.ratio || !in.input_speed || !in.output_speed) return;
  constexpr double kReading = 0.03, kImpossible = 0.10;  // plates round; beyond a tenth one of them is another unit's
  const double belt = in.belt_ratio.value_or(1);
  // With a belt in front the plate's input may be either side of it.
  const double off = std::min(std::abs(*in.input_speed / *in.output_speed / *in.ratio - 1),
                              std::abs(*in.input_speed * belt / *in.output_speed / *in.ratio - 1));
  if (off <= kReading) return;
  const std::string words =
      fmt::format("{} (incumbent.input_speed) over {} (incumbent.output_speed) is {}, not {} (incumbent.ratio)",
                  shown(*in.input_speed, Quantity::angular_speed), shown(*in.output_speed, Quantity::angular_speed),
                  format_number(*in.input_speed / *in.output_speed, 3), format_number(*in.ratio, 3));
  if (off > kImpossible)
    errors.push_back(
        input_error("incumbent.ratio", format_number(*in.ratio, 4), words + ": one of the three is misread"));
  else
    doubts.push_back({"incumbent.ratio", "Which is right: " + words + "?", 0.3});
}

/// Power on the plate against torque times speed. A unit loses at most two thirds; a plate that promises more torque
/// than its power gives may be that of a unit chosen with a service factor, but not threefold.
void check_power(const Incumbent& in, Errors& errors, std::vector<demand::Question>& doubts) {
  std::optional<double> speed = in.output_speed;
  if (!speed && in.input_speed && in.ratio) speed = *in.input_speed / *in.ratio;
  if (!speed || !in.rated_power || !in.rated_torque) return;
  constexpr double kWorst = 0.3, kImpossible = 0.1, kService = 1.1, kThreefold = 3;
  const double arrives = *in.rated_torque * *speed / *in.rated_power;
  if (arrives >= kWorst && arrives <= kService) return;
  const std::string words =
      fmt::format("{} (incumbent.rated_torque) at {} ({}) is {}, and the plate says {} (incumbent.rated_power)",
                  shown(*in.rated_torque, Quantity::torque), shown(*speed, Quantity::angular_speed),
                  in.output_speed ? "incumbent.output_speed" : "incumbent.input_speed over incumbent.ratio",
                  shown(*in.rated_torque * *speed, Quantity::power), shown(*in.rated_power, Quantity::power));
  if (arrives < kImpossible || arrives > kThreefold)
    errors.push_back(input_error("incumbent.rated_torque", shown(*in.rated_torque, Quantity::torque),
                                 words + ": one of them is misread"));
  else
    doubts.push_back({"incumbent.rated_torque", "Which is right: " + words + "?", 0.4});
}

void check_incumbent(const Incumbent& in, Errors& errors, std::vector<demand::Question>& doubts) {
  check_speeds(in, errors, doubts);
  check_power(in, errors, doubts);
  if (in.running_time && in.age && *in.running_time > *in.age)
    errors.push_back(input_error("incumbent.running_time", shown(*in.running_time, Quantity::duration),
                                 fmt::format("it cannot have run longer than it stands there: {} (incumbent.age)",
                                             shown(*in.age, Quantity::age))));
  if (in.belt_ratio && in.ratio && *in.belt_ratio > *in.ratio)
    errors.push_back(input_error("incumbent.belt_ratio", format_number(*in.belt_ratio, 4),
                                 fmt::format("the ratio of the whole unit holds that of its belt: {} (incumbent.ratio)",
                                             format_number(*in.ratio, 4))));
  constexpr double kTooSmall = 3;  // a motor is chosen above its unit's plate by a step or two, not threefold
  if (in.motor_power && in.rated_power && *in.motor_power > kTooSmall * *in.rated_power)
    doubts.push_back({"incumbent.rated_power",
                      fmt::format("Which is right: a motor of {} (incumbent.motor_power) on a unit whose plate says {} "
                                  "(incumbent.rated_power)?",
                                  shown(*in.motor_power, Quantity::power), shown(*in.rated_power, Quantity::power)),
                      0.4});
}

/// Current on the plate against power and voltage.
void check_current(const Enquiry& e, Errors& errors) {
  const auto& m = e.machine.measured;
  if (!m || !m->rated_current || !m->rated_power || !e.supply || !e.supply->voltage) return;
  const double cos_phi = m->power_factor.value_or(0.83), eta = m->efficiency.value_or(0.9);
  const double current = *m->rated_power / (std::sqrt(3.0) * *e.supply->voltage * cos_phi * eta);
  constexpr double kTwofold = 2;  // another connection is sqrt(3) away, a small motor's power factor as much
  if (*m->rated_current<kTwofold * current&& * m->rated_current> current / kTwofold) return;
  errors.push_back(input_error(
      "machine.measured.rated_current", shown(*m->rated_current, Quantity::current),
      fmt::format(
          "a three-phase motor of {} (machine.measured.rated_power) at {} (supply.voltage) is rated for about {}",
          shown(*m->rated_power, Quantity::power), shown(*e.supply->voltage, Quantity::voltage),
          shown(current, Quantity::current))));
}

}  // namespace

std::optional<Coefficient> present_train(const Enquiry& e, double torque, double output_speed, double input_speed) {
  if (!e.incumbent) return std::nullopt;
  const Incumbent& in = *e.incumbent;
  if (in.efficiency) return Coefficient{*in.efficiency, *in.efficiency, *in.efficiency, "stated"};
  if (!in.kind) return std::nullopt;
  incumbent::UnitDuty duty;
  duty.output_torque = torque;
  duty.output_speed = output_speed;
  duty.input_speed = input_speed;
  if (e.wishes && e.wishes->service_factor) duty.service_factor = std::clamp(*e.wishes->service_factor, 1.0, 4.0);
  duty.service_time = e.wishes && e.wishes->life ? *e.wishes->life : kUsualLife;
  if (e.site && e.site->ambient_high) duty.ambient = *e.site->ambient_high;
  const Result<incumbent::GearUnit> unit = incumbent::gear_unit(unit_in_service(in), duty);
  if (!unit) return std::nullopt;
  return Coefficient{unit->efficiency.nominal, unit->efficiency.low, unit->efficiency.high,
                     "model of the drive in service, docs/theory/incumbent.md"};
}

Errors contradictions(const Enquiry& enquiry) {
  Errors errors;
  std::vector<demand::Question> doubtful;
  check_motor_speed(enquiry, errors);
  if (enquiry.incumbent) check_incumbent(*enquiry.incumbent, errors, doubtful);
  check_current(enquiry, errors);
  return errors;
}

std::vector<demand::Question> doubts(const Enquiry& enquiry) {
  Errors errors;
  std::vector<demand::Question> out;
  if (enquiry.incumbent) check_incumbent(*enquiry.incumbent, errors, out);
  return out;
}

double usual_frequency(const Supply& supply) {
  const bool us = supply.motor_speed && runs(*supply.motor_speed, 60) && !runs(*supply.motor_speed, 50);
  return us ? 60 : 50;
}

bool by_plates(const Enquiry& enquiry) { return !demand::described(enquiry.machine); }

Result<demand::Demand> demand_of(const Enquiry& enquiry) {
  if (by_plates(enquiry)) return demand_of_plates(enquiry);
  const std::optional<demand::MeasuredDrive>& measured = enquiry.machine.measured;
  if (measured && !measured->train_efficiency && !measured->measured_torque) return measured_behind(enquiry);
  return demand::compute(enquiry.machine);
}

void bound_by_present(const Enquiry& enquiry, demand::Demand& demand) {
  const std::optional<Said> power = motor_power(enquiry);
  if (!enquiry.incumbent || !power || by_plates(enquiry) || enquiry.machine.measured) return;
  const Incumbent& in = *enquiry.incumbent;
  if (!in.runs_now.value_or(true)) return;
  const PlateSpeeds speeds = plate_speeds(enquiry);
  const double output_speed = speeds.output.value_or(demand.speed.value);
  const Coefficient train =
      present_train(enquiry, demand.torque.value, output_speed, speeds.input.value_or(output_speed)).value_or(kTrain);
  using namespace formula;
  const Term rated =
      demand::rated_output_torque<Term>(input("P_n", "plate of the motor", power->value, Quantity::power),
                                        input("eta", "present train at its best", train.high, Quantity::share),
                                        input("w_2", "output speed", output_speed, Quantity::angular_speed));
  const double most = kRelayTrips * rated.value();
  demand::Figure& torque = demand.torque;
  if (torque.high <= most) return;
  const auto ask = [&](std::string text, double influence) {
    demand.questions.push_back({"incumbent.runs_now", std::move(text), influence});
  };
  if (torque.low > most) {
    ask(fmt::format(
            "The machine would ask for {} at least, and the motor that runs it today ({}, {}) gives {} for hours: "
            "which is misread, the machine, the plate, or does it not run at this load today?",
            shown(torque.low, Quantity::torque), shown(power->value, Quantity::power), power->path,
            shown(most, Quantity::torque)),
        1);
    return;
  }
  const bool lowered = torque.value > most;
  if (lowered)
    record(demand.working, "T_now", "running torque, bounded by the motor that carries it today", Quantity::torque,
           min(input("T", "by the machine's assumed figures", torque.value, Quantity::torque),
               input("k_r", "an overload relay trips at", kRelayTrips) *
                   named("T_r", "rated torque of the present drive at its output", Quantity::torque, rated,
                         "derived, docs/theory/machines.md")),
           "from memory: IEC 60947-4-1");
  torque.value = std::min(torque.value, most);
  torque.high = most;
  if (!lowered) return;
  demand.settled_by = demand::kSettledByReading;
  if (!in.runs_now)
    ask("Does what stands there start and carry this full load today? Its motor bounds what was assumed of the "
        "machine.",
        0.6);
}

}  // namespace lobewise::enquiry
