#include "cli/formats.h"

#include <algorithm>
#include <array>
#include <utility>

namespace kartwright::cli {
namespace {

constexpr std::array<std::string_view, 8> kOnPaper{"advise",  "weigh",   "whatif", "explain",
                                                   "compare", "learned", "plan",   "log"};

constexpr std::array<std::pair<std::string_view, Format>, 4> kFormatWords{
    {{"text", Format::text}, {"json", Format::json}, {"csv", Format::csv}, {"html", Format::html}}};

}  // namespace

std::vector<std::string> formats_of(std::string_view command) {
  std::vector<std::string> formats{"text", "json"};
  if (std::ranges::find(kOnPaper, command) != kOnPaper.end()) formats.emplace_back("html");
  if (command == "log") formats.emplace_back("csv");
  return formats;
}

Format format_of_word(std::string_view word) {
  const auto found =
      std::ranges::find(kFormatWords, word, &decltype(kFormatWords)::value_type::first);
  return found == kFormatWords.end() ? Format::text : found->second;
}

}  // namespace kartwright::cli
