#include "apps/handover/text.h"

#include <gtest/gtest.h>

#include "apps/handover/formula.h"

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

TEST(Formula, SetsVariablesGreekPowersAndRoots) {
  EXPECT_EQ(formula_html("p_0 = sqrt(F E* / (pi b rho))"),
            "<i>p</i><sub>0</sub> = √(<i>F</i> <i>E</i>* / (π <i>b</i> ρ))");
  EXPECT_EQ(formula_html("L = 1e6 (C/P)^p / (60 n)"),
            "<i>L</i> = 10<sup>6</sup> (<i>C</i>/<i>P</i>)<sup><i>p</i></sup> / (60 <i>n</i>)");
  EXPECT_EQ(formula_html("x^(a + b)^2 >= -1"), "<i>x</i><sup><i>a</i> + <i>b</i></sup><sup>2</sup> ≥ −1");
}

TEST(Formula, IsSafeForAnyText) {
  EXPECT_EQ(formula_html("<b>^(<i"), "&lt;<i>b</i>&gt;<sup>&lt;<i>i</i></sup>");
  EXPECT_EQ(formula_html("^"), "<sup></sup>");
  EXPECT_EQ(formula_html("docs/theory/losses.md <x>"), "docs/theory/losses.md &lt;x&gt;");
}

}  // namespace
}  // namespace lobewise::handover
