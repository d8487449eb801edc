#include "tests/schemas/answers.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

const std::string kHarbour = KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/";

std::string harbour(const std::string& name) { return kHarbour + name; }

/// One command line for each set of options behind the same words.
void add(std::vector<AskedLine>& lines, const std::string& schema, const Words& words,
         const std::vector<Words>& each) {
  for (const Words& more : each) {
    lines.push_back({schema, words});
    lines.back().words.insert(lines.back().words.end(), more.begin(), more.end());
  }
}

}  // namespace

std::vector<nlohmann::json> answers_to(const AskedLine& asked) {
  Words words = asked.words;
  words.insert(words.end(), {"--format", "json"});
  Command command = kartwright(words);
  command.input = asked.input;
  const Ended ended = run(command);
  EXPECT_NE(ended.out, "") << testing::PrintToString(words) << "\n" << ended.err;
  const auto whole = nlohmann::json::parse(ended.out, nullptr, false);
  if (!whole.is_discarded()) return {whole};
  std::vector<nlohmann::json> answers;
  for (const std::string& line : lines_of(ended.out)) {
    answers.push_back(nlohmann::json::parse(line, nullptr, false));
    EXPECT_FALSE(answers.back().is_discarded()) << line;
  }
  return answers;
}

std::vector<AskedLine> advise_lines() {
  std::vector<AskedLine> lines;
  for (const std::string& scenario : scenarios_to_run())
    add(lines, "advice", {"advise", "--debrief", scenario}, {{}, {"--brief"}});
  for (const char* name : {"heat-2.yaml", "final-praise.yaml", "heat-1-bent-axle.yaml"})
    add(lines, "advice", {"advise", "--debrief", harbour(name)},
        {{"--why", "--units", "imperial"},
         {"--why-not", "caster", "--why-not", "narrow-rear-on-rubber-has-too-much", "--after"},
         {"--draws", "100", "--together", "3"}});
  add(lines, "advice", {"advise", "--debrief", harbour("heat-2.yaml")}, {{"--turns", "--brief"}});
  add(lines, "advice", {"advise"},
      {{"--track", "green", "--said", "pushes in turn 3 and the florb is weird, great otherwise"},
       {"--report", "push@straight=2,left,late,sure", "--fact", "hit=yes", "--laps", "faster"},
       {"--track", "wet", "--report", "hop=0"}});
  lines.push_back({"advice",
                   {"advise", "--batch", "-"},
                   "{\"track\":\"green\",\"said\":\"it pushes\"}\nnonsense\n{\"track\":\"gren\"}\n"
                   "{\"track\":\"cold\",\"reports\":[\"push@straight=2\"],\"minutes\":3}\n"});
  lines.push_back(lines.back());
  lines.back().words.emplace_back("--brief");
  return lines;
}

std::vector<AskedLine> bench_lines() {
  std::vector<AskedLine> lines;
  const std::string kart = harbour("harbour-27.yaml");
  const Words scales{"--lf", "40kg", "--rf", "34kg", "--lr", "52kg", "--rr", "51kg"};
  Words weigh{"weigh"};
  weigh.insert(weigh.end(), scales.begin(), scales.end());
  const std::string again = "39.8kg,34.2kg,52.1kg,50.9kg";
  add(lines, "weigh", weigh,
      {{},
       {"--resolution", "0.1kg", "--units", "imperial"},
       {"--swapped", again},
       {"--swapped", again, "--turned", again, "--kart", kart},
       {"--kart", harbour("harbour-41.yaml")}});
  add(lines, "weigh-lifted", {"weigh", "--lifted", "--level", "205lb", "--up", "214lb"},
      {{"--raised", "front", "--lift", "220mm", "--mass", "378lb"},
       {"--raised", "front", "--lift", "340mm", "--mass", "378lb", "--resolution", "1lb"}});
  for (const char* set : {"rear-width=1380mm", "caster=14deg", "mass-height=300mm", "axle=hard",
                          "mass-height=590mm", "seat-fore-aft=10mm", "front-bar=in"})
    add(lines, "whatif", {"whatif", "--set", set}, {{}, {"--kart", kart, "--track", "green"}});
  add(lines, "whatif", {"whatif", "--track", "unknown"},
      {{"--set", "mass-sideways=40mm", "--set", "rear-width=1400mm"}});
  add(lines, "sweep", {"whatif", "--sweep"},
      {{"rear-width=1320mm..1400mm"}, {"mass-height=0.2m..0.5m", "--track", "wet"}});
  add(lines, "plan", {"plan"},
      {{"--kart", kart, "--track", "green", "--said", "loose going in"},
       {"--stages", "cold=1h,green=2h,rubbered-in=1h", "--changes", "1"},
       {"--debrief", harbour("heat-1-bent-axle.yaml"), "--track", "green"},
       {"--debrief", harbour("heat-2-knock.yaml"), "--track", "cold"}});
  add(lines, "check-list", {"check"}, {{}});
  add(lines, "check-how", {"check"}, {{"chain"}, {"toe"}, {"collars"}, {"pressures"}});
  add(lines, "check", {"check"},
      {{"bearings", "--play", "1.5mm"},
       {"chain", "--tight", "2mm", "--loose", "34mm", "--drive", "clutch"},
       {"chain-length", "--front-teeth", "11", "--rear-teeth", "80", "--links", "110", "--pitch",
        "219"},
       {"collars", "--left", "tight", "--right", "loose"},
       {"pressures", "--cold", "0.75bar,0.35bar,0.70bar,0.70bar", "--hot",
        "0.95bar,0.35bar,0.9bar,0.9bar"},
       {"run-out", "--reading", "3mm"},
       {"sprockets", "--offset", "5mm"},
       {"toe", "--front", "1012mm", "--rear", "1010mm", "--kart", kart}});
  add(lines, "compare", {"compare", "--csv", harbour("rear-width-a-b-a.csv")},
      {{}, {"--worth", "0.05s"}});
  return lines;
}

std::vector<AskedLine> learn_lines() {
  std::vector<AskedLine> lines;
  add(lines, "explain-list", {"explain"}, {{}});
  for (const char* id : {"hop", "chain-noise", "rear-width", "axle", "bent-axle", "green", "tyres",
                         "raised-mass", "check-chain", "release", "wheelbase", "front-share",
                         "wider-sheds-side-bite", "D005", "K003", "C001", "O001"})
    add(lines, "explain", {"explain", id}, {{}});
  add(lines, "rules-check", {"rules", "check"}, {{}});
  add(lines, "rules-list", {"rules", "list"}, {{}});
  add(lines, "rules-show", {"rules", "show"},
      {{"wider-sheds-side-bite"}, {"wet-narrow-digs-in"}, {"chain-right-on-a-clutch"}});
  add(lines, "rules-diff", {"rules", "diff", "built-in", "built-in"}, {{}});
  return lines;
}

std::vector<AskedLine> drill_lines() {
  const std::string answers =
      "rear\nrear wider 500\nrear wider 10\nfront\nleave it\nrear\ncheck bent axle\nfront\ntoe out "
      "1\nrear\nleave it\n";
  std::vector<AskedLine> lines;
  add(lines, "drill", {"drill", "--trainee", "ann"},
      {{"--case", "first-hop"},
       {"--level", "broken", "--seed", "3"},
       {"--level", "comfort", "--count", "2"},
       {"--case", harbour("heat-2.yaml")}});
  for (AskedLine& each : lines) each.input = answers + answers;
  lines.push_back({"drill", {"drill", "--level", "one-way"}, "quit\n"});
  add(lines, "drill-progress", {"drill", "--progress", "--trainee", "ann"}, {{}});
  return lines;
}

std::vector<AskedLine> log_lines(const std::string& folder) {
  std::vector<AskedLine> lines;
  const std::string weekend = folder + "/weekend.db", day = folder + "/day.db";
  const std::string kart = folder + "/kart.yaml", sunday = harbour("harbour-27-sunday.yaml");
  add(lines, "log-import", {"log", "import", harbour("weekend.json"), "--log", weekend}, {{}});
  add(lines, "log-verify", {"log", "verify", "--log", weekend}, {{}});
  add(lines, "runs", {"log", "list", "--log", weekend}, {{}, {"--last", "all"}});
  for (const char* run : {"1", "9", "20", "33", "44"})
    add(lines, "run", {"log", "show", run, "--log", weekend}, {{}});
  add(lines, "log", {"log", "export", "--log", weekend}, {{}});
  add(lines, "learned", {"learned", "--log", weekend, "--kart", sunday}, {{}, {"--calibration"}});
  add(lines, "advice", {"advise", "--log", weekend, "--kart", sunday}, {{}});
  add(lines, "compare", {"compare", "--log", weekend}, {{"--runs", "42,43,44"}});
  add(lines, "plan", {"plan", "--log", weekend, "--kart", sunday}, {{}});
  add(lines, "run", {"log", "add", "--log", day, "--kart", kart},
      {{"--track",     "green",
        "--at",        "2026-11-14 10:30",
        "--session",   "heat 1",
        "--air",       "12C",
        "--road",      "20C",
        "--driver",    "ann",
        "--tyres",     "set 1",
        "--tyre-laps", "10",
        "--load",      "full",
        "--note",      "a note",
        "--laps",      "33.9 31.42 31.38 36.0 31.44",
        "--said",      "pushes going in turn 3, great otherwise",
        "--report",    "hop@mid=1,left,early",
        "--fact",      "hit=yes",
        "--complete"}});
  add(lines, "advice", {"advise", "--log", day, "--kart", kart}, {{}});
  add(lines, "apply", {"apply", "--log", day, "--kart", kart},
      {{"--change", "1", "--dry-run"},
       {"--change", "1", "--why", "it pushes", "--asked-by", "chief", "--at", "2026-11-14 10:40"}});
  add(lines, "run", {"log", "show", "2", "--log", day}, {{}});
  add(lines, "apply", {"apply", "--log", day, "--kart", kart, "--at", "2026-11-14 10:45"},
      {{"--undo"}});
  add(lines, "apply", {"apply", "--kart", kart}, {{"--set", "rear-width=1345mm"}});
  add(lines, "runs", {"log", "list", "--log", day}, {{}});
  return lines;
}

}  // namespace kartwright
