#pragma once
// The store over HTTP: who asks, may they, and is it their own page that asks.
//   GET  /store/session                {"store": "file" | "team", "sign_in": bool, "person"?, "token"?, "states"}
//   POST /store/sign-in                {"name", "password"} -> as /store/session, sets the cookie
//   POST /store/sign-out
//   POST /store                        {"call", "input"} -> StoreDoor
//   GET  /store/documents/NUMBER/REVISION/NAME   the document, always as a download
// Every POST but sign-in carries the token of /store/session in `X-Lobewise-Token`: the cookie alone changes nothing.

#include <memory>
#include <string>

#include "apps/server/store_door.h"

namespace httplib {
class Server;
struct Request;
}  // namespace httplib

namespace lobewise::server {

class StoreRoutes {
 public:
  /// @param secure  the page is reached over TLS, by a proxy of this machine: cookies are marked, and the address of
  ///                who signs in is the proxy's word (last of X-Forwarded-For)
  StoreRoutes(store::Store& store, Engines& engines, int port, bool secure);
  void add_to(httplib::Server& http);
  /// True when the request comes from somebody who is signed in, or nobody needs to.
  [[nodiscard]] bool known(const httplib::Request& request);

 private:
  struct Visitor {
    store::Actor actor;
    std::string token;
  };
  [[nodiscard]] store::Outcome<Visitor> visitor(const httplib::Request& request);
  [[nodiscard]] std::string cookie(const httplib::Request& request) const;
  [[nodiscard]] std::string cookie_header(const std::string& token, std::int64_t seconds) const;
  [[nodiscard]] std::string session_json(const store::Outcome<Visitor>& visitor, bool sign_in) const;

  store::Store& store_;
  StoreDoor door_;
  std::string cookie_name_;
  bool secure_;
  Visitor alone_;  ///< when nobody needs to sign in: the user of this machine
};

}  // namespace lobewise::server
