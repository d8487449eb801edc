// The frame that every sheet stands in: what comes first, what paper leaves out, how tables are
// headed.

#include "cli/sheet/sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kartwright::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

Markup paragraphs(int count) {
  Markup out;
  for (int i = 0; i < count; ++i) out += element("p", words("a line of the answer"));
  return out;
}

std::size_t place_of(const std::string& html, std::string_view text) {
  EXPECT_THAT(html, HasSubstr(std::string(text)));
  return html.find(text);
}

TEST(Sheet, NeedsNeitherScriptNorNetwork) {
  Sheet sheet("Advice", "blue 27");
  sheet.section("READING", paragraphs(1));
  const std::string html = sheet.html();
  EXPECT_TRUE(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\""));
  for (const char* unwanted : {"<script", "http:", "https:", "url(", "@import", "<link", "<img"})
    EXPECT_THAT(html, Not(HasSubstr(unwanted)));
}

TEST(Sheet, PutsThePicturesBetweenWhatComesFirstAndTheRest) {
  Sheet sheet("Advice", "blue 27");
  sheet.section("READING", paragraphs(1));
  sheet.picture({.markup = element("svg", {{"role", "img"}}, {}), .height = 100.0}, "the loads");
  sheet.section("CARE", paragraphs(1));
  const std::string html = sheet.html();
  EXPECT_LT(place_of(html, "Reading"), place_of(html, "the loads"));
  EXPECT_LT(place_of(html, "the loads"), place_of(html, "Care"));
}

TEST(Sheet, LeavesOutOnPaperOnlyWhatMayBeLeftOutAndSaysSo) {
  Sheet sheet("Advice", "blue 27");
  sheet.picture({.markup = element("svg", {{"role", "img"}}, {}), .height = 100.0}, "the loads");
  sheet.droppable_from_here();
  sheet.section("WHY", paragraphs(400));
  sheet.section("ASK", paragraphs(2));
  sheet.needed_from_here();
  sheet.section("CARE", paragraphs(2));
  const std::string html = sheet.html();
  EXPECT_THAT(html, HasSubstr("<section class=\"on-screen\"><h2>Why</h2>"));
  EXPECT_THAT(html, HasSubstr("<section class=\"always\"><h2>Ask</h2>"));
  EXPECT_THAT(html, HasSubstr("<section class=\"always\"><h2>Care</h2>"));
  EXPECT_THAT(html, HasSubstr("More stands in the file"));
}

TEST(Sheet, PrintsSmallerTheMoreItHolds) {
  const auto size_of = [](int lines) {
    Sheet sheet("Advice", "blue 27");
    sheet.section("READING", paragraphs(lines));
    const std::string html = sheet.html();
    const std::size_t at = html.find("class=\"") + 7;
    return html.substr(at, html.find('"', at) - at);
  };
  EXPECT_EQ(size_of(10), "usual");
  EXPECT_EQ(size_of(150), "tight");
  EXPECT_EQ(size_of(190), "tighter");
}

TEST(Sheet, HeadsEveryColumnAndEveryRow) {
  SheetTable table{.caption = "loads",
                   .head = {"wheel", "N"},
                   .rows = {{words("left front"), words("302")}},
                   .figures = {false, true}};
  table.first_leads = true;
  EXPECT_EQ(table_of(table).html(),
            "<table><caption>loads</caption><thead><tr><th scope=\"col\">wheel</th>"
            "<th scope=\"col\" class=\"figure\">N</th></tr></thead><tbody><tr class=\"first\">"
            "<th scope=\"row\">left front</th><td class=\"figure\">302</td></tr></tbody></table>");
}

TEST(Sheet, GivesRowsThatStandTogetherTheirTable) {
  Page page(look_of_sheet());
  page.section("CHANGE");
  page.paragraph("only once that is put right:");
  page.row("move   out");
  page.row("wider  70 %");
  page.paragraph("7 more", 2, Tint::good);
  const Markup table = element("table", Markup());
  EXPECT_EQ(paragraphs_of(page.sections().front(), {table}).html(),
            "<p>only once that is put right:</p><table></table><p class=\"good\">7 more</p>");
  EXPECT_THAT(paragraphs_of(page.sections().front()).html(),
              HasSubstr("<pre>move   out\nwider  70 %</pre>"));
}

}  // namespace
}  // namespace kartwright::cli
