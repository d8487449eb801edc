// The pages of everything that has a name: nothing unanswered, nothing empty, nothing left out.

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/explain.h"
#include "engine/advice/explain_gauge.h"
#include "engine/advice/explain_parts.h"
#include "engine/document/codes.h"
#include "engine/inference/situation.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::Each;
using testing::HasSubstr;
using testing::Not;

std::string lower_case(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

const ExplainedPart* part_under(const Explanation& page, std::string_view heading) {
  for (const ExplainedPart& part : page.sections) {
    if (part.heading == heading) return &part;
  }
  return nullptr;
}

/// The paragraphs under a heading, a line each; empty where the page has no such part.
std::string under(const Explanation& page, std::string_view heading) {
  const ExplainedPart* const part = part_under(page, heading);
  std::string out;
  if (part == nullptr) return out;
  for (const std::string& each : part->paragraphs) out += each + "\n";
  return out;
}

Explanation page_of_name(std::string_view id) { return explain(id, rules()).value(); }

TEST(EveryName, ThatIsListedIsAnsweredUnderItself) {
  std::size_t names = 0;
  for (const auto& [kind, ids] : explainable(rules())) {
    EXPECT_FALSE(ids.empty()) << kind;
    for (const std::string& id : ids) {
      const auto page = explain(lower_case(id), rules());
      ASSERT_TRUE(page) << kind << ": " << id;
      EXPECT_EQ(page->id, id) << kind;
      EXPECT_NE(page->title, "") << id;
      ++names;
    }
  }
  EXPECT_GT(names, 300U);
}

TEST(EveryName, HasAPageWithoutAnEmptyLine) {
  for (const auto& [kind, ids] : explainable(rules())) {
    for (const std::string& id : ids) {
      const Explanation page = page_of_name(lower_case(id));
      EXPECT_FALSE(page.sections.empty()) << id;
      for (const ExplainedPart& part : page.sections) {
        EXPECT_NE(part.heading, "") << id;
        EXPECT_FALSE(part.paragraphs.empty()) << id << ": " << part.heading;
        EXPECT_THAT(part.paragraphs, Each(Not(""))) << id << ": " << part.heading;
      }
    }
  }
}

TEST(EveryName, HasThePageOfItsKind) {
  const std::map<std::string, std::string> kinds{
      {"symptoms", "symptom"},    {"adjustments", "adjustment"},
      {"faults", "fault"},        {"track", "track"},
      {"facts", "fact"},          {"checks", "check"},
      {"quantities", "quantity"}, {"sizes", "size"},
      {"messages", "message"}};
  for (const auto& [kind, ids] : explainable(rules())) {
    if (kind == "rules") continue;  // a symptom and its rule may share a name
    for (const std::string& id : ids)
      EXPECT_EQ(page_of_name(lower_case(id)).kind, kinds.at(kind)) << id;
  }
}

TEST(EveryName, OfARuleIsListedOnceAndInOrder) {
  for (const auto& [kind, ids] : explainable(rules())) {
    if (kind != "rules") continue;
    EXPECT_TRUE(std::is_sorted(ids.begin(), ids.end()));
    EXPECT_EQ(std::adjacent_find(ids.begin(), ids.end()), ids.end());
    EXPECT_EQ(ids.size(), every_rule(rules()).size());
  }
}

TEST(EveryName, ThatNobodyGaveIsNotAnswered) {
  for (const char* id : {"", "no-such-thing", "check-", "check-no-such-thing", "k999", "K003"})
    EXPECT_FALSE(explain(id, rules())) << id;
}

TEST(FaultPage, SaysWhatToLookAtWhatToDoAndWhatSpeaksForIt) {
  for (const Fault& fault : rules().faults) {
    const Explanation page = page_of_name(fault.id);
    EXPECT_EQ(page.title, fault.label);
    EXPECT_THAT(under(page, "look"),
                AllOf(HasSubstr(fault.check), HasSubstr(fmt::format("{:g} minutes", fault.minutes)),
                      HasSubstr(fmt::format("{:g} notches", fault.loss))));
    EXPECT_THAT(under(page, "if so"), HasSubstr(fault.fix));
    EXPECT_EQ(under(page, "if so").find("do not send the kart out") != std::string::npos,
              fault.stop)
        << fault.id;
    for (const EvidenceRule& rule : fault.evidence)
      EXPECT_THAT(under(page, "evidence"),
                  AllOf(HasSubstr(fmt::format("{:+g} dB when ", rule.decibans)),
                        HasSubstr(rule.because + " [" + rule.id + "]")));
    EXPECT_EQ(part_under(page, "care") != nullptr, !fault.cautions.empty()) << fault.id;
    for (const std::string& id : fault.cautions)
      EXPECT_THAT(under(page, "care"), HasSubstr(rules().caution(id)->text));
  }
}

TEST(TrackPage, SaysWhatReadsItAndWhatComesNext) {
  for (const TrackState& track : rules().tracks) {
    const Explanation page = page_of_name(track.id);
    EXPECT_THAT(under(page, "what it is"), HasSubstr(track.plain));
    for (const ReadingRule& rule : rules().readings) {
      const bool waits =
          describe(rule.when, rules()).find("track:" + track.id) != std::string::npos;
      EXPECT_EQ(under(page, "reads").find("[" + rule.id + "]") != std::string::npos, waits)
          << track.id << " " << rule.id;
    }
    EXPECT_EQ(part_under(page, "what comes next") != nullptr, !track.ahead.empty()) << track.id;
    if (!track.ahead.empty()) {
      EXPECT_THAT(under(page, "what comes next"),
                  AllOf(testing::StartsWith(track.ahead + ": "), HasSubstr(row_text(track.shift))));
    }
  }
}

TEST(FactPage, SaysHowToStateItOrThatTheProgramWorksItOut) {
  for (const FactDef& fact : rules().facts) {
    const Explanation page = page_of_name(fact.id);
    EXPECT_EQ(part_under(page, "state it") != nullptr, fact.entered) << fact.id;
    EXPECT_EQ(part_under(page, "worked out") != nullptr, !fact.entered) << fact.id;
    const std::string how = under(page, fact.entered ? "state it" : "worked out");
    for (const std::string& value : fact.values) EXPECT_THAT(how, HasSubstr(value)) << fact.id;
    if (fact.entered) {
      EXPECT_THAT(how, HasSubstr("--fact " + fact.id + "="));
    }
    EXPECT_EQ(under(page, "ask"), fact.question.empty() ? "" : fact.question + "\n");
  }
}

TEST(QuantityPage, SaysWhereItIsKnownFromAndWhatItCannotSay) {
  for (const QuantityPage& quantity : rules().quantities) {
    const Explanation page = explain_quantity(quantity);
    EXPECT_EQ(page.id, quantity.id);
    EXPECT_EQ(under(page, "what it is"), quantity.plain + "\n");
    EXPECT_EQ(under(page, "in words"), quantity.formula + "\n");
    EXPECT_EQ(under(page, "known from"), quantity.known_from + "\n");
    EXPECT_EQ(under(page, "cannot say"), quantity.limits + "\n");
  }
}

/// "1 mm to 2 mm"; empty where an end is missing.
std::string ends_in_words(std::optional<double> from, std::optional<double> to, Kind kind) {
  if (!from || !to) return {};
  return print_quantity(*from, kind, System::metric) + " to " +
         print_quantity(*to, kind, System::metric);
}

void expect_the_ends(const MeasureDef& size, std::string_view section) {
  const Explanation page = explain_size(size, section);
  EXPECT_EQ(under(page, "in the kart file"), std::string(section) + ": {" + size.id + ": ...}\n");
  EXPECT_EQ(under(page, "plausible"), ends_in_words(size.from, size.to, size.kind) + "\n");
  const std::string likely = ends_in_words(size.likely_from, size.likely_to, size.kind);
  EXPECT_EQ(under(page, "most karts"), likely.empty() ? "" : likely + "\n");
  EXPECT_THAT(under(page, "wanted"),
              HasSubstr(ends_in_words(size.band_from, size.band_to, size.kind)));
  EXPECT_EQ(part_under(page, "assumed") != nullptr, size.assumed.has_value());
  if (size.assumed) {
    EXPECT_EQ(under(page, "assumed"), print_quantity(*size.assumed, size.kind, System::metric) +
                                          (size.known_from.empty() ? "" : "; " + size.known_from) +
                                          "\n");
  }
}

TEST(SizePage, SaysInWhichSectionItStandsAndItsEnds) {
  for (const MeasureDef& measure : rules().measures) expect_the_ends(measure, "measured");
  for (const MeasureDef& dimension : rules().dimensions) expect_the_ends(dimension, "dimensions");
}

TEST(SizePage, WithAnOpenEndIsOfNoBand) {
  MeasureDef half;
  half.id = half.label = "play";
  half.kind = Kind::length;
  half.to = 0.05;
  half.band_from = 0.001;
  half.likely_from = 0.001;
  half.assumed = 0.002;
  EXPECT_EQ(under(explain_size(half, "measured"), "wanted"), "");
  EXPECT_EQ(under(explain_size(half, "measured"), "most karts"), "");
  EXPECT_EQ(under(explain_size(half, "measured"), "assumed"), "2 mm\n");
}

TEST(MessagePage, SaysWhatWhyAndWhatToDo) {
  for (const CodeText& code : kCodes) {
    const Explanation page = page_of_name(lower_case(std::string(code.name)));
    EXPECT_EQ(page.title, code.meaning);
    EXPECT_EQ(under(page, "do"), std::string(code.mend) + "\n");
    for (const char* heading : {"what", "why", "avoid", "prefer"})
      EXPECT_NE(under(page, heading), "") << code.name << ": " << heading;
    EXPECT_EQ(part_under(page, "avoid")->stands, part_under(page, "prefer")->stands) << code.name;
  }
}

TEST(RulePage, SaysWhyWhenWhatAndWhereFrom) {
  for (const RuleRef& rule : every_rule(rules())) {
    const Explanation page = explain_rule(rule, rules());
    EXPECT_EQ(page.id, rule.rule->id);
    EXPECT_EQ(under(page, "because"), rule.rule->because + "\n");
    EXPECT_EQ(under(page, "says"), says(rule, rules()) + "\n");
    EXPECT_THAT(under(page, "from"), AllOf(HasSubstr(rule.rule->provenance.text()),
                                           HasSubstr(rule.rule->source.text())));
    EXPECT_NE(under(page, "when"), "\n");
  }
}

TEST(RulePage, ARuleSpeaksOfWhatItIsA) {
  std::map<RuleKind, int> met;
  for (const RuleRef& rule : every_rule(rules())) {
    const std::string line = says(rule, rules());
    ++met[rule.kind];
    if (rule.kind == RuleKind::symptom) {
      EXPECT_THAT(line, AllOf(testing::StartsWith(rule.symptom->label + ": "),
                              testing::EndsWith(" a notch")));
    } else if (rule.kind == RuleKind::effect) {
      EXPECT_THAT(line, testing::StartsWith(rule.adjustment->phrases[0] + ": "));
    } else if (rule.kind == RuleKind::evidence) {
      EXPECT_THAT(line,
                  AllOf(testing::StartsWith(rule.fault->label + ": "), testing::EndsWith(" dB")));
    } else if (rule.kind == RuleKind::reading) {
      EXPECT_THAT(line, AllOf(HasSubstr(" = "), HasSubstr(" ± ")));
    } else {
      EXPECT_THAT(line, HasSubstr(":"));
    }
  }
  EXPECT_EQ(met.size(), 5U);
}

TEST(Row, IsASumWithItsSigns) {
  EXPECT_EQ(row_text({}), "");
  EXPECT_EQ(row_text({{"rear-grip.mid", 0.7}, {"unloading", 0.5}}),
            "0.7 rear-grip.mid + 0.5 unloading");
  EXPECT_EQ(row_text({{"front-grip", -1.0}, {"rear-grip", -0.25}}),
            "-1 front-grip - 0.25 rear-grip");
}

TEST(GaugePage, IsFoundByItsNameItsMeasuresAndItsVerdicts) {
  for (const Gauge& gauge : rules().gauges) {
    EXPECT_EQ(gauge_named(gauge.id, rules()), &gauge);
    EXPECT_EQ(gauge_named("check-" + gauge.id, rules()), &gauge);
    for (const GaugeVerdict& verdict : gauge.verdicts)
      EXPECT_EQ(gauge_named(verdict.id, rules()), &gauge) << verdict.id;
    for (const GaugeFigure& figure : gauge.figures) {
      if (figure.measure.empty()) continue;
      const Gauge* const found = gauge_named(figure.measure, rules());
      ASSERT_NE(found, nullptr) << figure.measure;
      EXPECT_TRUE(std::any_of(found->figures.begin(), found->figures.end(),
                              [&](const GaugeFigure& f) { return f.measure == figure.measure; }));
    }
  }
  EXPECT_EQ(gauge_named("", rules()), nullptr);  // most figures have no measure
  EXPECT_EQ(gauge_named("check-", rules()), nullptr);
}

TEST(GaugePage, SaysHowToMeasureWhatToHandInAndWhatItMeans) {
  for (const Gauge& gauge : rules().gauges) {
    const Explanation page = page_of_name("check-" + gauge.id);
    EXPECT_EQ(part_under(page, "how to measure")->paragraphs, gauge.steps);
    const std::string hand_in = under(page, "hand in");
    EXPECT_THAT(hand_in, testing::StartsWith("kartwright check " + gauge.id + " --"));
    for (const GaugeReading& reading : gauge.readings) {
      EXPECT_THAT(hand_in, HasSubstr("--" + reading.id + " " + reading.example + ": "));
    }
    for (const GaugeChoice& choice : gauge.choices) {
      EXPECT_THAT(hand_in, HasSubstr("--" + choice.id + ": " + choice.label));
      for (const auto& value : choice.values)
        EXPECT_THAT(hand_in, HasSubstr(value.id + " (" + value.label + ")"));
    }
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      EXPECT_EQ(under(page, "outcomes").find("[" + verdict.id + ";") != std::string::npos,
                !verdict.quiet)
          << verdict.id;
    }
    EXPECT_THAT(under(page, "outcomes"), Not(HasSubstr("{")));  // no place left to fill in
    EXPECT_EQ(part_under(page, "care") != nullptr, !gauge.cautions.empty()) << gauge.id;
  }
}

TEST(GaugePage, TheExampleGivesWhatMustBeGivenAndNothingElse) {
  for (const Gauge& gauge : rules().gauges) {
    const std::string example = example_of(gauge) + " ";
    for (const GaugeReading& reading : gauge.readings) {
      const bool first_of_some = !gauge.one_of.empty() && gauge.one_of.front() == reading.id;
      EXPECT_EQ(example.find(" --" + reading.id + " ") != std::string::npos,
                !reading.optional || first_of_some)
          << gauge.id << ": " << reading.id;
    }
    for (const GaugeChoice& choice : gauge.choices)
      EXPECT_THAT(example, HasSubstr(" --" + choice.id + " " + choice.values.front().id + " "));
  }
}

TEST(GaugeRange, IsSaidByTheEndsThatItHas) {
  EXPECT_EQ(range_text(0.022, 0.032, Kind::length, System::metric), "from 22 mm to under 32 mm");
  EXPECT_EQ(range_text(0.032, {}, Kind::length, System::metric), "from 32 mm");
  EXPECT_EQ(range_text({}, 0.022, Kind::length, System::metric), "under 22 mm");
  EXPECT_EQ(range_text({}, {}, Kind::length, System::metric), "");
}

TEST(GaugeRange, OfAVerdictNamesItsFigureAndItsChoices) {
  Gauge gauge;
  gauge.figures.emplace_back();
  gauge.figures[0].id = gauge.figures[0].label = "travel";
  GaugeVerdict verdict;
  EXPECT_EQ(holds_where(verdict, gauge, System::metric), "else");
  verdict.of = "travel";
  EXPECT_EQ(holds_where(verdict, gauge, System::metric), "travel");
  verdict.to = 0.022;
  verdict.where["drive"] = {"clutch", "direct"};
  EXPECT_EQ(holds_where(verdict, gauge, System::metric),
            "travel under 22 mm, drive clutch or direct");
}

}  // namespace
}  // namespace kartwright
