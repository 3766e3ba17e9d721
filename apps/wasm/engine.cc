#include <string>

#include "engine/api/registry.h"

/// Text in, text out, as `lobewise api`. The answer stays valid until the next call; the caller owns `request`. One
/// instance of the module is one session: a worker that is asked again finds its mesh tables.
extern "C" const char* engine_answer(const char* request) {
  static const lobewise::api::Session session;
  static std::string answer;
  answer = session.answer(request);
  return answer.c_str();
}
