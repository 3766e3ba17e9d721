#pragma once
// What an engineer writes down at the customer's machine. Nearly everything may be left out; what is taken instead is
// an assumption with a range (requirement.h).

#include <optional>
#include <string>
#include <vector>

#include "engine/demand/connection.h"
#include "engine/demand/duty.h"
#include "engine/demand/machines/registry.h"
#include "engine/enquiry/economics.h"
#include "engine/enquiry/explosive.h"
#include "engine/enquiry/incumbent.h"
#include "engine/model/describe.h"

namespace lobewise::enquiry {

enum class Place { indoors, outdoors_shaded, outdoors_sun };

struct Site {
  std::optional<double> ambient_low;   ///< [K]
  std::optional<double> ambient_high;  ///< [K]
  std::optional<double> altitude;      ///< [m]
  std::optional<double> air_speed;     ///< over the housing [m/s]
  std::optional<Place> place;
  std::optional<bool> washed_down;
  std::optional<bool> dusty;
  std::optional<bool> food_area;
  std::optional<bool> explosive_atmosphere;
  std::optional<Explosive> explosive;  ///< its particulars
};

/// Intermittent duty: it runs, rests, and begins again.
struct Cycle {
  double run_time = 0;   ///< [s]
  double rest_time = 0;  ///< [s]
};

/// Where the pull of a chain, belt or pinion points, seen from the base of the reducer.
enum class PullDirection { along, toward, away };

/// What joins the output shaft to the driven shaft; a coupling when left out.
/// Where the axial force on the output shaft points.
enum class AxialDirection { out_of_unit, into_unit };

struct Connection {
  std::optional<demand::Link> link;
  std::optional<double> pitch_diameter;  ///< of the wheel on the output shaft [m]
  std::optional<double> ratio;           ///< driven wheel over this wheel
  std::optional<double> efficiency;      ///< of chain, belt or mesh
  std::optional<double> position;        ///< of the radial force, from the shaft shoulder [m]
  std::optional<double> radial_force;    ///< stated; rules over what the link gives [N]
  std::optional<double> axial_force;     ///< [N]
  std::optional<PullDirection> pull;
  std::optional<double> largest_torque;  ///< that coupling, chain or belt bears for a moment, by its own data [N m]
  std::optional<double> stiffness;       ///< of coupling, chain or belt in torsion, at the output shaft [N m/rad]
  std::optional<int> teeth;              ///< of the wheel on the output shaft
  std::optional<int> machine_pulses;     ///< blades, lobes or buckets of the machine, per turn of its shaft
  std::optional<AxialDirection> axial_direction;
};

enum class Starting { direct, star_delta, soft_starter, inverter };
enum class EfficiencyClass { ie1, ie2, ie3, ie4 };

/// Electric supply and motor, standing or wanted.
struct Supply {
  std::optional<double> frequency;  ///< [Hz]
  std::optional<double> voltage;    ///< [V]
  std::optional<Starting> starting;
  std::optional<double> motor_power;  ///< nameplate, when the motor is given [W]
  std::optional<double> motor_speed;  ///< nameplate [rad/s]
  std::optional<int> poles;
  std::optional<EfficiencyClass> efficiency_class;
  std::optional<double> inverter_low, inverter_high;  ///< frequency range [Hz]
  std::optional<double> coupling_stiffness;           ///< of a coupling between motor and reducer [N m/rad]
};

enum class Units { si, us };

enum class MountingKind { foot, flange };
enum class Orientation { horizontal, output_down, output_up };

struct Mounting {
  std::optional<MountingKind> kind;
  std::optional<Orientation> orientation;
  std::optional<double> max_length, max_width, max_height;  ///< room there is [m]
  std::optional<double> lifting;                            ///< what the hoist above it lifts [kg]
};

struct Wishes {
  std::optional<double> life;             ///< hours of service asked for [s]
  std::optional<double> reliability;      ///< share that must reach it
  std::optional<double> speed_tolerance;  ///< of the driven speed, share
  std::optional<double> service_factor;   ///< asked for by the customer
  std::optional<double> unit_share;       ///< share of the units made that must hold every promise
};

/// The build to prove; the best candidate when absent.
struct BuildChoice {
  std::string frame;
  std::optional<int> lobes;  ///< of the (second) stage
  std::string first_frame;   ///< two-stage builds
  std::optional<int> first_lobes;
};

struct Enquiry {
  std::string title;
  std::string customer;
  std::string note;
  std::optional<Units> units;  ///< in which reports are written
  demand::DrivenMachine machine;
  std::optional<demand::Duty> duty;
  std::optional<Cycle> cycle;
  std::optional<Site> site;
  std::optional<Connection> connection;
  std::optional<Supply> supply;
  std::optional<Mounting> mounting;
  std::optional<Wishes> wishes;
  std::optional<BuildChoice> build;
  std::optional<Incumbent> incumbent;
  std::optional<Economics> economics;
};

}  // namespace lobewise::enquiry

namespace lobewise::model {
template <>
const RecordType& describe<enquiry::Enquiry>();
}  // namespace lobewise::model
