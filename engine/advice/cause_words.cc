#include "engine/advice/cause_words.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace kartwright {
namespace {

/// Bytes that all labels of an axis's family begin with, cut behind a whole word.
std::size_t shared_start(const Axis& axis, const Pack& pack) {
  std::size_t shared = axis.label.size();
  bool alone = true;
  for (const Axis& other : pack.axes) {
    if (other.family != axis.family || other.id == axis.id) continue;
    alone = false;
    const auto [end, rest] =
        std::mismatch(axis.label.begin(), axis.label.end(), other.label.begin(), other.label.end());
    shared = std::min(shared, static_cast<std::size_t>(end - axis.label.begin()));
  }
  if (alone) return axis.label.size();
  const std::size_t blank = axis.label.substr(0, shared).rfind(' ');
  return blank == std::string::npos ? 0 : blank;
}

std::string of_notches(std::optional<double> notches) {
  if (notches.value_or(0.0) == 0.0) return strength(notches);
  return fmt::format("{} ({:+g})", strength(notches), *notches);
}

/// Axes of one family that change alike.
struct Alike {
  std::string family, how;
  std::vector<std::string> phases;
};

std::vector<Alike> alike(const EffectChange& change, const Pack& pack) {
  std::vector<Alike> out;
  for (const CellChange& cell : change.cells) {
    const Axis& axis = pack.axes[cell.axis];
    const std::string how = of_notches(cell.from) + " to " + of_notches(cell.to);
    const std::string family = family_label(axis, pack);
    auto found = std::find_if(out.begin(), out.end(), [&](const Alike& each) {
      return each.family == family && each.how == how;
    });
    if (found == out.end()) found = out.insert(out.end(), {family, how, {}});
    const std::string phase = phase_label(axis, pack);
    if (!phase.empty()) found->phases.push_back(phase);
  }
  return out;
}

/// "going in, in the middle and coming off"
std::string listed_text(const std::vector<std::string>& texts) {
  std::string out;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    out += (i == 0 ? "" : i + 1 == texts.size() ? " and " : ", ") + texts[i];
  }
  return out;
}

std::string groups_text(int groups) {
  return groups == 1 ? "1 published group says so"
                     : fmt::format("{} published groups say so", groups);
}

}  // namespace

std::string family_label(const Axis& axis, const Pack& pack) {
  const std::size_t shared = shared_start(axis, pack);
  return shared == 0 ? axis.family : axis.label.substr(0, shared);
}

std::string phase_label(const Axis& axis, const Pack& pack) {
  if (!axis.phase) return {};
  const std::size_t shared = shared_start(axis, pack);
  if (shared == axis.label.size()) return std::string(name_of(*axis.phase));
  return axis.label.substr(shared == 0 ? 0 : shared + 1);
}

std::string phase_label(Phase phase, const Pack& pack) {
  for (const Axis& axis : pack.axes) {
    if (axis.phase == phase) return phase_label(axis, pack);
  }
  return std::string(name_of(phase));
}

std::string strength(std::optional<double> notches) {
  constexpr double kABit = 0.2, kMuch = 0.45;
  if (!notches) return "same";
  if (*notches == 0.0) return "either way";
  const double size = std::abs(*notches);
  const std::string way = *notches > 0.0 ? "more" : "less";
  return size < kABit ? "a bit " + way : size < kMuch ? way : "much " + way;
}

std::string each_step(const Adjustment& adjustment) {
  if (adjustment.listed()) return "each position";
  const double step = std::abs(adjustment.reference_step);
  return "each " + print_quantity(step, adjustment.kind, System::metric);
}

std::string changes_text(const EffectChange& change, const Pack& pack) {
  std::string out;
  for (const Alike& each : alike(change, pack)) {
    out += fmt::format("{}{}{}{} from {}", out.empty() ? "" : "; ", each.family,
                       each.phases.empty() ? "" : " ", listed_text(each.phases), each.how);
  }
  return out.empty() ? "everything as usual" : out;
}

std::string agreement_text(const Rule& rule) {
  const Provenance& from = rule.provenance;
  std::string out = from.practice ? "common practice" : "not common practice";
  if (from.groups_for + from.groups_against == 0) {
    out += ", with no published group for or against";
  } else {
    out +=
        "; " + (from.groups_for == 0 ? "no published group says so" : groups_text(from.groups_for));
    if (from.groups_against > 0) out += fmt::format(", {} the other way", from.groups_against);
  }
  return from.note.empty() ? out : out + ": " + from.note;
}

std::string standing_text(const Rule& rule, bool contested) {
  std::string out = contested ? "contested: " : "";
  switch (rule.status) {
    case Status::stable:
      return out + (contested ? "taken as it stands, but watch for the other way" : "settled");
    case Status::test:
      return out + "treat it as a test worth logging";
    case Status::experimental:
      return out + "thin, so treat it as a trial and log it";
  }
  return out;
}

}  // namespace kartwright
