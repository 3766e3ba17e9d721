#pragma once
// Sizes that shafts, keys and bearings come in. All tables from memory; the key table is tested against the motor
// shafts of data/motor_frames_iec.csv. Millimetres, as the standards print them.
#include <optional>

namespace lobewise::range {

/// Shaft end of ISO/R 775, long series.
struct ShaftEnd {
  double diameter;  ///< [mm]
  double length;    ///< [mm]
};
/// Smallest shaft end from `diameter` on; the largest of the table (200 mm) when none is as large.
[[nodiscard]] ShaftEnd shaft_end(double diameter);

/// Parallel key of DIN 6885-1 / ISO 773 [mm].
struct Key {
  double width;        ///< b
  double height;       ///< h
  double shaft_depth;  ///< t1
};
/// Key for a shaft of this diameter; none outside 10 to 230 mm.
[[nodiscard]] std::optional<Key> parallel_key(double shaft_diameter);
/// Longest standard key length up to `limit` [mm]; 0 below 6 mm.
[[nodiscard]] double key_length(double limit);

/// Boundary dimensions of a rolling bearing, ISO 15 dimension series 02 [mm].
struct BearingSize {
  double bore;
  double outside;
  double width;
};
/// Bearing with the smallest bore from `bore` on; the largest of the table (200 mm) when none is as large.
[[nodiscard]] BearingSize bearing_from(double bore);
/// Bearing with the largest bore up to `bore`; the smallest of the table (10 mm) when none is as small.
[[nodiscard]] BearingSize bearing_up_to(double bore);

/// Smallest shaft height of ISO 496 from `height` on [mm]; the largest of the table (1000 mm) when none is as large.
[[nodiscard]] double shaft_height(double height);

}  // namespace lobewise::range
