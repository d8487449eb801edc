// advise --batch: a debrief on every line in, an answer on every line out.

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using InOrder = nlohmann::ordered_json;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// The command on lines from standard input.
Ended batch(const std::string& lines, const Words& more = {}) {
  Words words{"advise", "--batch", "-"};
  words.insert(words.end(), more.begin(), more.end());
  Command command = kartwright(words);
  command.input = lines;
  return run(command);
}

std::vector<InOrder> answers(const Ended& ended) {
  std::vector<InOrder> out;
  for (const std::string& line : lines_of(ended.out)) out.push_back(InOrder::parse(line));
  return out;
}

/// The only answer to a line.
InOrder answer_to(const std::string& line, const Words& more = {"--brief"}) {
  const std::vector<InOrder> all = answers(batch(line + "\n", more));
  EXPECT_THAT(all, SizeIs(1));
  return all.empty() ? InOrder() : all.front();
}

/// The only error of the only answer to a line.
InOrder error_of(const std::string& line) {
  const InOrder found = answer_to(line);
  EXPECT_EQ(found.value("schema", ""), "kartwright/advice/1");
  EXPECT_FALSE(found.contains("changes"));
  const InOrder errors = found.value("errors", InOrder::array());
  EXPECT_THAT(errors, SizeIs(1)) << found;
  return errors.empty() ? InOrder() : errors.front();
}

const std::string kPush = R"({"track":"green","reports":["push@entry=2"]})";
const std::string kHop = R"({"track":"rubbered-in","reports":["hop@mid=3"],"minutes":30})";

/// The answer of `advise` to the same as a debrief file.
std::string advice_on(const std::string& debrief, const Words& more) {
  const TempFolder folder;
  Words words{"advise", "--debrief", folder.write("debrief.yaml", debrief), "--format", "json"};
  words.insert(words.end(), more.begin(), more.end());
  return run_kartwright(words).out;
}

TEST(Batch, ALineIsAnsweredAsADebriefFileIs) {
  for (const std::string& line : {kPush, kHop, std::string(R"({"said":"it hops, sometimes"})")}) {
    EXPECT_EQ(batch(line + "\n", {"--brief"}).out, advice_on(line, {"--brief"})) << line;
  }
}

TEST(Batch, TheWholeAnswerHasTheWorkingAndTheQuestions) {
  const InOrder whole = answer_to(kPush, {});
  EXPECT_TRUE(whole.contains("ask"));
  EXPECT_TRUE(whole.at("working").contains("covariance") ||
              whole.at("working").at("prior").contains("covariance"));
  EXPECT_FALSE(whole.contains("draws"));
}

TEST(Batch, AnswersStandInTheOrderOfTheLinesWithErrorsInTheirPlaces) {
  const Ended ended = batch(kHop + "\n{\"track\":\n" + kPush + "\n\n" + kHop + "\n", {"--brief"});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_EQ(ended.err, "");
  const std::vector<InOrder> all = answers(ended);
  ASSERT_THAT(all, SizeIs(5));
  EXPECT_EQ(all[0].at("track"), "rubbered-in");
  EXPECT_EQ(all[1].at("line"), 2);
  EXPECT_EQ(all[1].at("errors")[0].at("message"), "the line is not a JSON object");
  EXPECT_EQ(all[2].at("track"), "green");
  EXPECT_EQ(all[3].at("line"), 4);
  EXPECT_EQ(all[3].at("errors")[0].at("line"), 4);
  EXPECT_EQ(all[4], all[0]);
}

TEST(Batch, AnUnknownSymptomIsNamedWithItsColumn) {
  //                                     1234567890123456789012345678901234567890
  const InOrder first = error_of(R"({"reports":["psuh@entry=2"]})");
  EXPECT_EQ(first.at("code"), "D013");
  EXPECT_EQ(first.at("message"), "`psuh` is not a symptom");
  EXPECT_THAT(first.at("help").get<std::string>(), HasSubstr("push"));
  EXPECT_EQ(first.at("column"), 14);
  // Columns are characters; what stands before may be escaped, or longer in bytes than it looks.
  EXPECT_EQ(error_of(R"({ "said": "é", "reports" : [ "psuh" ] })").at("column"), 31);
  EXPECT_EQ(error_of(R"({"said":"\u00e9\n\"","reports":["psuh"]})").at("column"), 34);
  EXPECT_EQ(error_of(R"({"minutes":10.5,"hours":2,"reports":["psuh"]})").at("column"), 39);
}

TEST(Batch, PlacesAreThoseOfADebriefFile) {
  for (const char* const line :
       {R"({"trak":"green"})", R"({"track":"gren","laps":null})", R"({"minutes":-1})",
        R"({"reports":[{"symptom":"push","phase":"entri"}]})", R"({"facts":{"turn-in":"x"}})",
        R"({"kart":{"settings":{"rear-width":"1400"}}})", R"({"reports":"push"})",
        R"({"hours":[1,2]})", R"({"reports":[true,"push@mid=7"]})"}) {
    SCOPED_TRACE(line);
    const TempFolder folder;
    const std::string path = folder.write("debrief.yaml", line);
    const Ended file = run_kartwright({"advise", "--debrief", path});
    const InOrder found = answer_to(line);
    ASSERT_TRUE(found.contains("errors")) << found;
    for (const InOrder& error : found.at("errors")) {
      const std::string place = path + ":" + std::to_string(error.at("line").get<int>()) + ":" +
                                std::to_string(error.at("column").get<int>()) + ": error[" +
                                error.at("code").get<std::string>() + "]";
      EXPECT_THAT(file.err, HasSubstr(place));
    }
  }
}

TEST(Batch, WhatJsonAllowsAndNobodyMeansIsRefused) {
  EXPECT_EQ(error_of(R"({"track":"cold","track":"wet"})").at("code"), "D005");
  EXPECT_THAT(error_of(R"({"track":"cold","track":"wet"})").at("message").get<std::string>(),
              HasSubstr("stands twice"));
  for (const char* line : {"", " ", "7", "[]", "null", "{} {}", "{\"a\":1,}", "{'track':'wet'}",
                           "{\"said\":\"\xFF\"}", "{\"said\":\"\\ud800\"}", "track: wet"}) {
    EXPECT_EQ(error_of(line).at("message"), "the line is not a JSON object") << line;
  }
  const std::string deep = "{\"facts\":" + std::string(40, '[') + std::string(40, ']') + "}";
  EXPECT_THAT(error_of(deep).at("message").get<std::string>(), HasSubstr("too deep"));
  EXPECT_THAT(error_of("{\"said\":\"a\x7F\"}").at("message").get<std::string>(),
              HasSubstr("control character"));
}

TEST(Batch, ALineLongerThanALineMayBeIsRefusedAndTheNextIsAnswered) {
  const std::string words(std::size_t{1} << 17U, 'a');
  const auto all = answers(batch("{\"said\":\"" + words + "\"}\n" + kPush + "\n", {"--brief"}));
  ASSERT_THAT(all, SizeIs(2));
  EXPECT_EQ(all[0].at("errors")[0].at("message"), "the line is too long to be a debrief");
  EXPECT_EQ(all[1].at("track"), "green");
}

TEST(Batch, ReportsMayBeMapsAsTheAnswerWritesThem) {
  const std::string maps =
      R"({"track":"green","reports":[{"symptom":"push","phase":"entry","severity":2}]})";
  EXPECT_EQ(answer_to(maps), answer_to(kPush));
  // The reports of an answer are fit to be sent again.
  const InOrder heard =
      answer_to(R"({"track":"green","said":"pushes going in, no hop"})").at("heard");
  const InOrder again =
      answer_to(InOrder{{"track", "green"}, {"reports", heard.at("reports")}}.dump());
  ASSERT_THAT(again.at("heard").at("reports"), SizeIs(heard.at("reports").size()));
  for (std::size_t i = 0; i < heard.at("reports").size(); ++i) {
    for (const char* key : {"symptom", "phase", "severity"})
      EXPECT_EQ(again.at("heard").at("reports")[i].at(key), heard.at("reports")[i].at(key));
  }
}

TEST(Batch, EscapesAreReadBeyondTheBasicPlaneToo) {
  // U+1F3C1 as a pair of surrogates, and an accent.
  const InOrder found = answer_to(R"({"said":"\u00e9lan \ud83c\udfc1 p\u0075shes going in"})");
  EXPECT_EQ(found.at("heard").at("reports")[0].at("symptom"), "push");
  EXPECT_THAT(found.at("heard").dump(), HasSubstr("\xC3\xA9lan"));
  EXPECT_EQ(answer_to(R"({"kart":{"kart":"\ud83c\udfc1"}})").at("kart"), "\xF0\x9F\x8F\x81");
}

TEST(Batch, NothingInAnAnswerCanSteerATerminal) {
  const std::string steering = R"(a\u001b[2Jb\u202ec and many more words than sixteen\u001b[2J)";
  for (const std::string& line :
       {R"({"said":")" + steering + R"("})", R"({"kart":{"kart":")" + steering + R"("}})",
        R"({"track":")" + steering + R"("})", R"({")" + steering + R"(":1})",
        R"({"reports":[")" + steering + R"("]})", R"({"kart":")" + steering + R"("})"}) {
    const Ended ended = batch(line + "\n", {"--brief"});
    EXPECT_FALSE(has_control(ended.out)) << line;
    EXPECT_EQ(ended.out.find("\xE2\x80\xAE"), std::string::npos) << line;
    EXPECT_THAT(answers(ended), SizeIs(1)) << line;
  }
}

TEST(Batch, AKartStandsInTheLineOrInAFileOfItsOwn) {
  const std::string kart = R"({"kart":"narrow one","settings":{"rear-width":"1300 mm"}})";
  const TempFolder folder;
  folder.write("karts/narrow.yaml", kart);
  const std::string lines =
      R"({"track":"green","reports":["hop@mid=2"],"kart":)" + kart + "}\n" +
      R"({"track":"green","reports":["hop@mid=2"],"kart":"karts/narrow.yaml"})" + "\n" +
      R"({"track":"green","reports":["hop@mid=2"],"kart":"karts/none.yaml"})" + "\n";
  const Ended ended = run_kartwright({"advise", "--batch", folder.write("day.jsonl", lines)});
  EXPECT_EQ(ended.exit, 65);
  const std::vector<InOrder> all = answers(ended);
  ASSERT_THAT(all, SizeIs(3));
  EXPECT_EQ(all[0].at("kart"), "narrow one");
  EXPECT_EQ(all[1], all[0]);
  EXPECT_THAT(all[2].at("errors")[0].at("file").get<std::string>(), HasSubstr("karts/none.yaml"));
}

TEST(Batch, OptionsSpeakForLinesThatDoNot) {
  const std::string silent = R"({"reports":["push@entry=2"]})";
  EXPECT_EQ(answer_to(silent).at("track"), "unknown");
  EXPECT_EQ(answer_to(silent, {"--brief", "--track", "wet"}).at("track"), "wet");
  EXPECT_EQ(answer_to(kPush, {"--brief", "--track", "wet"}).at("track"), "green");
  EXPECT_EQ(answer_to(silent, {"--minutes", "5"}).at("working").at("minutes_left"), 5.0);
  const TempFolder folder;
  const std::string kart = folder.write("kart.yaml", "kart: ours\nsettings: {rear-width: 1380 mm}");
  EXPECT_EQ(answer_to(silent, {"--brief", "--kart", kart}).at("kart"), "ours");
  EXPECT_EQ(answer_to(R"({"kart":{"kart":"mine"}})", {"--brief", "--kart", kart}).at("kart"),
            "mine");
}

TEST(Batch, WarningsStandInTheAnswer) {
  const InOrder found = answer_to(R"({"reports":["slide@straight=2"],"kart":{"settings":{}}})");
  const InOrder warned = answer_to(R"({"kart":{"settings":{"rear-width":"1361 mm"}}})");
  ASSERT_TRUE(warned.contains("warnings")) << warned;
  EXPECT_TRUE(warned.contains("changes"));
  EXPECT_EQ(warned.at("warnings")[0].at("column"), 35);
  EXPECT_FALSE(answer_to(kPush).contains("warnings"));
  EXPECT_TRUE(found.contains("changes"));
}

TEST(Batch, TwoThreadsGiveTheSameBytesAsOne) {
  std::string lines;
  for (int i = 0; i < 700; ++i) lines += i % 50 == 7 ? "no\n" : (i % 3 == 0 ? kHop : kPush) + "\n";
  const Ended one = batch(lines, {"--brief", "--threads", "1"});
  const Ended two = batch(lines, {"--brief", "--threads", "2"});
  EXPECT_THAT(lines_of(one.out), SizeIs(700));
  EXPECT_TRUE(one.out == two.out);
  EXPECT_EQ(one.exit, 65);
  EXPECT_EQ(two.exit, 65);
}

/// The peak memory of answering so many lines, KiB. The answers go where no test has to hold them.
long peak_of(int lines) {
  const TempFolder folder;
  std::string text;
  for (int i = 0; i < lines; ++i) text += (i % 2 == 0 ? kHop : kPush) + "\n";
  const Ended ended =
      run({.argv = {"/bin/sh", "-c", R"(exec "$0" advise --brief --batch "$1" >/dev/null)",
                    binary(), folder.write("lines.jsonl", text)}});
  EXPECT_EQ(ended.exit, 0) << ended.err;
  return ended.peak_kib;
}

TEST(Batch, ManyLinesTakeNoMoreMemoryThanFew) {
  if (watched()) GTEST_SKIP() << "the sanitizers take their own memory";
  // Few are more than are taken in at a time.
  EXPECT_LT(peak_of(8000), peak_of(600) + 4096);
}

TEST(Batch, NoLinesAreNoAnswers) {
  const Ended ended = batch("");
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.out, "");
  EXPECT_EQ(batch(kPush, {"--brief"}).out, batch(kPush + "\n", {"--brief"}).out);
}

TEST(Batch, AFileThatIsNotThereIsSixtySix) {
  const Ended ended = run_kartwright({"advise", "--batch", "/no/such/file"});
  EXPECT_EQ(ended.exit, 66);
  EXPECT_EQ(ended.out, "");
  EXPECT_EQ(batch(kPush, {"--kart", "/no/such/kart"}).exit, 66);
}

TEST(Batch, OptionsOfOneDebriefAreRefused) {
  for (const Words& words : {Words{"--debrief", "a.yaml"},
                             {"--said", "it pushes"},
                             {"--report", "push"},
                             {"--fact", "hit=yes"},
                             {"--laps", "faster"},
                             {"--why"},
                             {"--why-not", "rear-width"},
                             {"--turns"},
                             {"--draws", "100"}}) {
    const Ended ended = batch(kPush, words);
    EXPECT_EQ(ended.exit, 2) << words.front();
    EXPECT_THAT(ended.err, HasSubstr("`" + words.front() + "` does not go with --batch"));
    EXPECT_THAT(ended.out, IsEmpty());
  }
  EXPECT_EQ(batch(kPush, {"--kart", "-"}).exit, 2);
  EXPECT_EQ(run_kartwright({"advise", "--threads", "2"}).exit, 2);
}

}  // namespace
}  // namespace kartwright
