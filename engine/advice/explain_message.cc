// A message by its code, from the page of that code.

#include <algorithm>

#include "engine/advice/explain_parts.h"
#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

std::string lowered(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return text;
}

void add_page(const CodePage& page, Explanation& out) {
  const std::string stands(where(page.shown));
  out.sections.push_back({"what", {std::string(page.what)}});
  out.sections.push_back({"why", {std::string(page.why)}});
  out.sections.push_back({"avoid", {std::string(page.avoid)}, stands});
  out.sections.push_back({"prefer", {std::string(page.prefer)}, stands});
}

}  // namespace

std::optional<Explanation> explain_message(std::string_view id) {
  const auto* const found = std::find_if(kCodes.begin(), kCodes.end(), [&](const CodeText& each) {
    return lowered(std::string(each.name)) == id;
  });
  if (found == kCodes.end()) return std::nullopt;
  Explanation out{"message", std::string(found->name), std::string(found->meaning), {}};
  if (const CodePage* page = page_of(found->code)) add_page(*page, out);
  out.sections.push_back({"do", {std::string(found->mend)}});
  return out;
}

}  // namespace kartwright
