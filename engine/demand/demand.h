#pragma once
// What a driven machine asks of the shaft that drives it.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/result.h"
#include "engine/base/working.h"

namespace lobewise::demand {

/// A figure with the range that the assumptions behind it leave open (all assumptions at their worst together).
struct Figure {
  double value = 0, low = 0, high = 0;
};

/// How a machine loads its drive: steadily, unevenly, or with blows.
enum class ShockClass { steady, uneven, striking };
[[nodiscard]] const char* to_string(ShockClass shock);

/// How evenly material reaches the machine.
enum class Feed { even, uneven, lumps };

/// Something a person must be told. The key is stable, so that one caution is shown once.
struct Caution {
  std::string key;
  std::string text;
};

/// How the machine stops when it jams.
struct Jam {
  bool sudden = false;                ///< an obstacle stops it at once; otherwise torque builds up over turns
  Coefficient angle;                  ///< turn of the driven shaft from contact to standstill [rad], an assumption
  std::optional<double> slip_torque;  ///< torque at which something slips first (belt on drum, wheel on rail) [N m]
  std::string text;
};

/// A question whose answer would narrow the figures.
struct Question {
  std::string path;
  std::string text;
  double influence = 0;  ///< largest change of running, starting or holding torque over the assumed range, share of the
                         ///< largest of them
};

/// The measurement that settles a load of which only the present motor's rating is known.
inline constexpr const char* kSettledByReading =
    "the motor's electric power, or its current beside the rated current, in the heaviest steady running";

/// All torques at the driven shaft, positive when the drive must push; speeds without sign.
struct Demand {
  Figure torque;           ///< steady running torque at full load [N m]
  Figure starting_torque;  ///< torque to break away and keep turning at full load, without accelerating masses [N m]
  std::optional<double> starting_in_time;  ///< torque while it starts as quickly as was asked for [N m]; empty: nobody
                                           ///< asked
  Figure speed;                            ///< [rad/s]
  Figure inertia;                          ///< of everything that moves, reduced to the driven shaft, full load [kg m2]
  Figure runback_torque;  ///< torque with which the load turns the shaft back when nothing drives or holds it; 0: holds
                          ///< itself [N m]
  Figure holding_torque;  ///< torque a backstop or brake at the driven shaft must hold, friction not credited [N m]
  Figure overhauling_torque;     ///< largest steady torque with which the load drives the shaft forward (lowering,
                                 ///< downhill) [N m]
  Figure radial_load;            ///< on the shaft at `radial_position` [N]
  Figure axial_load;             ///< along the shaft [N]
  double radial_position = 0;    ///< distance of the radial load from the shaft shoulder [m]
  double radial_per_torque = 0;  ///< radial load over torque at the reducer's shaft, for spectra [1/m]
  std::string shaft_load_open;   ///< what must be said before the load on the shaft is known; empty when it is
  ShockClass shock_class = ShockClass::steady;
  std::string shock_reason;
  std::string practice_machine;  ///< row of data/driven_machine_classes.csv that is nearest to it; empty: by class only
  Jam jam;
  std::vector<Caution> cautions;
  std::vector<Assumption> assumptions;
  std::vector<Question> questions;  ///< most worthwhile first
  /// The one measurement that would make a known load of one that is only bounded by the rating of the present drive;
  /// empty where the load is computed, measured or stated.
  std::string settled_by;
  Working working;
};

}  // namespace lobewise::demand
