#include <iostream>
#include <iterator>
#include <string>

#include "engine/api/registry.h"

int main() {
  const std::string request{std::istreambuf_iterator<char>(std::cin), {}};
  std::cout << lobewise::api::answer(request) << '\n';
}
