#pragma once
// What `rate` and its working share: a build in its surroundings, every limit as a function of the output torque.
#include "engine/base/formula/term.h"
#include "engine/base/function_ref.h"
#include "engine/drive/losses_model.h"
#include "engine/sizing/rating.h"
#include "engine/strength/bearing_life.h"
#include "engine/strength/shaft_key.h"

namespace lobewise::sizing {

class Rater {
 public:
  /// Errors: bearings without capacity, a lubricant without a curve.
  static Result<Rater> make(const drive::Build& build, const Tables& tables, const RatingConditions& conditions);

  [[nodiscard]] bool too_fast() const;
  /// Every criterion with its torque, stages from the input, then what concerns the whole unit.
  [[nodiscard]] std::vector<CriterionTorque> criteria() const;
  /// The derivation of one of them.
  void explain(const CriterionTorque& criterion, Working& working) const;

 private:
  struct Bearings {
    strength::RollingBearing eccentric, input;
  };
  Rater(const drive::Build& build, const Tables& tables, const RatingConditions& conditions, drive::Oil oil)
      : build_(build), tables_(tables), conditions_(conditions), oil_(std::move(oil)) {}

  [[nodiscard]] const range::OutputShaft& shaft() const { return build_.frame().output; }
  [[nodiscard]] const range::Stage& stage(std::size_t i) const { return *build_.stages[i].stage; }
  [[nodiscard]] double input_speed(std::size_t i) const;
  [[nodiscard]] double eccentric_speed(std::size_t i) const;
  /// Torque at the output of stage i when the build delivers `torque`, the oil at its limit.
  [[nodiscard]] double stage_torque(std::size_t i, double torque) const;
  /// Largest load of a bearing that lasts the hours asked for at a speed [N].
  [[nodiscard]] double load_for_life(const strength::RollingBearing& bearing, double speed) const;
  [[nodiscard]] strength::ParallelKey key() const;
  [[nodiscard]] drive::RunningLosses losses(double torque) const;
  [[nodiscard]] heat::Housing housing() const;
  /// Power that the housing sheds for ever with the oil at its limit, P = Q(T_oil - P/G_oil); 0 when surroundings heat
  /// it [W].
  [[nodiscard]] double heat_shed() const;
  /// Torque at which `use` (share of a limit, rising with torque from below 1) reaches 1.
  [[nodiscard]] double torque_where(FunctionRef<double(double)> use) const;
  void add_stage(std::size_t i, std::vector<CriterionTorque>& out) const;
  [[nodiscard]] double heat_torque() const;

  /// The search for a torque ends here, times the reference torque; what stands more is no limit of this build.
  static constexpr double kSearchEnd = 1000;
  [[nodiscard]] double search_end() const { return kSearchEnd * tables_.back()->reference_torque; }
  struct Found;
  [[nodiscard]] Found found(const CriterionTorque& criterion) const;
  [[nodiscard]] formula::Term hardest_disc(std::size_t i) const;
  /// The step at the torque of a criterion, which closes use = 1.
  void close(const CriterionTorque& criterion, const formula::Term& use, const std::string& source,
             Working& working) const;
  void explain_bearing(const CriterionTorque& criterion, Working& working) const;
  void explain_pressure(const CriterionTorque& criterion, double drive::MeshLevel::*member, Working& working) const;
  void explain_pins(const CriterionTorque& criterion, Working& working) const;
  void explain_heat(const CriterionTorque& criterion, Working& working) const;

  drive::Build build_;
  Tables tables_;
  RatingConditions conditions_;
  drive::Oil oil_;
  std::vector<Bearings> bearings_;
};

}  // namespace lobewise::sizing
