#pragma once
// Bodies of answers, sent as they are.

#include <memory>
#include <string>

namespace httplib {
struct Response;
}

namespace lobewise::server {

/// Makes `content` the body, neither copied nor packed. A body set with `set_content` is packed with Brotli at its
/// slowest setting for every request whose sender reads that: seconds for the page's larger files, for a way inside one
/// machine. A proxy that carries the page over a network may pack it.
void give(httplib::Response& response, std::shared_ptr<const std::string> content, const std::string& type);

/// The same for a body of this one answer.
void give(httplib::Response& response, std::string content, const std::string& type);

}  // namespace lobewise::server
