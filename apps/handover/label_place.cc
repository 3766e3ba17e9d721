#include "apps/handover/label_place.h"

#include <algorithm>
#include <cmath>

namespace lobewise::handover {
namespace {

constexpr double kBetweenPoints = 2;  ///< along a line

bool inside(const Spot& spot, const Box& box) {
  return spot.x > box.left && spot.x < box.right && spot.y > box.top && spot.y < box.bottom;
}

double overlap(const Box& a, const Box& b) {
  return std::max(0.0, std::min(a.right, b.right) - std::max(a.left, b.left)) *
         std::max(0.0, std::min(a.bottom, b.bottom) - std::max(a.top, b.top));
}

}  // namespace

void LabelPlace::avoid(const std::vector<Spot>& line) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Spot a = line[i - 1], b = line[i];
    const int steps = std::max(1, static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / kBetweenPoints));
    for (int k = 0; k <= steps; ++k) lines_.push_back({a.x + (b.x - a.x) * k / steps, a.y + (b.y - a.y) * k / steps});
  }
}

double LabelPlace::covered(const Box& box) const {
  constexpr double kLabel = 100, kLine = 0.6;  // labels have a rim: a line may pass below them
  double sum = 0;
  for (const Box& other : taken_) sum += kLabel * overlap(box, other);
  for (const Spot& spot : lines_) sum += inside(spot, box) ? kLine : 0;
  return sum;
}

Box LabelPlace::beside(Spot spot, double width, double height, double room) {
  Box best;
  double least = INFINITY;
  for (const double away : {0.0, 1.0, 2.0, 3.5, 5.0})
    for (const double side : {1.0, -1.0})
      for (const double up : {-1.0, 0.0, 1.0}) {
        const double middle = spot.y + up * (room + height / 2 + away * height);
        const double near = side > 0 ? spot.x + room : spot.x - room - width;
        const double left = std::clamp(near, inside_.left, std::max(inside_.left, inside_.right - width));
        const double top = std::clamp(middle - height / 2, inside_.top, std::max(inside_.top, inside_.bottom - height));
        const Box box{left, top, left + width, top + height};
        // A label pushed back inside may come to lie on its own spot.
        const double cost =
            covered(box) + (inside(spot, box) ? 1e3 : 0) + 10 * away + (up == 0 ? 1 : 0) + (side < 0 ? 1 : 0);
        if (cost < least) {
          least = cost;
          best = box;
        }
      }
  taken_.push_back(best);
  return best;
}

}  // namespace lobewise::handover
