#pragma once
// Every build against an enquiry, as it leaves; meanings stand in the descriptions.

#include "engine/result/proof.h"

namespace lobewise::result {

struct Margin {
  std::string id;
  Verdict verdict = Verdict::cannot_be_judged;
  bool estimate = false;
  std::optional<double> margin;
  std::optional<Basis> basis;
};

struct Candidate {
  Build build;
  std::string build_name;
  double ratio = 0, ratio_error = 0;
  Verdict verdict = Verdict::cannot_be_judged;
  int poles = 0;
  std::string mesh;
  Amount mass, price, price_with_motor;
  std::optional<Sentence> fell_out, why;
  std::vector<Margin> margins;
};

struct NearBuild {
  Build build;
  std::string build_name;
  double ratio_error = 0;
};

struct Sizing : Asked {
  std::vector<Candidate> candidates;
  int chosen = -1;
  std::optional<Sentence> why_none;
  std::vector<NearBuild> nearest;
};

}  // namespace lobewise::result
