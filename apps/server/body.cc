#include "apps/server/body.h"

#include <httplib.h>

#include <utility>

namespace lobewise::server {

void give(httplib::Response& response, std::shared_ptr<const std::string> content, const std::string& type) {
  if (content->empty()) return response.set_content(std::string{}, type);  // a provider must have something to provide
  const std::size_t size = content->size();
  response.set_content_provider(
      size, type, [content = std::move(content)](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
        return sink.write(content->data() + offset, length);
      });
}

void give(httplib::Response& response, std::string content, const std::string& type) {
  give(response, std::make_shared<const std::string>(std::move(content)), type);
}

}  // namespace lobewise::server
