#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Apron feeder under a hopper, also crusher feeder: rolling of pans, shear of the material drawn out, skirts, lift.
/// Structure after bin-load theory (Arnold, McLean, Roberts; from memory); its coefficients are common practice.
struct ApronFeeder {
  std::optional<double> width;              ///< between skirts [m] 0.2 … 5, required
  std::optional<double> length;             ///< between the shafts [m] 1 … 60, required
  std::optional<double> opening_length;     ///< of the hopper [m] 0.2 … 40, required
  std::optional<double> bed_height;         ///< [m] 0.05 … 3, required
  std::optional<double> density;            ///< bulk [kg/m3] 100 … 6000, required
  std::optional<double> speed;              ///< of the pans [m/s] 0.001 … 1, required
  std::optional<double> sprocket_diameter;  ///< pitch circle [m] 0.1 … 3, required
  std::optional<double> lift;               ///< [m] -10 … 30, default level
  std::optional<double> pan_mass;           ///< pans and chains, one run [kg/m] 10 … 5000, default 250 kg/m2 x width
  std::optional<double> rolling;            ///< pans on rollers 0.02 … 0.3, default 0.08
  std::optional<double> pressure_height;    ///< of material that presses in flow [m] 0.1 … 20, default the width
  std::optional<double> start_pressure;     ///< first-filling over flow pressure 1 … 6, default 2.5
  std::optional<double> shear;              ///< of the material drawn out 0.1 … 1, default 0.45
  std::optional<double> skirt_friction;     ///< 0.1 … 1, default 0.5
  std::optional<bool> feeds_crusher;        ///< default yes

  static constexpr MachineInfo kInfo{"apron_feeder", "Apron or crusher feeder",
                                     "Pan feeder that draws bulk from under a hopper."};
};

[[nodiscard]] Result<Demand> compute(const ApronFeeder& feeder);

}  // namespace lobewise::demand
