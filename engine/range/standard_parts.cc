#include "engine/range/standard_parts.h"

#include <algorithm>
#include <iterator>

namespace lobewise::range {
namespace {

constexpr ShaftEnd kShaftEnds[] = {{14, 30},   {16, 40},   {18, 40},   {19, 40},   {20, 50},   {22, 50},   {24, 50},
                                   {25, 60},   {28, 60},   {30, 80},   {32, 80},   {35, 80},   {38, 80},   {40, 110},
                                   {42, 110},  {45, 110},  {48, 110},  {50, 110},  {55, 110},  {60, 140},  {65, 140},
                                   {70, 140},  {75, 140},  {80, 170},  {85, 170},  {90, 170},  {95, 170},  {100, 210},
                                   {110, 210}, {120, 210}, {130, 250}, {140, 250}, {150, 250}, {160, 300}, {170, 300},
                                   {180, 300}, {190, 350}, {200, 350}};

struct KeyRow {
  double up_to;  ///< shaft diameter [mm]
  Key key;
};
constexpr double kLeastKeyedShaft = 10;
constexpr KeyRow kKeys[] = {{12, {4, 4, 2.5}},   {17, {5, 5, 3}},     {22, {6, 6, 3.5}},   {30, {8, 7, 4}},
                            {38, {10, 8, 5}},    {44, {12, 8, 5}},    {50, {14, 9, 5.5}},  {58, {16, 10, 6}},
                            {65, {18, 11, 7}},   {75, {20, 12, 7.5}}, {85, {22, 14, 9}},   {95, {25, 14, 9}},
                            {110, {28, 16, 10}}, {130, {32, 18, 11}}, {150, {36, 20, 12}}, {170, {40, 22, 13}},
                            {200, {45, 25, 15}}, {230, {50, 28, 17}}};
constexpr double kKeyLengths[] = {6,  8,  10, 12, 14,  16,  18,  20,  22,  25,  28,  32,  36,  40,  45,  50,  56,
                                  63, 70, 80, 90, 100, 110, 125, 140, 160, 180, 200, 220, 250, 280, 320, 360, 400};

constexpr BearingSize kSeriesTwo[] = {
    {10, 30, 9},    {12, 32, 10},   {15, 35, 11},   {17, 40, 12},   {20, 47, 14},   {25, 52, 15},   {30, 62, 16},
    {35, 72, 17},   {40, 80, 18},   {45, 85, 19},   {50, 90, 20},   {55, 100, 21},  {60, 110, 22},  {65, 120, 23},
    {70, 125, 24},  {75, 130, 25},  {80, 140, 26},  {85, 150, 28},  {90, 160, 30},  {95, 170, 32},  {100, 180, 34},
    {105, 190, 36}, {110, 200, 38}, {120, 215, 40}, {130, 230, 40}, {140, 250, 42}, {150, 270, 45}, {160, 290, 48},
    {170, 310, 52}, {180, 320, 52}, {190, 340, 55}, {200, 360, 58}};

constexpr BearingSize kSeriesThree[] = {
    {10, 35, 11},  {12, 37, 12},  {15, 42, 13},  {17, 47, 14},  {20, 52, 15},  {25, 62, 17},  {30, 72, 19},
    {35, 80, 21},  {40, 90, 23},  {45, 100, 25}, {50, 110, 27}, {55, 120, 29}, {60, 130, 31}, {65, 140, 33},
    {70, 150, 35}, {75, 160, 37}, {80, 170, 39}, {85, 180, 41}, {90, 190, 43}, {95, 200, 45}, {100, 215, 47}};

struct ClearanceHole {
  double thread, hole;
};
constexpr ClearanceHole kClearanceHoles[] = {{5, 5.5},   {6, 6.6}, {8, 9},   {10, 11}, {12, 13.5}, {14, 15.5},
                                             {16, 17.5}, {20, 22}, {24, 26}, {30, 33}, {36, 39}};

std::span<const BearingSize> sizes(Series series) {
  if (series == Series::three) return kSeriesThree;
  return kSeriesTwo;
}

constexpr double kShaftHeights[] = {25,  28,  32,  36,  40,  45,  50,  56,  63,  71,  80,  90,  100, 112, 125, 140, 160,
                                    180, 200, 225, 250, 280, 315, 355, 400, 450, 500, 560, 630, 710, 800, 900, 1000};

}  // namespace

std::span<const ShaftEnd> shaft_ends() { return kShaftEnds; }

std::optional<Key> parallel_key(double shaft_diameter) {
  if (!(shaft_diameter > kLeastKeyedShaft)) return std::nullopt;
  for (const KeyRow& row : kKeys)
    if (shaft_diameter <= row.up_to) return row.key;
  return std::nullopt;
}

double key_length(double limit) {
  const auto above = std::upper_bound(std::begin(kKeyLengths), std::end(kKeyLengths), limit);
  return above == std::begin(kKeyLengths) ? 0 : *std::prev(above);
}

BearingSize bearing_from(Series series, double bore) {
  const auto table = sizes(series);
  const auto found = std::lower_bound(table.begin(), table.end(), bore,
                                      [](const BearingSize& size, double d) { return size.bore < d; });
  return found == table.end() ? table.back() : *found;
}

BearingSize bearing_up_to(Series series, double bore) {
  const auto table = sizes(series);
  const auto above = std::upper_bound(table.begin(), table.end(), bore,
                                      [](double d, const BearingSize& size) { return d < size.bore; });
  return above == table.begin() ? *above : *std::prev(above);
}

double thread_for_hole(double hole) {
  double thread = kClearanceHoles[0].thread;
  for (const ClearanceHole& row : kClearanceHoles)
    if (row.hole <= hole) thread = row.thread;
  return thread;
}

double shaft_height(double height) {
  const auto found = std::lower_bound(std::begin(kShaftHeights), std::end(kShaftHeights), height);
  return found == std::end(kShaftHeights) ? *std::prev(found) : *found;
}

}  // namespace lobewise::range
