#include "cli/run_json.h"

#include <fmt/format.h>

#include "cli/json_writer.h"
#include "engine/records/field_words.h"
#include "engine/records/run_fields.h"

namespace kartwright::cli {
namespace {

/// Writes fields by name; what is empty is left out.
struct WriteFields {
  JsonWriter& out;

  void operator()(const char* name, const std::string& text) const {
    if (!text.empty()) out.field(name, text);
  }
  void operator()(const char* name, double number) const { out.field(name, number); }
  void operator()(const char* name, int number) const { out.field(name, number); }
  void operator()(const char* name, bool truth) const { out.field(name, truth); }
  template <typename T>
  void operator()(const char* name, const std::optional<T>& item) const {
    if (item) (*this)(name, *item);
  }
  void operator()(const char* name, const std::vector<std::string>& texts) const {
    (*this)(name, in_one_text(texts));
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(const char* name, Enum value) const { out.field(name, name_of(value)); }
};

void write_name(JsonWriter& out, const Run& run) {
  out.field("kart", run.kart);
  out.field("at", run.at);
}

void write_whole(JsonWriter& out, const Run& run) {
  write_name(out, run);
  each_field_of_run(run, WriteFields{out});
  each_part_of_run(run, [&]<typename Part>(const char* name, const std::vector<Part>& parts) {
    if (parts.empty()) return;
    out.list(std::string(name) + "s", parts, [&](const Part& part) {
      out.object([&] { FieldsOf<Part>::each(part, WriteFields{out}); });
    });
  });
}

}  // namespace

std::string run_json(const Run& run) {
  JsonWriter out;
  out.object([&] {
    out.field("schema", "kartwright/run/1");
    out.field("id", run.id);
    write_whole(out, run);
  });
  return out.line();
}

std::string runs_json(const std::vector<Run>& runs) {
  JsonWriter out;
  out.object([&] {
    out.field("schema", "kartwright/runs/1");
    out.list("runs", runs, [&](const Run& run) {
      out.object([&] {
        out.field("id", run.id);
        write_name(out, run);
        out.field("session", run.session);
        out.field("track", run.track);
        out.field("driven", run.driven);
        out.field("laps", run.laps.size());
        out.field("counted", counted(run).size());
        out.field("best", best_of(run));
        out.list("changes", run.changes, [&](const RunChange& change) {
          out.object([&] { FieldsOf<RunChange>::each(change, WriteFields{out}); });
        });
        out.list("verdicts", run.verdicts, [&](const RunVerdict& verdict) {
          out.object([&] { FieldsOf<RunVerdict>::each(verdict, WriteFields{out}); });
        });
      });
    });
  });
  return out.line();
}

std::string export_head() { return "{\"schema\":\"kartwright/log/1\",\"runs\":[\n"; }

std::string export_run(const Run& run, bool last) {
  JsonWriter out;
  out.object([&] { write_whole(out, run); });
  std::string line = out.line();
  line.pop_back();
  return line + (last ? "\n" : ",\n");
}

std::string export_end(std::size_t runs) { return fmt::format("],\"count\":{}}}\n", runs); }

}  // namespace kartwright::cli
