#include "apps/handover/handover.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <future>
#include <iterator>
#include <map>

#include "apps/handover/demo_model.h"
#include "apps/handover/findings_xlsx.h"
#include "apps/handover/print_pdf.h"
#include "apps/handover/proposal.h"
#include "apps/handover/run_program.h"
#include "apps/handover/sheets.h"
#include "apps/handover/step_plan.h"
#include "apps/handover/unit_drawing.h"
#include "apps/handover/workings_xlsx.h"

namespace lobewise::handover {
namespace {

namespace fs = std::filesystem;

std::string read_file(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// A page and what became of printing it.
struct Printed {
  std::string html;
  Result<std::string> pdf;
};

Result<std::string> no_browser() { return input_error("", "", "no chromium on the path; print the HTML file instead"); }

class Folder {
 public:
  Folder(std::string path, const std::vector<std::string>& only, const Order& order)
      : path_(std::move(path)),
        only_(only),
        print_(order.print),
        date_(order.date),
        browser_(print_ ? find_browser() : std::string()) {}

  [[nodiscard]] bool wanted(const char* document) const {
    return only_.empty() || std::find(only_.begin(), only_.end(), document) != only_.end();
  }
  void write(const std::string& name, const std::string& content) {
    std::ofstream stream(path_ / name, std::ios::binary);
    stream << content;
    stream.close();
    if (!stream)
      errors_.push_back(input_error("--out", (path_ / name).string(), "this file cannot be written"));
    else
      written_.files.push_back(name);
  }
  void made(const std::string& name, const Errors& problems) {
    errors_.insert(errors_.end(), problems.begin(), problems.end());
    if (problems.empty()) written_.files.push_back(name);
  }
  [[nodiscard]] std::string path_of(const std::string& name) const { return (path_ / name).string(); }
  void skip(const std::string& what) { written_.skipped.push_back(what); }

  /// HTML, and the PDF printed from it; printing goes on while other documents are made.
  void print(const std::string& stem, std::string html) {
    prints_.emplace_back(stem,
                         std::async(std::launch::async, [browser = browser_, date = date_, page = std::move(html)] {
                           return Printed{page, browser.empty() ? no_browser() : print_pdf(browser, page, date)};
                         }));
  }
  /// The proposal: a first print finds out on which pages its sections begin.
  void print_proposal(const Source& source) {
    prints_.emplace_back(
        "proposal", std::async(std::launch::async, [browser = browser_, &source] {
          std::map<std::string, int> pages;
          if (browser.empty()) return Printed{proposal(source, pages), no_browser()};
          Result<std::string> draft = print_pdf(browser, proposal(source, {{"asked", 0}}), source.order.date);
          if (!draft) return Printed{proposal(source, pages), std::move(draft)};
          pages = destination_pages(*draft);
          const std::string page = proposal(source, pages);
          return Printed{page, print_pdf(browser, page, source.order.date)};
        }));
  }

  Result<Written> take() {
    for (auto& [stem, future] : prints_) {
      const Printed printed = future.get();
      write(stem + ".html", printed.html);
      if (!print_) continue;
      printed.pdf ? write(stem + ".pdf", *printed.pdf) : skip(stem + ".pdf: " + printed.pdf.errors().front().message);
    }
    if (!errors_.empty()) return errors_;
    return std::move(written_);
  }

 private:
  fs::path path_;
  const std::vector<std::string>& only_;
  bool print_;
  std::string date_;
  std::string browser_;
  Written written_;
  Errors errors_;
  std::vector<std::pair<std::string, std::future<Printed>>> prints_;
};

/// One model a stage.
void write_models(const Source& source, Folder& folder) {
  const Json& stages = source.outline["stages"];
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const std::string name = stages.size() == 1 ? "model.3mf" : fmt::format("model_stage_{}.3mf", i + 1);
    if (stages[i].contains("refused")) {
      folder.skip(name + ": " + stages[i]["refused"].get<std::string>());
      continue;
    }
    const auto parts = demo_parts(stages[i], source.order.model_size * 1000, source.order.clearance * 1000);
    const Result<std::string> package =
        parts ? model_3mf(*parts, "Demonstration model: " + source.build_name()) : Result<std::string>(parts.errors());
    package ? folder.write(name, *package) : folder.skip(name + ": " + package.errors().front().message);
  }
}

void write_step(const Source& source, Folder& folder) {
  if (source.order.step_writer.empty()) return folder.skip("outline.step: built without Open CASCADE");
  const TemporaryFolder temporary;
  const fs::path plan = temporary.path() / "plan.json", out = temporary.path() / "outline.step";
  std::ofstream(plan, std::ios::binary) << step_plan(source).dump(-1, ' ', false, Json::error_handler_t::replace);
  const int code = run_program({source.order.step_writer, plan.string(), out.string()});
  const std::string step = read_file(out);
  code == 0 && !step.empty() ? folder.write("outline.step", step) : folder.skip("outline.step: the writer failed");
}

/// JSON that can stand inside a script element.
std::string for_script(const Json& json) {
  std::string out;
  for (char c : json.dump(-1, ' ', true, Json::error_handler_t::replace))
    out += c == '<' ? std::string("\\u003c") : std::string(1, c);
  return out;
}

/// The workspace as one file, with this enquiry in it.
void write_offline(const Source& source, Folder& folder) {
  constexpr std::string_view kMark = "<script id=\"lobewise-handover\" type=\"application/json\">";
  std::string page = source.order.offline_page.empty() ? std::string() : read_file(source.order.offline_page);
  const std::size_t at = page.find(kMark);
  if (at == std::string::npos)
    return folder.skip("offline.html: the page was not built (tools/build_web.sh builds it)");
  Json data{{"enquiry", source.order.enquiry},
            {"build", source.prove["build"]},
            {"units", source.units},
            {"date", source.order.date}};
  if (!source.order.range.is_null()) data["range"] = source.order.range;
  page.insert(at + kMark.size(), for_script(data));
  folder.write("offline.html", page);
}

}  // namespace

Result<Written> hand_over(const Source& source, const std::string& path, const std::vector<std::string>& only) {
  std::error_code problem;
  fs::create_directories(path, problem);
  if (!fs::is_directory(path, problem)) return input_error("--out", path, "this folder cannot be made");
  Folder folder(path, only, source.order);
  if (folder.wanted("proposal")) folder.print_proposal(source);
  if (folder.wanted("drawing")) {
    const Sheet sheet = unit_sheet(source);
    folder.write("drawing.svg", sheet_svg(source, sheet));
    folder.write("drawing.dxf", drawing_dxf(sheet.drawing));
    folder.print("drawing", sheet_html(source, sheet));
  }
  const auto sheet = [&](const char* document, const std::string& stem, std::string (*make)(const Source&)) {
    if (!folder.wanted(document)) return;
    source.serves() ? folder.print(stem, make(source)) : folder.skip(stem + ".pdf: no build of this range serves");
  };
  sheet("order", "order_sheet", order_sheet);
  sheet("commissioning", "commissioning_sheet", commissioning_sheet);
  if (folder.wanted("findings"))
    folder.made("findings.xlsx", write_findings_xlsx(source, folder.path_of("findings.xlsx")));
  if (folder.wanted("workings"))
    folder.made("workings.xlsx", write_workings_xlsx(source, folder.path_of("workings.xlsx")));
  if (folder.wanted("model")) write_models(source, folder);
  if (folder.wanted("step")) write_step(source, folder);
  if (folder.wanted("offline")) write_offline(source, folder);
  return folder.take();
}

}  // namespace lobewise::handover
