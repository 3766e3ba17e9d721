#include "engine/drive/table_bytes.h"

#include <cstring>
#include <utility>

namespace lobewise::drive {
namespace {

class Writer {
 public:
  void operator()(double value) { raw(&value, sizeof value); }
  void operator()(const std::string& text) {
    size(text.size());
    raw(text.data(), text.size());
  }
  void operator()(const std::vector<double>& list) {
    size(list.size());
    raw(list.data(), list.size() * sizeof(double));
  }
  template <class Item, class Each>
  void list(const std::vector<Item>& items, Each each) {
    size(items.size());
    for (const Item& item : items) each(*this, item);
  }
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  void size(std::size_t count) { (*this)(static_cast<double>(count)); }
  void raw(const void* from, std::size_t bytes) {
    if (bytes > 0) out_.append(static_cast<const char*>(from), bytes);
  }
  std::string out_;
};

class Reader {
 public:
  explicit Reader(std::string_view bytes) : left_(bytes) {}
  void operator()(double& value) { raw(&value, sizeof value); }
  void operator()(std::string& text) {
    text.resize(size(1));
    raw(text.data(), text.size());
  }
  void operator()(std::vector<double>& list) {
    list.resize(size(sizeof(double)));
    raw(list.data(), list.size() * sizeof(double));
  }
  template <class Item, class Each>
  void list(std::vector<Item>& items, Each each) {
    items.resize(size(sizeof(double)));
    for (Item& item : items) each(*this, item);
  }
  [[nodiscard]] bool whole() const { return sound_ && left_.empty(); }

 private:
  /// A number of items of at least `bytes` each; 0 where so many do not follow.
  std::size_t size(std::size_t bytes) {
    double count = 0;
    (*this)(count);
    if (sound_ && count >= 0 && count <= static_cast<double>(left_.size() / bytes))
      return static_cast<std::size_t>(count);
    sound_ = false;
    return 0;
  }
  void raw(void* to, std::size_t bytes) {
    if (!sound_ || bytes > left_.size()) {
      sound_ = false;
      return;
    }
    if (bytes > 0) std::memcpy(to, left_.data(), bytes);
    left_.remove_prefix(bytes);
  }
  std::string_view left_;
  bool sound_ = true;
};

// What a record holds, once for both ways: `Of` is const for a writer.
template <class Io, class Of>
void each_contact(Io& io, Of& c) {
  for (auto* list : {&c.force, &c.arm, &c.radius, &c.approach, &c.local, &c.bent}) io(*list);
  io(c.logarithmic);
}

template <class Io, class Of>
void each_sum(Io& io, Of& sums) {
  io(sums.weight);
  io(sums.hersey_rate);
  io(sums.total);
}

template <class Io, class Of>
void each_level(Io& io, Of& l) {
  for (auto* list : {&l.forces.flank, &l.forces.pins, &l.forces.bearing, &l.loaded, &l.at_largest.output_force,
                     &l.at_largest.output_arm})
    io(*list);
  for (auto* figure : {&l.torque,
                       &l.lobe_force,
                       &l.lobe_pressure,
                       &l.loaded_min,
                       &l.loaded_mean,
                       &l.loaded_max,
                       &l.share_largest,
                       &l.pin_force,
                       &l.pin_pressure,
                       &l.bearing_equivalent,
                       &l.bearing_largest,
                       &l.rotation,
                       &l.lobe_life,
                       &l.roller_life,
                       &l.hole_life,
                       &l.sleeve_life,
                       &l.hardest.force,
                       &l.hardest.pressure,
                       &l.hardest.radius,
                       &l.hardest.entrainment,
                       &l.hardest.load_per_length,
                       &l.at_largest.crank_angle,
                       &l.pressed_force,
                       &l.pressed_radius})
    io(*figure);
  each_contact(io, l.at_largest.ring);
  each_contact(io, l.at_largest.pins);
  each_sum(io, l.lobe_sliding);
  each_sum(io, l.pin_sliding);
}

template <class Io, class Of, class List>
void each_member(Io& io, Of& table, List& levels) {
  io(table.model);
  io(table.reference_torque);
  io(table.disc_loads);
  io.list(table.reversals, [](Io& each, auto& r) {
    for (auto* figure : {&r.torque, &r.forward, &r.backward}) each(*figure);
  });
  io.list(levels, [](Io& each, auto& level) { each_level(each, level); });
}

}  // namespace

std::string bytes_of(const StageTable& table) {
  Writer writer;
  writer(table.elastic ? 1.0 : 0.0);
  const std::vector<MeshLevel> levels(table.levels.begin(), table.levels.end());
  each_member(writer, table, levels);
  return writer.take();
}

std::optional<StageTable> table_of_bytes(std::string_view bytes) {
  Reader reader(bytes);
  double elastic = 0;
  reader(elastic);
  StageTable table;
  table.elastic = elastic != 0;
  std::vector<MeshLevel> levels;
  each_member(reader, table, levels);
  if (!reader.whole() || levels.size() < 2 || table.reversals.size() < 2) return std::nullopt;
  table.levels = std::move(levels);
  return table;
}

}  // namespace lobewise::drive
