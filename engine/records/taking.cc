#include "engine/records/taking.h"

#include <fmt/format.h>

#include "engine/records/field_words.h"
#include "engine/records/run_fields.h"

namespace kartwright {

namespace {

/// Writes fields one after the other so that different ones never read alike.
struct TellFields {
  std::string& out;

  void operator()(const char*, const std::string& text) const {
    out += fmt::format("{}:{};", text.size(), text);
  }
  void operator()(const char*, double number) const { out += fmt::format("{};", number); }
  void operator()(const char*, int number) const { out += fmt::format("{};", number); }
  void operator()(const char*, bool truth) const { out += truth ? "yes;" : "no;"; }
  template <typename T>
  void operator()(const char* name, const std::optional<T>& item) const {
    out += item ? "has " : "none;";
    if (item) (*this)(name, *item);
  }
  void operator()(const char* name, const std::vector<std::string>& texts) const {
    (*this)(name, in_one_text(texts));
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(const char* name, Enum value) const {
    (*this)(name, std::string(name_of(value)));
  }
};

std::string all_of_it(const Run& run) {
  std::string out;
  const TellFields tell{out};
  tell("kart", run.kart);
  tell("at", run.at);
  each_field_of_run(run, tell);
  each_part_of_run(run, [&]<typename Part>(const char*, const std::vector<Part>& parts) {
    tell("", static_cast<int>(parts.size()));
    for (const Part& part : parts) FieldsOf<Part>::each(part, tell);
  });
  return out;
}

}  // namespace

bool same_run(const Run& a, const Run& b) { return all_of_it(a) == all_of_it(b); }

std::optional<TakenAs> take_run(Logbook& log, Run run, const Document& document,
                                Findings& findings) {
  const std::optional<Run> there = log.run_at(run.kart, run.at);
  if (there && (same_run(*there, run) || (!run.driven && there->driven))) return TakenAs::there;
  if (there && there->driven) {
    findings.add(document.at(document.root.span, Code::run_differs,
                             fmt::format("the log has another run of {} at {}", run.kart, run.at),
                             "nothing was taken; `kartwright log show` shows the log's"));
    return {};
  }
  run.id = there ? there->id : 0;
  log.put(run);
  return TakenAs::added;
}

}  // namespace kartwright
