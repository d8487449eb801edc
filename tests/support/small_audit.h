// small_audit.h - a pack in which an audit finds nothing, and room to put one fault in.
//
// One axis (grip), one adjustment (rear-width, 1300 to 1400 mm by 5, and a listed one, axle), one
// symptom (push, felt at entry and mid), one fault, the facts hit and turn-in, the tracks cold and
// wet, the measure front-share.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/audit/finding.h"
#include "engine/document/document.h"

namespace kartwright {

/// What a test adds: rules as `rule_text` writes them, and lists of a rule file.
struct SmallAudit {
  std::string effects = {};   ///< of rear-width
  std::string evidence = {};  ///< of the fault
  std::string readings = {};
  std::string derive = {};
  std::string facts = {};  ///< as lines of the list
  std::string lists = {};  ///< a file of its own

  std::vector<Document> documents() const;
  Pack pack() const;
};

/// A rule on one line. `when` as in a rule file without the braces, empty for none.
std::string rule_text(std::string_view id, std::string_view when, std::string_view says);

/// "A001 error one, two" a line each: codes, levels and rules.
std::string told(const AuditFindings& found);

}  // namespace kartwright
