#include "apps/handover/text.h"

#include <gtest/gtest.h>

#include "apps/handover/page.h"

namespace lobewise::handover {
namespace {

TEST(Text, MarkupLeavesNoLanguageBehind) {
  EXPECT_EQ(markup("<script>alert('\"&')</script>"), "&lt;script&gt;alert(&#39;&quot;&amp;&#39;)&lt;/script&gt;");
  EXPECT_EQ(markup("α ≤ 5 °C"), "α ≤ 5 °C");
}

TEST(Text, CleanDropsControlsAndRepairsBrokenBytes) {
  EXPECT_EQ(clean("a\nb\tc"), "a b c");
  EXPECT_EQ(clean(std::string("a\0b", 3)), "a\uFFFDb");
  EXPECT_EQ(clean("\xC3"), "\uFFFD");            // cut off
  EXPECT_EQ(clean("\xC0\xAF"), "\uFFFD\uFFFD");  // an overlong slash
  EXPECT_EQ(clean("\xED\xA0\x80"), "\uFFFD");    // half of a surrogate pair
  EXPECT_EQ(clean("safe\u202Etxt"), "safetxt");  // would be read backwards
  EXPECT_EQ(clean("é€😀"), "é€😀");
}

TEST(Text, CssStringEscapesEverythingThatIsNoLetter) {
  EXPECT_EQ(css_string("a\"}"), "a\\000022 \\00007D ");
  EXPECT_EQ(css_string("</style>"), "\\00003C \\00002F style\\00003E ");
}

TEST(Text, ShortenedCountsCharactersNotBytes) {
  EXPECT_EQ(shortened("äöü", 3), "äöü");
  EXPECT_EQ(shortened("äöüß", 3), "äö…");
}

TEST(Text, TypesetRaisesPowersAndKeepsFigureAndUnitTogether) {
  EXPECT_EQ(typeset("206 kg·m2", true), "206\u00a0kg·m²");
  EXPECT_EQ(typeset("220 mm2/s", true), "220\u00a0mm²/s");
  EXPECT_EQ(typeset("-10 °C", true), "−10\u00a0°C");
  EXPECT_EQ(typeset("2 1/h", true), "2/h");
  EXPECT_EQ(typeset("stops within 52.7 deg, then 4 % at 40 °C", false),
            "stops within 52.7°, then 4\u00a0% at 40\u00a0°C");
  // What only looks like it stays as it was written.
  EXPECT_EQ(typeset("item2 of belt-2, m25, 3 degrees, 2 1/hour", false), "item2 of belt-2, m25, 3 degrees, 2 1/hour");
}

TEST(Text, PercentKeepsWhatJustFailsVisible) {
  EXPECT_EQ(percent(0.567), "57\u00a0%");
  EXPECT_EQ(percent(-0.0031), "−0.3\u00a0%");
  EXPECT_EQ(percent(0), "0\u00a0%");
  EXPECT_EQ(percent(-1.87), "−187\u00a0%");
}

}  // namespace
}  // namespace lobewise::handover
