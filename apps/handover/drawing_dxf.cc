// DXF release 12: group code and value, a line each. Chosen because every reader knows it and it needs no handles.

#include <fmt/format.h>

#include "apps/handover/drawing.h"
#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

struct LayerStyle {
  const char* name;
  int colour;  ///< of the index palette; 7 prints black
  const char* line_type;
};
constexpr LayerStyle kLayers[] = {
    {"OUTLINE", 7, "CONTINUOUS"},   {"HIDDEN", 8, "DASHED"},   {"CENTRE", 1, "CENTER"},   {"TYPICAL", 5, "PHANTOM"},
    {"DIMENSION", 3, "CONTINUOUS"}, {"TEXT", 7, "CONTINUOUS"}, {"FRAME", 7, "CONTINUOUS"}};

const char* name_of(Layer layer) { return kLayers[static_cast<std::size_t>(layer)].name; }

/// ASCII only: other characters as \U+XXXX; `%%` and backslashes lose their power.
std::string safe(const std::string& text) {
  std::string out;
  for (char32_t code : code_points(clean(text))) {
    if (code == U'⌀')
      out += "%%c";
    else if (code == U'°')
      out += "%%d";
    else if (code == U'\u00a0')
      out += ' ';
    else if (code == U'\\')
      out += '/';
    else if (code == U'%' && !out.empty() && out.back() == '%')
      out += " %";
    else if (code < 0x7F)
      out += static_cast<char>(code);
    else if (code <= 0xFFFF)
      out += fmt::format("\\U+{:04X}", static_cast<unsigned>(code));
    else
      out += '?';
  }
  constexpr std::size_t kMost = 250;  // of a string in release 12
  return out.substr(0, kMost);
}

class Writer {
 public:
  void pair(int code, const std::string& value) { out_ += fmt::format("{:>3}\n{}\n", code, value); }
  void pair(int code, int value) { pair(code, std::to_string(value)); }
  void pair(int code, double value) { pair(code, fmt::format("{:.6f}", value)); }
  void point(int code, Point p) {
    pair(code, p.x);
    pair(code + 10, p.y);
    pair(code + 20, 0.0);
  }
  void begin(const char* section) {
    pair(0, "SECTION");
    pair(2, section);
  }
  void end() { pair(0, "ENDSEC"); }
  void entity(const char* kind, Layer layer) {
    pair(0, kind);
    pair(8, name_of(layer));
  }

  void stroke(const Stroke& s) {
    if (s.points.size() == 2) {
      entity("LINE", s.layer);
      point(10, s.points[0]);
      point(11, s.points[1]);
      return;
    }
    entity("POLYLINE", s.layer);
    pair(66, 1);
    point(10, {});
    pair(70, s.closed ? 1 : 0);
    for (Point p : s.points) {
      entity("VERTEX", s.layer);
      point(10, p);
    }
    entity("SEQEND", s.layer);
  }
  void arrow(const Stroke& s) {
    entity("SOLID", s.layer);
    for (std::size_t i = 0; i < 4; ++i) point(10 + static_cast<int>(i), s.points[std::min<std::size_t>(i, 2)]);
  }
  void circle(const Circle& c) {
    entity("CIRCLE", c.layer);
    point(10, c.centre);
    pair(40, c.radius);
  }
  void lettering(const Lettering& item) {
    entity("TEXT", item.layer);
    point(10, item.at);
    pair(40, item.height);
    pair(1, safe(item.text));
    if (item.upright) pair(50, 90.0);
    if (item.anchor != Anchor::start) {
      pair(72, item.anchor == Anchor::middle ? 1 : 2);
      point(11, item.at);
    }
  }
  void block(const std::string& name, const DimensionParts& parts) {
    pair(0, "BLOCK");
    pair(8, "0");
    pair(2, name);
    pair(70, 1);  // anonymous
    point(10, {});
    for (const Stroke& s : parts.lines) stroke(s);
    for (const Stroke& s : parts.arrows) arrow(s);
    lettering(parts.text);
    pair(0, "ENDBLK");
    pair(8, "0");
  }
  void dimension(const std::string& block, const Dimension& d, const DimensionParts& parts) {
    entity("DIMENSION", Layer::dimension);
    pair(2, block);
    pair(3, "STANDARD");
    point(10, d.vertical ? Point{d.line, d.to.y} : Point{d.to.x, d.line});
    point(11, parts.text.at);
    pair(70, 0);  // linear
    pair(1, safe(d.text));
    point(13, d.from);
    point(14, d.to);
    if (d.vertical) pair(50, 90.0);
  }
  std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

void write_header(Writer& w, const Drawing& drawing, const Box& box) {
  w.begin("HEADER");
  w.pair(9, "$ACADVER");
  w.pair(1, "AC1009");
  w.pair(9, "$EXTMIN");
  w.point(10, {box.left, box.bottom});
  w.pair(9, "$EXTMAX");
  w.point(10, {box.right, box.top});
  w.pair(9, "$LTSCALE");
  w.pair(40, drawing.letter / 2.5);
  w.pair(9, "$DIMTXT");
  w.pair(40, drawing.letter);
  w.pair(9, "$DIMASZ");
  w.pair(40, drawing.letter);
  w.end();
}

void write_line_type(Writer& w, const char* name, const char* looks, const std::vector<double>& dashes) {
  double length = 0;
  for (double d : dashes) length += std::abs(d);
  w.pair(0, "LTYPE");
  w.pair(2, name);
  w.pair(70, 0);
  w.pair(3, looks);
  w.pair(72, 65);
  w.pair(73, static_cast<int>(dashes.size()));
  w.pair(40, length);
  for (double d : dashes) w.pair(49, d);
}

void begin_table(Writer& w, const char* name, int count) {
  w.pair(0, "TABLE");
  w.pair(2, name);
  w.pair(70, count);
}

void write_tables(Writer& w, double letter) {
  w.begin("TABLES");
  begin_table(w, "LTYPE", 4);
  write_line_type(w, "CONTINUOUS", "Solid line", {});
  write_line_type(w, "DASHED", "_ _ _ _", {2, -1});
  write_line_type(w, "CENTER", "____ _ ____", {6, -1.2, 0.6, -1.2});
  write_line_type(w, "PHANTOM", "____ _ _ ____", {5, -1, 0.6, -1, 0.6, -1});
  w.pair(0, "ENDTAB");
  begin_table(w, "LAYER", static_cast<int>(std::size(kLayers)) + 1);
  for (const LayerStyle& layer : kLayers) {
    w.pair(0, "LAYER");
    w.pair(2, layer.name);
    w.pair(70, 0);
    w.pair(62, layer.colour);
    w.pair(6, layer.line_type);
  }
  w.pair(0, "LAYER");
  w.pair(2, "0");
  w.pair(70, 0);
  w.pair(62, 7);
  w.pair(6, "CONTINUOUS");
  w.pair(0, "ENDTAB");
  begin_table(w, "STYLE", 1);
  w.pair(0, "STYLE");
  w.pair(2, "STANDARD");
  w.pair(70, 0);
  w.pair(40, 0.0);
  w.pair(41, 1.0);
  w.pair(50, 0.0);
  w.pair(71, 0);
  w.pair(42, letter);
  w.pair(3, "txt");
  w.pair(4, "");
  w.pair(0, "ENDTAB");
  begin_table(w, "DIMSTYLE", 1);
  w.pair(0, "DIMSTYLE");
  w.pair(2, "STANDARD");
  w.pair(70, 0);
  w.pair(41, letter);          // arrow
  w.pair(42, 0.3 * letter);    // gap to the object
  w.pair(44, 0.5 * letter);    // beyond the dimension line
  w.pair(140, letter);         // text
  w.pair(147, 0.35 * letter);  // gap round the text
  w.pair(77, 1);               // text above the line
  w.pair(73, 0);
  w.pair(74, 0);
  w.pair(0, "ENDTAB");
  w.end();
}

}  // namespace

std::string drawing_dxf(const Drawing& drawing) {
  Writer w;
  w.pair(999, "Units of this drawing: " + drawing.unit + ", full size");
  write_header(w, drawing, drawing.box());
  write_tables(w, drawing.letter);
  std::vector<DimensionParts> parts;
  for (const Dimension& d : drawing.dimensions) parts.push_back(take_apart(d, drawing.letter));
  w.begin("BLOCKS");
  for (std::size_t i = 0; i < parts.size(); ++i) w.block(fmt::format("*D{}", i + 1), parts[i]);
  w.end();
  w.begin("ENTITIES");
  for (const Stroke& s : drawing.strokes) w.stroke(s);
  for (const Circle& c : drawing.circles) w.circle(c);
  for (const Lettering& item : drawing.letterings) w.lettering(item);
  for (std::size_t i = 0; i < parts.size(); ++i)
    w.dimension(fmt::format("*D{}", i + 1), drawing.dimensions[i], parts[i]);
  w.end();
  w.pair(0, "EOF");
  return w.take();
}

}  // namespace lobewise::handover
