#include <iostream>
#include <memory>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/handover.h"
#include "apps/cli/job.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

struct CommandOptions : JobOptions {
  HandoverOptions wanted;
};

int hand_over(const CommandOptions& options) {
  int code = kAnswered;
  const std::optional<Document> document = read_enquiry(options, code);
  if (!document) return code;
  handover::Order order;
  order.enquiry = document->json;
  order.units = options.units;
  if (!options.range_file.empty()) {
    const Result<Json> range = read_json(options.range_file);
    if (!range) return refuse(range.errors(), options);
    order.range = *range;
  }
  order.build = build_of(options);
  const Result<HandedOver> made =
      write_handover([](const std::string& call, const Json& input) { return session().registry().run(call, input); },
                     std::move(order), options.wanted);
  if (!made) return refuse(made.errors(), options, document->lines);
  std::cout << made->report;
  return made->offered ? kAnswered : kNothingServes;
}

}  // namespace

void add_handover(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand(
      "handover", "Write proposal, drawing, models, sheets and workbooks for a customer into a folder");
  const auto options = std::make_shared<CommandOptions>();
  HandoverOptions& wanted = options->wanted;
  add_enquiry(*command, *options);
  add_build(*command, *options);
  command->add_option("--out", wanted.out, "folder to write into")->required();
  command->add_option("--paper", wanted.paper, "a4 or letter")->check(CLI::IsMember({"a4", "letter"}));
  command->add_option("--only", wanted.only,
                      "some of: proposal, drawing, order, commissioning, findings, workings, model, step, offline");
  command->add_option("--date", wanted.date, "day of issue, e.g. 2026-11-25; today when left out");
  command->add_option("--valid-days", wanted.valid_days, "days for which the price stands")->check(CLI::Range(1, 3650));
  command->add_option("--model-size", wanted.model_size, "outside of the printed model, e.g. '160 mm'");
  command->add_option("--clearance", wanted.clearance, "gap between its moving parts, e.g. '0.2 mm'");
  command->callback([options, &code] { code = hand_over(*options); });
}

}  // namespace lobewise::cli
