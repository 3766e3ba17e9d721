// For every field of the enquiry: a worse input moves something and never improves the finding it belongs to, with
// build, motor and oil held. directions.csv says what is worse; a field without a row there fails. Each section of the
// enquiry and each kind of machine is a test of its own, so that they run side by side.

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <set>
#include <sstream>
#include <tuple>

#include "engine/api/json_io.h"
#include "engine/api/registry.h"
#include "engine/enquiry/requirement.h"
#include "engine/evidence/find_made.h"
#include "engine/range/demo_range.h"
#include "engine/result/job.h"
#include "engine/sizing/size.h"
#include "tests/support/kept_tables.h"
#include "tests/support/machines.h"
#include "tests/support/source_dir.h"

namespace lobewise::api {
namespace {

// ---- What is said of each field

struct Direction {
  std::string path;
  std::string worse;  ///< `better>worse` as JSON, or `*f`, `+x` on what stands there, `@v` in front: where nothing does
  std::set<std::string> hurts;  ///< findings and figures that must not improve; see `Meaning`
  Json with;                    ///< what the enquiry must say besides
  std::string why;              ///< of a label: why it moves nothing
};

/// Words of the column `hurts` that are no findings.
const std::set<std::string> kFigures{"torque", "start", "inertia", "radial"};
const std::set<std::string> kLooks{"any",      ///< something moves, better or worse
                                   "label",    ///< moves no figure and no verdict, and shall not; says why
                                   "refused",  ///< the worse answer is refused
                                   "size",     ///< leaves no build
                                   "build"};   ///< names the build

std::vector<Direction> directions() {
  std::ifstream file(lobewise::test::source_dir() + "/tests/property/enquiry/directions.csv");
  std::vector<Direction> out;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::vector<std::string> cells;
    std::stringstream row(line);
    for (std::string cell; std::getline(row, cell, ';');) cells.push_back(cell);
    if (cells.size() < 3) {
      ADD_FAILURE() << "a row needs path, worse and hurts: " << line;
      continue;
    }
    Direction direction{cells[0], cells[1], {}, Json::object(), cells.size() > 4 ? cells[4] : ""};
    std::stringstream words(cells[2]);
    for (std::string word; words >> word;) {
      if (word == "T")  // more torque at the same speed
        direction.hurts.insert({"torque", "contact", "life", "overhung"});
      else
        direction.hurts.insert(word);
    }
    if (cells.size() > 3 && !cells[3].empty()) direction.with = Json::parse(cells[3]);
    out.push_back(std::move(direction));
  }
  return out;
}

/// Every field of a record that holds a value, `[]` behind lists.
void walk(const model::RecordType& type, const std::string& path, std::vector<std::string>& out) {
  for (const model::Field& field : type.fields) {
    const std::string here = (path.empty() ? "" : path + ".") + std::string(field.key);
    switch (field.kind) {
      case model::FieldKind::record:
        walk(field.record(), here, out);
        break;
      case model::FieldKind::record_list:
        walk(field.record(), here + "[]", out);
        break;
      case model::FieldKind::quantity_list:
      case model::FieldKind::text_list:
        out.push_back(here + "[]");
        break;
      default:
        out.push_back(here);
    }
  }
}

TEST(EveryField, HasADirection) {
  std::vector<std::string> fields;
  walk(model::describe<enquiry::Enquiry>(), "", fields);
  std::map<std::string, int> rows;
  std::set<std::string> findings{"made"};  // answered where the enquiry wishes for a share of units
  for (const evidence::Question& question : evidence::questions()) findings.insert(question.id);
  for (const Direction& direction : directions()) {
    ++rows[direction.path];
    EXPECT_EQ(direction.hurts.contains("label"), !direction.why.empty()) << direction.path << ": a label says why";
    for (const std::string& word : direction.hurts)
      EXPECT_TRUE(findings.contains(word) || kFigures.contains(word) || kLooks.contains(word))
          << direction.path << ": no finding, figure or word '" << word << "'";
  }
  for (const std::string& field : fields)
    EXPECT_EQ(rows[field], 1) << field << " needs one row in tests/property/enquiry/directions.csv";
  for (const auto& [path, count] : rows)
    EXPECT_NE(std::find(fields.begin(), fields.end(), path), fields.end()) << path << " is no field of the enquiry";
}

// ---- Looking at an enquiry

/// What is held while the enquiry changes.
struct Held {
  drive::Build build;
  double motor_power = 0;
  int poles = 4;
};

struct Seen {
  std::map<std::string, double> figures;                         ///< torque, start, …
  std::map<std::string, std::map<std::string, double>> margins;  ///< finding, check -> margin
  std::map<std::string, evidence::Verdict> verdicts;
  Json shown;  ///< everything but what merely repeats the enquiry
};

/// Drops what only repeats what was said: inputs of workings, and that a field was given.
Json without_echo(Json finding) {
  finding.erase("influences");
  for (Json& step : finding["working"]) step.erase("inputs");
  return finding;
}

/// @param beside  also the comparison with the drive in service
Result<Seen> look(const Json& json, const std::optional<Held>& held, drive::KeptTables& shelf, bool beside) {
  const Result<enquiry::Enquiry> enquiry = read<enquiry::Enquiry>(json, Numbers::si);
  if (!enquiry) return enquiry.errors();
  Result<enquiry::Requirement> requirement = enquiry::require(*enquiry);
  if (!requirement) return requirement.errors();
  const auto tables = shelf.source();
  Result<drive::Build> build = model_error("build", "", "none");
  if (held) {
    build = held->build;
    if (!requirement->motor_power && !requirement->motor_speed) requirement->motor_power = held->motor_power;
    if (!requirement->poles && !requirement->motor_speed) requirement->poles = held->poles;
  } else {
    build = drive::find_build(range::demo_range(), {enquiry->build->frame, enquiry->build->lobes,
                                                    enquiry->build->first_frame, enquiry->build->first_lobes});
    if (!build) return build.errors();
  }
  const Result<drive::Drive> drive = drive::assemble(*requirement, *build, tables);
  if (!drive) return drive.errors();
  evidence::Evidence evidence = evidence::prove(*drive, {.samples = 0, .in_time = false});
  if (requirement->unit_share) {
    const Result<contact::ElasticDisc> disc = drive::elastic_disc_of(drive->build.last());
    if (!disc) return disc.errors();
    Result<evidence::MadeFinding> made = evidence::made(*drive, *disc, 16);
    if (!made) return made.errors();
    evidence.findings.push_back(std::move(made->finding));
  }
  Seen seen;
  const demand::Demand& demand = requirement->demand;
  seen.figures = {{"torque", demand.torque.value},
                  {"start", demand.starting_torque.value},
                  {"inertia", demand.inertia.value},
                  {"radial", requirement->radial_force}};
  for (const evidence::Finding& finding : evidence.findings) {
    seen.verdicts[finding.id] = finding.verdict;
    for (const evidence::Check& check : finding.checks) seen.margins[finding.id][check.name] = check.margin();
  }
  Json findings = Json::array();
  for (const evidence::Finding& finding : evidence.findings)
    findings.push_back(without_echo(write(result::of(finding))));
  seen.shown = {{"findings", std::move(findings)},
                {"offer", write(result::offer_of(*drive, range::demo_range()))},
                {"machine", write(result::machine_of(*requirement))},
                {"not_offered", requirement->not_offered},
                {"figures", seen.figures}};
  for (const WorkingStep& step : demand.working) seen.shown["demand"][step.symbol] = step.value;
  for (const demand::Caution& caution : requirement->cautions) seen.shown["cautions"].push_back(caution.text);
  if (beside) {
    Json named = json;
    const drive::BuildName name = drive::name_of(*build);
    named["build"] = {{"frame", name.frame}, {"lobes", *name.lobes}};
    if (name.first_lobes) {
      named["build"]["first_frame"] = name.first_frame;
      named["build"]["first_lobes"] = *name.first_lobes;
    }
    static const Session session;
    const Result<Json> compared = session.registry().run("compare", Json{{"enquiry", named}});
    if (!compared) return compared.errors();
    for (const char* part : {"incumbent", "axes", "fit", "cases", "troubles", "verdict", "charts", "missing"})
      seen.shown["compare"][part] = (*compared)[part];
  }
  return seen;
}

// ---- Changing an enquiry

Json* at(Json& enquiry, const std::string& path) {
  Json* here = &enquiry;
  std::stringstream parts(path);
  for (std::string part; std::getline(parts, part, '.');) {
    const bool list = part.ends_with("[]");
    if (list) part.resize(part.size() - 2);
    here = &(*here)[part];
    if (list) here = &(*here)[0];
  }
  return here;
}

double number(std::string_view text) { return Json::parse(text).get<double>(); }

/// The enquiry with the better and with the worse answer.
std::pair<Json, Json> both_ways(const Json& base, const Direction& direction, const enquiry::Requirement& taken) {
  Json better = base;
  better.merge_patch(direction.with);
  Json worse = better;
  Json& from = *at(better, direction.path);
  Json& to = *at(worse, direction.path);
  const std::size_t arrow = direction.worse.find('>');
  if (arrow != std::string::npos) {
    from = Json::parse(direction.worse.substr(0, arrow));
    to = Json::parse(direction.worse.substr(arrow + 1));
    return {better, worse};
  }
  std::string rule = direction.worse;
  if (rule.front() == '@') {
    const std::size_t end = rule.find_first_of("*+", 1);
    if (from.is_null()) from = number(rule.substr(1, end - 1));
    rule = rule.substr(end);
  }
  if (from.is_null())
    for (const Assumption& assumption : taken.assumptions)
      if (assumption.path == direction.path) from = assumption.value;
  if (from.is_null()) ADD_FAILURE() << direction.path << ": nothing stands there to change; write better>worse";
  const double by = number(rule.substr(1));
  to = rule.front() == '*' ? from.get<double>() * by : from.get<double>() + by;
  return {better, worse};
}

/// A random enquiry of a kind of machine: every number of its example up or down by up to a tenth.
Json random_enquiry(const Json& example, std::mt19937& random) {
  Json enquiry = write(*read<enquiry::Enquiry>(example, Numbers::need_unit));
  std::uniform_real_distribution<double> factor(0.9, 1.1);
  for (auto& [kind, machine] : enquiry["machine"].items())
    for (auto& [key, value] : machine.items())
      if (value.is_number_float() && value.get<double>() != 0 && key != "power_factor" && key != "drives")
        value = value.get<double>() * factor(random);
  return enquiry;
}

/// Places in kMachines.
constexpr std::size_t kBelt = 2, kMixer = 8;

int rank(evidence::Verdict verdict) {
  return verdict == evidence::Verdict::cannot_be_judged ? 2 : static_cast<int>(verdict);
}

std::string text_of(const Errors& errors) { return errors.front().path + ": " + errors.front().message; }

/// Interpolation of the mesh tables, which are solved at torques in steps of an eighth: share of a limit.
constexpr double kInterpolation = 2e-3;

void expect_no_better(const Direction& direction, const Seen& better, const Seen& worse) {
  for (const std::string& word : direction.hurts) {
    if (kFigures.contains(word)) {
      EXPECT_GE(worse.figures.at(word), better.figures.at(word) * (1 - 1e-9)) << word;
      continue;
    }
    const auto verdict = better.verdicts.find(word);
    if (verdict == better.verdicts.end()) continue;
    EXPECT_GE(rank(worse.verdicts.at(word)), rank(verdict->second)) << word;
    const auto& after = worse.margins.at(word);
    for (const auto& [check, margin] : better.margins.at(word))
      if (const auto found = after.find(check); found != after.end()) {
        EXPECT_LE(found->second, margin + kInterpolation) << word << ": " << check;
      }
  }
}

/// The build that is held: the best for the enquiry, or the one that comes closest.
std::optional<Held> held_for(const enquiry::Requirement& requirement, drive::KeptTables& shelf) {
  const sizing::Sources sources{shelf.source(), nullptr};
  sizing::Search search(requirement, range::demo_range(), sources);
  const sizing::Candidate* candidate = search.next();
  if (candidate == nullptr) return std::nullopt;
  const Result<drive::Drive> drive = drive::assemble(requirement, candidate->build, shelf.source());
  if (!drive || !drive->motor) return std::nullopt;
  return Held{candidate->build, drive->motor->rated_power, drive->motor->poles};
}

/// Said of what stands there or of money: heard by the comparison.
bool is_beside(const Direction& direction) {
  return direction.path.starts_with("incumbent") || direction.path.starts_with("economics");
}

/// What decides which build is held.
bool same_job(const enquiry::Requirement& a, const enquiry::Requirement& b) {
  const auto of = [](const enquiry::Requirement& r) {
    return std::tuple(r.torque, r.speed, r.radial_force, r.demand.starting_torque.value, r.mounting, r.orientation,
                      r.poles, r.motor_power, r.motor_speed, r.reversing, r.food_area);
  };
  return of(a) == of(b);
}

/// One enquiry that fields are changed in, with its build.
class Base {
 public:
  explicit Base(Json json) : json_(std::move(json)) {
    const Result<enquiry::Requirement> taken = enquiry::require(*read<enquiry::Enquiry>(json_, Numbers::si));
    EXPECT_TRUE(taken.ok()) << text_of(taken.errors());
    taken_ = *taken;
    held_ = held_for(taken_, shelf_);
    EXPECT_TRUE(held_) << json_["machine"] << ": no build";
  }

  /// @returns whether something moved; nothing where a failure was reported
  std::optional<bool> moves(const Direction& direction) {
    SCOPED_TRACE(direction.path + " " + direction.worse + " on " + json_["machine"].dump());
    const auto [better, worse] = both_ways(json_, direction, taken_);
    const Result<enquiry::Enquiry> read_better = read<enquiry::Enquiry>(better, Numbers::si);
    EXPECT_TRUE(read_better.ok()) << text_of(read_better.errors());
    if (!read_better) return std::nullopt;
    const Result<enquiry::Requirement> requirement = enquiry::require(*read_better);
    EXPECT_TRUE(requirement.ok()) << text_of(requirement.errors());
    if (!requirement) return std::nullopt;
    if (direction.hurts.contains("size")) {
      const Result<enquiry::Requirement> narrow = enquiry::require(*read<enquiry::Enquiry>(worse, Numbers::si));
      EXPECT_FALSE(held_for(*narrow, shelf_).has_value()) << "a build is found where there is no room";
      return true;
    }
    std::optional<Held> held;
    if (!direction.hurts.contains("build")) {
      held = same_job(*requirement, taken_) ? held_ : held_for(*requirement, shelf_);
      EXPECT_TRUE(held) << "no build";
      if (!held) return std::nullopt;
    }
    const bool beside = is_beside(direction);
    const Result<Seen> good = look(better, held, shelf_, beside);
    EXPECT_TRUE(good.ok()) << text_of(good.errors());
    if (!good) return std::nullopt;
    const Result<Seen> bad = look(worse, held, shelf_, beside);
    EXPECT_EQ(bad.ok(), !direction.hurts.contains("refused")) << (bad.ok() ? "not refused" : text_of(bad.errors()));
    if (!bad) return true;
    expect_no_better(direction, *good, *bad);
    return good->shown != bad->shown;
  }

 private:
  drive::KeptTables shelf_{drive::rigid_stage_table};
  Json json_;
  enquiry::Requirement taken_;
  std::optional<Held> held_;
};

/// Section of the enquiry, or kind of machine: `site`, `machine.hoist`.
std::string section_of(const std::string& path) {
  const std::size_t first = path.find('.');
  if (first == std::string::npos) return "enquiry";
  const std::size_t end =
      path.starts_with("machine.") || path.starts_with("incumbent.dimensions.") ? path.find('.', first + 1) : first;
  return path.substr(0, end);
}

std::vector<std::string> sections() {
  std::vector<std::string> out;
  for (const Direction& direction : directions())
    if (const std::string section = section_of(direction.path); std::find(out.begin(), out.end(), section) == out.end())
      out.push_back(section);
  return out;
}

/// Kinds of machine that a section is tried on.
std::vector<std::size_t> kinds_for(const std::string& section) {
  if (section.starts_with("machine."))
    for (std::size_t i = 0; i < test::kMachines.size(); ++i)
      if (test::kMachines[i]["machine"].contains(section.substr(8))) return {i, i};
  // The drive in service is of one size: machines that it could drive.
  if (section.starts_with("incumbent") || section == "economics") return {kBelt, kMixer};
  static const std::vector<std::string> all = sections();
  const auto place = static_cast<std::size_t>(std::find(all.begin(), all.end(), section) - all.begin());
  return {(2 * place) % test::kMachines.size(), (2 * place + 7) % test::kMachines.size()};
}

class EachField : public ::testing::TestWithParam<std::string> {};

TEST_P(EachField, WorseMovesSomethingAndNeverImprovesWhatItBelongsTo) {
  std::mt19937 random(20261130);
  std::vector<std::unique_ptr<Base>> bases;
  for (const std::size_t kind : kinds_for(GetParam()))
    bases.push_back(std::make_unique<Base>(random_enquiry(test::kMachines[kind], random)));
  if (HasFailure()) return;
  for (const Direction& direction : directions()) {
    if (section_of(direction.path) != GetParam()) continue;
    bool moved = false, tried = false;
    std::reverse(bases.begin(), bases.end());
    for (const std::unique_ptr<Base>& base : bases) {
      if (moved && is_beside(direction)) continue;  // a comparison is dear: the fields take turns with the machines
      if (const std::optional<bool> moves = base->moves(direction)) {
        tried = true;
        moved = moved || *moves;
      }
    }
    if (!tried) continue;
    if (direction.hurts.contains("label"))
      EXPECT_FALSE(moved) << direction.path << " has become audible: give it a direction in directions.csv";
    else
      EXPECT_TRUE(moved) << direction.path << " moves no figure and no verdict";
  }
}

std::string name_of(const ::testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  std::replace(name.begin(), name.end(), '.', '_');
  return name;
}
INSTANTIATE_TEST_SUITE_P(Enquiry, EachField, ::testing::ValuesIn(sections()), name_of);

}  // namespace
}  // namespace lobewise::api
