// The store's door: calls, errors, roles.

#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "apps/server/store_door.h"
#include "apps/store/content.h"

namespace lobewise::server {
namespace {

using Json = nlohmann::json;

class Door : public testing::Test {
 protected:
  Door() : file_(std::filesystem::temp_directory_path() / ("lobewise-door-" + store::random_id())) {
    store::Place place;
    place.address = file_.string();
    store_.emplace(std::move(*store::Store::create(place)));
  }
  ~Door() override {
    store_.reset();
    std::filesystem::remove(file_);
  }
  Json ask(const std::string& call, const Json& input, int status = 200, store::Role role = store::Role::engineer) {
    const StoreDoor door(*store_, engines_);
    const Answer answer = door.answer({"anna", role}, Json{{"call", call}, {"input", input}}.dump());
    EXPECT_EQ(answer.status, status) << answer.body;
    return Json::parse(answer.body);
  }

  std::filesystem::path file_;
  std::optional<store::Store> store_;
  Engines engines_;
  const Json enquiry_{{"title", "Invented conveyor"},
                      {"machine", {{"measured", {{"measured_torque", "40 N·m"}, {"speed", "57 rpm"}}}}}};
};

TEST_F(Door, AnEnquiryFromFirstToLast) {
  const Json head = ask("save", {{"enquiry", enquiry_}, {"note", "by telephone"}});
  EXPECT_EQ(head["number"], 1);
  EXPECT_EQ(head["state"], "asked");
  Json changed = enquiry_;
  changed["title"] = "Invented conveyor 2";
  EXPECT_EQ(ask("revise", {{"number", 1}, {"version", 1}, {"enquiry", changed}})["revisions"], 2);
  const Json late = ask("revise", {{"number", 1}, {"version", 1}, {"enquiry", changed}}, 409);
  EXPECT_EQ(late["errors"][0]["trouble"], "conflict");
  EXPECT_EQ(ask("step", {{"number", 1}, {"version", 2}, {"state", "offered"}, {"follow_up", "2031-01-02"}})["version"],
            3);
  EXPECT_EQ(ask("list", {{"text", "TELEPHONE"}, {"state", "offered"}, {"due", "2031-01-02"}})["total"], 1);
  const Json opened = ask("open", {{"number", 1}, {"revision", 1}});
  EXPECT_EQ(opened["input"]["enquiry"], enquiry_);
  EXPECT_EQ(opened["revisions"].size(), 2U);
  EXPECT_EQ(opened["steps"].size(), 2U);
  EXPECT_FALSE(opened.contains("result"));
  EXPECT_TRUE(ask("open", {{"number", 1}, {"result", true}})["result"].contains("findings"));
  EXPECT_EQ(ask("remake", {{"number", 1}})["identical"], true);
  EXPECT_EQ(ask("remake", {{"number", 1}})["moved"]["turned"], Json::array());
  EXPECT_EQ(ask("attach", {{"number", 1}, {"name", "a.txt"}, {"type", "text/plain"}, {"base64", "cGxhaW4="}})["size"],
            5);
  EXPECT_EQ(ask("open", {{"number", 1}})["documents"][0]["name"], "a.txt");
}

TEST_F(Door, RefusesInClearWords) {
  const auto refused = [&](const std::string& call, const Json& input, int status, const std::string& word) {
    const Json answer = ask(call, input, status);
    const std::string message = answer["errors"][0]["message"];
    EXPECT_NE(message.find(word), std::string::npos) << message;
  };
  refused("lst", {}, 400, "known: attach");
  refused("list", Json::array(), 400, "object");
  refused("list", {{"colour", 1}}, 400, "`colour` is unknown");
  refused("list", {{"limit", -1}}, 400, "whole number");
  refused("list", {{"limit", 1.5}}, 400, "whole number");
  refused("list", {{"limit", 18446744073709551615U}}, 400, "whole number");
  refused("list", {{"text", 7}}, 400, "must be text");
  refused("list", {{"state", "dreamt"}}, 400, "asked, visited");
  refused("list", {{"due", "soon"}}, 400, "is no date");
  refused("open", Json::object(), 400, "`number` is missing");
  refused("open", {{"number", 9}}, 404, "no enquiry 9");
  refused("save", Json::object(), 400, "enquiry");
  refused("save", {{"enquiry", enquiry_}, {"range", {{"frames", 3}}}}, 400, "range");
  refused("attach", {{"number", 1}, {"name", "a"}, {"type", "text/plain"}, {"base64", "%%"}}, 400, "base64");
  refused("set_person", {{"name", "eve"}, {"role", "queen"}}, 400, "reader, engineer, keeper");
  refused("people", Json::object(), 403, "keeper");
  const StoreDoor door(*store_, engines_);
  for (const std::string& request : {std::string(), std::string("null"), std::string("{\"call\": 3}"),
                                     std::string(1'000'000, '['), std::string("\xff\xfe{}"), std::string(100, '\0')})
    EXPECT_EQ(door.answer({"anna", store::Role::engineer}, request).status, 400);
}

TEST_F(Door, WhatCarriesPeopleIsKeptByNobody) {
  (void)ask("save", {{"enquiry", enquiry_}});
  Json lift = enquiry_;
  lift["title"] = "Passenger lift 2";
  Json hoist = enquiry_;
  hoist["machine"] = {{"hoist", {{"lifts_people", true}}}};
  for (const Json& job : {lift, hoist})
    for (const Json& answer :
         {ask("save", {{"enquiry", job}}, 400), ask("revise", {{"number", 1}, {"version", 1}, {"enquiry", job}}, 400)})
      EXPECT_NE(answer.dump().find("eople"), std::string::npos) << answer;
  EXPECT_EQ(ask("list", Json::object())["total"], 1);
}

TEST_F(Door, AReaderChangesNothing) {
  (void)ask("save", {{"enquiry", enquiry_}});
  const auto reader = store::Role::reader;
  (void)ask("list", Json::object(), 200, reader);
  (void)ask("save", {{"enquiry", enquiry_}}, 403, reader);
  (void)ask("revise", {{"number", 1}, {"version", 1}, {"enquiry", enquiry_}}, 403, reader);
  (void)ask("step", {{"number", 1}, {"version", 1}, {"state", "lost"}}, 403, reader);
  (void)ask("attach", {{"number", 1}, {"name", "a"}, {"type", "text/plain"}, {"base64", ""}}, 403, reader);
  for (const char* call : {"people", "audit"}) (void)ask(call, Json::object(), 403, reader);
  (void)ask("set_person", {{"name", "eve"}, {"role", "keeper"}, {"password", "a long pass phrase"}}, 403, reader);
  EXPECT_EQ(ask("list", Json::object())["total"], 1);
  EXPECT_EQ(ask("audit", Json::object(), 200, store::Role::keeper)["lines"].size(), 1U);
}

TEST_F(Door, HostileTextComesBackUntouched) {
  for (const std::string& text :
       {std::string("<script>alert(1)</script>"), std::string("</script><img src=x onerror=alert(1)>"),
        std::string("' OR 1=1; DROP TABLE enquiry; --"), std::string("\xE2\x80\xA8\xE2\x80\xAE"),
        std::string("a\0b", 3)}) {
    Json enquiry = enquiry_;
    enquiry["title"] = enquiry["customer"] = text;
    const Json head = ask("save", {{"enquiry", enquiry}});
    EXPECT_EQ(ask("open", {{"number", head["number"]}})["input"]["enquiry"], enquiry);
    Json step{{"number", head["number"]}, {"version", 1}, {"state", "lost"}, {"note", text}};
    if (text.find('\0') == std::string::npos) {
      (void)ask("step", step);
      EXPECT_EQ(ask("open", {{"number", head["number"]}})["steps"][1]["note"], text);
    } else {
      (void)ask("step", step, 400);
    }
  }
}

}  // namespace
}  // namespace lobewise::server
