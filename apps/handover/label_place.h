#pragma once
// Where a label stands beside what it names, so that it covers neither another label nor, if it can, a line.

#include <vector>

namespace lobewise::handover {

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;  ///< top < bottom, as on paper
};

struct Spot {
  double x = 0, y = 0;
};

/// Labels of one drawing. Lengths in its own units.
class LabelPlace {
 public:
  /// @param inside  no label leaves it
  explicit LabelPlace(Box inside) : inside_(inside) {}

  /// A thing no label may cover.
  void keep_off(Box box) { taken_.push_back(box); }
  /// A line that labels avoid while there is room elsewhere.
  void avoid(const std::vector<Spot>& line);
  /// Box of a label beside a spot: above or below it, right or left, near rather than far, where it covers least. It is
  /// kept off by those that follow.
  /// @param room  between the spot and its label
  [[nodiscard]] Box beside(Spot spot, double width, double height, double room);

 private:
  [[nodiscard]] double covered(const Box& box) const;
  Box inside_;
  std::vector<Box> taken_;
  std::vector<Spot> lines_;  ///< points along them, closer than a label is high
};

}  // namespace lobewise::handover
