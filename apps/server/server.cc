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

#include "engine/api/registry.h"

extern char** environ;  // NOLINT: posix_spawn wants it

namespace lobewise::server {
namespace {

constexpr std::size_t kMostBytes = 16U << 20U;  ///< of a request; the engine's own limit
constexpr int kPortsTried = 20;

/// Scripts, fonts and pictures from here only; WebAssembly may be compiled. Style attributes are allowed: typeset
/// formulas and charts carry their lengths in them.
constexpr const char* kContentPolicy =
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self' 'unsafe-inline'; "
    "font-src 'self'; img-src 'self' data: blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";

struct File {
  std::string type;
  std::string content;
  bool immutable = false;  ///< its name holds a hash of its content
};

std::string type_of(const std::filesystem::path& path) {
  static const std::map<std::string, std::string> kTypes{{".html", "text/html; charset=utf-8"},
                                                         {".js", "text/javascript; charset=utf-8"},
                                                         {".css", "text/css; charset=utf-8"},
                                                         {".svg", "image/svg+xml"},
                                                         {".woff2", "font/woff2"},
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
    File file{type_of(entry.path()), {std::istreambuf_iterator<char>(stream), {}}, false};
    const std::string address = fmt::format("/{}", std::filesystem::relative(entry.path(), site).generic_string());
    file.immutable = address.rfind("/assets/", 0) == 0;
    files.emplace(address, std::move(file));
  }
  if (const auto index = files.find("/index.html"); index != files.end()) files["/"] = index->second;
  return files;
}

bool local_host(const std::string& host, int port) {
  return host == fmt::format("127.0.0.1:{}", port) || host == fmt::format("localhost:{}", port);
}

/// True for a request that this page did not make.
bool foreign(const httplib::Request& request, int port) {
  if (!local_host(request.get_header_value("Host"), port)) return true;
  if (!request.has_header("Origin")) return false;
  const std::string origin = request.get_header_value("Origin");
  return origin.rfind("http://", 0) != 0 || !local_host(origin.substr(7), port);
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

void add_routes(httplib::Server& http, const std::map<std::string, File>& files, const Options& options, int port) {
  http.set_default_headers({{"Content-Security-Policy", kContentPolicy},
                            {"X-Content-Type-Options", "nosniff"},
                            {"Referrer-Policy", "no-referrer"},
                            {"Cross-Origin-Opener-Policy", "same-origin"},
                            {"Cross-Origin-Resource-Policy", "same-origin"}});
  http.set_pre_routing_handler([port](const httplib::Request& request, httplib::Response& response) {
    if (!foreign(request, port)) return httplib::Server::HandlerResponse::Unhandled;
    response.status = 403;
    response.set_content("This page answers to this machine only.\n", "text/plain");
    return httplib::Server::HandlerResponse::Handled;
  });
  http.Post("/api", [](const httplib::Request& request, httplib::Response& response) {
    // A form of another page cannot send this type without being asked first.
    if (request.get_header_value("Content-Type").rfind("application/json", 0) != 0) {
      response.status = 415;
      return;
    }
    response.set_header("Cache-Control", "no-store");
    thread_local const api::Session session;  // keeps its mesh tables between requests
    response.set_content(session.answer(request.body), "application/json");
  });
  http.Get("/status", [](const httplib::Request&, httplib::Response& response) {
    response.set_header("Cache-Control", "no-store");
    response.set_content("{\"engine\":\"" LOBEWISE_VERSION "\"}", "application/json");
  });
  http.Get("/enquiry.json", [&options](const httplib::Request&, httplib::Response& response) {
    response.set_header("Cache-Control", "no-store");
    if (options.enquiry)
      response.set_content(*options.enquiry, "application/json");
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
    response.set_content(file->second.content, file->second.type);
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
  httplib::Server http;
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
  add_routes(http, files, options, port);
  // `#open` tells the page to take the enquiry that was named, instead of the one it kept.
  const std::string url = fmt::format("http://127.0.0.1:{}/{}", port, options.enquiry ? "#open" : "");
  options.on_ready(url);
  if (options.open_browser) start_browser(url);
  return http.listen_after_bind() ? 0 : 1;
}

}  // namespace lobewise::server
