#pragma once
// Serves the workspace to a browser on this machine, and the engine's door to it. Loopback only: nothing here is meant
// for a network.

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "apps/store/place.h"

namespace lobewise::api {
class Session;
}

namespace lobewise::server {

struct Options {
  std::filesystem::path site;          ///< folder with the built page; see `find_site`
  std::optional<std::string> enquiry;  ///< JSON of the enquiry to open; the page's own when absent
  std::optional<store::Place> store;   ///< keeps enquiries for the page; one that is not there yet is made when a file
  /// Makes a document of a hand-over from the page's request, JSON to JSON; empty: POST /handover is not there.
  std::function<std::string(const api::Session& engine, const std::string& request)> handover;
  std::string public_host;   ///< name under which a TLS proxy of this machine serves the page; empty: none does
  int port = 4741;           ///< the next free one is taken when it is in use; 0: any
  bool open_browser = true;  ///< a desktop's browser, when there is one
  std::function<void(const std::string& url)> on_ready = [](const std::string&) {};  ///< called once it listens
};

/// The page's folder: `share/lobewise/web` of an installation, or `web/dist` of the source tree this was built in;
/// nullopt when it is in neither place (the page was not built).
[[nodiscard]] std::optional<std::filesystem::path> find_site();

/// Serves until the process is told to stop.
///   GET  /…            the page's files, read once at the start
///   GET  /enquiry.json `enquiry`
///   GET  /status       {"engine": version, "handover": whether documents can be made, "store": whether one is kept}
///   POST /api          {"call": …, "input": …} -> the engine's answer; for who is signed in, where that is needed
///   POST /handover     `handover`, under the same conditions as /api
///   /store…            see store_routes.h; 404 without a store
/// A request must name 127.0.0.1 or localhost (or `public_host`) as its host and, when it has an origin, come from
/// there: a page of the internet can neither read nor ask anything.
/// @returns 0 after a stop; 1 when no port could be had; 3 when `site` holds no page or the store cannot be opened
/// (said on standard error)
int serve(const Options& options);

}  // namespace lobewise::server
