#include "engine/records/field_words.h"

#include "engine/records/log_columns.h"
#include "engine/records/log_errors.h"

namespace kartwright {

namespace {

template <typename Enum>
bool taken(const std::optional<Enum>& named, Enum& out) {
  if (named) out = *named;
  return named.has_value();
}

}  // namespace

std::string in_one_text(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : "\n") + text;
  return out;
}

std::vector<std::string> out_of_one_text(std::string_view text) {
  std::vector<std::string> out;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    out.emplace_back(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  }
  return out;
}

bool from_word(std::string_view word, LapFlag& out) { return taken(lap_flag_named(word), out); }
bool from_word(std::string_view word, Origin& out) { return taken(origin_named(word), out); }
bool from_word(std::string_view word, ClockVerdict& out) {
  return taken(clock_verdict_named(word), out);
}
bool from_word(std::string_view word, Phase& out) { return taken(phase_named(word), out); }
bool from_word(std::string_view word, Confidence& out) {
  return taken(confidence_named(word), out);
}
bool from_word(std::string_view word, Side& out) { return taken(side_named(word), out); }
bool from_word(std::string_view word, When& out) { return taken(when_named(word), out); }

void ReadColumns::no_such_word(const std::string& path, const char* name, const std::string& text) {
  refuse_log(path, Code::damaged_log,
             std::string("a `") + name + "` of the log reads `" + text + "`",
             "keep the file as it is; `kartwright log verify` finds the run");
}

}  // namespace kartwright
