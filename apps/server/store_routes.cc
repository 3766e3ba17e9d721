#include "apps/server/store_routes.h"

#include <fmt/format.h>
#include <httplib.h>
#include <pwd.h>
#include <unistd.h>

#include <charconv>
#include <nlohmann/json.hpp>

#include "apps/server/body.h"
#include "apps/store/content.h"

namespace lobewise::server {
namespace {

using Json = nlohmann::json;
using store::Outcome;
using store::Problem;
using store::Trouble;

void send(httplib::Response& response, const Answer& answer) {
  response.status = answer.status;
  response.set_header("Cache-Control", "no-store");
  give(response, answer.body, "application/json");
}

/// A form of another page cannot send this type without being asked first.
bool is_json(const httplib::Request& request) {
  return request.get_header_value("Content-Type").rfind("application/json", 0) == 0;
}

std::string user_of_machine() {
  const passwd* user = getpwuid(getuid());
  return user != nullptr ? user->pw_name : "workspace";
}

/// Equal in a time that does not tell how much is equal.
bool equal(const std::string& a, const std::string& b) {
  unsigned char difference = a.size() == b.size() ? 0 : 1;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i)
    difference = static_cast<unsigned char>(difference | (a[i] ^ b[i]));
  return difference == 0;
}

std::int64_t number_of(const std::string& digits) {
  std::int64_t value = -1;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return error == std::errc() && end == digits.data() + digits.size() ? value : -1;
}

/// RFC 6266 with RFC 5987: the name as anybody may have written it.
std::string disposition(const std::string& name) {
  std::string out = "attachment; filename*=UTF-8''";
  for (const char c : name) {
    const bool plain =
        (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '.' || c == '-' || c == '_';
    out += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

}  // namespace

StoreRoutes::StoreRoutes(store::Store& store, Engines& engines, int port, bool secure)
    : store_(store),
      door_(store, engines),
      cookie_name_(fmt::format("lobewise_{}", port)),  // cookies do not tell ports apart
      secure_(secure),
      alone_{{user_of_machine(), store::Role::engineer}, store::random_id() + store::random_id()} {}

std::string StoreRoutes::cookie(const httplib::Request& request) const {
  const std::string all = request.get_header_value("Cookie"), name = cookie_name_ + "=";
  for (std::size_t at = 0; at < all.size();) {
    const std::size_t end = std::min(all.find(';', at), all.size());
    if (all.compare(at, name.size(), name) == 0) return all.substr(at + name.size(), end - at - name.size());
    at = all.find_first_not_of(' ', end + 1);
  }
  return "";
}

std::string StoreRoutes::cookie_header(const std::string& token, std::int64_t seconds) const {
  return fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict; Max-Age={}{}", cookie_name_, token, seconds,
                     secure_ ? "; Secure" : "");
}

Outcome<StoreRoutes::Visitor> StoreRoutes::visitor(const httplib::Request& request) {
  const Outcome<bool> needed = store_.needs_sign_in();
  if (!needed) return needed.problem();
  if (!*needed) return alone_;
  const std::string token = cookie(request);
  if (token.empty()) return Problem{Trouble::denied, "Sign in first."};
  const Outcome<store::SignedIn> session = store_.session(token);
  if (!session) return session.problem();
  return Visitor{{session->person.name, session->person.role}, session->csrf};
}

bool StoreRoutes::known(const httplib::Request& request) { return visitor(request).ok(); }

std::string StoreRoutes::session_json(const Outcome<Visitor>& visitor, bool sign_in) const {
  Json out{{"store", store_.place().team ? "team" : "file"}, {"sign_in", sign_in}, {"states", store::kStates}};
  if (visitor) {
    out["person"] = {{"name", visitor->actor.name}, {"role", name_of(visitor->actor.role)}};
    out["token"] = visitor->token;
  }
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void StoreRoutes::add_to(httplib::Server& http) {
  http.Get("/store/session", [this](const httplib::Request& request, httplib::Response& response) {
    const Outcome<bool> needed = store_.needs_sign_in();
    if (!needed) return send(response, refusal(needed.problem()));
    const Outcome<Visitor> who = visitor(request);
    if (!who && who.problem().trouble != Trouble::denied) return send(response, refusal(who.problem()));
    send(response, {200, session_json(who, *needed)});
  });

  http.Post("/store/sign-in", [this](const httplib::Request& request, httplib::Response& response) {
    if (!is_json(request)) return send(response, {415, "{}"});
    constexpr std::size_t kMost = 10'000;
    const Result<Json> json =
        request.body.size() > kMost ? input_error("", "", "too large") : api::parse_json(request.body);
    const auto member = [&](const char* name) {
      return json.ok() && json->is_object() && json->contains(name) && (*json)[name].is_string()
                 ? (*json)[name].get<std::string>()
                 : std::string();
    };
    if (member("name").empty() || member("password").empty())
      return send(response, refusal({Trouble::input, "Name and password are needed."}));
    std::string address = request.remote_addr;
    if (secure_ && request.has_header("X-Forwarded-For")) {
      const std::string all = request.get_header_value("X-Forwarded-For");
      address = all.substr(all.find_last_of(", ") + 1);
    }
    const Outcome<store::SignedIn> in = store_.sign_in(member("name"), member("password"), address);
    if (!in) {
      Answer answer = refusal(in.problem());
      if (in.problem().trouble == Trouble::denied) answer.status = 401;
      return send(response, answer);
    }
    response.set_header("Set-Cookie", cookie_header(in->token, store::kSessionLife / 1000));
    send(response, {200, session_json(Visitor{{in->person.name, in->person.role}, in->csrf}, true)});
  });

  // From here on: who asks is known, and it is their own page that asks.
  const auto post = [this](const httplib::Request& request, httplib::Response& response, auto action) {
    if (!is_json(request)) return send(response, {415, "{}"});
    const Outcome<Visitor> who = visitor(request);
    if (!who) {
      Answer answer = refusal(who.problem());
      if (who.problem().trouble == Trouble::denied) answer.status = 401;
      return send(response, answer);
    }
    if (!equal(request.get_header_value("X-Lobewise-Token"), who->token))
      return send(response, refusal({Trouble::denied, "The page is out of date; load it again."}));
    action(*who);
  };
  http.Post("/store/sign-out", [this, post](const httplib::Request& request, httplib::Response& response) {
    post(request, response, [&](const Visitor&) {
      (void)store_.sign_out(cookie(request));
      response.set_header("Set-Cookie", cookie_header("", 0));
      send(response, {200, "{}"});
    });
  });
  http.Post("/store", [this, post](const httplib::Request& request, httplib::Response& response) {
    post(request, response, [&](const Visitor& who) { send(response, door_.answer(who.actor, request.body)); });
  });

  http.Get(R"(/store/documents/(\d{1,12})/(\d{1,12})/(.+))",
           [this](const httplib::Request& request, httplib::Response& response) {
             const Outcome<Visitor> who = visitor(request);
             if (!who) {
               Answer answer = refusal(who.problem());
               if (who.problem().trouble == Trouble::denied) answer.status = 401;
               return send(response, answer);
             }
             const Outcome<store::Document> document =
                 store_.document(number_of(request.matches[1]), number_of(request.matches[2]), request.matches[3]);
             if (!document) return send(response, refusal(document.problem()));
             // Somebody's file must never run as a page of ours.
             response.set_header("Content-Security-Policy", "sandbox; default-src 'none'");
             response.set_header("Content-Disposition", disposition(document->name));
             response.set_header("Cache-Control", "no-store");
             give(response, document->bytes, document->type);
           });
}

}  // namespace lobewise::server
