// The server as a browser, another page and an attacker meet it.

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>
#include <zlib.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "apps/server/server.h"
#include "apps/store/content.h"
#include "apps/store/store.h"

namespace lobewise::server {
namespace {

using Json = nlohmann::json;
namespace fs = std::filesystem;

constexpr const char* kWord = "a long pass phrase";

class Server : public testing::Test {
 protected:
  Server() : folder_(fs::temp_directory_path() / ("lobewise-server-" + store::random_id())) {
    fs::create_directories(folder_ / "site/assets");
    std::ofstream(folder_ / "site/index.html") << "<!doctype html><title>page</title>";
    std::ofstream(folder_ / "site/assets/app.js") << "1";
    std::ofstream(folder_ / "site/assets/engine.wasm") << std::string(100'000, 'w');
    std::ofstream(folder_ / "site/assets/empty.css");
    std::ofstream(folder_ / "secret.txt") << "secret of the disk";
    place_.address = (folder_ / "office.lobewise").string();
  }
  ~Server() override {
    if (child_ > 0) {
      kill(child_, SIGKILL);
      waitpid(child_, nullptr, 0);
    }
    std::error_code error;
    fs::remove_all(folder_, error);
  }

  void serve(const std::string& public_host = "", bool with_store = true) {
    int ends[2];
    ASSERT_EQ(pipe(ends), 0);
    child_ = fork();
    if (child_ == 0) {
      Options options;
      options.site = folder_ / "site";
      options.port = 0;
      options.open_browser = false;
      options.public_host = public_host;
      options.handover = [](const api::Session&, const std::string& request) { return "made of " + request; };
      if (with_store) options.store = place_;
      options.on_ready = [&](const std::string& url) {
        const int port = std::stoi(url.substr(url.rfind(':') + 1));
        if (write(ends[1], &port, sizeof port) != static_cast<ssize_t>(sizeof port)) _exit(9);
      };
      _exit(::lobewise::server::serve(options));
    }
    close(ends[1]);
    ASSERT_EQ(read(ends[0], &port_, sizeof port_), static_cast<ssize_t>(sizeof port_));
    close(ends[0]);
  }
  void add_person(const std::string& name, store::Role role) {
    store::Outcome<store::Store> store =
        fs::exists(place_.address) ? store::Store::open(place_) : store::Store::create(place_);
    ASSERT_TRUE(store.ok());
    ASSERT_TRUE(store->set_person({"keeper", store::Role::keeper}, {name, role, true}, kWord).ok());
  }

  [[nodiscard]] httplib::Client client() const { return httplib::Client("127.0.0.1", port_); }
  httplib::Result post(const std::string& path, const Json& json, httplib::Headers headers = {}) const {
    return client().Post(path.c_str(), headers, json.dump(), "application/json");
  }
  [[nodiscard]] std::string token(const httplib::Headers& headers = {}) const {
    const auto answer = client().Get("/store/session", headers);
    const Json json = Json::parse(answer->body);
    return json.value("token", std::string());
  }
  /// Cookie and token of somebody who signed in.
  [[nodiscard]] httplib::Headers sign_in(const std::string& name) const {
    const auto answer = post("/store/sign-in", {{"name", name}, {"password", kWord}});
    EXPECT_EQ(answer->status, 200) << answer->body;
    const std::string cookie = answer->get_header_value("Set-Cookie");
    return {{"Cookie", cookie.substr(0, cookie.find(';'))},
            {"X-Lobewise-Token", Json::parse(answer->body)["token"].get<std::string>()}};
  }
  /// Bytes as they are, and what comes back until the server closes or half a second of silence.
  [[nodiscard]] std::string raw(const std::string& bytes) const {
    const int handle = socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port_));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    timeval patience{0, 500'000};
    setsockopt(handle, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    std::string out;
    if (connect(handle, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0) {
      (void)!::send(handle, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      char buffer[4096];
      for (ssize_t count = 0; (count = recv(handle, buffer, sizeof buffer, 0)) > 0;)
        out.append(buffer, static_cast<std::size_t>(count));
    }
    close(handle);
    return out;
  }
  [[nodiscard]] std::string host() const { return "Host: 127.0.0.1:" + std::to_string(port_) + "\r\n"; }
  [[nodiscard]] bool alive() const {
    const auto answer = client().Get("/status");
    return answer && answer->status == 200;
  }

  fs::path folder_;
  store::Place place_;
  int port_ = 0;
  pid_t child_ = 0;
  const Json enquiry_{{"title", "<script>alert(1)</script>"},
                      {"machine", {{"measured", {{"measured_torque", "40 N·m"}, {"speed", "57 rpm"}}}}}};
};

TEST_F(Server, SendsFilesAndAnswersAsTheyAre) {
  serve("", false);
  const httplib::Headers packs{{"Accept-Encoding", "br, gzip, deflate"}};
  const auto code = client().Get("/assets/engine.wasm", packs);
  ASSERT_TRUE(code);
  EXPECT_EQ(code->status, 200);
  EXPECT_EQ(code->body, std::string(100'000, 'w'));
  EXPECT_EQ(code->get_header_value("Content-Type"), "application/wasm");  // compiled while it is being loaded
  EXPECT_EQ(code->get_header_value("Content-Length"), "100000");
  EXPECT_FALSE(code->has_header("Content-Encoding"));

  const auto answer = client().Post("/api", packs, R"({"call":"units","input":{}})", "application/json");
  ASSERT_TRUE(answer);
  EXPECT_FALSE(answer->has_header("Content-Encoding"));
  EXPECT_TRUE(Json::parse(answer->body).contains("quantities"));

  const auto head = client().Head("/assets/engine.wasm");
  ASSERT_TRUE(head);
  EXPECT_EQ(head->get_header_value("Content-Length"), "100000");
  EXPECT_EQ(head->body, "");
  const auto part = client().Get("/assets/engine.wasm", {httplib::make_range_header({{99'990, 99'999}})});
  ASSERT_TRUE(part);
  EXPECT_EQ(part->status, 206);
  EXPECT_EQ(part->body, std::string(10, 'w'));
  const auto empty = client().Get("/assets/empty.css", packs);
  ASSERT_TRUE(empty);
  EXPECT_EQ(empty->status, 200);
  EXPECT_EQ(empty->body, "");
}

TEST_F(Server, SavesForTheUserOfThisMachineWithoutSigningIn) {
  serve();
  const Json session = Json::parse(client().Get("/store/session")->body);
  EXPECT_EQ(session["store"], "file");
  EXPECT_EQ(session["sign_in"], false);
  EXPECT_EQ(session["states"][0], "asked");
  const Json save{{"call", "save"}, {"input", {{"enquiry", enquiry_}}}};
  EXPECT_EQ(post("/store", save)->status, 403) << "no token, no change";
  EXPECT_EQ(post("/store", save, {{"X-Lobewise-Token", std::string(64, '0')}})->status, 403);
  const httplib::Headers mine{{"X-Lobewise-Token", token()}};
  EXPECT_EQ(post("/store", save, mine)->status, 200);
  const auto opened = post("/store", {{"call", "open"}, {"input", {{"number", 1}}}}, mine);
  EXPECT_EQ(Json::parse(opened->body)["input"]["enquiry"], enquiry_);
  EXPECT_EQ(opened->get_header_value("Content-Type"), "application/json") << "text of people is data, never a page";
  EXPECT_EQ(opened->get_header_value("X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(opened->get_header_value("Cache-Control"), "no-store");
  EXPECT_EQ(client().Post("/store", mine, save.dump(), "text/plain")->status, 415);
}

TEST_F(Server, WithoutAStoreThereIsNone) {
  serve("", false);
  EXPECT_EQ(client().Get("/store/session")->status, 404);
  EXPECT_EQ(Json::parse(client().Get("/status")->body)["store"], false);
  EXPECT_EQ(post("/store", {{"call", "list"}})->status, 404);
  EXPECT_FALSE(fs::exists(place_.address));
}

TEST_F(Server, HandsOverToItsOwnPageOnly) {
  add_person("anna", store::Role::engineer);
  serve();
  const Json order{{"document", "proposal"}};
  EXPECT_EQ(post("/handover", order)->status, 401) << "whoever may not ask the engine gets no documents";
  const auto answer = post("/handover", order, sign_in("anna"));
  EXPECT_EQ(answer->status, 200);
  EXPECT_EQ(answer->body, "made of " + order.dump());
  EXPECT_EQ(answer->get_header_value("Content-Type"), "application/json") << "never a page";
  EXPECT_EQ(client().Post("/handover", sign_in("anna"), order.dump(), "text/plain")->status, 415);
  EXPECT_EQ(post("/handover", order, {{"Origin", "https://example.invalid"}})->status, 403);
  EXPECT_EQ(Json::parse(client().Get("/status")->body)["handover"], true);
}

TEST_F(Server, SignInWithCookieAndToken) {
  add_person("anna", store::Role::engineer);
  add_person("eve", store::Role::reader);
  serve();
  const Json list{{"call", "list"}}, save{{"call", "save"}, {"input", {{"enquiry", enquiry_}}}};
  EXPECT_EQ(post("/store", list)->status, 401);
  EXPECT_EQ(post("/api", {{"call", "schema"}})->status, 401) << "the engine works for who is signed in";
  EXPECT_EQ(client().Get("/store/documents/1/1/a")->status, 401);
  const Json session = Json::parse(client().Get("/store/session")->body);
  EXPECT_EQ(session["sign_in"], true);
  EXPECT_FALSE(session.contains("token"));

  EXPECT_EQ(post("/store/sign-in", {{"name", "anna"}, {"password", "wrong"}})->status, 401);
  EXPECT_EQ(post("/store/sign-in", {{"name", "anna"}})->status, 400);
  const auto answer = post("/store/sign-in", {{"name", "anna"}, {"password", kWord}});
  const std::string cookie = answer->get_header_value("Set-Cookie");
  for (const char* part : {"HttpOnly", "SameSite=Strict", "Path=/"})
    EXPECT_NE(cookie.find(part), std::string::npos) << cookie;
  EXPECT_EQ(answer->body.find(cookie.substr(cookie.find('=') + 1, 64)), std::string::npos) << "scripts never see it";

  const httplib::Headers anna = sign_in("anna"), eve = sign_in("eve");
  EXPECT_EQ(post("/store", save, anna)->status, 200);
  EXPECT_EQ(post("/api", {{"call", "schema"}}, anna)->status, 200);
  EXPECT_EQ(post("/store", save, eve)->status, 403);
  EXPECT_EQ(post("/store", list, eve)->status, 200);
  // The cookie alone, as another page could make a browser send it, or with somebody else's token: nothing.
  EXPECT_EQ(post("/store", save, {*anna.find("Cookie")})->status, 403);
  EXPECT_EQ(post("/store", save, {*anna.find("Cookie"), *eve.find("X-Lobewise-Token")})->status, 403);
  EXPECT_EQ(post("/store/sign-out", {}, {*anna.find("Cookie")})->status, 403);
  EXPECT_EQ(post("/store/sign-out", {}, anna)->status, 200);
  EXPECT_EQ(post("/store", list, anna)->status, 401);
}

TEST_F(Server, TooManyAttemptsWait) {
  add_person("anna", store::Role::engineer);
  serve();
  for (int i = 0; i < 5; ++i) EXPECT_EQ(post("/store/sign-in", {{"name", "anna"}, {"password", "wrong"}})->status, 401);
  EXPECT_EQ(post("/store/sign-in", {{"name", "anna"}, {"password", kWord}})->status, 429);
}

TEST_F(Server, AnotherPageGetsNothing) {
  serve("reducers.example");
  const std::string mine = "127.0.0.1:" + std::to_string(port_);
  const auto status = [&](const httplib::Headers& headers) { return client().Get("/store/session", headers)->status; };
  EXPECT_EQ(status({}), 200);
  EXPECT_EQ(status({{"Origin", "http://" + mine}}), 200);
  EXPECT_EQ(status({{"Origin", "http://evil.example"}}), 403);
  EXPECT_EQ(status({{"Origin", "null"}}), 403);
  EXPECT_EQ(status({{"Origin", "https://" + mine}}), 403);
  EXPECT_EQ(status({{"Host", "evil.example:" + std::to_string(port_)}}), 403) << "a name that resolves to 127.0.0.1";
  EXPECT_EQ(status({{"Host", "127.0.0.1"}}), 403);
  EXPECT_EQ(status({{"Host", "reducers.example"}}), 200);
  EXPECT_EQ(status({{"Host", "reducers.example"}, {"Origin", "https://reducers.example"}}), 200);
  EXPECT_EQ(status({{"Host", "reducers.example"}, {"Origin", "http://reducers.example"}}), 403);
  EXPECT_EQ(status({{"Host", "reducers.example"}, {"Origin", "https://evil.example"}}), 403);
}

TEST_F(Server, AnAddressIsNeverAPath) {
  serve();
  (void)post("/store", {{"call", "save"}, {"input", {{"enquiry", enquiry_}}}}, {{"X-Lobewise-Token", token()}});
  for (const std::string& path :
       {std::string("/../secret.txt"), std::string("/assets/../../secret.txt"), std::string("/%2e%2e/secret.txt"),
        std::string("/..%2fsecret.txt"), std::string("/assets/..%5c..%5csecret.txt"), std::string("//secret.txt"),
        std::string("/%252e%252e/secret.txt"), std::string("/assets/%00/../../secret.txt"),
        folder_.string() + "/secret.txt", std::string("/store/documents/1/1/../../../../secret.txt"),
        std::string("/store/documents/1/1/..%2f..%2fsecret.txt"), std::string("/store/documents/1/1/%00"),
        std::string("/store/documents/999999999999/1/x"), std::string("/store/documents/-1/1/x"),
        std::string("/office.lobewise"), std::string("/store/documents/1/1/%ff%fe")}) {
    const std::string answer = raw("GET " + path + " HTTP/1.1\r\n" + host() + "Connection: close\r\n\r\n");
    EXPECT_EQ(answer.find("secret of the disk"), std::string::npos) << path;
    EXPECT_EQ(answer.find(" 200 "), std::string::npos) << path << answer;
  }
  EXPECT_TRUE(alive());
}

TEST_F(Server, DocumentsComeAsDownloadsOnly) {
  serve();
  const httplib::Headers mine{{"X-Lobewise-Token", token()}};
  (void)post("/store", {{"call", "save"}, {"input", {{"enquiry", enquiry_}}}}, mine);
  const std::string name = "Angebot ä';filename=x.html";
  const auto attached = post(
      "/store",
      {{"call", "attach"},
       {"input",
        {{"number", 1}, {"name", name}, {"type", "text/html"}, {"base64", "PHNjcmlwdD5hbGVydCgxKTwvc2NyaXB0Pg=="}}}},
      mine);
  ASSERT_EQ(attached->status, 200) << attached->body;
  const auto answer = client().Get("/store/documents/1/1/Angebot%20%C3%A4';filename=x.html");
  ASSERT_EQ(answer->status, 200) << answer->body;
  EXPECT_EQ(answer->body, "<script>alert(1)</script>");
  const std::string headers =
      raw("GET /store/documents/1/1/Angebot%20%C3%A4';filename=x.html HTTP/1.1\r\n" + host() + "\r\n");
  EXPECT_NE(
      headers.find("Content-Disposition: attachment; filename*=UTF-8''Angebot%20%C3%A4%27%3Bfilename%3Dx.html\r\n"),
      std::string::npos);
  EXPECT_NE(headers.find("Content-Security-Policy: sandbox"), std::string::npos) << headers;
}

TEST_F(Server, LimitsOfSize) {
  serve();
  const httplib::Headers mine{{"X-Lobewise-Token", token()}};
  EXPECT_EQ(post("/store", {{"call", "list"}, {"input", {{"text", std::string(15U << 20U, 'x')}}}}, mine)->status, 200);
  // More than 16 MiB: refused before it is read, whatever it says of itself.
  EXPECT_NE(raw("POST /store HTTP/1.1\r\n" + host() +
                "Content-Type: application/json\r\nContent-Length: 99999999999\r\n\r\n{")
                .find(" 413 "),
            std::string::npos);
  EXPECT_NE(raw("POST /store HTTP/1.1\r\n" + host() +
                "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\nffffffff\r\n")
                .find(" 411 "),
            std::string::npos)
      << "a body without a length could grow without end";
  std::string packed(100'000, '\0');
  EXPECT_NE(raw("POST /store HTTP/1.1\r\n" + host() +
                "Content-Type: application/json\r\nContent-Encoding: gzip\r\nContent-Length: 100000\r\n\r\n" + packed)
                .find(" 415 "),
            std::string::npos)
      << "a packed body could be a bomb";
  EXPECT_NE(raw("GET /" + std::string(20'000, 'a') + " HTTP/1.1\r\n" + host() + "\r\n").find(" 414 "),
            std::string::npos);
  EXPECT_EQ(raw("GET / HTTP/1.1\r\n" + host() + "X: " + std::string(100'000, 'a') + "\r\n\r\n").find(" 200 "),
            std::string::npos);
  std::string many;
  for (int i = 0; i < 5000; ++i) many += "X-" + std::to_string(i) + ": y\r\n";
  (void)raw("GET / HTTP/1.1\r\n" + host() + many + "\r\n");
  EXPECT_TRUE(alive());
}

TEST_F(Server, WhatIsRefusedIsNotReadAsTheNextRequest) {
  serve();
  const std::string inner = "GET /status HTTP/1.1\r\n" + host() + "\r\n";
  const auto answers = [&](const std::string& bytes) {
    const std::string all = raw(bytes);
    int count = 0;
    for (std::size_t at = all.find("HTTP/1.1 "); at != std::string::npos; at = all.find("HTTP/1.1 ", at + 1)) ++count;
    return count;
  };
  EXPECT_EQ(answers("POST /api HTTP/1.1\r\nHost: evil.example\r\nContent-Length: " + std::to_string(inner.size()) +
                    "\r\n\r\n" + inner),
            1);
  EXPECT_EQ(answers("POST /api HTTP/1.1\r\n" + host() +
                    "Transfer-Encoding: chunked\r\nContent-Length: 5\r\n\r\n0\r\n\r\n" + inner),
            1);
  EXPECT_EQ(answers("POST /nowhere HTTP/1.1\r\n" + host() + "Content-Length: " + std::to_string(inner.size()) +
                    "\r\n\r\n" + inner),
            1);
  EXPECT_EQ(
      answers("GET / HTTP/1.1\r\n" + host() + "Content-Length: " + std::to_string(inner.size()) + "\r\n\r\n" + inner),
      1);
  EXPECT_TRUE(alive());
}

TEST_F(Server, NoiseDoesNotStopIt) {
  serve();
  for (const std::string& noise :
       {std::string("\0\0\0\0", 4), std::string("GET"), std::string("GET / HTTP/9.9\r\n\r\n"), std::string(70'000, 'A'),
        "POST /store HTTP/1.1\r\n" + host() + "Content-Type: application/json\r\nContent-Length: -5\r\n\r\n{}",
        "POST /store HTTP/1.1\r\n" + host() +
            "Content-Type: multipart/form-data; boundary=\r\nContent-Length: 4\r\n\r\n----",
        "POST /store HTTP/1.1\r\n" + host() +
            "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 4\r\n\r\na=%%",
        "GET /%zz%u0041?%=&&== HTTP/1.1\r\n" + host() + "Range: bytes=0-0,-1,5-2\r\nCookie: ;;=;lobewise_=\r\n\r\n",
        std::string("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n")})
    (void)raw(noise);
  EXPECT_TRUE(alive());
}

TEST_F(Server, SlowClientsDoNotKeepOthersOut) {
  serve();
  std::vector<int> slow;
  for (int i = 0; i < 40; ++i) {
    const int handle = socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port_));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    ASSERT_EQ(connect(handle, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
    (void)!::send(handle, "GET / HT", 8, MSG_NOSIGNAL);
    slow.push_back(handle);
  }
  const auto begin = std::chrono::steady_clock::now();
  EXPECT_TRUE(alive());
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(4));
  for (const int handle : slow) close(handle);
}

}  // namespace
}  // namespace lobewise::server
