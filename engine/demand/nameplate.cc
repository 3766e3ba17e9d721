#include "engine/demand/nameplate.h"

#include "engine/base/formula/record.h"
#include "engine/demand/machines/measured_drive.h"

namespace lobewise::demand {

Result<Demand> compute(const Plates& plates) {
  MeasuredDrive drive;
  drive.rated_power = plates.power;
  drive.rated_speed = plates.input_speed;
  drive.speed = plates.output_speed;
  drive.train = plates.efficiency;
  Result<Demand> demand = compute(drive);
  if (!demand) return demand;
  using namespace formula;
  Working plate;
  const Term input_speed = input("w_1", "motor's plate", plates.input_speed, Quantity::angular_speed);
  Term output_speed = input("w_2", "plate of the unit", plates.output_speed, Quantity::angular_speed);
  if (plates.ratio_said) {
    const Term ratio = input("i", "ratio on the plate", plates.input_speed / plates.output_speed);
    record(plate, "w_2", "output speed", Quantity::angular_speed, input_speed / ratio, kDerived);
    output_speed = input("w_2", "output speed", plates.output_speed, Quantity::angular_speed);
  }
  record(plate, "T_r", "rated torque of the present drive at its output: no more is carried for hours",
         Quantity::torque,
         rated_output_torque<Term>(input("P_n", "plate", plates.power, Quantity::power),
                                   input("eta", "present train", plates.efficiency.nominal, Quantity::share),
                                   output_speed),
         kDerived);
  demand->working.insert(demand->working.begin(), plate.begin(), plate.end());
  demand->assumptions.insert(
      demand->assumptions.begin(),
      {"machine", "Nobody described the machine: it is taken to ask for the rating of what drives it today.",
       demand->torque.value, demand->torque.low, demand->torque.high, Quantity::torque, kCommonPractice});
  return demand;
}

}  // namespace lobewise::demand
