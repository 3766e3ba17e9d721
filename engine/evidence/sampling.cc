#include "engine/evidence/sampling.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/drive/excitations.h"
#include "engine/drive/shocks.h"
#include "engine/heat/housing.h"
#include "engine/losses/cold.h"

namespace lobewise::evidence {

std::uint64_t Random::next() {
  state_ += 0x9E3779B97F4A7C15ULL;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31U);
}

double Random::uniform() { return static_cast<double>(next() >> 11U) * 0x1.0p-53; }

namespace {

/// What a start depends on besides.
void add_start_unknowns(const drive::Drive& drive, std::vector<drive::Unknown>& list) {
  using C = drive::Coefficients;
  static constexpr const char* kPractice = "common practice, no source";
  const enquiry::Requirement& requirement = drive.requirement;
  const demand::Figure &start = requirement.demand.starting_torque, &torque = requirement.demand.torque;
  if (start.value > 0 && torque.value > 0) {
    // What the torque of the machine does to it is another unknown; where they are in proportion, the last digit of a
    // division adds none.
    constexpr double kProportion = 1e-9;
    const double low = std::min(1.0, start.low / start.value * torque.value / torque.low);
    const double high = std::max(1.0, start.high / start.value * torque.value / torque.high);
    if (torque.low > 0 && (low < 1 - kProportion || high > 1 + kProportion))
      list.push_back({"start",
                      "torque that breaks the machine away",
                      &C::start_factor,
                      {1, low, high, "range of the enquiry's assumptions"},
                      false});
  }
  list.push_back({"rest", "friction before anything turns", &C::rest_factor, {1, 0.75, 1.5, kPractice}, true});
  list.push_back({"cold", "drag of bearings in thick oil", &C::cold_factor, losses::kBeyondValid, true});
  list.push_back({"voltage",
                  "voltage of the mains",
                  &C::voltage_factor,
                  {1, 0.95, 1.05, "IEC 60034-1 zone A (from memory)"},
                  false});
  if (const enquiry::RequirementLine* line = enquiry::line_of(requirement, "site.ambient_low");
      line != nullptr && line->assumed)
    list.push_back({"ambient_low",
                    "the coldest surroundings",
                    &C::ambient_low_shift,
                    {0, line->low - line->value, line->high - line->value, line->source.c_str()},
                    false});
}

}  // namespace

std::vector<drive::Unknown> unknowns_of(const drive::Drive& drive) {
  std::vector<drive::Unknown> list(drive::unknowns().begin(), drive::unknowns().end());
  const Coefficient& contamination = drive::contamination_of(drive.oil);
  for (drive::Unknown& unknown : list)
    if (unknown.id == "cleanliness") unknown.range = contamination;
  bool slides = false;
  for (const drive::StageRef& ref : drive.build.stages)
    for (range::Carried carried : {ref.stage->ring_rollers, ref.stage->output_rollers})
      slides = slides || carried != range::Carried::needle;
  if (slides)
    list.push_back({"sliding",
                    "friction of sleeves and sliding rollers",
                    &drive::Coefficients::sliding_factor,
                    {1, 0.6, 1.7, "common practice, no source: the ends of mu_b and mu_f together"},
                    true});
  if (drive.requirement.dusty)
    list.push_back({"dust",
                    "layer of dust on the housing",
                    &drive::Coefficients::dust_factor,
                    {1, heat::kDustLayer.low / heat::kDustLayer.nominal,
                     heat::kDustLayer.high / heat::kDustLayer.nominal, heat::kDustLayer.source},
                    true});
  const Coefficient share = drive::start_play(drive);
  list.push_back({"start_play",
                  "where the flanks stand at a start",
                  &drive::Coefficients::start_play_shift,
                  {0, share.low - share.nominal, share.high - share.nominal, share.source},
                  false});
  const Coefficient ring = range::ring_expansion(drive.build.last());
  list.push_back({"ring_expansion",
                  "how ring and disc grow with temperature",
                  &drive::Coefficients::ring_expansion_shift,
                  {0, ring.low - ring.nominal, ring.high - ring.nominal, ring.source},
                  false});
  if (drive.requirement.coupled.link_stiffness)
    list.push_back({"coupling",
                    "stiffness of what joins it to the machine",
                    &drive::Coefficients::link_factor,
                    {1, 0.85, 1.15, "common practice, no source"},
                    false});
  else
    list.push_back({"coupling", "stiffness of what joins it to the machine, which nobody said",
                    &drive::Coefficients::link_softness, drive::kLinkSoftness, false});
  const demand::Figure& inertia = drive.requirement.demand.inertia;
  if (inertia.value > 0 && (inertia.low < inertia.value || inertia.high > inertia.value))
    list.push_back(
        {"load_inertia",
         "inertia of the machine",
         &drive::Coefficients::load_inertia_factor,
         {1, inertia.low / inertia.value, inertia.high / inertia.value, "range of the enquiry's assumptions"},
         false});
  const demand::Figure& torque = drive.requirement.demand.torque;
  if (torque.value > 0 && (torque.low < torque.value || torque.high > torque.value))
    list.push_back({"torque",
                    "torque of the machine",
                    &drive::Coefficients::torque_factor,
                    {1, torque.low / torque.value, torque.high / torque.value, "range of the enquiry's assumptions"},
                    false});
  add_start_unknowns(drive, list);
  const Coefficient& stop = drive.requirement.demand.jam.angle;
  if (drive.motor && stop.nominal > 0 && stop.low < stop.high)
    list.push_back({"jam_angle",
                    "angle in which a jam stops the shaft",
                    &drive::Coefficients::jam_angle_factor,
                    {1, stop.low / stop.nominal, stop.high / stop.nominal, stop.source},
                    true});
  return list;
}

double value_at(const drive::Unknown& unknown, double quantile) {
  const bool log = unknown.logarithmic && unknown.range.low > 0;
  const auto in = [&](double x) { return log ? std::log(x) : x; };
  const double a = in(unknown.range.low), m = in(unknown.range.nominal), b = in(unknown.range.high);
  if (b <= a) return unknown.range.nominal;
  const double peak = (m - a) / (b - a);
  const double x =
      quantile < peak ? a + std::sqrt(quantile * (b - a) * (m - a)) : b - std::sqrt((1 - quantile) * (b - a) * (b - m));
  return log ? std::exp(x) : x;
}

std::vector<drive::Coefficients> latin_hypercube(const std::vector<drive::Unknown>& unknowns, int count,
                                                 std::uint64_t seed) {
  std::vector<drive::Coefficients> samples(static_cast<std::size_t>(count));
  Random random(seed);
  std::vector<std::size_t> order(samples.size());
  for (const drive::Unknown& unknown : unknowns) {
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    for (std::size_t i = order.size(); i > 1; --i) std::swap(order[i - 1], order[random.next() % i]);
    for (std::size_t i = 0; i < order.size(); ++i)
      samples[i].*unknown.member = value_at(unknown, (static_cast<double>(order[i]) + random.uniform()) / count);
  }
  return samples;
}

}  // namespace lobewise::evidence
