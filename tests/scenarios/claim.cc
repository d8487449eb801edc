#include "tests/scenarios/claim.h"

#include <algorithm>
#include <array>
#include <filesystem>

#include "engine/debrief/debrief_file.h"
#include "engine/document/fields.h"

namespace kartwright {
namespace {

constexpr std::array<std::string_view, 3> kWays{"more", "less", "same"};
const std::vector<std::string_view> kClaimKeys{
    "says",     "than",    "move",    "does",  "most",  "open",     "disputed",
    "outdoes",  "reads",   "mostly",  "ahead", "holds", "likelier", "unlikelier",
    "doubtful", "certain", "cleared", "stops", "asks",  "check",    "given",
    "in-order", "not-run", "judges",  "states"};

template <typename Items>
std::vector<std::string> names_in(const Items& items) {
  std::vector<std::string> names;
  for (const auto& item : items) names.push_back(item.id);
  return names;
}

/// Axes and their families.
std::vector<std::string> axis_names(const Pack& pack) {
  std::vector<std::string> names = names_in(pack.axes);
  for (const Axis& axis : pack.axes) {
    if (std::find(names.begin(), names.end(), axis.family) == names.end())
      names.push_back(axis.family);
  }
  return names;
}

ClaimedCase read_claimed_case(const Document& document, const Node& node, const DebriefFrame& frame,
                              const Pack& pack, Findings& findings) {
  DebriefFile file = read_debrief(document, node, frame, pack, findings);
  return {.debrief = std::move(file.debrief), .kart = std::move(file.kart)};
}

/// The keys of one claim, taken one by one.
class ClaimReader {
 public:
  ClaimReader(const Document& document, const Node& node, const Pack& pack, Findings& findings)
      : document_(document),
        pack_(pack),
        findings_(findings),
        fields_(document, node, unheard_, "a claim") {}

  Claim read() {
    const Node& node = fields_.node();
    const DebriefFrame frame{.what = "a claim", .beside = kClaimKeys, .in_words = false};
    Claim claim{.says = fields_.text("says"),
                .source = {document_.name, node.span.line},
                .on = read_claimed_case(document_, node, frame, pack_, findings_)};
    if (const Node* const than = fields_.optional("than")) {
      const DebriefFrame other{.what = "`than`", .in_words = false};
      claim.than = read_claimed_case(document_, *than, other, pack_, findings_);
    }
    read_move(claim);
    read_belief(claim);
    read_odds(claim);
    read_check(claim);
    if (says_nothing(claim)) wrong(node, "this claim names nothing that must come of it");
    for (const Diagnostic& each : unheard_.all()) findings_.add(each);
    return claim;
  }

 private:
  void wrong(const Node& node, std::string message) {
    findings_.add(document_.at(node.span, Code::wrong_shape, std::move(message)));
  }

  static bool says_nothing(const Claim& claim) {
    const bool of_moves = !claim.does.empty() || !claim.most.empty() || !claim.open.empty() ||
                          claim.disputed.has_value();
    const bool of_belief = !claim.reads.empty() || !claim.mostly.empty() || !claim.ahead.empty() ||
                           !claim.holds.empty();
    const bool of_odds = !claim.likelier.empty() || !claim.unlikelier.empty() ||
                         !claim.doubtful.empty() || !claim.certain.empty() ||
                         !claim.cleared.empty() || claim.stops.has_value() || !claim.asks.empty();
    return !(of_moves || of_belief || of_odds || of_check(claim));
  }

  static bool of_check(const Claim& claim) {
    return claim.in_order || claim.not_run || !claim.judges.empty() || !claim.states.empty();
  }

  void read_move(Claim& claim) {
    if (const Node* const node = fields_.optional("move")) claim.move = move(*node);
    claim.does = ways("does");
    claim.most = axis("most");
    if (const Node* const node = fields_.optional("outdoes")) {
      for (const Node& item : node->items) claim.outdoes.push_back(move(item));
    }
    claim.open = facts("open");
    claim.disputed = flag("disputed");
    const bool nothing = claim.does.empty() && claim.most.empty() && claim.open.empty();
    if (!claim.move && (!nothing || claim.disputed))
      wrong(fields_.node(), "what a move does needs a `move`");
    if (claim.most.empty() && !claim.outdoes.empty())
      wrong(fields_.node(), "`outdoes` needs the axis under `most`");
  }

  void read_belief(Claim& claim) {
    claim.reads = ways("reads");
    claim.mostly = axis("mostly");
    claim.ahead = ways("ahead");
    claim.holds = values("holds");
  }

  void read_odds(Claim& claim) {
    claim.likelier = faults("likelier");
    claim.unlikelier = faults("unlikelier");
    claim.doubtful = faults("doubtful");
    claim.certain = faults("certain");
    claim.cleared = faults("cleared");
    claim.stops = flag("stops");
    claim.asks = facts("asks");
  }

  void read_check(Claim& claim) {
    claim.given = values("given");
    claim.in_order = flag("in-order");
    claim.not_run = flag("not-run");
    claim.judges = fields_.texts_or_none("judges");
    claim.states = values("states");
    const Node* const node = fields_.optional("check");
    if (node != nullptr &&
        known_name(document_, *node, findings_, "a check", names_in(pack_.gauges)))
      claim.check = node->text;
    if (of_check(claim) && claim.check.empty())
      wrong(fields_.node(), "what a check finds needs a `check`");
  }

  /// `rear-width wider`.
  NamedMove move(const Node& node) {
    const std::size_t blank = std::min(node.text.find(' '), node.text.size());
    NamedMove out{node.text.substr(0, blank),
                  node.text.substr(std::min(blank + 1, node.text.size()))};
    const Adjustment* const adjustment = pack_.adjustment(out.adjustment);
    if (adjustment == nullptr) {
      wrong(node, "`" + out.adjustment + "` is not an adjustment");
    } else if (std::count(adjustment->directions.begin(), adjustment->directions.end(),
                          out.direction) == 0) {
      wrong(node, "`" + out.direction + "` is no direction of it");
    }
    return out;
  }

  std::string axis(std::string_view key) {
    const Node* const node = fields_.optional(key);
    if (node == nullptr) return {};
    known_name(document_, *node, findings_, "an axis", names_in(pack_.axes));
    return node->text;
  }

  AxisWays ways(std::string_view key) {
    AxisWays out;
    const Node* const node = fields_.optional(key);
    if (node == nullptr) return out;
    const std::vector<std::string> known = axis_names(pack_);
    for (const Entry& entry : node->entries) {
      const auto way = std::find(kWays.begin(), kWays.end(), entry.value.text);
      if (way == kWays.end()) wrong(entry.value, "more, less or same was expected");
      if (std::count(known.begin(), known.end(), entry.key) == 0)
        wrong(entry.value, "`" + entry.key + "` is not an axis");
      if (way != kWays.end())
        out.emplace_back(entry.key, static_cast<ClaimedSense>(way - kWays.begin()));
    }
    return out;
  }

  FactValues values(std::string_view key) {
    FactValues out;
    const Node* const node = fields_.optional(key);
    if (node == nullptr) return out;
    if (node->type != Node::Type::map) wrong(*node, "a map was expected");
    for (const Entry& entry : node->entries) out.emplace_back(entry.key, entry.value.text);
    return out;
  }

  std::vector<std::string> faults(std::string_view key) {
    const std::vector<std::string> named = fields_.texts_or_none(key);
    for (const std::string& fault : named) {
      if (pack_.fault(fault) == nullptr) wrong(fields_.node(), "`" + fault + "` is not a fault");
    }
    return named;
  }

  std::vector<std::string> facts(std::string_view key) {
    const std::vector<std::string> named = fields_.texts_or_none(key);
    for (const std::string& fact : named) {
      if (pack_.fact(fact) == nullptr) wrong(fields_.node(), "`" + fact + "` is not a fact");
    }
    return named;
  }

  std::optional<bool> flag(std::string_view key) {
    const Node* const node = fields_.optional(key);
    if (node == nullptr || !known_name(document_, *node, findings_, "an answer", {"yes", "no"}))
      return std::nullopt;
    return node->text == "yes";
  }

  const Document& document_;
  const Pack& pack_;
  Findings& findings_;
  Findings unheard_ = {};  ///< read_debrief judges the keys of a case, so none is missed here
  Fields fields_;
};

}  // namespace

std::string_view name_of(ClaimedSense sense) { return kWays.at(static_cast<std::size_t>(sense)); }

std::vector<Claim> read_claims(const Document& document, const Pack& pack, Findings& findings) {
  std::vector<Claim> claims;
  Fields fields(document, document.root, findings, "a file of claims");
  const Node* const list = fields.required("claims");
  fields.finish();
  if (list == nullptr) return claims;
  for (const Node& item : list->items)
    claims.push_back(ClaimReader(document, item, pack, findings).read());
  return claims;
}

std::vector<Document> claim_documents() {
  namespace fs = std::filesystem;
  std::vector<std::string> paths;
  for (const auto& entry : fs::directory_iterator(KARTWRIGHT_SOURCE_DIR "/tests/scenarios/claims"))
    paths.push_back(entry.path().string());
  std::sort(paths.begin(), paths.end());
  std::vector<Document> out;
  for (const std::string& path : paths) out.push_back(read_document(path));
  return out;
}

}  // namespace kartwright
