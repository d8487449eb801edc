// explain_parts.h - the page of each kind of thing, and the lines that several kinds share.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/advice/explain.h"

namespace kartwright {

Explanation explain_symptom(const Symptom& symptom, const Pack& pack);
Explanation explain_adjustment(const Adjustment& adjustment, const Pack& pack);
Explanation explain_fault(const Fault& fault, const Pack& pack);
Explanation explain_track(const TrackState& track, const Pack& pack);
Explanation explain_fact(const FactDef& fact);
Explanation explain_quantity(const QuantityPage& page);
/// A measurement or a size, in the section of a kart file where it stands.
Explanation explain_size(const MeasureDef& size, std::string_view section);
Explanation explain_rule(const RuleRef& rule, const Pack& pack);
/// A diagnostic by its code in small letters: `k003`.
std::optional<Explanation> explain_message(std::string_view id);

/// "0.7 rear-grip.mid + 0.5 unloading"
std::string row_text(const std::vector<RowTerm>& row);
/// "[wider-sheds-side-bite] because ... (common practice; published: ...)"
std::string rule_line(const Rule& rule);
/// "rear-grip.mid -0.9 ± 0.2; unloading -0.2 ± 0.3"
std::string cells_text(const EffectRule& rule, const Pack& pack);
/// What cautions say, in their order.
std::vector<std::string> cautions_text(const std::vector<std::string>& ids, const Pack& pack);

}  // namespace kartwright
