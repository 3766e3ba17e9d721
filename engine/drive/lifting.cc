#include "engine/drive/lifting.h"

#include <fmt/format.h>

#include "engine/base/formula/record.h"

namespace lobewise::drive {

Lifted lifted(const Drive& drive) {
  const double unit = drive.build.mass();
  Lifted out{{unit, unit, unit, "the range"}, std::nullopt, {}};
  if (!drive.motor) return out;
  const Coefficient motor = typical_mass(drive.motor->rated_power);
  out.mass = {unit + motor.nominal, unit + motor.low, unit + motor.high, motor.source};
  const formula::Term m_1 = formula::input("m_1", "reducer", unit, Quantity::mass);
  const formula::Term m_2 = formula::input("m_2", "motor, estimated", motor.nominal, Quantity::mass);
  const formula::Term length =
      formula::input("L_1", "reducer, shoulder to motor face", drive.build.length(), Quantity::length);
  const formula::Term motor_length =
      formula::input("L_2", "motor, estimated", typical_length(*drive.motor).nominal, Quantity::length);
  formula::record(out.working, "m", "mass with its motor", Quantity::mass, m_1 + m_2, motor.source);
  out.centre = formula::record(out.working, "x_m", "centre of mass from the shoulder of the output shaft",
                               Quantity::length, common_centre(m_1, length / 2, m_2, length + motor_length / 2),
                               "derived; both bodies with their centre in the middle: common practice, no source")
                   .value();
  return out;
}

std::string lifting_words(const Lifted& lifted) {
  const auto both = [](double value, Quantity quantity) {
    return fmt::format("{} ({})", format_quantity(value, quantity, UnitSystem::si),
                       format_quantity(value, quantity, UnitSystem::us));
  };
  if (!lifted.centre)
    return fmt::format("It weighs {}: lift it by slings at the reducer, and never by the eyebolt of a motor.",
                       both(lifted.mass.nominal, Quantity::mass));
  return fmt::format(
      "With its motor it weighs about {}, up to {} with a heavy one. Sling it at the reducer's feet or flange, two "
      "slings on either side of its centre of mass, {} from the shoulder of the output shaft; the motor's eyebolt "
      "lifts "
      "the motor alone, never the unit.",
      both(lifted.mass.nominal, Quantity::mass), both(lifted.mass.high, Quantity::mass),
      both(*lifted.centre, Quantity::length));
}

}  // namespace lobewise::drive
