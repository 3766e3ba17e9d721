#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Bucket elevator, belt or chain. P = g Q (H + H0) k with H0 the equivalent digging height of the boot and k the
/// losses at head and boot (common practice; equivalent-height method of the US elevator handbook draft).
struct BucketElevator {
  std::optional<double> mass_flow;       ///< [kg/s] 0 … 1000, required
  std::optional<double> lift;            ///< between head and boot shaft [m] 1 … 200, required
  std::optional<double> speed;           ///< of the buckets [m/s] 0.1 … 6, required
  std::optional<double> head_diameter;   ///< pitch or belt diameter at the head [m] 0.1 … 3, required
  std::optional<double> digging_height;  ///< equivalent height of scooping [m] 0 … 20, default 3
  std::optional<double> losses;          ///< factor for bending and bearings at head and boot 1 … 2, default 1.1
  std::optional<double> strand_mass;     ///< belt or chain with buckets, one leg, empty [kg/m] 1 … 500, default 25
  std::optional<double> boot_factor;     ///< digging force at start over running, boot full 1 … 6, default 2
  std::optional<Feed> feed;              ///< default uneven

  static constexpr MachineInfo kInfo{"bucket_elevator", "Bucket elevator",
                                     "Belt or chain elevator, discharging by centrifugal force or gravity."};
};

[[nodiscard]] Result<Demand> compute(const BucketElevator& elevator);

}  // namespace lobewise::demand
