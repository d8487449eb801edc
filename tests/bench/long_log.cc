#include "tests/bench/long_log.h"

#include <map>

#include "engine/knowledge/built_in.h"
#include "engine/records/logbook.h"
#include "tests/support/season.h"
#include "tests/support/temp_folder.h"

namespace kartwright {

std::string logged_kart() { return KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/harbour-27.yaml"; }

std::string log_of(int runs) {
  static const TempFolder folder;
  static std::map<int, std::string> made;
  std::string& path = made[runs];
  if (!path.empty()) return path;
  path = folder.path() + "/" + std::to_string(runs) + ".db";
  const Pack pack = built_in_pack();
  Findings findings;
  const Kart kart = read_kart(read_document(logged_kart()), pack, findings);
  constexpr int kRunsADay = 8;
  Season season(pack, kart,
                {.days = runs / kRunsADay,
                 .runs_a_day = kRunsADay,
                 .first_day = "1996-01-06",
                 .most_said = 5});
  Logbook log(path, Logbook::For::keeping);
  Logbook::Writing all(log);
  for (Run& run : season.drive(tries_everything(pack, 7))) log.put(run);
  all.commit();
  return path;
}

}  // namespace kartwright
