// A kart file: read, and where it is taken, written anew at other settings and other weights, read
// back, and advised on.

#include <algorithm>
#include <cmath>

#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"
#include "engine/kart/change_setting.h"
#include "engine/kart/save_corner_weights.h"
#include "tests/fuzz/oracle.h"

namespace kartwright::fuzz {
namespace {

constexpr const char* kKartFile = "kart.yaml";

const Debrief& push_and_hop() {
  static const Debrief kDebrief = [] {
    Debrief debrief;
    debrief.track = "rubbered-in";
    add_words(debrief, "pushes going in and hops in the middle", shipped_rules());
    return debrief;
  }();
  return kDebrief;
}

Kart read_again(const std::string& text, const char* why) {
  Findings findings;
  try {
    Kart kart = read_kart(parse_document(kKartFile, text), shipped_rules(), findings);
    findings.throw_if_errors();
    return kart;
  } catch (const InputError& error) {
    std::string told = why;
    for (const Diagnostic& each : error.found()) told += ": " + each.message;
    throw Broken(told);
  }
}

bool as_good_as(double a, double b) {
  return std::abs(a - b) <= 1e-9 * std::max({1.0, std::abs(a), std::abs(b)});
}

/// Each setting at its lowest and its highest place that the class allows.
void check_moves(const Document& file, const Kart& kart) {
  for (const auto& each : kart.settings) {
    const Setting& setting = each.second;
    std::vector<double> places = setting.travel.places;
    std::erase_if(places, [&](double place) { return !class_allows(setting, place); });
    if (places.empty()) continue;
    for (const double to : {places.front(), places.back()}) {
      const std::optional<std::string> text = with_setting(file, setting, to);
      if (!text) continue;
      const Kart moved = read_again(*text, "a change cannot be read back");
      const Setting* const there = moved.setting(each.first);
      hold(there != nullptr && as_good_as(there->now, to),
           "a change of " + each.first + " got lost");
    }
  }
}

void check_weights(const Document& file, const Kart& kart) {
  const CornerLoads on{.left_front = 33.5, .right_front = 34.25, .left_rear = 46, .right_rear = 47};
  const std::optional<std::string> text = with_corner_weights(file, on, kart.units);
  if (!text) return;
  const Kart weighed = read_again(*text, "weights cannot be read back");
  hold(weighed.corner_weights && as_good_as(weighed.corner_weights->left_front, on.left_front) &&
           as_good_as(weighed.corner_weights->right_rear, on.right_rear),
       "weights got lost");
}

}  // namespace

Fate fuzz_kart(std::string_view bytes) {
  const Pack& pack = shipped_rules();
  Findings findings;
  try {
    const Document file = parse_document(kKartFile, std::string(bytes));
    check_places(file);
    const Kart kart = read_kart(file, pack, findings);
    findings.throw_if_errors();
    check_found(findings.all(), file.text, kKartFile);
    check_kart(kart);
    check_moves(file, kart);
    check_weights(file, kart);
    check_advice(advise(pack, kart, push_and_hop(), kart.units, {.questions = false}));
    return Fate::taken;
  } catch (const InputError& error) {
    check_refusal(error.found(), bytes, kKartFile);
    return Fate::refused;
  }
}

}  // namespace kartwright::fuzz
