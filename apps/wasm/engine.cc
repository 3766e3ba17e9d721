#include <string>

#include "engine/api/registry.h"

/// Text in, text out, as `lobewise api`. The answer stays valid until the next call; the caller owns `request`.
extern "C" const char* engine_answer(const char* request) {
  static std::string answer;
  answer = lobewise::api::answer(request);
  return answer.c_str();
}
