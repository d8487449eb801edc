#include "engine/chassis/weighing_input.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace kartwright {

namespace {

/// Reads options of one command; counts the systems they are written in.
class Typed {
 public:
  Typed(const Pack& pack, Findings& findings) : pack_(pack), findings_(findings) {}

  void refuse(Code code, std::string_view option, const std::string& text, std::string message,
              std::string help) {
    const int length = std::max(1, static_cast<int>(text.size()));
    findings_.add({.code = code,
                   .file = std::string(option),
                   .span = text.empty() ? Span{} : Span{1, 1, length},
                   .message = std::move(message),
                   .help = std::move(help),
                   .source = text});
  }

  /// A quantity within the limits of a dimension; `whole` is the text it stands in.
  std::optional<double> quantity(std::string_view option, const std::string& text,
                                 const std::string& whole, std::string_view dimension) {
    const MeasureDef* const limits = pack_.dimension(dimension);
    const Kind kind = limits == nullptr ? Kind::mass : limits->kind;
    const ParsedQuantity parsed = parse_quantity(text, kind);
    if (const auto* const error = std::get_if<QuantityError>(&parsed)) {
      refuse(Code::bad_quantity, option, whole, "`" + text + "`: " + error->what,
             "expected " + error->expected);
      return {};
    }
    const auto& read = std::get<Quantity>(parsed);
    count(read);
    if (limits == nullptr || (read.si >= limits->from && read.si <= limits->to)) return read.si;
    refuse_range(option, whole, text, *limits, read.written.value_or(System::metric));
    return {};
  }

  std::optional<double> quantity(std::string_view option, const std::string& text,
                                 std::string_view dimension) {
    return text.empty() ? std::nullopt : quantity(option, text, text, dimension);
  }

  /// The system that a length is written in.
  static System system_of(const std::string& text, System otherwise) {
    const ParsedQuantity parsed = parse_quantity(text, Kind::length);
    const auto* const read = std::get_if<Quantity>(&parsed);
    return read == nullptr ? otherwise : read->written.value_or(otherwise);
  }

  System written(System otherwise) const {
    if (metric_ == imperial_) return otherwise;
    return imperial_ > metric_ ? System::imperial : System::metric;
  }

 private:
  void count(const Quantity& read) {
    if (read.written) ++(*read.written == System::metric ? metric_ : imperial_);
  }

  void refuse_range(std::string_view option, const std::string& whole, const std::string& text,
                    const MeasureDef& limits, System system) {
    refuse(Code::implausible, option, whole,
           fmt::format("`{}` is not plausible: {}", text, limits.label),
           fmt::format("between {} and {}", print_quantity(limits.from, limits.kind, system),
                       print_quantity(limits.to, limits.kind, system)));
  }

  const Pack& pack_;
  Findings& findings_;
  int metric_ = 0, imperial_ = 0;
};

constexpr std::string_view kReadings = "`--lf 78.5lb --rf 80lb --lr 108lb --rr 112lb`";

struct OneWheel {
  std::string_view option, wheel;
  std::string WeighingWords::*text;
  double CornerLoads::*load;
};

constexpr std::array kWheels{
    OneWheel{"--lf", "left front", &WeighingWords::left_front, &CornerLoads::left_front},
    OneWheel{"--rf", "right front", &WeighingWords::right_front, &CornerLoads::right_front},
    OneWheel{"--lr", "left rear", &WeighingWords::left_rear, &CornerLoads::left_rear},
    OneWheel{"--rr", "right rear", &WeighingWords::right_rear, &CornerLoads::right_rear},
};

bool none_typed(const WeighingWords& words) {
  return std::all_of(kWheels.begin(), kWheels.end(),
                     [&](const OneWheel& wheel) { return (words.*wheel.text).empty(); });
}

std::optional<CornerLoads> typed_readings(Typed& typed, const WeighingWords& words) {
  CornerLoads on;
  bool complete = true;
  for (const OneWheel& wheel : kWheels) {
    const std::string& text = words.*wheel.text;
    if (text.empty()) {
      typed.refuse(Code::bad_option, wheel.option, text,
                   fmt::format("the reading of the {} is missing", wheel.wheel),
                   fmt::format("all four, as {}", kReadings));
    }
    const auto read = typed.quantity(wheel.option, text, "corner-weight");
    complete = complete && read.has_value();
    on.*wheel.load = read.value_or(0.0);
  }
  return complete ? std::optional(on) : std::nullopt;
}

/// Four readings in one option.
std::optional<CornerLoads> typed_again(Typed& typed, std::string_view option,
                                       const std::string& text) {
  if (text.empty()) return {};
  const std::vector<std::string> parts = parts_of_list(text);
  if (parts.size() != kWheels.size()) {
    typed.refuse(Code::bad_option, option, text,
                 fmt::format("`{}` has {} of four readings", option, parts.size()),
                 fmt::format("left front, right front, left rear, right rear: {} "
                             "79lb,80lb,107lb,112.5lb",
                             option));
    return {};
  }
  CornerLoads on;
  bool complete = true;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto read = typed.quantity(option, parts[i], text, "corner-weight");
    complete = complete && read.has_value();
    on.*kWheels.at(i).load = read.value_or(0.0);
  }
  return complete ? std::optional(on) : std::nullopt;
}

double dimension_or_assumed(const Kart& kart, const Pack& pack, std::string_view id) {
  const auto given = kart.dimensions.find(std::string(id));
  if (given != kart.dimensions.end()) return given->second;
  const MeasureDef* const known = pack.dimension(id);
  return known == nullptr ? 0.0 : known->assumed.value_or(0.0);
}

/// Kart and driver weigh more than the bare kart, and no more than any do.
void check_total(Typed& typed, double total, std::string_view option, const Kart& kart,
                 const Pack& pack, System system) {
  const MeasureDef* const aboard = pack.dimension("mass-with-driver");
  if (aboard == nullptr) return;
  const double least = std::max(aboard->from, dimension_or_assumed(kart, pack, "bare-kart-mass"));
  if (total > least && total <= aboard->to) return;
  const auto mass = [&](double kg) { return print_quantity(kg, Kind::mass, system); };
  typed.refuse(Code::implausible, option, "",
               fmt::format("the four sum to {}, which kart and driver do not weigh", mass(total)),
               fmt::format("between {} and {}, the driver aboard", mass(least), mass(aboard->to)));
}

struct Resolution {
  double value = 0;
  ResolutionFrom from = ResolutionFrom::assumed;
};

Resolution resolution_of(Typed& typed, const std::string& text, const Kart& kart, const Pack& pack,
                         System system) {
  const auto read = typed.quantity("--resolution", text, "scale-resolution");
  if (read) return {*read, ResolutionFrom::crew};
  const auto own = kart.dimensions.find("scale-resolution");
  if (own != kart.dimensions.end()) return {own->second, ResolutionFrom::kart_file};
  const std::string_view usual =
      system == System::imperial ? "scale-resolution-in-pounds" : "scale-resolution";
  const MeasureDef* const assumed = pack.dimension(usual);
  return {assumed == nullptr ? 0.0 : assumed->assumed.value_or(0.0), ResolutionFrom::assumed};
}

/// What is typed, else the kart file's, else the pack's, which is noted.
double typed_or_known(Typed& typed, std::string_view option, const std::string& text,
                      std::string_view dimension, const Kart& kart, const Pack& pack, System units,
                      std::vector<std::string>& assumed) {
  if (const auto read = typed.quantity(option, text, dimension)) return *read;
  if (kart.dimensions.contains(std::string(dimension))) {
    return kart.dimensions.at(std::string(dimension));
  }
  const MeasureDef* const known = pack.dimension(dimension);
  if (known == nullptr) return 0.0;
  if (text.empty() && known->assumed) assumed.push_back(assumed_text(*known, units));
  return known->assumed.value_or(0.0);
}

double needed(Typed& typed, std::string_view option, const std::string& text,
              std::string_view dimension, std::string_view what) {
  if (text.empty()) {
    typed.refuse(Code::bad_option, option, text, fmt::format("{} is missing", what),
                 "`--lifted --raised front --lift 220mm --level 205lb --up 214lb`");
  }
  return typed.quantity(option, text, dimension).value_or(0.0);
}

bool front_is_raised(Typed& typed, const std::string& text) {
  if (text == "front" || text == "rear") return text == "front";
  typed.refuse(Code::bad_option, "--raised", text,
               text.empty() ? "which axle is raised is missing" : "`" + text + "` is no axle",
               "front or rear");
  return true;
}

/// Two scales read together, and not only one of them.
void check_axle(Typed& typed, const LiftedWeighing& lifted, const std::string& text,
                const Pack& pack) {
  const MeasureDef* const share = pack.measure("front-share");
  if (share == nullptr || lifted.test.mass <= 0.0) return;
  const double down = lifted.test.level / lifted.test.mass;
  const double front = lifted.front_raised ? 1.0 - down : down;
  if (front >= share->from && front <= share->to) return;
  const auto part = [](double value) { return print_quantity(value, Kind::ratio, System::metric); };
  typed.refuse(Code::implausible, "--level", text,
               fmt::format("that leaves {} of {} on the front", part(front),
                           print_quantity(lifted.test.mass, Kind::mass, lifted.written)),
               fmt::format("karts have {} to {}; both scales of the axle that stays down",
                           part(share->from), part(share->to)));
}

void check_height(Typed& typed, const LiftedWeighing& lifted, const std::string& text,
                  const Pack& pack) {
  const MeasureDef* const limits = pack.dimension("mass-height");
  if (limits == nullptr) return;
  const double height = mass_height(lifted.test).value;
  if (height >= limits->from && height <= limits->to) return;
  const auto length = [&](double m) { return print_quantity(m, Kind::length, lifted.written); };
  typed.refuse(
      Code::implausible, "--up", text,
      fmt::format("that puts the centre of mass at {}", length(height)),
      fmt::format("between {} and {}; the axle that stays down carries more when the other "
                  "is lifted",
                  length(limits->from), length(limits->to)));
}

}  // namespace

Weighing read_weighing(const WeighingWords& words, const Kart& kart, const Pack& pack,
                       Findings& findings) {
  Typed typed(pack, findings);
  Weighing out;
  out.from_kart_file = none_typed(words) && kart.corner_weights.has_value();
  const std::optional<CornerLoads> on =
      out.from_kart_file ? kart.corner_weights : typed_readings(typed, words);
  out.swapped = typed_again(typed, "--swapped", words.swapped);
  out.turned = typed_again(typed, "--turned", words.turned);
  out.written = typed.written(kart.units);
  out.on = on.value_or(CornerLoads{});
  const Resolution resolution = resolution_of(typed, words.resolution, kart, pack, out.written);
  out.resolution = resolution.value;
  out.resolution_from = resolution.from;
  const std::array<std::pair<std::string_view, std::optional<CornerLoads>>, 3> weighed{
      {{"weigh", on}, {"--swapped", out.swapped}, {"--turned", out.turned}}};
  for (const auto& [option, loads] : weighed) {
    if (loads) check_total(typed, loads->total(), option, kart, pack, out.written);
  }
  return out;
}

LiftedWeighing read_lift(const LiftWords& words, const Kart& kart, const Pack& pack,
                         Findings& findings) {
  Typed typed(pack, findings);
  LiftedWeighing out;
  LiftedAxle& test = out.test;
  out.front_raised = front_is_raised(typed, words.raised);
  test.lift = needed(typed, "--lift", words.lift, "axle-lift", "how far the axle is lifted");
  test.level = needed(typed, "--level", words.level, "axle-load", "the axle's weight when level");
  test.lifted = needed(typed, "--up", words.up, "axle-load", "its weight with the other lifted");
  out.written = Typed::system_of(words.lift, kart.units);
  const auto known = [&](std::string_view option, const std::string& text, std::string_view id) {
    return typed_or_known(typed, option, text, id, kart, pack, out.written, out.assumed);
  };
  test.wheelbase = known("--wheelbase", words.wheelbase, "wheelbase");
  const bool weighed = words.mass.empty() && kart.corner_weights;
  test.mass =
      weighed ? kart.corner_weights->total() : known("--mass", words.mass, "mass-with-driver");
  const double front = known("", "", "tyre-radius-front");
  const double rear = known("", "", "tyre-radius-rear");
  test.radius_down = out.front_raised ? rear : front;
  test.radius_up = out.front_raised ? front : rear;
  test.sigma_lift = known("", "", "axle-lift-error");
  const Resolution resolution = resolution_of(typed, words.resolution, kart, pack, out.written);
  test.sigma_scale = resolution.value;
  out.resolution_from = resolution.from;
  if (findings.has_errors()) return out;
  check_axle(typed, out, words.level, pack);
  if (!findings.has_errors()) check_height(typed, out, words.up, pack);
  return out;
}

}  // namespace kartwright
