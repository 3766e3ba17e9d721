#include "engine/contact/elastic/disc_body.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/elastic/symmetry.h"

namespace lobewise::contact::elastic {
namespace {

using mechanism::cross;
using mechanism::dot;
using mechanism::quarter_turn;
using mechanism::unit;

/// Points of the trapezoid rule round the bore for smooth integrands; converges exponentially, a load 0.1 rb away
/// leaves exp(-256 * 0.1).
constexpr int kFramePoints = 256;

std::vector<char> held_freedoms(const Mesh& mesh, BoreBase base) {
  std::vector<char> held(2 * mesh.nodes.size(), 0);
  const auto& bore = mesh.loops[kBoreLoop].nodes;
  if (base == BoreBase::glued) {
    for (const int node : bore) held[2 * node] = held[2 * node + 1] = 1;
  } else {
    held[2 * bore[0]] = held[2 * bore[0] + 1] = held[2 * bore[bore.size() / 2] + 1] = 1;
  }
  return held;
}

/// Resultant force and moment of nodal forces on the given nodes.
struct Resultant {
  std::array<double, 3> value{};
  void add(Vec2 at, Vec2 force) {
    value[0] += force.x;
    value[1] += force.y;
    value[2] += cross(at, force);
  }
};

/// Nodal forces on the bore of a bilateral cosine pressure with unit resultant along x and y, and of a uniform shear
/// with unit moment, scaled so that their discrete resultants are exactly one.
std::array<std::vector<Vec2>, 3> bore_patterns(const Mesh& mesh, const BoundaryQuadrature& quadrature) {
  const auto& bore = mesh.loops[kBoreLoop].nodes;
  const double radius = mechanism::norm(mesh.nodes[bore[0]]);
  std::vector<int> place(mesh.nodes.size(), -1);
  for (std::size_t i = 0; i < bore.size(); ++i) place[bore[i]] = static_cast<int>(i);
  std::array<std::vector<Vec2>, 3> patterns;
  for (auto& pattern : patterns) pattern.resize(bore.size());
  for (const auto& sample : quadrature.samples(kBoreLoop)) {
    const double length = mechanism::norm(sample.outward);
    const Vec2 e = (1 / mechanism::norm(sample.point)) * sample.point;
    const std::array<Vec2, 3> t = {(e.x / (kPi * radius)) * e, (e.y / (kPi * radius)) * e,
                                   (1 / (2 * kPi * radius * radius)) * quarter_turn(e)};
    for (std::size_t k = 0; k < 3; ++k)
      for (std::size_t a = 0; a < 3; ++a) patterns[k][place[sample.nodes[a]]] += (length * sample.shape[a]) * t[k];
  }
  for (std::size_t k = 0; k < 3; ++k) {
    Resultant sum;
    for (std::size_t i = 0; i < bore.size(); ++i) sum.add(mesh.nodes[bore[i]], patterns[k][i]);
    for (Vec2& force : patterns[k]) force = (1 / sum.value[k]) * force;
  }
  return patterns;
}

}  // namespace

TableDensity default_table(const DiscShape& shape) {
  TableDensity density;
  if (!shape.holes) return density;
  const auto& stage = shape.stage;
  const double rh = stage.hole_radius(), Rw = stage.pin_circle_radius;
  const double to_bore = Rw - rh - shape.bore_radius;
  const double to_hole = 2 * Rw * std::sin(kPi / stage.pins) - 2 * rh;
  const double to_root = stage.cut_pitch_radius() - stage.eccentricity - stage.cut_roller_radius() - Rw - rh;
  // Largest spacing of the samples as a share of the ligament beside them.
  constexpr double kSpacing = 0.45;
  const auto samples = [](double radius, double ligament, int least, int most) {
    const double wanted = 2 * kPi * radius / (kSpacing * std::max(ligament, 1e-3 * radius));
    return std::clamp(2 * static_cast<int>(std::ceil(wanted / 2)), least, most);
  };
  density.per_hole = samples(rh, std::min({to_bore, to_hole, to_root}), density.per_hole, 64);
  density.bore = samples(shape.bore_radius, to_bore, density.bore, 256);
  return density;
}

SampleSpacing::SampleSpacing(const mechanism::Profile& profile)
    : lobes_(profile.lobes()),
      g_((1 - std::sqrt(1 - profile.shortening() * profile.shortening())) / profile.shortening()) {}

double SampleSpacing::inverse(double t) const {
  const double phase = lobes_ * t;
  return t + 2 / lobes_ * std::atan2(g_ * std::sin(phase), 1 - g_ * std::cos(phase));
}

double SampleSpacing::parameter(double chi) const {
  const double phase = lobes_ * chi;
  return chi - 2 / lobes_ * std::atan2(g_ * std::sin(phase), 1 + g_ * std::cos(phase));
}

Flexibility::Flexibility(std::vector<SurfacePoint> contact_points)
    : points(std::move(contact_points)),
      normals(points.size() * points.size()),
      tangentials(points.size() * points.size()),
      filled(points.size(), 0) {}

DiscBody::DiscBody(const DiscShape& shape, PlaneMaterial material, BoreBase base, Mesh mesh)
    : shape_(shape),
      material_(material),
      base_(base),
      profile_(shape.stage),
      spacing_(profile_),
      samples_(profile_),
      mesh_(std::move(mesh)),
      quadrature_(mesh_),
      patterns_(bore_patterns(mesh_, quadrature_)),
      body_(mesh_, material, held_freedoms(mesh_, base)) {}

Result<DiscBody> DiscBody::build(const DiscShape& shape, PlaneMaterial material, BoreBase base, MeshDensity density,
                                 std::optional<TableDensity> table) {
  auto mesh = disc_mesh(shape, density);
  if (!mesh) return mesh.errors();
  DiscBody body(shape, material, base, std::move(mesh).value());
  if (table) body.tabulate(*table);
  return body;
}

SurfacePoint DiscBody::on_flank(double t) const {
  const double turns = spacing_.inverse(t) / (2 * kPi);
  const int edges = mesh_.loops[kFlankLoop].edges();
  const int edge = std::min(edges - 1, static_cast<int>((turns - std::floor(turns)) * edges));
  const Vec2 point = profile_.point(t);
  return {foot_on_loop(mesh_, kFlankLoop, edge, point), point, profile_.inner_normal(t), t};
}

SurfacePoint DiscBody::on_hole(int hole, double angle) const {
  const int loop = kFirstHoleLoop + hole;
  const Vec2 point = mesh_.loops[loop].centre + shape_.stage.hole_radius() * unit(angle);
  return {foot_on_loop(mesh_, loop, edge_at(mesh_, loop, point), point), point, unit(angle), angle};
}

SurfacePoint DiscBody::on_bore(double angle) const {
  const Vec2 point = shape_.bore_radius * unit(angle);
  return {foot_on_loop(mesh_, kBoreLoop, edge_at(mesh_, kBoreLoop, point), point), point, unit(angle), angle};
}

SingularField DiscBody::singular(const SurfacePoint& load) const {
  // Normalised at the pitch radius; `fill` shifts the diagonal to the depth that is asked for.
  const double depth = shape_.stage.pitch_radius;
  if (load.place.loop == kFlankLoop) return {material_, load.point, load.normal, depth};
  return {material_, load.point, load.normal, depth, mesh_.loops[load.place.loop].centre};
}

SingularField DiscBody::singular_on_edge(const SurfacePoint& load) const {
  SurfacePoint moved = load;
  moved.point = load.place.point;
  return singular(moved);
}

DiscBody::Frame DiscBody::singular_frame(const SurfacePoint& load, const SingularField& field) const {
  if (load.place.loop == kBoreLoop)
    return {bore_load_frame(material_, shape_.bore_radius, shape_.stage.pitch_radius) * load.normal, 0};
  Frame frame;
  for (int i = 0; i < kFramePoints; ++i) {
    const Vec2 e = unit(2 * kPi * i / kFramePoints);
    const Vec2 u = field.displacement(shape_.bore_radius * e);
    frame.shift += (2 * dot(e, u) / kFramePoints) * e;
    frame.turn += dot(quarter_turn(e), u) / (kFramePoints * shape_.bore_radius);
  }
  return frame;
}

void DiscBody::clear_bore(int load_case, NodeBlock& block) const {
  for (const int node : mesh_.loops[kBoreLoop].nodes)
    block.at(2 * node)[load_case] = block.at(2 * node + 1)[load_case] = 0;
}

void DiscBody::hold_bore(const SingularField& field, double force, int load_case, NodeBlock& block) const {
  for (const int node : mesh_.loops[kBoreLoop].nodes) {
    const Vec2 u = force * field.displacement(mesh_.nodes[node]);
    block.at(2 * node)[load_case] -= u.x;
    block.at(2 * node + 1)[load_case] -= u.y;
  }
}

void DiscBody::balance(int load_case, NodeBlock& block) const {
  const auto& bore = mesh_.loops[kBoreLoop].nodes;
  Resultant sum;
  for (const Loop& loop : mesh_.loops)
    for (const int node : loop.nodes)
      sum.add(mesh_.nodes[node], {block.at(2 * node)[load_case], block.at(2 * node + 1)[load_case]});
  for (std::size_t i = 0; i < bore.size(); ++i)
    for (std::size_t p = 0; p < 3; ++p) {
      block.at(2 * bore[i])[load_case] -= sum.value[p] * patterns_[p][i].x;
      block.at(2 * bore[i] + 1)[load_case] -= sum.value[p] * patterns_[p][i].y;
    }
  // The held freedoms take no force: everything is in equilibrium.
  for (const int freedom : {2 * bore[0], 2 * bore[0] + 1, 2 * bore[bore.size() / 2] + 1})
    block.at(freedom)[load_case] = 0;
}

void DiscBody::add_bore_motion(int load_case, const NodeBlock& block, Frame& frame) const {
  const auto& bore = mesh_.loops[kBoreLoop].nodes;
  for (std::size_t i = 0; i < bore.size(); ++i) {
    const Vec2 u = {block.at(2 * bore[i])[load_case], block.at(2 * bore[i] + 1)[load_case]};
    frame.shift += {dot(patterns_[0][i], u), dot(patterns_[1][i], u)};
    frame.turn += dot(patterns_[2][i], u);
  }
}

std::array<DiscBody::Frame, kBlock> DiscBody::solve(std::span<const SurfacePoint> loads, NodeBlock& block) const {
  block.clear();
  std::array<Frame, kBlock> frames{};
  // The field starts from the edge of the mesh itself: a Gauss point close to a load beside the edge would see a false
  // 1/r traction.
  std::vector<SingularField> fields;
  for (const SurfacePoint& load : loads) fields.push_back(singular_on_edge(load));
  quadrature_.add_removed_tractions(fields, block);
  for (int k = 0; k < static_cast<int>(loads.size()); ++k) {
    if (base_ == BoreBase::glued) {
      clear_bore(k, block);
      hold_bore(fields[k], 1, k, block);
    } else {
      balance(k, block);
      frames[k] = singular_frame(loads[k], fields[k]);
    }
  }
  body_.solve_boundary(block);
  if (base_ == BoreBase::frame)
    for (int k = 0; k < static_cast<int>(loads.size()); ++k) add_bore_motion(k, block, frames[k]);
  return frames;
}

void DiscBody::tabulate(TableDensity density) {
  const int lobes = shape_.stage.lobes;
  const int holes = shape_.holes ? shape_.stage.pins : 0;
  const DiscSymmetry symmetry(lobes, holes, shape_.hole_offset);
  const SampleCounts counts = symmetry.rounded({lobes * density.per_lobe, density.per_hole, density.bore});
  flank_samples_ = counts.flank;
  hole_samples_ = counts.hole;
  bore_samples_ = base_ == BoreBase::frame ? counts.bore : 0;
  bore_start_ = symmetry.mirror_angle();
  std::vector<SurfacePoint> samples;
  for (int i = 0; i < flank_samples_; ++i)
    samples.push_back(on_flank(samples_.parameter(2 * kPi * i / flank_samples_)));
  for (int j = 0; j < holes; ++j)
    for (int i = 0; i < hole_samples_; ++i)
      samples.push_back(on_hole(j, 2 * kPi * j / holes + shape_.hole_offset + 2 * kPi * i / hole_samples_));
  for (int i = 0; i < bore_samples_; ++i) samples.push_back(on_bore(bore_start_ + 2 * kPi * i / bore_samples_));

  const auto images = symmetry.images({flank_samples_, hole_samples_, bore_samples_});
  const std::size_t count = samples.size();
  table_.assign(2 * count * count, 0.0);
  std::vector<char> known(count, 0);
  std::vector<int> batch;
  std::vector<SurfacePoint> loads;
  NodeBlock block(mesh_.nodes.size());
  std::vector<double> row(2 * count);
  const auto flush = [&] {
    const auto frames = solve(loads, block);
    for (int k = 0; k < static_cast<int>(batch.size()); ++k) {
      for (std::size_t i = 0; i < count; ++i) {
        const Vec2 u = displacement_at(mesh_, block, samples[i].place, k) - frames[k].shift -
                       frames[k].turn * quarter_turn(samples[i].point);
        row[2 * i] = dot(samples[i].normal, u);
        row[2 * i + 1] = dot(quarter_turn(samples[i].normal), u);
      }
      for (const SampleImage& image : images) {
        double* target = &table_[2 * count * image.index[batch[k]]];
        for (std::size_t i = 0; i < count; ++i) {
          target[2 * image.index[i]] = row[2 * i];
          target[2 * image.index[i] + 1] = image.handedness * row[2 * i + 1];
        }
      }
    }
    batch.clear();
    loads.clear();
  };
  for (std::size_t j = 0; j < count; ++j) {
    if (known[j]) continue;
    for (const SampleImage& image : images) known[image.index[j]] = 1;
    batch.push_back(static_cast<int>(j));
    loads.push_back(samples[j]);
    if (batch.size() == kBlock) flush();
  }
  if (!batch.empty()) flush();
}

DiscBody::Stencil DiscBody::stencil(const SurfacePoint& point) const {
  int base = 0, period = flank_samples_;
  double angle = 0;
  if (point.place.loop == kFlankLoop) {
    angle = samples_.inverse(point.parameter);
  } else if (point.place.loop == kBoreLoop) {
    const int holes = static_cast<int>(mesh_.loops.size()) - kFirstHoleLoop;
    base = flank_samples_ + holes * hole_samples_;
    period = bore_samples_;
    angle = point.parameter - bore_start_;
  } else {
    const int hole = point.place.loop - kFirstHoleLoop;
    base = flank_samples_ + hole * hole_samples_;
    period = hole_samples_;
    angle = point.parameter - 2 * kPi * hole / shape_.stage.pins - shape_.hole_offset;
  }
  const double x = angle / (2 * kPi) * period;
  const double whole = std::floor(x);
  const double f = x - whole;
  Stencil s{};
  for (int a = 0; a < 6; ++a) {
    s.index[a] = base + ((static_cast<int>(whole) + a - 2) % period + period) % period;
    double weight = 1;  // Lagrange polynomial of the nodes -2..3
    for (int b = 0; b < 6; ++b)
      if (b != a) weight *= (f - (b - 2)) / (a - b);
    s.weight[a] = weight;
  }
  return s;
}

void DiscBody::fill_from_table(Flexibility& flexibility, std::span<const int> columns) const {
  const std::size_t points = flexibility.points.size();
  const std::size_t count = static_cast<std::size_t>(std::lround(std::sqrt(static_cast<double>(table_.size() / 2))));
  std::vector<Stencil> stencils;
  stencils.reserve(points);
  for (const SurfacePoint& point : flexibility.points) stencils.push_back(stencil(point));
  for (const int j : columns) {
    const Stencil& load = stencils[j];
    for (std::size_t i = 0; i < points; ++i) {
      const Stencil& at = stencils[i];
      double normal = 0, tangential = 0;
      for (std::size_t a = 0; a < 6; ++a) {
        const double* row = &table_[2 * count * load.index[a]];
        double n = 0, t = 0;
        for (std::size_t b = 0; b < 6; ++b) {
          const double* entry = row + 2 * at.index[b];
          n += at.weight[b] * entry[0];
          t += at.weight[b] * entry[1];
        }
        normal += load.weight[a] * n;
        tangential += load.weight[a] * t;
      }
      flexibility.normals[j * points + i] = normal;
      flexibility.tangentials[j * points + i] = tangential;
    }
  }
}

void DiscBody::fill_by_solution(Flexibility& flexibility, std::span<const int> columns) const {
  const std::size_t points = flexibility.points.size();
  NodeBlock block(mesh_.nodes.size());
  std::vector<SurfacePoint> loads;
  for (std::size_t first = 0; first < columns.size(); first += kBlock) {
    const auto batch = columns.subspan(first, std::min<std::size_t>(kBlock, columns.size() - first));
    loads.clear();
    for (const int j : batch) loads.push_back(flexibility.points[j]);
    const auto frames = solve(loads, block);
    for (std::size_t k = 0; k < batch.size(); ++k)
      for (std::size_t i = 0; i < points; ++i) {
        const SurfacePoint& at = flexibility.points[i];
        const Vec2 u = displacement_at(mesh_, block, at.place, static_cast<int>(k)) - frames[k].shift -
                       frames[k].turn * quarter_turn(at.point);
        flexibility.normals[batch[k] * points + i] = dot(at.normal, u);
        flexibility.tangentials[batch[k] * points + i] = dot(quarter_turn(at.normal), u);
      }
  }
}

void DiscBody::fill(Flexibility& flexibility, std::span<const int> columns, double depth) const {
  std::vector<int> missing;
  for (const int j : columns)
    if (!flexibility.filled[j]) missing.push_back(j);
  if (missing.empty()) return;
  if (tabulated()) {
    fill_from_table(flexibility, missing);
  } else {
    fill_by_solution(flexibility, missing);
  }
  const std::size_t points = flexibility.points.size();
  const double shift = -2 * std::log(depth / shape_.stage.pitch_radius) / (kPi * material_.modulus);
  for (const int j : missing) {
    flexibility.filled[j] = 1;
    const SingularField field = singular(flexibility.points[j]);
    for (std::size_t i = 0; i < points; ++i) {
      const SurfacePoint& at = flexibility.points[i];
      const bool self = static_cast<int>(i) == j;
      const Vec2 u = self ? field.dislocation_displacement(at.point) : field.displacement(at.point);
      flexibility.normals[j * points + i] += dot(at.normal, u) + (self ? shift : 0);
      if (!self) flexibility.tangentials[j * points + i] += dot(quarter_turn(at.normal), u);
    }
  }
}

DiscField DiscBody::field(std::span<const PointForce> forces) const {
  // All loads together are one load case.
  NodeBlock block(mesh_.nodes.size());
  std::vector<SingularField> fields;
  Frame frame;
  for (std::size_t first = 0; first < forces.size(); first += kBlock) {
    const std::size_t count = std::min<std::size_t>(kBlock, forces.size() - first);
    for (std::size_t k = first; k < first + count; ++k) {
      fields.push_back(singular_on_edge(forces[k].at));
      if (base_ != BoreBase::frame) continue;
      const Frame part = singular_frame(forces[k].at, fields.back());
      frame.shift += forces[k].force * part.shift;
      frame.turn += forces[k].force * part.turn;
    }
    NodeBlock unit_loads(mesh_.nodes.size());
    quadrature_.add_removed_tractions(std::span(fields).subspan(first), unit_loads);
    for (const Loop& loop : mesh_.loops)
      for (const int node : loop.nodes)
        for (const int freedom : {2 * node, 2 * node + 1})
          for (std::size_t k = 0; k < count; ++k)
            block.at(freedom)[0] += forces[first + k].force * unit_loads.at(freedom)[k];
  }
  if (base_ == BoreBase::frame) {
    balance(0, block);
  } else {
    clear_bore(0, block);
    for (std::size_t k = 0; k < forces.size(); ++k) hold_bore(fields[k], forces[k].force, 0, block);
  }
  body_.solve(block);
  if (base_ == BoreBase::frame) add_bore_motion(0, block, frame);

  const auto smooth = corner_stress(mesh_, material_, block, 0);
  const double poisson = material_.modulus > 1 ? material_.poisson / (1 + material_.poisson) : 0;  // of sigma_zz
  DiscField field;
  std::vector<int> corner(mesh_.nodes.size(), -1);
  constexpr std::array<std::size_t, 4> kCorners = {0, 2, 8, 6};
  for (const auto& element : mesh_.elements) {
    std::array<int, 4> cell{};
    for (std::size_t c = 0; c < 4; ++c) {
      const int node = element[kCorners[c]];
      if (corner[node] < 0) {
        corner[node] = static_cast<int>(field.points.size());
        const Vec2 x = mesh_.nodes[node];
        Vec2 u = Vec2{block.at(2 * node)[0], block.at(2 * node + 1)[0]} - frame.shift - frame.turn * quarter_turn(x);
        Stress s = smooth[node];
        for (std::size_t k = 0; k < forces.size(); ++k) {
          const double core = forces[k].half_width;
          const bool near = mechanism::norm(x - fields[k].point()) < core;
          u += forces[k].force * fields[k].displacement(near ? fields[k].point() + core * forces[k].at.normal : x);
          s += forces[k].force * fields[k].stress(x, core);
        }
        const double zz = poisson * (s.xx + s.yy);
        field.points.push_back(x);
        field.displacement.push_back(u);
        field.mises.push_back(
            std::sqrt(0.5 * ((s.xx - s.yy) * (s.xx - s.yy) + (s.yy - zz) * (s.yy - zz) + (zz - s.xx) * (zz - s.xx)) +
                      3 * s.xy * s.xy));
      }
      cell[c] = corner[node];
    }
    field.cells.push_back(cell);
  }
  return field;
}

}  // namespace lobewise::contact::elastic
