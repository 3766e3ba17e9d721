#pragma once
// What every file that handles JSON would otherwise compile again for itself: it is compiled once, in
// json_instances.cc.

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

extern template class nlohmann::basic_json<>;
extern template class nlohmann::detail::serializer<nlohmann::json>;
extern template class std::vector<nlohmann::json>;
extern template class std::map<std::string, nlohmann::json, std::less<>>;
