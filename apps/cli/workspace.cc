#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <string>

#include "apps/cli/commands.h"
#include "apps/cli/handover.h"
#include "apps/cli/job.h"
#include "apps/server/server.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct WorkspaceOptions : JobOptions {
  int port = 4741;
  bool no_browser = false;
  std::string store, public_host;
};

int workspace(const WorkspaceOptions& options) {
  server::Options serving;
  const std::optional<std::filesystem::path> site = server::find_site();
  if (!site)
    return refuse({input_error("", "", "the workspace was not built; run tools/build_web.sh (or ./run.sh)")}, options);
  serving.site = *site;
  serving.port = options.port;
  serving.open_browser = !options.no_browser;
  if (!options.file.empty()) {
    const Result<Document> document = read_document(options.file);
    if (!document) return refuse(document.errors(), options);
    serving.enquiry = document->json.dump();
  }
  if (!options.store.empty()) {
    const store::Outcome<store::Place> place = store::parse_place(options.store);
    if (!place) return refuse({input_error("--store", options.store, place.problem().message)}, options);
    serving.store = *place;
  }
  serving.public_host = options.public_host;
  serving.handover = [](const api::Session& engine, const std::string& request) {
    return answer_handover(
        [&](const std::string& call, const Json& input) { return engine.registry().run(call, input); }, request);
  };
  serving.on_ready = [](const std::string& url) {
    std::cout << "Workspace: " << url << "  (stop with Ctrl-C)" << std::endl;
  };
  return server::serve(serving);
}

}  // namespace

void add_workspace(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("workspace", "Open the workspace in a browser of this machine (loopback only)");
  const auto options = std::make_shared<WorkspaceOptions>();
  command->add_option("enquiry", options->file, "enquiry to open, YAML or JSON");
  command->add_option("--port", options->port, "port, 0 for any free one")->check(CLI::Range(0, 65535));
  command->add_flag("--no-browser", options->no_browser, "only serve; print the address");
  command->add_option("--store", options->store, "keep enquiries here: a file, or postgresql://… of a team");
  command->add_option("--public-host", options->public_host,
                      "name under which a TLS proxy of this machine serves it to a network");
  command->callback([options, &code] { code = workspace(*options); });
}

}  // namespace lobewise::cli
