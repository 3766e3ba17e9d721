#include <nlohmann/json.hpp>

#include "apps/survey/write.h"

namespace lobewise::survey {

Errors write_result(const std::string& file, const Report& report, Outcome& outcome) {
  try {
    return file.ends_with(".csv") ? write_csv(file, report, outcome) : write_xlsx(file, report, outcome);
  } catch (const nlohmann::json::exception&) {  // a slice from elsewhere, changed by hand
    return {input_error("", file, "a slice holds a line of another shape: run it again")};
  }
}

}  // namespace lobewise::survey
