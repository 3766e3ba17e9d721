#pragma once
// What an ElasticDisc holds.
#include <vector>

#include "engine/contact/elastic/disc_body.h"
#include "engine/contact/elastic/seat.h"
#include "engine/contact/elastic_disc.h"

namespace lobewise::contact {

namespace elastic {
/// How one disc of the stage maps onto a body: turned by whole lobes, its holes counted anew, perhaps mirrored.
struct BodyMap {
  int body = 0;
  double turn = 0;  ///< [rad]
  int hole_shift = 0;
  double hand = 1;  ///< -1: mirror image
  [[nodiscard]] double angle(double disc_angle) const { return hand * (disc_angle - turn); }
  [[nodiscard]] int hole(int disc_hole, int holes) const {
    const int h = (hand > 0 ? disc_hole : -disc_hole) + hole_shift;
    return ((h % holes) + holes) % holes;
  }
};
/// Map between discs whose holes stand at `offset` and `body_offset` from a lobe root, if they are the same body.
[[nodiscard]] std::optional<BodyMap> same_body(int lobes, int holes, double offset, double body_offset);
}  // namespace elastic

struct ElasticDisc::Data {
  ElasticModel model;
  double depth = 0;
  std::vector<elastic::DiscBody> bodies;
  std::vector<elastic::BodyMap> maps;  ///< per disc
  elastic::SeatedRoller seat;
  double pin_constant = 0;  ///< E C of a cored output pin
};

}  // namespace lobewise::contact
