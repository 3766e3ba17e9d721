#pragma once
// What shakes a drive in torsion, from the mains to the machine, and how far its natural frequency stands from that.
// Theory: docs/theory/motion.md.

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/formula/term.h"
#include "engine/drive/drive.h"

namespace lobewise::drive {

/// When it shakes.
enum class Lasting {
  running,  ///< as long as it runs: a resonance there builds up
  start,    ///< for some periods of a start
};

struct TorsionalExcitation {
  std::string name;  ///< plain words
  double order = 0;  ///< per revolution of the input shaft; 0: the mains
  double low = 0;    ///< frequency [Hz] > 0; at the lowest speed of the inverter, the fewest teeth that are usual
  double high = 0;   ///< at the highest, the most
  Lasting lasting = Lasting::running;
  bool said = true;  ///< false: teeth or the inverter's range were taken
  std::string source;
  /// What `low` and `high` come to be where there is no one order: orders per input revolution, fewest and most teeth,
  /// and speeds of the inverter over the one at which it is judged. All 0 for the mains.
  double fewest = 0, most = 0, slowest = 0, fastest = 0;
};

/// Per input revolution: unbalance and misalignment of the input (1, 2) and of the output (1/i, 2/i at a coupling),
/// which no disc cancels; of every stage what its discs do not cancel (motion::stage_excitations); teeth of chain, belt
/// or pinion on the output shaft z/i; pulses of the machine; on the mains f and 2 f while it starts. An inverter turns
/// all orders over its range. Source: derived, docs/theory/motion.md.
[[nodiscard]] std::vector<TorsionalExcitation> torsional_excitations(const Drive& drive);

/// |f_n/f - 1|.
template <class X>
[[nodiscard]] X distance_from(const X& natural_frequency, const X& frequency) {
  using namespace formula;
  return abs(natural_frequency / frequency - 1);
}
/// To the nearer end of what it sweeps; 0 inside.
[[nodiscard]] double distance(double natural_frequency, const TorsionalExcitation& excitation);

/// How many times what shakes it a drive swings, damping set apart: 1/|1 - (f/f_n)^2|. Source: any text on vibration.
[[nodiscard]] inline double swelling(double frequency, double natural_frequency) {
  const double share = frequency / natural_frequency;
  return 1 / std::abs(1 - share * share);
}

/// Stiffness of a link in a row with a drive of k and f_n that brings it to f: k_L = k x/(1 - x), x = (f/f_n)^2 < 1.
/// Source: derived: stiffness in a row, f^2 in proportion to it.
template <class X>
[[nodiscard]] X link_that_gives(const X& stiffness, const X& natural_frequency, const X& frequency) {
  const X x = frequency * frequency / (natural_frequency * natural_frequency);
  return stiffness * x / (1 - x);
}

/// Stiffness at the output between two that a link in a row must not have: it would bring the natural frequency of the
/// drive, f_n with everything outside rigid, within `clear` of an excitation.
struct ForbiddenStiffness {
  double soft = 0;              ///< [N m/rad]
  std::optional<double> stiff;  ///< nothing: any stiffer one
};
/// Nothing: no link in a row does that, it only lowers the frequency.
/// @param natural_frequency  f_n [Hz]  @param stiffness  k of the drive alone [N m/rad]
/// @param clear              distance to be kept, share of the excitation's frequency
[[nodiscard]] std::optional<ForbiddenStiffness> forbidden_stiffness(double natural_frequency, double stiffness,
                                                                    const TorsionalExcitation& excitation,
                                                                    double clear);

/// Stiffness over the working torque [1/rad] of the softest link that is usual (rubber couplings), and of one as good
/// as rigid. Common practice, no source.
inline constexpr double kSoftestLink = 10, kStiffestLink = 1e5;
/// Of a link that nobody described: rigid is taken, it may be as soft as the softest.
inline constexpr Coefficient kLinkSoftness{0, 0, 4, "common practice, no source"};
/// Its stiffness, kStiffestLink T 10^-softness; nothing when it is rigid [N m/rad].
[[nodiscard]] std::optional<double> link_stiffness(const Drive& drive, double softness);
/// Usual teeth of a wheel on the output shaft. Common practice, no source.
struct UsualTeeth {
  double fewest = 0, most = 0;
};
inline constexpr UsualTeeth kChainTeeth{15, 45}, kToothedBelt{15, 60}, kPinionTeeth{15, 40};

}  // namespace lobewise::drive
