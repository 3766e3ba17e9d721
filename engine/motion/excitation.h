#pragma once
// What a cycloidal reducer shakes with, and how its discs balance. Orders count per revolution of the input shaft.
#include <string>
#include <vector>

#include "engine/base/formula/term.h"

namespace lobewise::motion {

/// What stands still.
enum class Fixed {
  ring,     ///< output pins drive the output: w_in/w_out = -N
  carrier,  ///< ring is the output: w_in/w_out = Z = N + 1
};

/// Stage as far as its rhythm goes.
struct ExcitationStage {
  int lobes = 0;  ///< N >= 2; ring rollers Z = N + 1
  int pins = 0;   ///< M output pins >= 3
  int discs = 2;  ///< n_d >= 1, spread evenly over the circle
  Fixed fixed = Fixed::ring;
};

/// Whether the same disturbance of all discs adds up in the sum of their forces.
enum class Sum { single, adds, cancels };

struct Excitation {
  std::string name;      ///< plain words
  double order = 0;      ///< per input revolution
  double frequency = 0;  ///< order times input frequency [Hz]
  Sum sum = Sum::single;
};

/// Frequencies of shafts, disc, mesh of lobes and rollers, and output pins.
///   ring held:    output and disc spin 1/N; disc on its eccentric Z/N; mesh m Z; pins m M Z/N      (m = 1, 2)
///   carrier held: ring 1/Z, disc spin 0; disc on its eccentric 1; mesh m N; pins m M
/// The pattern of mesh forces repeats whenever the crank passes one roller spacing relative to the ring.
/// Order m of the mesh adds up over n_d evenly spread discs when m Z (ring held as well as carrier held: phase
/// 2 pi m Z d/n_d of disc d) is a multiple of n_d, else it cancels: two discs mesh in phase for an odd lobe count,
/// opposed for an even one. The output pins alike with m M.
/// @param input_speed  >= 0 [rad/s]
/// Source: derived, docs/theory/motion.md. Checked by: tests/unit/motion/excitation_test.cc.
[[nodiscard]] std::vector<Excitation> stage_excitations(const ExcitationStage& stage, double input_speed);

/// Frequency of an order: order w_1/(2 pi) [Hz].
/// @param order  per revolution of the shaft that turns with w_1 [rad/s]
template <class X>
[[nodiscard]] X frequency_of_order(const X& order, const X& speed) {
  return order * speed / (2 * formula::pi<X>());
}

/// A rolling bearing: what one damaged part does per revolution of the inner ring relative to the outer.
struct BearingRhythm {
  double cage = 0;             ///< cage relative to the outer ring: (1 - g)/2
  double outer = 0;            ///< passes over a point of the outer ring: n (1 - g)/2
  double inner = 0;            ///< of the inner ring: n (1 + g)/2
  double rolling_element = 0;  ///< a spot of a roller strikes both rings: D_pw/D (1 - g^2)
};
/// g = D cos(a)/D_pw, pure rolling. Multiply with the relative speed: input bearings 1 per input revolution, eccentric
/// bearing Z/N (ring held) or 1 (carrier held), output bearings 1/N or 1/Z.
/// @param elements          n >= 1
/// @param element_diameter  D > 0, @param pitch_diameter D_pw > D [m]
/// @param contact_angle     a [rad]
/// Source: kinematics of rolling without slip (derived; the same forms stand in every text on bearing diagnosis).
template <class X>
struct RhythmOrders {
  X outer, inner, rolling_element;
};
/// The same by g, without the cage.
template <class X>
[[nodiscard]] RhythmOrders<X> rhythm_orders(const X& elements, const X& element_diameter, const X& pitch_diameter,
                                            const X& g) {
  return {elements * (X(1) - g) / X(2), elements * (X(1) + g) / X(2),
          pitch_diameter / element_diameter * (X(1) - g * g)};
}
[[nodiscard]] BearingRhythm bearing_rhythm(int elements, double element_diameter, double pitch_diameter,
                                           double contact_angle);

/// What stays unbalanced of n_d equal discs that circle on their eccentrics at equal distances along the shaft.
struct Unbalance {
  double force = 0;   ///< |sum m e w^2 exp(i th_d)| [N]; zero from two discs on
  double couple = 0;  ///< |sum m e w^2 z_d exp(i th_d)| about the middle [N m]; zero for one disc only
};
/// @param discs         n_d >= 1, at angles 2 pi d/n_d
/// @param mass          of one disc [kg]
/// @param eccentricity  e [m]
/// @param spacing       between the middles of neighbouring discs [m]
/// @param speed         of the crank [rad/s]
/// Source: derived. Checked by: tests/unit/motion/excitation_test.cc.
[[nodiscard]] Unbalance disc_unbalance(int discs, double mass, double eccentricity, double spacing, double speed);

}  // namespace lobewise::motion
