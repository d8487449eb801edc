// A debrief written to a file comes back as it was.

#include "engine/debrief/debrief_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"
#include "tests/support/scenario_files.h"

namespace kartwright {
namespace {

DebriefFile read_back(const std::string& text) {
  Findings findings;
  Document document;
  try {
    document = parse_document("kept.yaml", text);
  } catch (const InputError& error) {
    ADD_FAILURE() << told(error.found()) << "\n" << text;
  }
  DebriefFile file = read_debrief(document, rules(), findings);
  EXPECT_EQ(told(findings.all()), "") << text;
  return file;
}

TEST(DebriefText, OfEveryScenarioGivesTheSameBelief) {
  for (const std::string& path : scenario_files()) {
    Findings findings;
    const Debrief debrief = read_debrief(read_document(path), rules(), findings).debrief;
    const DebriefFile back = read_back(debrief_text(debrief, {.title = "3 \"answers\" \\"}));
    const Kart kart = typical_kart(rules());
    const Advice one = advise(rules(), kart, debrief, System::metric);
    const Advice other = advise(rules(), kart, back.debrief, System::metric);
    EXPECT_EQ(back.debrief.track, debrief.track);
    EXPECT_EQ(back.debrief.minutes, debrief.minutes);
    EXPECT_EQ(back.debrief.hours, debrief.hours);
    EXPECT_EQ(one.belief.mean, other.belief.mean) << path;
    EXPECT_EQ(one.debrief.heard.not_understood.size(), other.debrief.heard.not_understood.size());
  }
}

TEST(DebriefText, NamesTheKartItBelongsTo) {
  const DebriefFile back = read_back(debrief_text({}, {.kart_path = "/pits/blue \"27\".yaml"}));
  EXPECT_EQ(back.kart_path, "/pits/blue \"27\".yaml");
}

TEST(DebriefText, WritesAReportAsTheOptionTakesIt) {
  EXPECT_EQ(report_text({.symptom = "push"}), "push=2");
  EXPECT_EQ(report_text({.symptom = "push",
                         .phase = Phase::entry,
                         .severity = 3,
                         .confidence = Confidence::unsure,
                         .side = Side::left,
                         .when = When::late}),
            "push@entry=3,left,late,unsure");
}

}  // namespace
}  // namespace kartwright
