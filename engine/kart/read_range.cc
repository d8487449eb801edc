#include "engine/kart/read_range.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace kartwright {

namespace {

Reach usual_reach(const Adjustment& adjustment) {
  return {usual_travel(adjustment), usual_range(adjustment)};
}

Reach distrusted(const Adjustment& adjustment) {
  Reach reach = usual_reach(adjustment);
  reach.trusted = false;
  return reach;
}

/// The pack's positions that the crew names, in the pack's order.
Reach read_names(KartReading& reading, const Adjustment& adjustment, const Node& node) {
  const std::size_t before = reading.findings.all().size();
  const std::vector<std::string> named = read_positions(reading, adjustment, node);
  if (node.type == Node::Type::list && node.items.empty()) {
    reading.error(node.span, Code::wrong_shape,
                  fmt::format("`{}` goes to no position at all", adjustment.id));
  }
  if (reading.findings.all().size() > before) return distrusted(adjustment);
  Reach reach;
  for (const std::string& position : adjustment.positions) {
    if (std::find(named.begin(), named.end(), position) == named.end()) continue;
    reach.travel.places.push_back(static_cast<double>(reach.travel.names.size()));
    reach.travel.names.push_back(position);
  }
  return reach;
}

/// One number of a range, or what is usual where the file leaves it out.
Quantity take(KartReading& reading, Fields& fields, std::string_view key, Kind kind, double usual) {
  const Node* const node = fields.optional(key);
  if (node == nullptr) return {usual};
  return reading.quantity(*node, kind).value_or(Quantity{usual});
}

/// The usual range, wider by half its width at each end, holds what karts have.
void check_end(KartReading& reading, const Adjustment& adjustment, const Node* node,
               const Quantity& end) {
  const double width = adjustment.to - adjustment.from;
  const double low = adjustment.from - width / 2.0;
  const double high = adjustment.to + width / 2.0;
  if (node == nullptr || width <= 0.0) return;
  if (end.si >= low && end.si <= high) return;
  if (same_value(end.si, low) || same_value(end.si, high)) return;
  const System system = end.written.value_or(System::metric);
  reading.error(
      node->span, Code::implausible,
      fmt::format("`{}` does not go to {}", adjustment.id, as_written(end, adjustment.kind)),
      fmt::format("karts lie between {} and {}", print_quantity(low, adjustment.kind, system),
                  print_quantity(high, adjustment.kind, system)));
}

/// What is wrong with the numbers of a range taken together; empty where nothing is.
std::string fault_of(const Range& range) {
  if (range.from >= range.to) return "starts at or beyond its end";
  if (range.step <= 0.0) return "has a step that is not above zero";
  const double width = range.to - range.from;
  if (range.step > width && !same_value(range.step, width)) return "is narrower than its step";
  if (std::floor(width / range.step + 1e-9) >= kMostPlaces) {
    return fmt::format("has more than {} places", kMostPlaces);
  }
  return {};
}

Reach read_numbers(KartReading& reading, const Adjustment& adjustment, const Node& node) {
  const std::size_t before = reading.findings.all().size();
  const Kind kind = adjustment.kind;
  Fields fields(reading.document, node, reading.findings,
                fmt::format("the range of `{}`", adjustment.id));
  const Quantity from = take(reading, fields, "from", kind, adjustment.from);
  const Quantity to = take(reading, fields, "to", kind, adjustment.to);
  const Quantity step = take(reading, fields, "step", kind, adjustment.step);
  fields.finish();
  if (reading.findings.all().size() > before) return distrusted(adjustment);
  check_end(reading, adjustment, given(&node, "from"), from);
  check_end(reading, adjustment, given(&node, "to"), to);
  const Range range{from.si, to.si, step.si};
  const std::string fault = fault_of(range);
  if (!fault.empty()) {
    reading.error(node.span, Code::implausible,
                  fmt::format("the range of `{}` {}", adjustment.id, fault),
                  fmt::format("it goes from {} to {} by {}", as_written(from, kind),
                              as_written(to, kind), as_written(step, kind)));
  }
  if (reading.findings.all().size() > before) return distrusted(adjustment);
  return {travel_over(range), range};
}

}  // namespace

Reach read_reach(KartReading& reading, const Adjustment& adjustment, const Node* node) {
  if (node == nullptr) return usual_reach(adjustment);
  return adjustment.listed() ? read_names(reading, adjustment, *node)
                             : read_numbers(reading, adjustment, *node);
}

}  // namespace kartwright
