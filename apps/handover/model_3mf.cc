#include <fmt/format.h>
#include <zip.h>

#include "apps/handover/demo_model.h"
#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

constexpr const char* kContentTypes =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
    "<Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
    "<Default Extension=\"model\" ContentType=\"application/vnd.ms-package.3dmanufacturing-3dmodel+xml\"/></Types>";
constexpr const char* kRelations =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
    "<Relationship Target=\"/3D/3dmodel.model\" Id=\"rel0\" "
    "Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"/></Relationships>";

std::string model_xml(const std::vector<Solid>& parts, const std::string& title) {
  std::string out = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<model unit=\"millimeter\" xml:lang=\"en\" "
      "xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n<metadata name=\"Title\">{}</metadata>\n"
      "<metadata name=\"Description\">Demonstration model: it shows how the stage works and carries "
      "nothing.</metadata>\n"
      "<resources>\n",
      markup(title));
  for (std::size_t i = 0; i < parts.size(); ++i) {
    out += fmt::format("<object id=\"{}\" type=\"model\" name=\"{}\"><mesh><vertices>\n", i + 1, markup(parts[i].name));
    for (const Vertex& v : parts[i].vertices())
      out += fmt::format("<vertex x=\"{:.5f}\" y=\"{:.5f}\" z=\"{:.5f}\"/>\n", v.x, v.y, v.z);
    out += "</vertices><triangles>\n";
    for (const auto& t : parts[i].triangles())
      out += fmt::format("<triangle v1=\"{}\" v2=\"{}\" v3=\"{}\"/>\n", t[0], t[1], t[2]);
    out += "</triangles></mesh></object>\n";
  }
  out += "</resources>\n<build>\n";
  for (std::size_t i = 0; i < parts.size(); ++i) out += fmt::format("<item objectid=\"{}\"/>\n", i + 1);
  return out + "</build>\n</model>\n";
}

/// Content stays where it is until the archive is closed.
bool add(zip_t* archive, const char* name, const std::string& content) {
  zip_source_t* source = zip_source_buffer(archive, content.data(), content.size(), 0);
  if (source == nullptr) return false;
  const zip_int64_t place = zip_file_add(archive, name, source, ZIP_FL_ENC_UTF_8);
  if (place < 0) {
    zip_source_free(source);
    return false;
  }
  constexpr time_t kAnyDay = 946684800;  // 2000-01-01: the same parts give the same file
  return zip_file_set_mtime(archive, static_cast<zip_uint64_t>(place), kAnyDay, 0) == 0;
}

std::string read_all(zip_source_t* source) {
  std::string out;
  zip_stat_t stat;
  if (zip_source_open(source) != 0) return out;
  if (zip_source_stat(source, &stat) == 0) {
    out.resize(stat.size);
    if (zip_source_read(source, out.data(), out.size()) != static_cast<zip_int64_t>(out.size())) out.clear();
  }
  zip_source_close(source);
  return out;
}

}  // namespace

Result<std::string> model_3mf(const std::vector<Solid>& parts, const std::string& title) {
  const Error failed{ErrorKind::internal, "model", "", "the package cannot be made", 0};
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* target = zip_source_buffer_create(nullptr, 0, 0, &error);
  if (target == nullptr) return failed;
  zip_source_keep(target);
  zip_t* archive = zip_open_from_source(target, ZIP_CREATE | ZIP_TRUNCATE, &error);
  if (archive == nullptr) {
    zip_source_free(target);
    zip_source_free(target);
    return failed;
  }
  const std::string types = kContentTypes, relations = kRelations, model = model_xml(parts, title);
  const bool added = add(archive, "[Content_Types].xml", types) && add(archive, "_rels/.rels", relations) &&
                     add(archive, "3D/3dmodel.model", model);
  std::string package;
  if (!added)
    zip_discard(archive);
  else if (zip_close(archive) == 0)
    package = read_all(target);
  else
    zip_discard(archive);
  zip_source_free(target);
  if (package.empty()) return failed;
  return package;
}

}  // namespace lobewise::handover
