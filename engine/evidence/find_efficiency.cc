// efficiency: where the power goes.

#include <fmt/format.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/evidence/beside.h"
#include "engine/evidence/loss_working.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Lower end of the band that the trade gives for one stage. Common practice, no source.
constexpr double kUsualStageEfficiency = 0.90;

struct Place {
  const char* name;
  double drive::LossPlaces::*member;
};
constexpr Place kPlaces[] = {{"ring rollers on the lobes", &drive::LossPlaces::lobes},
                             {"output rollers", &drive::LossPlaces::output_pins},
                             {"eccentric bearings", &drive::LossPlaces::eccentric_bearings},
                             {"input bearings", &drive::LossPlaces::input_bearings},
                             {"output bearings", &drive::LossPlaces::output_bearings},
                             {"seals", &drive::LossPlaces::seals},
                             {"oil drag", &drive::LossPlaces::oil_drag},
                             {"needles and sleeves turning in oil", &drive::LossPlaces::roller_drag}};

}  // namespace

std::vector<Check> efficiency_checks(const Drive& drive, const Evaluation& e) {
  const double usual = std::pow(kUsualStageEfficiency, static_cast<double>(drive.build.stages.size()));
  Check check{"efficiency at full load", e.full.efficiency(), usual, Quantity::share, false, {}, {}};
  check.basis = Basis::yardstick;
  return {check};
}

void write_efficiency(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::RunningLosses& full = e.full;
  const Place* largest = &kPlaces[0];
  for (const Place& place : kPlaces)
    if (full.places.*place.member > full.places.*(largest->member)) largest = &place;
  write_losses(drive, e, out.working);
  out.answer = {
      fmt::format("{{}} of the power arrives at full load, {{}} at half load; the largest loss is at the {}.",
                  largest->name),
      {{full.efficiency(), Quantity::share}, {efficiency_at(drive, e, 0.5, e.oil_temperature), Quantity::share}}};
  const double no_load = no_load_torque(drive, e, e.oil_temperature);
  out.notes.push_back({"Turning without load takes {}, {} at the input shaft.",
                       {{no_load * drive.input_speed, Quantity::power}, {no_load, Quantity::torque}}});
  const bool sleeves = drive.build.last().ring_rollers == range::Carried::sleeve ||
                       drive.build.last().output_rollers == range::Carried::sleeve;
  if (sleeves)
    out.notes.push_back(
        {"Rollers or output rollers turn on plain pins here: their sleeve friction decides, and nobody has published "
         "it. Calibrate it with a test of the unit.",
         {}});
  out.notes.push_back(
      {"No measurement of a unit like this is published: the two that are, on small prototypes whose rollers slide and "
       "whose geometry is not told, lie lower, a peak of 81 % ([farrell], about 59:1, after long running-in) and a "
       "mean "
       "of 63.5 % ([mackic2023], whose own theory gives 65.3 %); the trade says 90 to 95 % a stage (common practice, "
       "no "
       "source). So the range holds an error of the model's own (data/model_errors.csv), until a unit of this range is "
       "measured.",
       {}});
  Chart map{"efficiency_over_load",
            "Efficiency over load",
            "Share of the full load",
            "Efficiency",
            Quantity::share,
            Quantity::share,
            {},
            false,
            false,
            false};
  for (double celsius : {20.0, 40.0, 60.0, 80.0}) {
    Series s{"oil at {}", {}, {}, false, {{kZeroCelsius + celsius, Quantity::temperature}}};
    for (int i = 1; i <= 30; ++i) {
      s.x.push_back(0.05 * i);
      s.y.push_back(efficiency_at(drive, e, 0.05 * i, kZeroCelsius + celsius));
    }
    map.series.push_back(std::move(s));
  }
  for (const auto& [name, measured] : {std::pair{"measured elsewhere [farrell], peak", 0.81},
                                       std::pair{"measured elsewhere [mackic2023], mean", 0.6349}})
    map.series.push_back({name, {map.series[0].x.front(), map.series[0].x.back()}, {measured, measured}, true});
  out.charts.push_back(std::move(map));
  Chart speeds{"efficiency_over_speed",
               "Efficiency over speed, oil at its temperature of this duty",
               "Input speed",
               "Efficiency",
               Quantity::angular_speed,
               Quantity::share,
               {},
               false,
               false,
               false};
  for (int quarter = 1; quarter <= 4; ++quarter) {
    Series s{"{} of the full load", {}, {}, false, {{0.25 * quarter, Quantity::share}}};
    for (const double share : {0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5,
                               0.6,  0.7,  0.8,  0.9,  1.0,  1.1, 1.2,  1.4, 1.6, 1.8, 2.0}) {
      drive::Running now =
          drive.running({1, 0.25 * quarter * drive.requirement.torque, drive.requirement.speed}, e.coefficients);
      now.speed *= share;
      s.x.push_back(share * drive.input_speed);
      s.y.push_back(drive::running_losses(drive.build, drive.tables, drive.oil, now, e.oil_temperature, e.coefficients)
                        .efficiency());
    }
    speeds.series.push_back(std::move(s));
  }
  out.charts.push_back(std::move(speeds));
  Chart no_load_chart{"no_load_torque",
                      "Torque at the input that turns it without load",
                      "Oil temperature",
                      "Torque at the input",
                      Quantity::temperature,
                      Quantity::torque,
                      {},
                      false,
                      false,
                      false};
  Series turning{"without load", {}, {}, false};
  for (int i = 0; i <= 22; ++i) {
    const double oil = kZeroCelsius - 20 + 5 * i;
    turning.x.push_back(oil);
    turning.y.push_back(no_load_torque(drive, e, oil));
  }
  no_load_chart.series.push_back(std::move(turning));
  out.charts.push_back(std::move(no_load_chart));
  Chart places{"losses_by_place",
               "Where the power is lost at full load",
               "Place",
               "Power lost",
               Quantity::number,
               Quantity::power,
               {},
               true,
               false,
               false};
  double index = 0;
  for (const Place& place : kPlaces)
    places.series.push_back({place.name, {index++}, {full.places.*place.member}, false});
  out.charts.push_back(std::move(places));
  out.left_out = {
      "First order: friction forces do not change the mesh forces (up to 5 % of the loss too optimistic at mu 0.05).",
      "Running-in: a new unit loses more for its first weeks."};
}

}  // namespace lobewise::evidence
