#pragma once
// What presses on a stage at one solved crank angle, contact by contact: the lists that let a reader see the
// equilibrium close. Contacts that carry nothing are left out.
#include <vector>

namespace lobewise::contact {

/// Contacts of one kind on one disc. Law of each: approach = F (local - logarithmic ln(F/N)) + bent.
struct PressedContacts {
  std::vector<double> force;     ///< F > 0 [N]
  std::vector<double> arm;       ///< of the force about the disc centre [m]
  std::vector<double> radius;    ///< 1 / sum of curvatures [m]
  std::vector<double> approach;  ///< that the pose of the disc asks for [m]
  std::vector<double> local;     ///< linear share of the contact's own law [m/N]
  double logarithmic = 0;        ///< its logarithmic share, one for all [m/N]
  std::vector<double> bent;      ///< what the disc's body gives there under all its forces; zero for a rigid one [m]
};

struct Equilibrium {
  double crank_angle = 0;  ///< of the shaft [rad]
  PressedContacts ring, pins;
  std::vector<double> output_force;  ///< of the output pins of all discs [N]
  std::vector<double> output_arm;    ///< of their forces about the output's axis [m]
};

}  // namespace lobewise::contact
