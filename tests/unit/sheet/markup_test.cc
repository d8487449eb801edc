// What is put into a sheet stays text, whatever it is.

#include "cli/sheet/markup.h"

#include <gtest/gtest.h>

namespace kartwright::cli {
namespace {

TEST(Markup, EscapesWhatSomebodyWrites) {
  EXPECT_EQ(words("<script>alert('a & \"b\"')</script>").html(),
            "&lt;script&gt;alert(&#39;a &amp; &quot;b&quot;&#39;)&lt;/script&gt;");
}

TEST(Markup, TakesOutControlsAndMarksOfDirection) {
  EXPECT_EQ(words("blue\x1b[31m 27\xE2\x80\xAE x\xE2\x81\xA6\n").html(), "blue [31m 27  x  ");
}

TEST(Markup, EscapesTheValuesOfAttributes) {
  EXPECT_EQ(element("svg", {{"aria-label", "a\" onload=\"x"}}, {}).html(),
            "<svg aria-label=\"a&quot; onload=&quot;x\"></svg>");
}

TEST(Markup, KeepsTheLinesOfAPre) {
  EXPECT_EQ(words_in_lines("rear: <1360 mm>\nfront: 2\n").html(),
            "rear: &lt;1360 mm&gt;\nfront: 2");
}

TEST(Markup, PutsPartsOneBehindTheOther) {
  const Markup both{element("p", words("a")), element("p", words("b"))};
  EXPECT_EQ(both.html(), "<p>a</p><p>b</p>");
  EXPECT_TRUE(Markup().empty());
}

}  // namespace
}  // namespace kartwright::cli
