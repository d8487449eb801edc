#include "tests/cli/pit_box.h"

#include <fstream>
#include <sstream>

#include <nlohmann/json.hpp>

namespace kartwright {

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string with_exchanged(std::string text, const std::string& before, const std::string& after) {
  return text.replace(text.find(before), before.size(), after);
}

std::string pit_box_kart() {
  return with_exchanged(file_text(KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/harbour-27.yaml"),
                        "kart: harbour 27", "kart: blue 27");
}

PitBox::PitBox() : PitBox(pit_box_kart()) {}

PitBox::PitBox(const std::string& kart_text) { folder_.write("blue27.yaml", kart_text); }

Ended PitBox::with_log(Words words) const {
  words.insert(words.end(), {"--log", log()});
  return run_kartwright(words);
}

Ended PitBox::add(const Words& more, const Words& laps) const {
  Words words{"log", "add", "--kart", kart()};
  words.insert(words.end(), laps.begin(), laps.end());
  words.insert(words.end(), more.begin(), more.end());
  return with_log(words);
}

Ended PitBox::apply(const Words& more) const {
  Words words{"apply", "--kart", kart()};
  words.insert(words.end(), more.begin(), more.end());
  return with_log(words);
}

Ended PitBox::advise() const {
  return with_log({"advise", "--kart", kart(), "--track", "green", "--said", "pushes going in"});
}

std::string PitBox::exported(const std::string& format) const {
  return with_log({"log", "export", "--format", format}).out;
}

std::size_t PitBox::runs() const {
  const Ended listed = with_log({"log", "list", "--last", "all", "--format", "json"});
  const auto json = nlohmann::json::parse(listed.out, nullptr, false);
  return json.is_object() ? json.at("runs").size() : 0;
}

Ended import_into(const std::string& log, const std::string& file) {
  return run_kartwright({"log", "import", file, "--log", log});
}

}  // namespace kartwright
