#pragma once
// Every part that a torque passes on its way from the motor to the machine, with the torque it bears. Theory:
// docs/theory/peaks.md.

#include <limits>
#include <string>
#include <vector>

#include "engine/drive/events.h"
#include "engine/drive/output_shaft.h"
#include "engine/strength/coefficients.h"
#include "engine/strength/shaft_key.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::drive {

enum class Part {
  lobes,              ///< contact of lobes and ring rollers
  holes,              ///< contact of output rollers and holes
  pins,               ///< bending of the output pins
  eccentric_bearing,  ///< C_0/P_0
  input_bearing,      ///< C_0/P_0
  input_shaft,        ///< at the seat of the eccentric
  inside_bearing,     ///< C_0/P_0
  outside_bearing,    ///< C_0/P_0
  shaft_seat,         ///< at the outside bearing, bending and torsion
  shaft_end,          ///< at its shoulder
  keyed_end,          ///< the same behind the keyway
  key,                ///< pressure on its less deep flank
  link,               ///< coupling, chain or belt, as stated
  feet,               ///< bolts
  flange,             ///< bolts
};

/// Torques are those at the output shaft.
struct PathPart {
  Part part = Part::lobes;
  std::size_t stage = 0;                                  ///< of a part of a mesh
  double marks = 0;                                       ///< permanent marks begin (static safety 1) [N m]
  double routine = 0;                                     ///< borne in every start [N m]
  double solved_to = std::numeric_limits<double>::max();  ///< torque up to which its mesh was solved [N m]
  /// Of bolts under a pull: the same should the pull of the link lift the unit off its base, which nobody said; else 0.
  /// Above it points along the base.
  double marks_lifted = 0, routine_lifted = 0;
};
/// Plain words, `output pins of the first stage`.
[[nodiscard]] std::string label(const PathPart& part, const Drive& drive);

/// Static safety of rolling contacts, their bearings and the input shaft in planned running (marks: 1). Pins, output
/// shaft and key may reach their yield there: what they bear often is judged by its number.
inline constexpr double kRoutineSafety = strength::kStaticSafetyNormal;
/// Yield strength of the input shaft at the eccentric [Pa].
inline constexpr Coefficient kInputShaftYield{450e6, 350e6, 650e6, "common practice, no source: quenched and tempered"};

/// The parts in a fixed order, from the motor's side of the last stage to the base. A part that nothing describes is
/// not among them: `not_described`.
[[nodiscard]] std::vector<PathPart> torque_path(const Drive& drive, const Transmission& passed);
/// What the range or the enquiry does not describe and so is not judged, plain words.
[[nodiscard]] std::vector<std::string> not_described(const Drive& drive);

// What the limits are made of, for the workings.

/// Static figures of an output bearing under torque: F_r = radial T, F_a = axial + induced T.
struct BearingStatics {
  double rating = 0;                          ///< C_0 [N]
  double radial = 0, axial = 0, induced = 0;  ///< [1/m], [N], [1/m]
  double X_0 = 1, Y_0 = 0;                    ///< of ISO 76
};
[[nodiscard]] BearingStatics statics_of(const Drive& drive, Part bearing);
/// Bending and diameter of a section of the output shaft.
struct PathSection {
  double bending = 0;   ///< moment over torque
  double diameter = 0;  ///< that carries [m]
};
[[nodiscard]] PathSection section_of(const Drive& drive, Part section);
/// Key as the range describes it.
[[nodiscard]] strength::ParallelKey key_of(const range::OutputShaft& shaft);
/// Pull of the link over torque [1/m].
[[nodiscard]] double pull_of(const Drive& drive);
/// From an input bearing to the middle of the disc beside it [m].
[[nodiscard]] double input_lever(const range::Stage& stage);
/// Von Mises stress of the input shaft at the eccentric [Pa].
/// @param force  largest of a disc on its eccentric [N]  @param torque  of the shaft [N m]
[[nodiscard]] double input_shaft_stress(const range::Stage& stage, double force, double torque);
/// Reaction on the base over torque of the output shaft: the input turns the other way, its torque adds.
[[nodiscard]] double reaction_of(const Drive& drive);
/// Share of a pull that stretches the bolt next to the shaft end: along the base by its height, away from it by its
/// distance from the holes behind; onto it not at all.
[[nodiscard]] double foot_lever(const Drive& drive, enquiry::PullDirection pull);
/// Bending of an output pin under a unit force of a disc [Pa/N].
[[nodiscard]] double pin_stress_per_force(const range::Stage& stage, int disc);

}  // namespace lobewise::drive
