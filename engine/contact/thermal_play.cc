#include "engine/contact/thermal_play.h"

#include <cmath>

namespace lobewise::contact {

double room_for_growth(const mechanism::StageGeometry& stage) {
  const LeastPlay play = least_play(stage, stage.radius_offset);
  const double K = stage.shortening();
  return std::min(play.flank / std::sqrt(1 - K * K), play.tip);
}

}  // namespace lobewise::contact
