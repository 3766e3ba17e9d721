#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "engine/api/load_log_text.h"

namespace lobewise::api {
namespace {

// However a file is cut into chunks, the same spectrum comes out, to the last bit.
RC_GTEST_PROP(LoadLogText, DoesNotDependOnChunks, ()) {
  std::string text;
  const int rows = *rc::gen::inRange(1, 200);
  for (int i = 0; i < rows; ++i)
    text += std::to_string(i) + ".5," + std::to_string(*rc::gen::inRange(-100, 400)) +
            (*rc::gen::inRange(0, 10) == 0 ? "x" : "") + (*rc::gen::element(std::string("\n"), std::string("\r\n")));
  const auto format = read_log_header("time [s],torque [N·m]", "", {});
  RC_ASSERT(format.ok());
  demand::LogSetup setup;
  setup.speed = 3;
  setup.reference_torque = 100;

  auto at_once = std::move(demand::LoadLog::open(setup)).value(), in_pieces = at_once;
  LogRows whole(*format), pieces(*format);
  const auto to_whole = [&](double t, double v) { at_once.push(t, v); };
  const auto to_pieces = [&](double t, double v) { in_pieces.push(t, v); };
  whole.feed(text, to_whole);
  whole.finish(to_whole);
  for (std::string_view rest = text; !rest.empty();) {
    const auto size = std::min<std::size_t>(static_cast<std::size_t>(*rc::gen::inRange(1, 40)), rest.size());
    pieces.feed(rest.substr(0, size), to_pieces);
    rest.remove_prefix(size);
  }
  pieces.finish(to_pieces);

  RC_ASSERT(at_once.counts().rows == in_pieces.counts().rows);
  RC_ASSERT(at_once.counts().unreadable == in_pieces.counts().unreadable);
  RC_ASSERT(at_once.counts().rows + at_once.counts().unreadable == rows);
  RC_ASSERT(at_once.counts().running == in_pieces.counts().running);
  const auto a = at_once.spectrum(3600, 3600), b = in_pieces.spectrum(3600, 3600);
  RC_ASSERT(a.ok() == b.ok());
  if (!a.ok()) return;
  RC_ASSERT(a->bins.size() == b->bins.size());
  for (std::size_t i = 0; i < a->bins.size(); ++i)
    RC_ASSERT(a->bins[i].torque == b->bins[i].torque && a->bins[i].share == b->bins[i].share);
  RC_ASSERT(a->cycles.size() == b->cycles.size());
  for (std::size_t i = 0; i < a->cycles.size(); ++i) RC_ASSERT(a->cycles[i].count == b->cycles[i].count);
}

}  // namespace
}  // namespace lobewise::api
