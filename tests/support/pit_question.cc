#include "tests/support/pit_question.h"

#include <algorithm>
#include <array>
#include <optional>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "cli/advice_json.h"
#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

/// Published names of a move, and the pack's.
struct MoveNames {
  std::string_view adjustment, end, direction, ours, our_direction;
};

constexpr std::array kMoves{
    MoveNames{"axle_stiffness", "", "stiffer", "axle", "stiffer"},
    MoveNames{"axle_stiffness", "", "softer", "axle", "softer"},
    MoveNames{"ballast", "", "up", "ballast-height", "higher"},
    MoveNames{"bumper_looseness", "", "increase", "bodywork", "looser"},
    MoveNames{"camber", "", "negative", "camber", "more-negative"},
    MoveNames{"camber", "", "less", "camber", "less-negative"},
    // From half a degree of negative camber, none and positive camber are the same way to go.
    MoveNames{"camber", "", "neutral", "camber", "less-negative"},
    MoveNames{"camber", "", "positive", "camber", "less-negative"},
    MoveNames{"caster", "", "increase", "caster", "more"},
    MoveNames{"caster", "", "decrease", "caster", "less"},
    MoveNames{"front_bar", "", "add", "front-bar", "in"},
    MoveNames{"front_bar", "", "remove", "front-bar", "out"},
    MoveNames{"front_track", "", "wider", "front-width", "wider"},
    MoveNames{"front_track", "", "narrower", "front-width", "narrower"},
    MoveNames{"hub_length", "", "increase", "rear-hubs", "longer"},
    MoveNames{"hub_length", "", "decrease", "rear-hubs", "shorter"},
    MoveNames{"rear_track", "", "wider", "rear-width", "wider"},
    MoveNames{"rear_track", "", "narrower", "rear-width", "narrower"},
    MoveNames{"ride_height_front", "", "up", "front-ride-height", "up"},
    MoveNames{"ride_height_front", "", "down", "front-ride-height", "down"},
    MoveNames{"ride_height_rear", "", "up", "rear-ride-height", "up"},
    MoveNames{"ride_height_rear", "", "down", "rear-ride-height", "down"},
    MoveNames{"seat_fore_aft", "", "forward", "seat-fore-aft", "forward"},
    MoveNames{"seat_fore_aft", "", "back", "seat-fore-aft", "back"},
    MoveNames{"seat_height", "", "up", "seat-height", "higher"},
    MoveNames{"seat_height", "", "down", "seat-height", "lower"},
    MoveNames{"seat_recline", "", "more", "seat-back", "more-laid-back"},
    MoveNames{"seat_struts", "", "add", "seat-struts", "added"},
    MoveNames{"seat_struts", "", "remove", "seat-struts", "removed"},
    MoveNames{"seat_struts", "", "loosen", "seat-struts", "removed"},
    MoveNames{"toe", "", "toe_out", "toe", "out"},
    MoveNames{"toe", "", "less", "toe", "in"},
    MoveNames{"tyre_pressure", "", "increase", "pressures", "up"},
    MoveNames{"tyre_pressure", "", "decrease", "pressures", "down"},
    MoveNames{"tyre_pressure", "front", "increase", "front-pressures", "up"},
    MoveNames{"tyre_pressure", "front", "decrease", "front-pressures", "down"},
    MoveNames{"tyre_pressure", "rear", "increase", "rear-pressures", "up"},
    MoveNames{"tyre_pressure", "rear", "decrease", "rear-pressures", "down"},
};

/// What the tables call a complaint or an aim, at which phase, and what the driver would say.
struct AimWords {
  std::string_view aim, phase;  ///< phase `any`: at all that are not listed
  std::string_view symptom;
  std::string_view at = {};  ///< where it is felt, if not at the phase of the statement
};

constexpr std::array kAims{
    AimWords{"push", "any", "push"},
    AimWords{"loose", "any", "loose"},
    AimWords{"bind", "any", "bind"},
    AimWords{"bog", "any", "bog"},
    AimWords{"twitchy", "any", "twitchy"},
    AimWords{"too-much-grip", "exit", "bog"},
    AimWords{"too-much-grip", "any", "hop"},
    AimWords{"no-grip", "any", "slide"},
    AimWords{"goal-traction", "any", "loose", "exit"},
    AimWords{"goal-stability", "any", "twitchy"},
    // Those who ask for rotation ask for response; the tables mark that column.
    AimWords{"goal-rotation", "any", "lazy"},
};

struct FactWords {
  std::string_view when, fact;
};

/// Other conditions (carcass and frame, tyres new or grippy) are no fact of the program.
constexpr std::array kWhen{
    FactWords{"front tyres hot", "front-tyres=hotter"},
    FactWords{"front tyres cold", "front-tyres=colder"},
    FactWords{"all tyres hot", "tyres=hot"},
    FactWords{"all tyres cold", "tyres=cold"},
};

const MoveNames* names_of(const PublishedStatement& s) {
  // On an oval the caster is that of one wheel, and no kart here has that.
  if (s.kart == "oval" && s.adjustment == "caster") return nullptr;
  for (const MoveNames& names : kMoves) {
    if (names.adjustment == s.adjustment && names.end == s.end && names.direction == s.direction)
      return &names;
  }
  return nullptr;
}

const AimWords* words_of(const PublishedStatement& s) {
  const AimWords* found = nullptr;
  for (const AimWords& words : kAims) {
    if (words.aim != s.symptom) continue;
    if (words.phase == s.phase || (words.phase == "any" && found == nullptr)) found = &words;
  }
  return found;
}

std::string report_of(const AimWords& words, const std::string& phase, int severity) {
  const std::string at(words.at.empty() ? std::string_view(phase) : words.at);
  const std::vector<Phase>& felt = rules().symptom(words.symptom)->phases;
  const bool has = std::any_of(felt.begin(), felt.end(), [&](Phase p) { return name_of(p) == at; });
  return std::string(words.symptom) + (has ? "@" + at : "") + "=" + std::to_string(severity);
}

std::string track_of(const PublishedStatement& s) {
  if (s.surface == "wet") return "wet";
  if (s.track == "any") return "unknown";
  return s.track == "rubbered" ? "rubbered-in" : s.track;
}

Unasked why_not(const PublishedStatement& s) {
  if (s.adjustment == "gearing") return Unasked::outside;
  if (s.direction == "medium") return Unasked::no_direction;
  if (names_of(s) == nullptr) return Unasked::no_adjustment;
  return words_of(s) == nullptr ? Unasked::no_symptom : Unasked::none;
}

/// Moves a setting off the end that lies in this direction, to the other one.
void make_room(Kart& kart, const std::string& adjustment, std::size_t direction) {
  Setting& setting = kart.settings.at(adjustment);
  if (legal_end(setting, direction) == setting.now) setting.now = legal_end(setting, 1 - direction);
}

Pit pit_for(const PitQuestion& question, std::size_t way) {
  Pit pit{.track = question.track,
          .reports = question.reports,
          .facts = question.facts,
          .minutes = 60,
          .kart = mid_travel_kart()};
  make_room(pit.kart, question.adjustment, way);
  return pit;
}

/// Whether the JSON of an answer labels a ranked change as contested.
bool labelled(const Advice& advice, const std::string& adjustment, const std::string& direction) {
  const auto json = nlohmann::json::parse(cli::advice_json(advice, rules(), true));
  for (const auto& change : json.at("changes")) {
    if (change.at("adjustment") == adjustment && change.at("direction") == direction)
      return change.at("contested").get<bool>();
  }
  throw std::logic_error(adjustment + " " + direction + " is not in the JSON");
}

void ask_one_way(const PitQuestion& question, std::size_t way, PitReply& reply) {
  const Adjustment& adjustment = *rules().adjustment(question.adjustment);
  const std::string& direction = adjustment.directions.at(way);
  const Pit pit = pit_for(question, way);
  const Advice advice = pit.answer();
  const auto at = static_cast<std::size_t>(&adjustment - rules().adjustments.data());
  reply.contested = advice.effects[at].contested;
  const std::string how = refusal_of(advice, adjustment.id, direction);
  if (how == "makes-worse") return;
  if (how != "offered" || !reply.offered.empty())
    throw std::logic_error(adjustment.id + " " + direction + ": " + how);
  reply.offered = direction;
  reply.label_printed = labelled(advice, adjustment.id, direction);
}

}  // namespace

std::string_view name_of(Unasked why) {
  static constexpr std::array<std::string_view, 5> kNames{
      "asked", "no such adjustment", "no such symptom", "not ranked, says the README",
      "names no direction"};
  return kNames.at(static_cast<std::size_t>(why));
}

std::string PitQuestion::context() const {
  std::string text = adjustment + ", track " + track;
  for (const std::string& report : reports) text += ", " + report;
  for (const std::string& fact : facts) text += ", " + fact;
  return text;
}

PitQuestion question_of(const PublishedStatement& s, int severity) {
  PitQuestion question{.unasked = why_not(s),
                       .track = track_of(s),
                       .adjustment = s.adjustment,
                       .direction = s.direction};
  if (const MoveNames* names = names_of(s)) {
    question.adjustment = names->ours;
    question.direction = names->our_direction;
  }
  for (const FactWords& words : kWhen) {
    if (words.when == s.when) question.facts.emplace_back(words.fact);
  }
  const AimWords* const words = words_of(s);
  question.reports.push_back(words == nullptr ? s.symptom + "@" + s.phase
                                              : report_of(*words, s.phase, severity));
  return question;
}

Kart mid_travel_kart() {
  Kart kart = typical_kart(rules());
  ReadKart lead =
      read_kart_text("settings: {ballast-fore-aft: 0 mm, ballast-height: 150 mm}\n", rules());
  kart.settings.merge(lead.kart.settings);
  return kart;
}

PitReply ask(const PitQuestion& question) {
  PitQuestion asked = question;
  if (question.unasked == Unasked::no_symptom) asked.reports.clear();
  PitReply reply;
  for (std::size_t way = 0; way < 2; ++way) ask_one_way(asked, way, reply);
  return reply;
}

}  // namespace kartwright
