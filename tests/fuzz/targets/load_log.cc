// A recorded load: heading and rows, in chunks of any size.

#include "engine/api/log_examination.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void load_log(std::string_view bytes) {
  static const nlohmann::json kEnquiry{{"machine",
                                        {{"measured",
                                          {{"rated_power", "7.5 kW"},
                                           {"rated_speed", "1450 rpm"},
                                           {"rated_current", "15 A"},
                                           {"measured_current", "11 A"},
                                           {"speed", "57 rpm"}}}}}};
  const std::size_t end = bytes.find('\n');
  if (end == std::string_view::npos) return;
  const std::string_view header = bytes.substr(0, end), rows = bytes.substr(end + 1);
  const std::string_view first = rows.substr(0, rows.find('\n'));
  std::string whole;
  for (const std::size_t chunk : {rows.size() + 1, std::size_t{7}}) {
    Result<api::LogExamination> log = api::LogExamination::open(kEnquiry, header, first, {});
    if (!log) return;
    for (std::size_t at = 0; at < rows.size(); at += chunk) log->feed(rows.substr(at, chunk));
    log->finish();
    const Result<api::Json> result = log->result();
    const std::string said =
        result ? result->dump(-1, ' ', false, api::Json::error_handler_t::replace) : result.errors().front().message;
    if (result) require(api::find_not_finite(*result).empty(), "every number of a result is finite", said);
    require(whole.empty() || whole == said, "the chunks of a log do not matter", whole + '\n' + said);
    whole = said;
  }
}

}  // namespace lobewise::fuzz
