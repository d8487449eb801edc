#include "engine/document/code_pages.h"

#include <algorithm>
#include <array>

namespace kartwright {

std::string_view where(Shown shown) {
  static constexpr std::array<std::string_view, 10> kWhere{"",
                                                           "in a kart file",
                                                           "in a debrief file",
                                                           "in a rule file",
                                                           "in a rule file that stands alone",
                                                           "on the command line",
                                                           "in a rule file",
                                                           "in a file of cases",
                                                           "in a rule file",
                                                           "in a lap file"};
  return kWhere.at(static_cast<std::size_t>(shown));
}

const CodePage* page_of(Code code) {
  for (const auto& pages : {document_pages(), rule_pages(), pit_pages(), audit_pages(),
                            case_pages(), property_pages(), lap_pages(), log_pages()}) {
    const auto found = std::find_if(pages.begin(), pages.end(),
                                    [&](const CodePage& page) { return page.code == code; });
    if (found != pages.end()) return &*found;
  }
  return nullptr;
}

}  // namespace kartwright
