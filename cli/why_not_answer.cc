#include "cli/why_not_answer.h"

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

std::string lacks_in_a_line(const Alternative& alternative, const Pack& pack, System units) {
  std::vector<std::string> words;
  for (const Lack& lack : alternative.lacks) words.push_back(in_words(lack, pack, units));
  return joined(words, "; and ");
}

std::string taken_in_a_line(const std::vector<TakenCell>& taken, const Pack& pack) {
  std::vector<std::string> words;
  for (const TakenCell& cell : taken)
    words.push_back(pack.axes[cell.axis].id + " by " + cell.by->id);
  return joined(words, ", ");
}

/// What the case came to: it speaks, speaks in part, or does not.
std::string state_of(const WhyRule& answer) {
  if (answer.miss.fires) return "speaks on this case";
  if (answer.miss.open.empty()) return "does not speak on this case";
  return "is heard in part, since nobody stated " + joined(answer.miss.open, ", ");
}

void show(const WhyRule& answer, const Pack& pack, System units, Page& page) {
  const Rule& rule = *answer.rule.rule;
  page.paragraph(
      fmt::format("{} {} ({}): {}", rule.id, state_of(answer), rule.source.text(), rule.because),
      2);
  if (!answer.miss.taken.empty())
    page.paragraph("its place is taken: " + taken_in_a_line(answer.miss.taken, pack), 2);
  const char* lead = "it would, but for this: ";
  for (const Alternative& alternative : answer.miss.alternatives) {
    page.paragraph(lead + lacks_in_a_line(alternative, pack, units), 2);
    lead = "or: ";
  }
  if (!answer.miss.fires && answer.miss.alternatives.empty())
    page.paragraph("nothing that can be entered for this kart would make it", 2);
}

void show(const WhyChange& answer, const Pack& /*pack*/, System /*units*/, Page& page) {
  for (const std::string& text : answer.text) page.paragraph(text, 2);
}

void write_place(JsonWriter& out, const JudgedPlace& place) {
  const Candidate& c = place.candidate;
  out.object([&] {
    out.field("to", place.to);
    out.field("steps", c.option.steps);
    out.field("allowed", place.why.empty());
    out.field("why", place.why);
    out.field("relief", c.relief);
    out.field("score", c.parts.score());
    write_parts(out, c.parts);
  });
}

void write_axis(JsonWriter& out, const AxisAccount& axis, const Pack& pack) {
  out.object([&] {
    out.field("axis", pack.axes[axis.axis].id);
    out.field("before", axis.before);
    out.field("after", axis.after);
    out.field("moved", axis.moved);
    out.field("doubt", axis.doubt);
  });
}

void write(JsonWriter& out, const WhyChange& answer, const Pack& pack, System /*units*/) {
  out.field("kind", "change");
  out.field("adjustment", answer.adjustment);
  out.field("direction", answer.direction);
  out.field("rank", answer.stands);
  out.field("reason", name_of(answer.refusal));
  out.list("places", answer.places, [&](const JudgedPlace& place) { write_place(out, place); });
  out.field("best", answer.best);
  out.field("loss_added", answer.loss_added);
  out.list("axes", answer.axes, [&](const AxisAccount& axis) { write_axis(out, axis, pack); });
  out.list("text", answer.text);
}

void write_lack(JsonWriter& out, const Lack& lack, const Pack& pack, System units) {
  out.object([&] {
    out.field("text", in_words(lack, pack, units));
    out.field("distance", lack.distance);
    if (lack.off_by) out.field("off_by", *lack.off_by);
  });
}

void write(JsonWriter& out, const WhyRule& answer, const Pack& pack, System units) {
  out.field("kind", "rule");
  out.field("rule", answer.rule.rule->id);
  out.field("source", answer.rule.rule->source.text());
  out.field("fires", answer.miss.fires);
  out.list("open", answer.miss.open);
  out.list("taken", answer.miss.taken, [&](const TakenCell& cell) {
    out.object([&] {
      out.field("axis", pack.axes[cell.axis].id);
      out.field("by", cell.by->id);
    });
  });
  out.list("alternatives", answer.miss.alternatives, [&](const Alternative& alternative) {
    out.object([&] {
      out.field("distance", alternative.distance());
      out.list("lacks", alternative.lacks,
               [&](const Lack& lack) { write_lack(out, lack, pack, units); });
    });
  });
}

}  // namespace

void why_not_text(const std::vector<WhyNotAnswer>& answers, const Pack& pack, System units,
                  Page& page) {
  for (const WhyNotAnswer& answer : answers) {
    page.section("WHY NOT");
    std::visit([&](const auto& one) { show(one, pack, units, page); }, answer);
  }
}

void write_why_not(JsonWriter& out, const std::vector<WhyNotAnswer>& answers, const Pack& pack,
                   System units) {
  out.list("why_not", answers, [&](const WhyNotAnswer& answer) {
    out.object([&] { std::visit([&](const auto& one) { write(out, one, pack, units); }, answer); });
  });
}

void write_parts(JsonWriter& out, const Parts& parts) {
  out.object("parts", [&] {
    out.field("effect", parts.effect);
    out.field("room", parts.room);
    out.field("effort", parts.effort);
    out.field("last_notch", parts.last_notch);
  });
}

}  // namespace kartwright::cli
