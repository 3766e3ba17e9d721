#pragma once
// Proportions that no range states; drawings and solids need them to show the kind of mounting. None carries a
// dimension on a drawing.

namespace lobewise::handover {

inline constexpr double kPlateOverHeight = 0.10;    ///< foot plate thickness over shaft height
inline constexpr double kFlangeOverOutside = 0.04;  ///< flange thickness over its diameter
inline constexpr double kSpigotLength = 5e-3;       ///< [m]
inline constexpr double kPlateEdge = 1.6;           ///< hole centre to plate end, in hole diameters
inline constexpr double kAdapterOverMotor = 0.06;   ///< motor flange thickness over its diameter

}  // namespace lobewise::handover
