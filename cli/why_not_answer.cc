#include "cli/why_not_answer.h"

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

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

Json place_json(const JudgedPlace& place) {
  const Candidate& c = place.candidate;
  return {{"to", place.to},
          {"steps", c.option.steps},
          {"allowed", place.why.empty()},
          {"why", place.why},
          {"relief", c.relief},
          {"score", c.parts.score()},
          {"parts",
           {{"effect", c.parts.effect},
            {"room", c.parts.room},
            {"effort", c.parts.effort},
            {"last_notch", c.parts.last_notch}}}};
}

Json told(const WhyChange& answer, const Pack& pack, System /*units*/) {
  Json places = Json::array();
  for (const JudgedPlace& place : answer.places) places.push_back(place_json(place));
  Json axes = Json::array();
  for (const AxisAccount& axis : answer.axes) {
    axes.push_back({{"axis", pack.axes[axis.axis].id},
                    {"before", axis.before},
                    {"after", axis.after},
                    {"moved", axis.moved},
                    {"doubt", axis.doubt}});
  }
  Json out{{"kind", "change"},
           {"adjustment", answer.adjustment},
           {"direction", answer.direction},
           {"rank", answer.stands ? Json(*answer.stands) : Json(nullptr)},
           {"reason", name_of(answer.refusal)},
           {"places", places},
           {"best", answer.best ? Json(*answer.best) : Json(nullptr)},
           {"loss_added", answer.loss_added},
           {"axes", axes},
           {"text", answer.text}};
  return out;
}

Json told(const WhyRule& answer, const Pack& pack, System units) {
  Json alternatives = Json::array();
  for (const Alternative& alternative : answer.miss.alternatives) {
    Json lacks = Json::array();
    for (const Lack& lack : alternative.lacks) {
      Json one{{"text", in_words(lack, pack, units)}, {"distance", lack.distance}};
      if (lack.off_by) one["off_by"] = *lack.off_by;
      lacks.push_back(one);
    }
    alternatives.push_back({{"distance", alternative.distance()}, {"lacks", lacks}});
  }
  Json taken = Json::array();
  for (const TakenCell& cell : answer.miss.taken)
    taken.push_back({{"axis", pack.axes[cell.axis].id}, {"by", cell.by->id}});
  return {{"kind", "rule"},
          {"rule", answer.rule.rule->id},
          {"source", answer.rule.rule->source.text()},
          {"fires", answer.miss.fires},
          {"open", answer.miss.open},
          {"taken", taken},
          {"alternatives", alternatives}};
}

}  // namespace

void why_not_text(const std::vector<WhyNotAnswer>& answers, const Pack& pack, System units,
                  Page& page) {
  for (const WhyNotAnswer& answer : answers) {
    page.section("WHY NOT");
    std::visit([&](const auto& one) { show(one, pack, units, page); }, answer);
  }
}

nlohmann::ordered_json why_not_json(const std::vector<WhyNotAnswer>& answers, const Pack& pack,
                                    System units) {
  Json out = Json::array();
  for (const WhyNotAnswer& answer : answers)
    out.push_back(std::visit([&](const auto& one) { return told(one, pack, units); }, answer));
  return out;
}

}  // namespace kartwright::cli
