// Saving, changing, finding.

#include <nlohmann/json.hpp>

#include "tests/unit/store/suite.h"

namespace lobewise::store {
namespace {

using Json = nlohmann::json;

class Enquiries : public StoreTest {};
LOBEWISE_BOTH_STORES(Enquiries);

TEST_P(Enquiries, ARevisionKeepsWhatItWasMadeFrom) {
  const Draft first = draft("Inclined conveyor", "first visit"),
              second = draft("Inclined conveyor, 14 m", "lift measured");
  std::int64_t number = 0;
  {
    Store store = create();
    const Head head = must(store.save(anna_, first));
    number = head.number;
    EXPECT_EQ(head.revisions, 1);
    EXPECT_EQ(must(store.revise({"ben", Role::engineer}, number, head.version, second)).revisions, 2);
  }
  Store store = open();
  const Revision old = must(store.revision(number, 1)), latest = must(store.revision(number, 0));
  EXPECT_EQ(old.draft.input, first.input);
  EXPECT_EQ(old.draft.range, first.range);
  EXPECT_EQ(old.draft.result, first.result);
  EXPECT_EQ(old.draft.engine, "0.0.test");
  EXPECT_EQ(old.info.saved_by, "anna");
  EXPECT_EQ(old.info.saved, "2027-01-15T08:00:00.000Z");  // 1.8e9 s after 1970: date -u -d @1800000000
  EXPECT_EQ(latest.draft.input, second.input);
  EXPECT_EQ(latest.info.note, "lift measured");
  EXPECT_EQ(old.info.range, latest.info.range);
  const Head head = must(store.head(number));
  EXPECT_EQ(head.title, "Inclined conveyor, 14 m");
  EXPECT_EQ(head.owner, "anna");
  EXPECT_EQ(head.changed_by, "ben");
  EXPECT_EQ(number_of("SELECT count(*) FROM content"), 5) << "one range, two inputs, two results, each once";
}

TEST_P(Enquiries, WhoComesLateIsToldAndLosesNothing) {
  Store store = create();
  const Head seen = must(store.save(anna_, draft("Trommel")));
  (void)must(store.revise({"ben", Role::engineer}, seen.number, seen.version, draft("Trommel", "ben's")));
  const Outcome<Head> late = store.revise(anna_, seen.number, seen.version, draft("Trommel", "anna's"));
  ASSERT_EQ(trouble(late), Trouble::conflict);
  EXPECT_NE(late.problem().message.find("ben"), std::string::npos) << late.problem().message;
  EXPECT_NE(late.problem().message.find("revision 2"), std::string::npos) << late.problem().message;
  EXPECT_EQ(trouble(store.step(anna_, seen.number, seen.version, {State::offered, {}, {}, ""})), Trouble::conflict);
  EXPECT_EQ(must(store.revisions(seen.number)).size(), 2U);
  EXPECT_EQ(must(store.history(seen.number)).size(), 1U);
}

TEST_P(Enquiries, StepsAndFollowUps) {
  Store store = create();
  Head head = must(store.save(anna_, draft("Screw")));
  EXPECT_EQ(head.state, State::asked);
  head = must(store.step(anna_, head.number, head.version, {State::visited, "2027-02-01", {}, "drive measured"}));
  head = must(store.step(anna_, head.number, head.version, {State::offered, {}, "ben", ""}));
  EXPECT_EQ(head.follow_up, "2027-02-01") << "kept when nothing is said";
  EXPECT_EQ(head.owner, "ben");
  const std::vector<Step> steps = must(store.history(head.number));
  ASSERT_EQ(steps.size(), 3U);
  EXPECT_EQ(steps[1].state, State::visited);
  EXPECT_EQ(steps[1].note, "drive measured");
  const auto due = [&](const char* day) {
    Query query;
    query.due = day;
    return must(store.list(query)).total;
  };
  EXPECT_EQ(due("2027-01-31"), 0);
  EXPECT_EQ(due("2027-02-01"), 1);
  head = must(store.step(anna_, head.number, head.version, {State::lost, "", {}, "price"}));
  EXPECT_EQ(due("2027-02-01"), 0);
  head = must(store.revise(anna_, head.number, head.version, draft("Screw")));
  Query noted;
  noted.text = "measured price";
  EXPECT_EQ(must(store.list(noted)).total, 1) << "notes are found, also after a revision";
  for (const char* wrong : {"2027-02-29", "2027-13-01", "1.2.2027", "2027-2-1", "tomorrow", "2027-02-01T00:00"})
    EXPECT_EQ(trouble(store.step(anna_, head.number, head.version, {State::lost, wrong, {}, ""})), Trouble::input)
        << wrong;
  EXPECT_TRUE(store.step(anna_, head.number, head.version, {State::lost, "2028-02-29", {}, ""}).ok());
}

TEST_P(Enquiries, SearchFindsWordsInAnyCase) {
  Store store = create();
  (void)must(store.save(anna_, draft("Förderband MÜLLER 3", "größer")));
  (void)must(store.save(anna_, draft("100%_belt\\x")));
  (void)must(store.save(anna_, draft("Ленточный конвейер")));
  const auto count = [&](const char* text) {
    Query query;
    query.text = text;
    return must(store.list(query)).total;
  };
  EXPECT_EQ(count("müller"), 1);
  EXPECT_EQ(count("müller förder GRÖSSER"), 0);
  EXPECT_EQ(count("müller FÖRDER größer"), 1);
  EXPECT_EQ(count("%"), 1) << "signs of the database stand for themselves";
  EXPECT_EQ(count("_"), 1);
  EXPECT_EQ(count("\\"), 1);
  EXPECT_EQ(count("ЛЕНТОЧНЫЙ"), 1);
  EXPECT_EQ(count("glass 16"), 3) << "customer and fields of the enquiry";
  EXPECT_EQ(count("' OR 1=1 --"), 0);
  Query query;
  query.limit = 2;
  EXPECT_EQ(must(store.list(query)).heads.size(), 2U);
  EXPECT_EQ(must(store.list(query)).total, 3);
  EXPECT_EQ(must(store.list(query)).heads[0].number, 3) << "the last changed first";
}

TEST_P(Enquiries, HostileTextComesBackUntouched) {
  Store store = create();
  for (const std::string& text :
       {std::string("<script>alert(1)</script>"), std::string("'; DROP TABLE enquiry; --"),
        std::string("\" onload=\"x"), std::string("{{7*7}} ${7*7} %s %n {}"), std::string("a\0b", 3),
        std::string("line\r\nbreak\ttab"), std::string("\xE2\x80\xAEright to left"),
        std::string("\xF0\x9F\x94\xA9 nut"), std::string(100'000, 'x')}) {
    const Draft wanted = draft(text);
    const Head head = must(store.save(anna_, wanted));
    const Revision kept = must(store.revision(head.number, 0));
    EXPECT_EQ(kept.draft.input, wanted.input);
    EXPECT_EQ(Json::parse(kept.draft.input)["enquiry"]["title"].get<std::string>(), text);
    EXPECT_LE(head.title.size(), kMostName);
    for (const char c : head.title) EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20) << "a list has one line each";
  }
}

TEST_P(Enquiries, RefusesWhatCannotBeKept) {
  Store store = create();
  const auto refused = [&](auto change) {
    Draft wrong = draft("x");
    change(wrong);
    EXPECT_EQ(trouble(store.save(anna_, wrong)), Trouble::input);
  };
  refused([](Draft& d) { d.input = "no json"; });
  refused([](Draft& d) { d.input = "[]"; });
  refused([](Draft& d) { d.input = R"({"enquiry": 3})"; });
  refused([](Draft& d) { d.input = R"({"enquiry": {"title": ")" + std::string(kMostInput, 'x') + "\"}}"; });
  refused([](Draft& d) {
    d.input = R"({"enquiry": {"a": )" + std::string(100'000, '[') + std::string(100'000, ']') + "}}";
  });
  refused([](Draft& d) { d.input = "{\"enquiry\": {\"title\": \"\xff\"}}"; });
  refused([](Draft& d) { d.range = std::string(1000, '['); });
  refused([](Draft& d) { d.note = std::string("a\0b", 3); });
  refused([](Draft& d) { d.note = std::string(kMostNote + 1, 'x'); });
  refused([](Draft& d) { d.note = "\xc0\xaf"; });  // an overlong form
  EXPECT_EQ(must(store.list({})).total, 0);
  EXPECT_EQ(trouble(store.revision(7, 0)), Trouble::not_found);
  EXPECT_EQ(trouble(store.save({"eve", Role::reader}, draft("x"))), Trouble::denied);
}

TEST_P(Enquiries, DocumentsStayAsTheyWere) {
  Store store = create();
  const Head head = must(store.save(anna_, draft("Screw")));
  const Document offer{"offer.pdf", "application/pdf", R"({"call":"handover"})", std::string("%PDF\0\xff", 6)};
  const DocumentInfo info = must(store.attach(anna_, head.number, 0, offer));
  EXPECT_EQ(info.size, 6);
  EXPECT_TRUE(store.attach(anna_, head.number, 1, offer).ok()) << "the same again is no change";
  Document other = offer;
  other.bytes = "another";
  EXPECT_EQ(trouble(store.attach(anna_, head.number, 1, other)), Trouble::conflict);
  EXPECT_EQ(trouble(store.attach(anna_, head.number, 2, offer)), Trouble::not_found);
  const Document kept = must(store.document(head.number, 0, "offer.pdf"));
  EXPECT_EQ(kept.bytes, offer.bytes);
  EXPECT_EQ(kept.request, offer.request);
  EXPECT_EQ(must(store.documents(head.number)).size(), 1U);
  for (const char* name : {"", "../x", "a/b", "a\\b", ".hidden", "a\nb", "con:", "x "}) {
    other.name = name;
    EXPECT_EQ(trouble(store.attach(anna_, head.number, 1, other)), Trouble::input) << name;
  }
  other.name = "y";
  other.type = "text/html\r\nSet-Cookie: x";
  EXPECT_EQ(trouble(store.attach(anna_, head.number, 1, other)), Trouble::input);
}

TEST(Places, ShowNoPassword) {
  EXPECT_EQ(parse_place("postgresql://u:p@ss@host:1/db")->shown(), "postgresql://host:1/db");
  EXPECT_EQ(parse_place("postgres://host/db?password=x&sslmode=require")->shown(),
            "postgres://host/db?password=…&sslmode=require");
  EXPECT_EQ(parse_place("/a/b")->shown(), "/a/b");
  EXPECT_FALSE(parse_place("").ok());
  EXPECT_FALSE(parse_place(":memory:").ok());
}

}  // namespace
}  // namespace lobewise::store
