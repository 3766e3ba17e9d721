#pragma once
// Sizes that shafts, keys and bearings come in. All tables from memory; the key table is tested against the motor
// shafts of data/motor_frames_iec.csv. Millimetres, as the standards print them.
#include <optional>
#include <span>

namespace lobewise::range {

/// Shaft end of ISO/R 775, long series.
struct ShaftEnd {
  double diameter;  ///< [mm]
  double length;    ///< [mm]
};
/// The table, rising.
[[nodiscard]] std::span<const ShaftEnd> shaft_ends();

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

/// Boundary dimensions of a rolling bearing of ISO 15 [mm].
struct BearingSize {
  double bore;
  double outside;
  double width;
};
/// Dimension series of ISO 15: light and medium, bores 10 to 200 and 10 to 100 mm.
enum class Series { two, three };
/// Bearing with the smallest bore from `bore` on; the largest of the table when none is as large.
[[nodiscard]] BearingSize bearing_from(Series series, double bore);
/// Bearing with the largest bore up to `bore`; the smallest of the table when none is as small.
[[nodiscard]] BearingSize bearing_up_to(Series series, double bore);

/// Largest coarse thread whose clearance hole of the medium series of ISO 273 is no wider than `hole` [mm]; M5 when
/// none is as small.
[[nodiscard]] double thread_for_hole(double hole);

/// Smallest shaft height of ISO 496 from `height` on [mm]; the largest of the table (1000 mm) when none is as large.
[[nodiscard]] double shaft_height(double height);

}  // namespace lobewise::range
