#include "tests/unit/store/suite.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <pwd.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <thread>

#include "apps/store/content.h"

namespace lobewise::store {

namespace fs = std::filesystem;

Folder::Folder() : path_(fs::temp_directory_path() / ("lobewise-store-" + random_id())) { fs::create_directory(path_); }
Folder::~Folder() {
  std::error_code error;
  fs::remove_all(path_, error);
}

namespace {

/// PostgreSQL refuses to run as root: it gets the user that its package made.
struct User {
  uid_t id = 0;
  gid_t group = 0;
  bool switch_to = false;
};

std::string newest_binaries() {
  std::error_code error;
  std::string newest;
  for (const auto& entry : fs::directory_iterator("/usr/lib/postgresql", error))
    if (fs::exists(entry.path() / "bin/initdb") && (newest.empty() || entry.path().filename().string() > newest))
      newest = entry.path().filename().string();
  return newest.empty() ? "" : "/usr/lib/postgresql/" + newest + "/bin/";
}

pid_t start(const std::vector<std::string>& words, const User& user, const std::string& log) {
  const pid_t child = fork();
  if (child != 0) return child;
  const int out = ::open(log.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0666);
  dup2(out, STDOUT_FILENO);
  dup2(out, STDERR_FILENO);
  if (user.switch_to && (setgid(user.group) != 0 || setuid(user.id) != 0)) _exit(126);
  if (chdir("/") != 0) _exit(126);
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  execv(arguments[0], arguments.data());
  _exit(127);
}

class Server {
 public:
  Server() {
    binaries_ = newest_binaries();
    if (binaries_.empty()) {
      why_not_ = "PostgreSQL is not installed; `tools/install.sh test` installs it";
      return;
    }
    if (geteuid() == 0) {
      const passwd* found = getpwnam("postgres");
      if (found == nullptr) {
        why_not_ = "PostgreSQL does not run as root, and there is no user `postgres`";
        return;
      }
      user_ = {found->pw_uid, found->pw_gid, true};
    }
    fs::permissions(folder_ / "", fs::perms::owner_all | fs::perms::group_exec | fs::perms::others_exec);
    for (const char* name : {"data", "sockets"}) {
      fs::create_directory(folder_ / name);
      if (user_.switch_to && chown((folder_ / name).c_str(), user_.id, user_.group) != 0) why_not_ = "no rights";
    }
    write_file(folder_ / "word", kWord);
    fs::permissions(folder_ / "word", fs::perms::owner_read | fs::perms::others_read);
    write_file(folder_ / "log", "");
    fs::permissions(folder_ / "log", fs::perms::all);
    if (!ended_well(::lobewise::store::start(
            {binaries_ + "initdb", "-D", folder_ / "data", "-U", "keeper", "-A", "scram-sha-256",
             "--pwfile=" + (folder_ / "word"), "-E", "UTF8", "--locale=C.UTF-8", "--no-sync"},
            user_, folder_ / "log")))
      why_not_ = "initdb failed: " + read_file(folder_ / "log");
    port_ = 20000 + static_cast<int>(getpid() % 20000);
    run();
  }
  ~Server() { stop(SIGINT); }

  void run() {
    if (!why_not_.empty()) return;
    for (int tries = 0; tries < 5; ++tries, ++port_) {
      server_ = ::lobewise::store::start(
          {binaries_ + "postgres", "-D", folder_ / "data", "-p", std::to_string(port_), "-k", folder_ / "sockets", "-c",
           "listen_addresses=127.0.0.1", "-c", "fsync=off", "-c", "max_connections=40"},
          user_, folder_ / "log");
      for (int waited = 0; waited < 300; ++waited) {
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
        if (waitpid(server_, nullptr, WNOHANG) == server_) break;  // the port is taken
        const Outcome<Done> answer = guarded([&] {
          (void)connect_postgres(*parse_place(address()))->run("SELECT 1");
          return Done{};
        });
        if (answer) return;
      }
    }
    why_not_ = "PostgreSQL did not start: " + read_file(folder_ / "log");
  }
  void stop(int signal) {
    if (server_ <= 0) return;
    kill(server_, signal);
    waitpid(server_, nullptr, 0);
    server_ = 0;
  }

  [[nodiscard]] std::string address() const {
    return fmt::format("postgresql://keeper:{}@127.0.0.1:{}/postgres", kWord, port_);
  }

  std::string why_not_;

 private:
  static constexpr const char* kWord = "word-of-a-test";
  Folder folder_;
  std::string binaries_;
  User user_;
  int port_ = 0;
  pid_t server_ = 0;
};

Server& server() {
  static Server the_server;
  return the_server;
}

}  // namespace

std::string TeamServer::why_not() { return server().why_not_; }

std::string TeamServer::fresh_address() {
  const std::string schema = "s" + random_id();
  (void)connect_postgres(*parse_place(server().address()))->run("CREATE SCHEMA " + schema);
  return server().address() + "?options=-csearch_path%3D" + schema;
}

void TeamServer::crash_and_start() {
  server().stop(SIGQUIT);  // immediate: no shutdown of its own, the log is played back at the next start
  server().run();
}

std::string kind_name(const testing::TestParamInfo<Kind>& kind) { return kind.param == Kind::file ? "file" : "team"; }

void StoreTest::SetUp() {
  if (GetParam() == Kind::file) {
    place_.address = folder_ / "office.lobewise";
    return;
  }
  if (!TeamServer::why_not().empty()) GTEST_SKIP() << TeamServer::why_not();
  place_ = *parse_place(TeamServer::fresh_address());
}

Store StoreTest::create() {
  return must(Store::create(place_, [this] { return now_++; }));
}
Store StoreTest::open() {
  return must(Store::open(place_, [this] { return now_++; }));
}
std::int64_t StoreTest::number_of(const std::string& sql) {
  return integer(connect(place_, false)->run(sql).at(0).at(0));
}

Draft draft(const std::string& title, const std::string& note) {
  const nlohmann::json input{
      {"enquiry",
       {{"title", title}, {"customer", "Glass-recycling plant (invented)"}, {"duty", {{"hours_per_day", "16 h"}}}}}};
  return {input.dump(), R"({"name":"a range of a test"})", "0.0.test",
          R"({"result of":)" + nlohmann::json(title).dump() + "}", note};
}

int in_child(const std::function<void()>& action) {
  const pid_t child = fork();
  if (child != 0) return child;
  try {
    action();
    _exit(testing::Test::HasFailure() ? 1 : 0);
  } catch (...) {
    _exit(2);
  }
}

bool ended_well(int child) {
  int status = 0;
  return waitpid(child, &status, 0) == child && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

void write_file(const std::string& file, const std::string& bytes) { std::ofstream(file, std::ios::binary) << bytes; }
std::string read_file(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace lobewise::store
