#include "cli/next_steps_text.h"

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

const char* words_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::gone:
      return "gone";
    case Outcome::halved:
      return "half gone";
    case Outcome::as_before:
      return "as before";
    case Outcome::worse:
      return "worse";
  }
  return "";
}

std::string step_text(const NextStep& step) {
  if (step.kind == NextStep::Kind::leave_alone) return "leave it there";
  std::string move =
      fmt::format("{} {} → {}", step.adjustment->phrases.at(step.direction), step.from, step.to);
  if (step.kind == NextStep::Kind::change) return move;
  return step.kind == NextStep::Kind::put_back
             ? "put it back, " + move
             : "put it back, " + move + ", and look for something broken: this should not be";
}

/// What is to be done alike after several answers, in one line.
struct Alike {
  std::vector<std::string> answers;
  double chance = 0.0;
  const NextStep* step = nullptr;
};

std::vector<Alike> alike(const std::vector<AfterChange>& after) {
  std::vector<Alike> out;
  for (const AfterChange& each : after) {
    const NextStep& step = each.then.front();
    const bool same = !out.empty() && step_text(*out.back().step) == step_text(step) &&
                      step.after.empty() && out.back().step->after.empty();
    if (!same) out.push_back({.answers = {}, .step = &step});
    out.back().answers.emplace_back(words_of(each.outcome));
    out.back().chance += each.chance;
  }
  return out;
}

void branches(const std::vector<AfterChange>& after, std::size_t indent, Page& page) {
  const std::vector<Alike> all = alike(after);
  for (const Alike& each : all) {
    const std::string when =
        all.size() == 1
            ? "whatever is said"
            : fmt::format("{}, {:.0f} %", joined(each.answers, " or "), 100.0 * each.chance);
    page.indented(when + ": " + step_text(*each.step), indent, 4);
    branches(each.step->after, indent + 2, page);
  }
}

std::string_view kind_of(const NextStep& step) {
  if (step.kind == NextStep::Kind::leave_alone) return "leave-alone";
  if (step.kind == NextStep::Kind::look_for_a_fault) return "look-for-a-fault";
  return step.kind == NextStep::Kind::put_back ? "put-back" : "change";
}

void write_step(JsonWriter& out, const NextStep& step) {
  out.object([&] {
    out.field("do", kind_of(step));
    if (step.adjustment != nullptr) {
      out.field("adjustment", step.adjustment->id);
      out.field("direction", step.adjustment->directions.at(step.direction));
      out.field("from", step.from);
      out.field("to", step.to);
      out.field("relief", step.relief);
      out.field("minutes", step.minutes);
    }
    out.list("if", step.after, [&](const AfterChange& after) {
      out.object([&] {
        out.field("complaint", name_of(after.outcome));
        out.field("chance", after.chance);
        out.key("then");
        write_step(out, after.then.front());
      });
    });
  });
}

}  // namespace

void next_steps_text(const std::optional<NextSteps>& steps, Page& page) {
  page.section("AFTER");
  if (!steps) {
    page.paragraph("no change leads here, so there is nothing to follow");
    return;
  }
  page.paragraph(fmt::format("{}, then listen for: {}", step_text(steps->first), steps->complaint));
  branches(steps->first.after, 0, page);
}

void write_next_steps(JsonWriter& out, const NextSteps& steps) {
  out.object("after", [&] {
    out.field("listen_for", steps.complaint);
    out.key("first");
    write_step(out, steps.first);
  });
}

}  // namespace kartwright::cli
