#include "apps/cli/exit.h"

#include <unistd.h>

#include <cstdlib>
#include <iostream>

#include "apps/cli/read_file.h"
#include "apps/cli/report.h"
#include "engine/api/json_io.h"

namespace lobewise::cli {

int code_of(const Errors& errors) {
  switch (errors.front().kind) {
    case ErrorKind::input:
      return kInputError;
    case ErrorKind::data:
      return kDataError;
    case ErrorKind::model:  // the field `build`: there is none that could be proved
      return errors.front().path == "build" ? kNothingServes : kModelError;
    case ErrorKind::internal:
      break;
  }
  return kInternalError;
}

int refuse(Errors errors, const std::string& file, bool json, const std::map<std::string, int>& lines) {
  add_lines(errors, lines);
  const nlohmann::json result = api::error_json(errors);
  if (json) std::cout << result.dump(1, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
  std::cerr << error_report(result, style_for(STDERR_FILENO, "si"), file);
  return code_of(errors);
}

Style style_for(int descriptor, const std::string& units) {
  Style style;
  style.colour = isatty(descriptor) != 0 && std::getenv("NO_COLOR") == nullptr;
  style.units = units;
  return style;
}

}  // namespace lobewise::cli
