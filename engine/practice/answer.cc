#include "engine/practice/answer.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "engine/document/fields.h"
#include "engine/practice/answer_words.h"

namespace kartwright {
namespace {

using What = TraineeAnswer::What;

TraineeAnswer not_known(std::string text, std::string help) {
  return {.what = What::unknown, .text = std::move(text), .help = std::move(help)};
}

bool is_one_of(const std::string& word, std::initializer_list<std::string_view> known) {
  return std::find(known.begin(), known.end(), word) != known.end();
}

std::string in_a_line(const AnswerWords& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : " ") + word;
  return out;
}

/// Why nothing of a way can be done, in the engine's words.
TraineeAnswer refused_way(std::size_t way, const Marking& marking) {
  const Way& of = marking.advice().ways[way];
  for (const NotNow& each : marking.advice().not_now) {
    const bool it = each.adjustment == of.adjustment->id &&
                    each.direction == of.adjustment->directions.at(of.direction);
    if (it) return {.what = What::refused, .text = each.text};
  }
  return {.what = What::refused, .text = "it is at its end stop"};
}

TraineeAnswer answer_with(std::size_t way, std::size_t option, const Marking& marking) {
  const DrillChoice choice{.kind = DrillChoice::Kind::change, .way = way, .option = option};
  const std::string refusal = marking.refusal_of(choice);
  if (!refusal.empty()) return {.what = What::refused, .choice = choice, .text = refusal};
  return {.what = What::choice, .choice = choice};
}

std::string_view usual_unit(Kind kind, System units) {
  const bool metric = units == System::metric;
  switch (kind) {
    case Kind::length:
      return metric ? "mm" : "in";
    case Kind::angle:
      return "deg";
    case Kind::pressure:
      return metric ? "bar" : "psi";
    case Kind::mass:
      return metric ? "kg" : "lb";
    default:
      return "";
  }
}

/// An amount of an adjustment's kind, SI; a bare number is in its usual unit.
std::optional<double> amount_of(const std::string& text, const Adjustment& adjustment,
                                System units) {
  const std::string full =
      bare_number(text) ? text + " " + std::string(usual_unit(adjustment.kind, units)) : text;
  const ParsedQuantity parsed = parse_quantity(full, adjustment.kind);
  const auto* const found = std::get_if<Quantity>(&parsed);
  return found != nullptr ? std::optional(found->si) : std::nullopt;
}

/// What the rest of an answer says of the size.
struct Size {
  std::string text;     ///< without the words around it
  bool target = false;  ///< where it shall stand, not how far it shall go
};

Size size_in(AnswerWords words) {
  Size out;
  const auto is_target = [](const std::string& w) { return is_one_of(w, {"=", "to", "at"}); };
  out.target = std::any_of(words.begin(), words.end(), is_target);
  std::erase_if(words, [&](const std::string& w) {
    return is_target(w) || is_one_of(w, {"by", "the", "a", "an", "set", "it", "of", "go", "make"});
  });
  out.text = in_a_line(words);
  return out;
}

/// "2 steps", "one step": how many places; nothing where it says no such thing.
std::optional<std::size_t> places_in(const std::string& text, bool listed) {
  const AnswerWords words = answer_words(text);
  if (words.empty() || words.size() > 2) return std::nullopt;
  const bool steps = words.size() == 2 &&
                     is_one_of(words[1], {"step", "steps", "place", "places", "notch", "notches",
                                          "hole", "holes", "size", "sizes", "grade", "grades"});
  if (!steps && !(listed && words.size() == 1)) return std::nullopt;
  constexpr double kMost = 1000.0;
  const auto number = words[0] == "one" ? std::optional(1.0) : bare_number(words[0]);
  if (!number || *number < 1.0 || *number > kMost || *number != std::floor(*number))
    return std::nullopt;
  return static_cast<std::size_t>(*number);
}

bool is_asked_for(const Option& option, const Size& size, System units) {
  const Setting& setting = *option.setting;
  const Adjustment& adjustment = *setting.adjustment;
  if (adjustment.listed())
    return setting.travel.names.at(static_cast<std::size_t>(option.to)) == size.text;
  const auto amount = amount_of(size.text, adjustment, units);
  if (!amount) return false;
  const double found = size.target ? option.to : std::abs(option.to - option.from);
  constexpr double kRead = 0.05;  // of a step: sizes in inches are read out with two decimals
  return std::abs(found - *amount) <= kRead * setting.travel.step;
}

/// In inches hardly a size is on the grid: the place nearest to one that is less than half a step
/// from it.
std::optional<std::size_t> nearest_option(const Size& size, const Way& way, System units) {
  const Adjustment& adjustment = *way.adjustment;
  if (units != System::imperial || adjustment.kind != Kind::length || adjustment.listed())
    return std::nullopt;
  const auto amount = amount_of(size.text, adjustment, units);
  std::optional<std::size_t> nearest;
  double least = amount ? way.setting->travel.step / 2.0 : 0.0;
  for (std::size_t i = 0; amount && i < way.options.size(); ++i) {
    const Option& option = way.options[i];
    const double found = size.target ? option.to : std::abs(option.to - option.from);
    if (std::abs(found - *amount) >= least) continue;
    least = std::abs(found - *amount);
    nearest = i;
  }
  return nearest;
}

/// The option of a way that a size asks for.
std::optional<std::size_t> option_for(const Size& size, const Way& way, System units) {
  for (std::size_t i = 0; i < way.options.size(); ++i) {
    if (is_asked_for(way.options[i], size, units)) return i;
  }
  if (size.target) return std::nullopt;
  const auto places = places_in(size.text, way.adjustment->listed());
  if (places && *places <= way.options.size()) return *places - 1;
  return std::nullopt;
}

TraineeAnswer answer_of_size(const Size& size, std::size_t way, const Marking& marking) {
  const Way& of = marking.advice().ways[way];
  if (of.options.empty()) return refused_way(way, marking);
  if (const auto option = option_for(size, of, marking.task().kart.units))
    return answer_with(way, *option, marking);
  if (const auto near = nearest_option(size, of, marking.task().kart.units)) {
    TraineeAnswer taken = answer_with(way, *near, marking);
    if (taken.what == What::choice)
      taken.text = "`" + size.text + "` is taken as " + marking.words_of(taken.choice);
    return taken;
  }
  return not_known("`" + size.text + "` is no size of " + of.adjustment->label,
                   "one of " + sizes_of(way, marking));
}

/// A direction with no size: the one there is, or a question back.
TraineeAnswer answer_without_size(std::size_t way, const Marking& marking) {
  const Way& of = marking.advice().ways[way];
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < of.options.size(); ++i) {
    if (of.options[i].legal()) open.push_back(i);
  }
  if (of.options.empty()) return refused_way(way, marking);
  if (open.size() > 1)
    return {.what = What::how_far,
            .choice = {.kind = DrillChoice::Kind::change, .way = way},
            .text = sizes_of(way, marking)};
  return answer_with(way, open.empty() ? 0 : open.front(), marking);
}

/// Takes out what only names the adjustment again: what is left is the size.
void drop_names(const Adjustment& adjustment, AnswerWords& words) {
  AnswerWords names = answer_words(adjustment.label + " " + adjustment.id + " " +
                                   adjustment.directions[0] + " " + adjustment.directions[1]);
  for (const std::string& position : adjustment.positions) names = without(names, {position});
  std::erase_if(words, [&](const std::string& word) {
    return std::find(names.begin(), names.end(), word) != names.end();
  });
}

TraineeAnswer answer_for(const Adjustment& adjustment, std::optional<std::size_t> direction,
                         AnswerWords rest, const Marking& marking) {
  const auto index = static_cast<std::size_t>(&adjustment - marking.pack().adjustments.data());
  if (marking.advice().ways[2 * index].setting == nullptr)
    return {.what = What::refused, .text = adjustment.label + " is not fitted on this kart"};
  if (!direction) direction = take_direction(adjustment, rest);
  const std::string which = adjustment.directions[0] + " or " + adjustment.directions[1];
  if (direction && says_direction(adjustment, 1 - *direction, rest))
    return not_known(adjustment.label + " both ways at once", which);
  drop_names(adjustment, rest);
  const Size size = size_in(rest);
  if (direction && size.text.empty()) return answer_without_size(2 * index + *direction, marking);
  if (direction) return answer_of_size(size, 2 * index + *direction, marking);
  for (const std::size_t way : {2 * index, 2 * index + 1}) {
    const auto option =
        option_for({size.text, true}, marking.advice().ways[way], marking.task().kart.units);
    if (option && !size.text.empty() && (size.target || adjustment.listed()))
      return answer_with(way, *option, marking);
  }
  return not_known(adjustment.label + " which way", which);
}

/// The adjustment that a number of the list stands for.
const Adjustment* by_number(AnswerWords& words, const Marking& marking,
                            const std::vector<std::string>& offers) {
  const auto number = words.empty() ? std::nullopt : bare_number(words.front());
  if (!number || *number < 1.0 || *number > static_cast<double>(offers.size()) ||
      *number != std::floor(*number))
    return nullptr;
  words.erase(words.begin());
  return marking.pack().adjustment(offers[static_cast<std::size_t>(*number) - 1]);
}

std::vector<std::string> all_names(const Pack& pack) {
  std::vector<std::string> names{"leave", "check", "quit"};
  for (const Adjustment& each : pack.adjustments)
    names.insert(names.end(), {each.id, each.label, each.phrases[0], each.phrases[1]});
  for (const Fault& each : pack.faults) names.insert(names.end(), {each.id, each.label});
  return names;
}

/// The known name nearest to the words, or to the first of them.
std::string nearest_to(const AnswerWords& words, const Pack& pack) {
  const std::vector<std::string> names = all_names(pack);
  AnswerWords shorter = words;
  while (!shorter.empty()) {
    const std::string near = nearest_name(in_a_line(shorter), names);
    if (!near.empty()) return "did you mean `" + near + "`?";
    shorter.pop_back();
  }
  return "an adjustment and a direction, as `rear wider 10`; `leave it`; or `check` and a fault";
}

/// Labels one behind another; they may hold commas themselves.
std::string labels_of(const std::vector<NamedBy>& found, const auto& all) {
  std::string out;
  for (const NamedBy& each : found) out += (out.empty() ? "" : "; ") + all[each.index].label;
  return out;
}

TraineeAnswer check_of(std::size_t fault) {
  return {.what = What::choice, .choice = {.kind = DrillChoice::Kind::check, .fault = fault}};
}

TraineeAnswer answer_of_check(const AnswerWords& words, const Marking& marking) {
  const Pack& pack = marking.pack();
  const std::vector<NamedBy> found = faults_named(words, pack);
  if (found.size() == 1) return check_of(found.front().index);
  if (found.size() > 1)
    return not_known("`" + in_a_line(words) + "` may be several",
                     labels_of(found, pack.faults) + " - say which");
  std::string faults;
  for (const Fault& fault : pack.faults) faults += (faults.empty() ? "" : "; ") + fault.label;
  if (words.empty()) return not_known("check what", faults);
  return not_known("`" + in_a_line(words) + "` is no fault known here", faults);
}

bool says_leave(const AnswerWords& words) {
  return is_one_of(words.front(), {"leave", "nothing", "none", "alone"}) ||
         (words.size() == 1 && words.front() == "0");
}

}  // namespace

TraineeAnswer read_answer(std::string_view text, const Marking& marking,
                          const std::vector<std::string>& offers) {
  AnswerWords words = answer_words(text);
  if (words.empty()) return not_known("nothing was answered", "`leave it` leaves the kart alone");
  if (says_leave(words)) return {.what = What::choice};
  if (is_one_of(words.front(), {"check", "look"})) {
    words.erase(words.begin());
    return answer_of_check(words, marking);
  }
  if (const Adjustment* listed = by_number(words, marking, offers))
    return answer_for(*listed, std::nullopt, words, marking);
  if (const auto fault = fault_alone(words, marking.pack())) return check_of(*fault);
  const std::vector<NamedBy> found = adjustments_named(words, marking.pack());
  if (found.empty())
    return not_known("`" + in_a_line(words) + "` names no adjustment",
                     nearest_to(words, marking.pack()));
  const std::vector<Adjustment>& all = marking.pack().adjustments;
  if (found.size() > 1)
    return not_known("`" + in_a_line(words) + "` may be several",
                     "one of " + labels_of(found, all));
  const NamedBy& named = found.front();
  return answer_for(all[named.index], named.direction, without(words, named.used), marking);
}

TraineeAnswer read_size(std::string_view text, std::size_t way, const Marking& marking) {
  return answer_of_size(size_in(answer_words(text)), way, marking);
}

const Adjustment* adjustment_in(std::string_view text, const Marking& marking,
                                const std::vector<std::string>& offers) {
  AnswerWords words = answer_words(text);
  if (const Adjustment* listed = by_number(words, marking, offers)) return listed;
  const std::vector<NamedBy> found = adjustments_named(words, marking.pack());
  return found.size() == 1 ? &marking.pack().adjustments[found.front().index] : nullptr;
}

std::string sizes_of(std::size_t way, const Marking& marking) {
  const Way& of = marking.advice().ways[way];
  std::string out;
  for (const Option& option : of.options) {
    if (!option.at_once) break;
    const Setting& setting = *option.setting;
    const bool listed = of.adjustment->listed();
    const std::string size = listed
                                 ? print_setting(setting, option.to, marking.task().kart.units)
                                 : print_quantity(std::abs(option.to - option.from),
                                                  of.adjustment->kind, marking.task().kart.units);
    out += (out.empty() ? "" : ", ") + size;
  }
  return out;
}

std::vector<std::string> in_two_lines(const Adjustment& adjustment, const Marking& marking) {
  const std::string& all = adjustment.explain;
  constexpr std::size_t kEnough = 120;  // a second sentence where the first is short
  std::size_t end = all.find(". ");
  if (end != std::string::npos && end < kEnough) end = all.find(". ", end + 1);
  std::vector<std::string> out{adjustment.label + ": " +
                               (end == std::string::npos ? all : all.substr(0, end + 1))};
  const Setting* const setting = marking.task().kart.setting(adjustment.id);
  if (setting == nullptr) return out;
  const auto print = [&](double v) {
    return print_setting(*setting, v, marking.task().kart.units);
  };
  out.push_back(fmt::format("{} or {}; now {}, from {} to {}, {:g} min", adjustment.directions[0],
                            adjustment.directions[1], print(setting->now),
                            print(setting->travel.places.front()),
                            print(setting->travel.places.back()), setting->minutes));
  return out;
}

}  // namespace kartwright
