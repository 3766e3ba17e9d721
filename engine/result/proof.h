#pragma once
// What the calls of the main job answer: a proof, an enquiry that was read. Meanings stand in the descriptions.

#include "engine/result/finding.h"

namespace lobewise::result {

struct Build {
  std::string frame;
  int lobes = 0;
  std::optional<std::string> first_frame;
  std::optional<int> first_lobes;
};

struct RequirementLine {
  std::string path, label;
  Amount value;
  bool assumed = false;
  std::optional<Amount> low, high;
  std::optional<std::string> source;
};

struct Condition {
  std::string path, label, text;
  bool said = false;
};

struct Assumption {
  std::string path, text;
  Amount value, low, high;
  std::string source;
};

struct Question {
  std::string path, text;
  std::optional<bool> decides;
  std::optional<std::string> finding, check;
  std::optional<double> low, high;
  std::optional<std::string> effect;
};

/// What nobody said, and what to take care of. A description reaches members from the address of its record: this stays
/// the only base of what it is a base of.
struct Gaps {
  std::vector<Condition> conditions;
  std::vector<Assumption> assumptions;
  std::optional<std::vector<Question>> questions;
  std::vector<Caution> cautions;
};
/// What every answer about an enquiry begins with.
struct Asked : Gaps {
  std::string title;
  UnitSystem units = UnitSystem::si;
  std::vector<RequirementLine> requirement;
};
/// Fields of the two, and a record's own.
[[nodiscard]] std::vector<model::Field> gaps_and(std::vector<model::Field> own);
[[nodiscard]] std::vector<model::Field> asked_and(std::vector<model::Field> own);

struct Fact {
  std::string id, label;
  std::optional<Amount> value;
  std::string words;  ///< in place of a figure
};

struct MachineFigure {
  std::string id, label;
  Amount value, low, high;
};
struct Jam {
  std::string text;
  bool sudden = false;
  Amount angle, angle_low, angle_high;
  std::string source;
  std::optional<Amount> slip_torque;
};
struct Practice {
  double low = 0, high = 0, computed = 0, computed_low = 0, computed_high = 0;
  std::string agreement;
  std::vector<Sentence> explanation;
  std::string source;
  std::vector<Step> working;
};
struct Machine {
  std::vector<MachineFigure> figures;
  std::string shock_class, shock_reason;
  Jam jam;
  std::optional<Practice> practice;
};

struct OfferedMotor {
  Amount power;
  int poles = 0;
  Amount frequency, speed, torque;
  std::string frame;
  std::optional<Amount> voltage, current;
};
struct Fill {
  std::string frame;
  Amount volume;
};
struct OfferedLubricant {
  std::string kind, base;
  Amount viscosity_40;
  bool food_grade = false;
  std::vector<Fill> fills;
};
struct Lifting {
  Amount mass, mass_low, mass_high;
  std::string words;
  std::optional<Amount> centre;
};
struct RangeNamed {
  std::string name, version, note;
};
struct Offer {
  std::string mounting, orientation;
  double ratio = 0;
  Amount input_speed, output_speed;
  OfferedLubricant lubricant;
  Amount mass, price;
  std::string currency;
  bool quoted = false, offered = true;
  RangeNamed range;
  Lifting lifting;
  std::optional<OfferedMotor> motor;
};

struct Proof : Asked {
  Build build;
  std::string build_name;
  std::vector<Fact> drive;
  Offer offer;
  std::vector<Finding> findings;
  std::vector<Influence> influences;
  std::optional<std::vector<Step>> demand_working;
  std::optional<Sentence> chosen_because, why_none;
  Machine machine;
};

/// An enquiry that was read without errors.
struct Checked : Asked {
  bool ok = true;
  Machine machine;
};

}  // namespace lobewise::result
