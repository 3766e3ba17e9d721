// Words of the choices that several machines share.
#include "engine/demand/given.h"

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<demand::Feed>() {
  static const std::vector<Choice> words{
      {"even", "evenly"}, {"uneven", "unevenly"}, {"lumps", "with lumps that strike it"}};
  return words;
}

}  // namespace lobewise::model
