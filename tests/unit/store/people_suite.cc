// Signing in, roles, the audit log.

#include "tests/unit/store/suite.h"

namespace lobewise::store {
namespace {

const Actor kKeeper{"keeper", Role::keeper};
constexpr const char* kWord = "a long pass phrase";

class People : public StoreTest {};
LOBEWISE_BOTH_STORES(People);

TEST_P(People, SignInSessionSignOut) {
  Store store = create();
  (void)must(store.set_person(kKeeper, {"anna", Role::engineer, true}, kWord));
  const SignedIn in = must(store.sign_in("anna", kWord, "127.0.0.1"));
  EXPECT_EQ(in.token.size(), 64U);
  EXPECT_NE(in.token, in.csrf);
  const SignedIn known = must(store.session(in.token));
  EXPECT_EQ(known.person.name, "anna");
  EXPECT_EQ(known.person.role, Role::engineer);
  EXPECT_EQ(known.csrf, in.csrf);
  EXPECT_EQ(number_of("SELECT count(*) FROM session WHERE token = '" + in.token + "'"), 0) << "only its hash is kept";
  EXPECT_EQ(number_of("SELECT count(*) FROM person WHERE password LIKE '$argon2id$%'"), 1);
  EXPECT_EQ(trouble(store.session("nothing")), Trouble::denied);
  EXPECT_EQ(trouble(store.session("")), Trouble::denied);
  EXPECT_TRUE(store.sign_out(in.token).ok());
  EXPECT_EQ(trouble(store.session(in.token)), Trouble::denied);
}

TEST_P(People, ASessionEnds) {
  Store store = create();
  (void)must(store.set_person(kKeeper, {"anna", Role::engineer, true}, kWord));
  const SignedIn first = must(store.sign_in("anna", kWord, "127.0.0.1"));
  now_ += kSessionLife - 60'000;
  EXPECT_TRUE(store.session(first.token).ok());
  now_ += 60'001;
  EXPECT_EQ(trouble(store.session(first.token)), Trouble::denied);
  const SignedIn second = must(store.sign_in("anna", kWord, "127.0.0.1"));
  (void)must(store.set_person(kKeeper, {"anna", Role::engineer, false}, ""));
  EXPECT_EQ(trouble(store.session(second.token)), Trouble::denied) << "a change of the person ends it";
  EXPECT_EQ(trouble(store.sign_in("anna", kWord, "127.0.0.1")), Trouble::denied);
}

TEST_P(People, TooManyAttemptsWait) {
  Store store = create();
  (void)must(store.set_person(kKeeper, {"anna", Role::engineer, true}, kWord));
  std::string unknown, wrong;
  for (std::int64_t i = 0; i < kAttempts; ++i) {
    const auto outcome = store.sign_in("anna", "guess", "127.0.0.1");
    ASSERT_EQ(trouble(outcome), Trouble::denied);
    wrong = outcome.problem().message;
  }
  EXPECT_EQ(trouble(store.sign_in("ANNA", kWord, "10.0.0.1")), Trouble::wait)
      << "from anywhere, in any case, even with the right one";
  unknown = store.sign_in("nobody", kWord, "127.0.0.1").problem().message;
  EXPECT_EQ(unknown, wrong) << "names cannot be tried out";
  now_ += kAttemptWindow + 1000;
  EXPECT_TRUE(store.sign_in("anna", kWord, "127.0.0.1").ok());
  EXPECT_EQ(number_of("SELECT count(*) FROM attempt"), 0) << "a right one does not count";
}

TEST_P(People, OneAddressCannotTryManyNames) {
  Store store = create();
  (void)must(store.set_person(kKeeper, {"anna", Role::engineer, true}, kWord));
  {
    // As if it had tried before: hashing thirty times would only take time.
    const std::unique_ptr<Connection> connection = connect(place_, false);
    for (std::int64_t i = 0; i < kAttemptsOfAddress; ++i)
      (void)connection->run("INSERT INTO attempt (id, subject, at) VALUES ($1, $2, $3)",
                            {std::to_string(i), std::string("from 10.0.0.9"), now_});
  }
  EXPECT_EQ(trouble(store.sign_in("anna", kWord, "10.0.0.9")), Trouble::wait);
  EXPECT_TRUE(store.sign_in("anna", kWord, "10.0.0.8").ok());
}

TEST_P(People, RolesAndTheAuditLog) {
  Store store = create();
  const Actor reader{"eve", Role::reader};
  EXPECT_EQ(trouble(store.set_person(anna_, {"eve", Role::keeper, true}, kWord)), Trouble::denied);
  EXPECT_EQ(trouble(store.set_person(kKeeper, {"eve", Role::reader, true}, "short")), Trouble::input);
  EXPECT_EQ(trouble(store.set_person(kKeeper, {" eve", Role::reader, true}, kWord)), Trouble::input);
  EXPECT_EQ(trouble(store.set_person(kKeeper, {"", Role::reader, true}, kWord)), Trouble::input);
  (void)must(store.set_person(kKeeper, {"eve", Role::reader, true}, kWord));
  const Head head = must(store.save(anna_, draft("Screw")));
  EXPECT_EQ(trouble(store.save(reader, draft("x"))), Trouble::denied);
  EXPECT_EQ(trouble(store.revise(reader, head.number, head.version, draft("x"))), Trouble::denied);
  EXPECT_EQ(trouble(store.step(reader, head.number, head.version, {})), Trouble::denied);
  EXPECT_EQ(trouble(store.attach(reader, head.number, 0, {"a", "text/plain", "", "x"})), Trouble::denied);
  const std::vector<AuditLine> lines = must(store.audit(10));
  ASSERT_EQ(lines.size(), 2U) << "what was refused changed nothing";
  EXPECT_EQ(lines[0].action, "save");
  EXPECT_EQ(lines[0].person, "anna");
  EXPECT_EQ(lines[0].subject, "enquiry 1");
  EXPECT_EQ(lines[1].action, "add person");
  EXPECT_EQ(must(store.people()).size(), 1U);
}

}  // namespace
}  // namespace lobewise::store
