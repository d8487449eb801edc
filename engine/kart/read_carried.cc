#include "engine/kart/read_carried.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/kart/read_measured.h"
#include "engine/kart/travel.h"

namespace kartwright {

namespace {

constexpr std::string_view kSeat = "seat";
constexpr double kLongestMove = 600.0;  // minutes
constexpr std::size_t kMostSidewaysPlaces = 50;

double place_along(KartReading& reading, Fields& fields, std::string_view key) {
  const Node* const node = fields.optional(key);
  if (node == nullptr) return 0.0;
  const MeasureDef* const limits = reading.pack.dimension("mount-place");
  const auto value = read_plausible(reading, *node, Kind::length, limits);
  return value ? value->si : 0.0;
}

CarriedMount read_mount(KartReading& reading, const Entry& entry) {
  Fields fields(reading.document, entry.value, reading.findings,
                fmt::format("the mount `{}`", entry.key));
  CarriedMount mount{.name = entry.key};
  fields.required("forward");
  mount.forward = place_along(reading, fields, "forward");
  mount.left = place_along(reading, fields, "left");
  mount.up = place_along(reading, fields, "up");
  fields.finish();
  return mount;
}

std::vector<CarriedMount> read_mounts(KartReading& reading, const Node& node,
                                      const std::string& name) {
  std::vector<CarriedMount> mounts;
  if (node.type != Node::Type::map) {
    reading.error(node.span, Code::wrong_shape,
                  fmt::format("the mounts of `{}` must be a map of names and places", name),
                  "as `{rear: {forward: -100 mm, left: 150 mm, up: 0 mm}}`");
    return mounts;
  }
  if (node.entries.size() > kMostMounts) {
    reading.error(node.span, Code::implausible,
                  fmt::format("`{}` has {} mounts", name, node.entries.size()),
                  fmt::format("at most {}", kMostMounts));
    return mounts;
  }
  for (const Entry& entry : node.entries) mounts.push_back(read_mount(reading, entry));
  return mounts;
}

/// The index of the mount that it is on; 0 where it is on none, which is reported.
std::size_t mount_named(KartReading& reading, const Node& at, const CarriedMass& carried) {
  std::vector<std::string> names;
  for (const CarriedMount& mount : carried.mounts) names.push_back(mount.name);
  scalar_text(reading.document, at, reading.findings, "at");
  if (at.type != Node::Type::scalar) return 0;
  if (!known_name(reading.document, at, reading.findings,
                  fmt::format("a mount of `{}`", carried.name), names)) {
    return 0;
  }
  const auto found = std::find(names.begin(), names.end(), at.text);
  return static_cast<std::size_t>(found - names.begin());
}

double usual_minutes(const Pack& pack) {
  const Adjustment* const ballast = pack.adjustment("ballast-fore-aft");
  return ballast == nullptr ? 0.0 : ballast->minutes;
}

double read_move_minutes(KartReading& reading, Fields& fields, const std::string& name) {
  const Node* const node = fields.optional("minutes");
  if (node == nullptr) return usual_minutes(reading.pack);
  const double minutes = scalar_number(reading.document, *node, reading.findings, "minutes");
  if (minutes >= 0.0 && minutes <= kLongestMove) return minutes;
  reading.error(node->span, Code::implausible,
                fmt::format("moving `{}` takes {} minutes", name, node->text),
                fmt::format("between 0 and {} minutes", kLongestMove));
  return minutes;
}

std::optional<CarriedMass> read_mass(KartReading& reading, const Entry& entry) {
  const std::size_t before = reading.findings.all().size();
  Fields fields(reading.document, entry.value, reading.findings,
                fmt::format("the carried `{}`", entry.key));
  CarriedMass carried{.name = entry.key};
  const Node* const mass = fields.required("mass");
  const Node* const at = fields.required("at");
  const Node* const mounts = fields.required("mounts");
  carried.minutes = read_move_minutes(reading, fields, entry.key);
  fields.finish();
  if (mounts != nullptr) carried.mounts = read_mounts(reading, *mounts, entry.key);
  if (mass != nullptr) {
    const MeasureDef* const limits = reading.pack.dimension("carried-mass");
    const auto value = read_plausible(reading, *mass, Kind::mass, limits);
    carried.mass = value ? value->si : 0.0;
  }
  if (at != nullptr && !carried.mounts.empty()) carried.at = mount_named(reading, *at, carried);
  return reading.findings.all().size() > before ? std::nullopt : std::optional(std::move(carried));
}

std::optional<double> sideways_end(KartReading& reading, Fields& fields, std::string_view key) {
  const Node* const node = fields.required(key);
  if (node == nullptr) return {};
  const MeasureDef* const limits = reading.pack.dimension("seat-sideways");
  const auto value = read_plausible(reading, *node, Kind::length, limits);
  return value ? std::optional(value->si) : std::nullopt;
}

/// What is wrong with the numbers taken together; empty where nothing is.
std::string fault_sideways(const Range& range, double at) {
  if (range.from > range.to) return "starts beyond its end";
  if (range.step <= 0.0) return "has a step that is not above zero";
  if ((range.to - range.from) / range.step >= static_cast<double>(kMostSidewaysPlaces)) {
    return fmt::format("has more than {} places", kMostSidewaysPlaces);
  }
  const bool low = at < range.from && !same_value(at, range.from, range.step);
  const bool high = at > range.to && !same_value(at, range.to, range.step);
  return low || high ? "does not hold where the seat is" : "";
}

/// A place on the grid counts as the grid has it; one between two steps is a place of its own.
SeatSideways sideways_over(const Range& range, double at) {
  SeatSideways seat{.at = at, .places = travel_over(range).places};
  const double nearest = nearest_place({.places = seat.places, .names = {}}, at);
  if (same_value(nearest, at, range.step)) {
    seat.at = nearest;
  } else {
    seat.places.insert(std::upper_bound(seat.places.begin(), seat.places.end(), at), at);
  }
  return seat;
}

std::optional<SeatSideways> read_sideways(KartReading& reading, const Node& node) {
  const std::size_t before = reading.findings.all().size();
  Fields fields(reading.document, node, reading.findings, "`sideways`");
  const auto at = sideways_end(reading, fields, "at");
  const auto from = sideways_end(reading, fields, "from");
  const auto to = sideways_end(reading, fields, "to");
  const auto step = sideways_end(reading, fields, "step");
  fields.finish();
  if (reading.findings.all().size() > before) return {};
  if (!at || !from || !to || !step) return {};
  const Range range{*from, *to, *step};
  const std::string fault = fault_sideways(range, *at);
  if (fault.empty()) return sideways_over(range, *at);
  reading.error(node.span, Code::implausible, fmt::format("the way of the seat sideways {}", fault),
                "as `{at: 0 mm, from: -20 mm, to: 20 mm, step: 10 mm}`");
  return {};
}

std::optional<SeatSideways> read_seat(KartReading& reading, const Entry& entry) {
  Fields fields(reading.document, entry.value, reading.findings, "the carried `seat`");
  const Node* const sideways = fields.required("sideways");
  fields.finish();
  return sideways == nullptr ? std::nullopt : read_sideways(reading, *sideways);
}

}  // namespace

CarriedParts read_carried(KartReading& reading, const Node* section) {
  CarriedParts out;
  if (section == nullptr) return out;
  if (section->type != Node::Type::map) {
    reading.error(section->span, Code::wrong_shape, "`carried` must be a map of keys and values");
    return out;
  }
  for (const Entry& entry : section->entries) {
    if (entry.key == kSeat) {
      out.seat_sideways = read_seat(reading, entry);
    } else if (auto mass = read_mass(reading, entry)) {
      out.masses.push_back(std::move(*mass));
    }
  }
  if (out.masses.size() > kMostCarried) {
    reading.error(section->span, Code::implausible,
                  fmt::format("`carried` lists {} masses", out.masses.size()),
                  fmt::format("at most {}", kMostCarried));
  }
  return out;
}

}  // namespace kartwright
