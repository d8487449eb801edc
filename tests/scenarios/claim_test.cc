// The claims of the trade (claims/): does the pack keep each, and would a pack that does not be
// noticed?

#include "tests/scenarios/claim.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

TEST(Claims, OfTheTradeAreKept) {
  std::size_t number = 0;
  for (const Document& document : claim_documents()) {
    Findings findings;
    const std::vector<Claim> claims = read_claims(document, rules(), findings);
    EXPECT_EQ(told(findings.all()), "");
    for (const Claim& claim : claims) {
      EXPECT_THAT(not_kept(claim, rules()), IsEmpty()) << claim.source.text() << ": " << claim.says;
    }
    number += claims.size();
  }
  EXPECT_GE(number, 200U);
}

struct ReadClaims {
  std::vector<Claim> claims;
  std::vector<Diagnostic> found;
};

ReadClaims read_claim(const std::string& text) {
  Findings findings;
  const std::string whole = "claims:\n  - says: x\n" + text;
  auto claims = read_claims(parse_document("claims.yaml", whole), rules(), findings);
  return {std::move(claims), findings.all()};
}

class UnkeptClaim : public testing::TestWithParam<const char*> {};

TEST_P(UnkeptClaim, IsNoticed) {
  const auto [claims, found] = read_claim(GetParam());
  ASSERT_EQ(told(found), "");
  ASSERT_THAT(claims, SizeIs(1));
  EXPECT_THAT(not_kept(claims[0], rules()), SizeIs(1));
}

INSTANTIATE_TEST_SUITE_P(
    Each, UnkeptClaim,
    testing::Values("    move: rear-width wider\n    does: {rear-grip.mid: more}\n",
                    "    move: rear-width wider\n    does: {rear-grip.mid: same}\n",
                    "    move: rear-width wider\n    does: {response: less}\n",
                    "    move: rear-width wider\n    most: rear-grip.entry\n",
                    "    move: rear-width wider\n    most: response\n",
                    "    move: rear-hubs shorter\n    most: rear-grip.mid\n"
                    "    outdoes: [rear-width wider]\n",
                    "    reports: ['push@mid=2']\n    reads: {front-grip.mid: more}\n",
                    "    track: cold\n    than: {track: wet}\n    reads: {rear-grip.mid: less}\n",
                    "    reports: ['hop@mid=2']\n    mostly: response\n",
                    "    track: green\n    ahead: {rear-grip.mid: less}\n",
                    "    track: green\n    holds: {track: wet}\n",
                    "    facts: {hit: yes}\n    likelier: [fuel-leak]\n",
                    "    facts: {hit: yes}\n    unlikelier: [bent-axle]\n",
                    "    facts: {hit: yes}\n    certain: [bent-axle]\n",
                    "    facts: {welds: sound}\n    cleared: [cracked-frame]\n",
                    "    facts: {fuel: wet}\n    stops: no\n",
                    "    check: sprockets\n    given: {offset: 5 mm}\n    in-order: yes\n",
                    "    check: sprockets\n    given: {offset: 5 mm}\n    not-run: yes\n",
                    "    check: sprockets\n    given: {offset: 5 mm}\n"
                    "    states: {sprocket-line: straight}\n"));

class MisspeltClaim : public testing::TestWithParam<const char*> {};

TEST_P(MisspeltClaim, IsAnError) { EXPECT_THAT(read_claim(GetParam()).found, Not(IsEmpty())); }

INSTANTIATE_TEST_SUITE_P(
    Each, MisspeltClaim,
    testing::Values("    track: green\n", "    reeds: {unloading: more}\n",
                    "    track: green\n    reads: {unloadin: more}\n",
                    "    track: green\n    reads: {unloading: much}\n",
                    "    move: rear-widht wider\n    does: {unloading: more}\n",
                    "    move: rear-width wide\n    does: {unloading: more}\n",
                    "    does: {unloading: more}\n",
                    "    move: rear-width wider\n    outdoes: [toe out]\n",
                    "    likelier: [bent-axel]\n", "    stops: perhaps\n",
                    "    check: sprocket\n    in-order: yes\n", "    in-order: yes\n",
                    "    track: gren\n    stops: no\n",
                    "    track: green\n    than: {trak: cold}\n    reads: {unloading: more}\n"));

}  // namespace
}  // namespace kartwright
