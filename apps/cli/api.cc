#include <iostream>
#include <string>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/job.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

int api_door() {
  constexpr std::size_t kMost = (64U << 20U) + 1;
  std::string request;
  char buffer[65536];
  while (std::cin.read(buffer, sizeof buffer) || std::cin.gcount() > 0) {
    request.append(buffer, static_cast<std::size_t>(std::cin.gcount()));
    if (request.size() > kMost) break;
  }
  const std::string answer = session().answer(request);
  std::cout << answer << '\n';
  return answer.rfind("{\"errors\":", 0) == 0 ? kInputError : kAnswered;
}

}  // namespace

void add_api(CLI::App& app, int& code) {
  CLI::App* command =
      app.add_subcommand("api", "Read one request {\"call\", \"input\"} from standard input, print its result");
  command->callback([&code] { code = api_door(); });
}

}  // namespace lobewise::cli
