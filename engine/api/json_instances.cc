#include "engine/api/json_instances.h"

template class nlohmann::basic_json<>;
template class nlohmann::detail::serializer<nlohmann::json>;
template class std::vector<nlohmann::json>;
template class std::map<std::string, nlohmann::json, std::less<>>;
