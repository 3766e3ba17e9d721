#include "apps/server/server.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <httplib.h>
#include <spawn.h>
#include <unistd.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <map>

#include "apps/server/body.h"
#include "apps/server/engines.h"
#include "apps/server/store_routes.h"

extern char** environ;  // NOLINT: posix_spawn wants it

namespace lobewise::server {
namespace {

constexpr std::size_t kMostBytes = 16U << 20U;  ///< of a request; the engine's own limit
constexpr int kPortsTried = 20;
constexpr std::size_t kConnections = 64;  ///< served at once

/// Scripts, fonts and pictures from here only; WebAssembly may be compiled. Style attributes are allowed: typeset
/// formulas and charts carry their lengths in them.
constexpr const char* kContentPolicy =
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self' 'unsafe-inline'; "
    "font-src 'self'; img-src 'self' data: blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";

struct File {
  std::string type;
  std::shared_ptr<const std::string> content;
  bool immutable = false;  ///< its name holds a hash of its content
};

std::string type_of(const std::filesystem::path& path) {
  static const std::map<std::string, std::string> kTypes{{".html", "text/html; charset=utf-8"},
                                                         {".js", "text/javascript; charset=utf-8"},
                                                         {".css", "text/css; charset=utf-8"},
                                                         {".svg", "image/svg+xml"},
                                                         {".woff2", "font/woff2"},
                                                         {".wasm", "application/wasm"},
                                                         {".json", "application/json"}};
  const auto found = kTypes.find(path.extension().string());
  return found == kTypes.end() ? "application/octet-stream" : found->second;
}

/// Every file of the site by its address, so that an address is never a path on the disk.
std::map<std::string, File> read_site(const std::filesystem::path& site) {
  std::map<std::string, File> files;
  std::error_code error;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(site, error)) {
    if (!entry.is_regular_file()) continue;
    std::ifstream stream(entry.path(), std::ios::binary);
    const auto content =
        std::make_shared<const std::string>(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
    File file{type_of(entry.path()), content, false};
    const std::string address = fmt::format("/{}", std::filesystem::relative(entry.path(), site).generic_string());
    file.immutable = address.rfind("/assets/", 0) == 0;
    files.emplace(address, std::move(file));
  }
  if (const auto index = files.find("/index.html"); index != files.end()) files["/"] = index->second;
  return files;
}

/// True for a request that this page did not make.
bool foreign(const httplib::Request& request, const Options& options, int port) {
  const std::string host = request.get_header_value("Host"), origin = request.get_header_value("Origin");
  const bool has_origin = request.has_header("Origin");
  if (!options.public_host.empty() && host == options.public_host)
    return has_origin && origin != "https://" + options.public_host;
  const auto local = [&](const std::string& name) {
    return name == fmt::format("127.0.0.1:{}", port) || name == fmt::format("localhost:{}", port);
  };
  return !local(host) || (has_origin && (origin.rfind("http://", 0) != 0 || !local(origin.substr(7))));
}

/// Status for a body that is too large, has no length we can check before reading it, or another one once it is
/// unpacked; 0 for none.
int refused_body(const httplib::Request& request) {
  if (request.has_header("Transfer-Encoding")) return 411;
  if (request.has_header("Content-Encoding")) return 415;
  if (!request.has_header("Content-Length")) return 0;
  const std::string length = request.get_header_value("Content-Length");
  if (request.get_header_value_count("Content-Length") > 1 || length.empty() ||
      length.find_first_not_of("0123456789") != std::string::npos)
    return 400;
  return length.size() > 9 || std::stoul(length) > kMostBytes ? 413 : 0;
}

void start_browser(const std::string& url) {
#ifdef __APPLE__
  const char* program = "open";
#else
  const char* program = "xdg-open";
  if (std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr) return;
#endif
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&quiet, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  std::string name = program, address = url;
  char* arguments[] = {name.data(), address.data(), nullptr};
  pid_t child = 0;
  posix_spawnp(&child, program, &quiet, nullptr, arguments, environ);  // without one the address on the screen does
  posix_spawn_file_actions_destroy(&quiet);
}

void add_routes(httplib::Server& http, const std::map<std::string, File>& files, const Options& options, int port,
                Engines& engines, StoreRoutes* store) {
  http.set_default_headers({{"Content-Security-Policy", kContentPolicy},
                            {"X-Content-Type-Options", "nosniff"},
                            {"Referrer-Policy", "no-referrer"},
                            {"Cross-Origin-Opener-Policy", "same-origin"},
                            {"Cross-Origin-Resource-Policy", "same-origin"}});
  http.set_pre_routing_handler([&options, port](const httplib::Request& request, httplib::Response& response) {
    response.status = foreign(request, options, port) ? 403 : refused_body(request);
    if (response.status == 0) {
      response.status = -1;  // open: what answers decides
      return httplib::Server::HandlerResponse::Unhandled;
    }
    response.set_content(response.status == 403 ? "This page answers to this machine only.\n"
                                                : "A body needs one Content-Length, at most 16 MiB, and no encoding.\n",
                         "text/plain");
    return httplib::Server::HandlerResponse::Handled;
  });
  using Work = std::function<std::string(const api::Session& engine, const std::string& request)>;
  const auto worked = [&engines, store](const httplib::Request& request, httplib::Response& response,
                                        const Work& work) {
    response.set_header("Cache-Control", "no-store");
    // A form of another page cannot send this type without being asked first.
    if (request.get_header_value("Content-Type").rfind("application/json", 0) != 0) {
      response.status = 415;
      return;
    }
    if (store != nullptr && !store->known(request)) {
      const Answer answer = refusal({store::Trouble::denied, "Sign in first."});
      response.status = 401;
      give(response, answer.body, "application/json");
      return;
    }
    const Engines::Lease engine = engines.take();
    if (!engine) {
      response.status = 503;
      response.set_header("Retry-After", "5");
      return;
    }
    give(response, work(*engine, request.body), "application/json");
  };
  http.Post("/api", [worked](const httplib::Request& request, httplib::Response& response) {
    worked(request, response, [](const api::Session& engine, const std::string& body) { return engine.answer(body); });
  });
  if (options.handover)
    http.Post("/handover", [worked, &options](const httplib::Request& request, httplib::Response& response) {
      worked(request, response, options.handover);
    });
  if (store != nullptr) store->add_to(http);
  http.Get("/status", [&options](const httplib::Request&, httplib::Response& response) {
    response.set_header("Cache-Control", "no-store");
    response.set_content(fmt::format("{{\"engine\":\"" LOBEWISE_VERSION "\",\"handover\":{},\"store\":{}}}",
                                     bool(options.handover), options.store.has_value()),
                         "application/json");
  });
  http.Get("/enquiry.json", [&options](const httplib::Request&, httplib::Response& response) {
    response.set_header("Cache-Control", "no-store");
    if (options.enquiry)
      give(response, *options.enquiry, "application/json");
    else
      response.status = 404;
  });
  http.Get(".*", [&files](const httplib::Request& request, httplib::Response& response) {
    const auto file = files.find(request.path);
    if (file == files.end()) {
      response.status = 404;
      return;
    }
    response.set_header("Cache-Control", file->second.immutable ? "max-age=31536000, immutable" : "no-cache");
    give(response, file->second.content, file->second.type);
  });
}

}  // namespace

std::optional<std::filesystem::path> find_site() {
  std::error_code error;
  const std::filesystem::path binary = std::filesystem::read_symlink("/proc/self/exe", error);
  for (const std::filesystem::path& place :
       {binary.parent_path().parent_path() / "share/lobewise/web", std::filesystem::path(LOBEWISE_SITE)})
    if (std::filesystem::exists(place / "index.html", error)) return place;
  return std::nullopt;
}

int serve(const Options& options) {
  const std::map<std::string, File> files = read_site(options.site);
  if (files.count("/") == 0) {
    std::cerr << options.site.string() << ": holds no page; tools/build_web.sh builds it\n";
    return 3;
  }
  std::optional<store::Store> store;
  if (options.store) {
    std::error_code error;
    const bool make = !options.store->team && !std::filesystem::exists(options.store->address, error);
    store::Outcome<store::Store> opened =
        make ? store::Store::create(*options.store) : store::Store::open(*options.store);
    if (!opened) {
      std::cerr << opened.problem().message << '\n';
      return 3;
    }
    store.emplace(std::move(*opened));
  }
  httplib::Server http;
  // One thread serves one connection, also while it waits: more of them than browsers keep open.
  http.new_task_queue = [] { return new httplib::ThreadPool(kConnections); };
  http.set_read_timeout(10);
  http.set_write_timeout(10);
  http.set_keep_alive_timeout(5);
  http.set_tcp_nodelay(true);
  http.set_keep_alive_max_count(1000);
  http.set_payload_max_length(kMostBytes);
  // Not the default SO_REUSEPORT: two servers on one port would share its requests by chance.
  http.set_socket_options([](socket_t socket) {
    const int yes = 1;
    setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  int port = options.port;
  if (port == 0) {
    port = http.bind_to_any_port("127.0.0.1");
  } else {
    int tried = 0;
    while (tried < kPortsTried && !http.bind_to_port("127.0.0.1", port)) ++port, ++tried;
    if (tried == kPortsTried) port = -1;
  }
  if (port < 0) {
    std::cerr << "no port of this machine is free for the workspace\n";
    return 1;
  }
  Engines engines;
  std::optional<StoreRoutes> routes;
  if (store) routes.emplace(*store, engines, port, !options.public_host.empty());
  add_routes(http, files, options, port, engines, routes ? &*routes : nullptr);
  // `#open` tells the page to take the enquiry that was named, instead of the one it kept.
  const std::string url = fmt::format("http://127.0.0.1:{}/{}", port, options.enquiry ? "#open" : "");
  options.on_ready(url);
  if (options.open_browser) start_browser(url);
  return http.listen_after_bind() ? 0 : 1;
}

}  // namespace lobewise::server
