#pragma once
// Everything a mesh calculation needs to know of one stage.
#include <string_view>

#include "engine/base/result.h"
#include "engine/contact/contact_law.h"
#include "engine/mechanism/stage_geometry.h"

namespace lobewise::contact {

/// How one disc sits on its eccentric.
struct EccentricSupport {
  double stiffness = 5e8;  ///< k_b: radial stiffness of one eccentric bearing [N/m]
  double clearance = 0;    ///< cl_b: radial clearance [m]
};

/// What may move and what carries the torque. Rigid bodies, compliant contacts (docs/theory/mesh.md). A real disc bends
/// as much as its contacts give: single forces and stiffness in service come from the elastic level.
enum class Level {
  l1,   ///< disc centred on its eccentric, torque on the disc as a couple
  l1f,  ///< as l1, disc floating on its bearing
  l2,   ///< disc centred, torque through the output pins
  l3,   ///< disc floating, torque through the output pins
};

struct MeshModel {
  mechanism::StageGeometry stage;
  Elastic material;      ///< of disc, rollers and pins
  LawSettings ring_law;  ///< ring roller on lobe
  LawSettings pin_law;   ///< output pin in hole
  EccentricSupport support;
};

/// Everything that keeps the model from being solved; empty when it can be. Besides `check_geometry`: material, laws
/// and support in range, and ring rollers that fit into the lobe roots.
[[nodiscard]] Errors check_model(const MeshModel& model, std::string_view path = "");

}  // namespace lobewise::contact
