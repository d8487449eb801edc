#include "engine/document/yaml_words.h"

#include <algorithm>
#include <array>

namespace kartwright {
namespace {

struct Wording {
  std::string_view begins;  ///< the parser's message, or its beginning
  Code code;
  std::string_view message, help;
};

// The beginnings are those of yaml-cpp 0.7 and 0.8, exceptions.h.
constexpr std::array kWordings{
    Wording{"illegal map value", Code::not_yaml, "a colon where no key can stand",
            "quote the value if the colon belongs to it; one key a line"},
    Wording{"illegal map key", Code::not_yaml, "a key where none can stand",
            "keys of one map stand under each other"},
    Wording{"illegal block entry", Code::not_yaml, "a `-` where no list can stand",
            "the items of a list stand under each other"},
    Wording{"illegal flow end", Code::not_yaml, "a bracket closes here that was never opened", ""},
    Wording{"end of map not found", Code::not_yaml, "a map ends in the middle of things",
            "keys of one map stand under each other, as far in as the first"},
    Wording{"end of sequence not found", Code::not_yaml, "a list ends in the middle of things",
            "items of one list stand under each other, as far in as the first"},
    Wording{"end of map flow not found", Code::not_yaml, "a `{` is not closed before this",
            "close it with `}`, and part its entries with commas"},
    Wording{"end of sequence flow not found", Code::not_yaml, "a `[` is not closed before this",
            "close it with `]`, and part its items with commas"},
    Wording{"illegal tab when looking for indentation", Code::not_yaml,
            "a tab at the beginning of a line", "indent with blanks"},
    Wording{"unknown escape character", Code::not_yaml,
            "a backslash in double quotes, with something behind it that it cannot stand for",
            "write two backslashes, or use single quotes"},
    Wording{"bad character found while scanning hex number", Code::not_yaml,
            "a backslash escape that is no number", "write two backslashes, or use single quotes"},
    Wording{"invalid unicode", Code::not_yaml, "a backslash escape that is no character", ""},
    Wording{"illegal EOF in scalar", Code::unclosed_quote,
            "the file ends inside a quote that was opened here or before", "close the quote"},
    Wording{"illegal document indicator in scalar", Code::unclosed_quote,
            "a line of dashes or points inside a quote", "close the quote before it"},
    Wording{"unknown token", Code::not_yaml, "a character that no value can begin with",
            "quote the value"},
    Wording{"unexpected character in block scalar", Code::not_yaml,
            "something behind the `|` or `>` that opens a block",
            "begin the text on the next line"},
    Wording{"cannot set zero indentation", Code::not_yaml, "a block indented by nothing", ""},
    Wording{"cannot assign multiple anchors", Code::anchor_or_alias, "an anchor",
            "leave the `&` name out"},
    Wording{"cannot assign multiple tags", Code::tag, "a tag", "leave the `!` word out"},
    Wording{"alias not found", Code::anchor_or_alias, "a `*` that opens no value",
            "quote the value if the star belongs to it"},
    Wording{"anchor not found", Code::anchor_or_alias, "a `&` that opens no value",
            "quote the value if the sign belongs to it"},
    Wording{"the referenced anchor is not defined", Code::anchor_or_alias, "an alias",
            "write the value out; quote it if the star belongs to it"},
    Wording{"illegal character found while scanning alias", Code::anchor_or_alias, "an alias",
            "quote the value if the star belongs to it"},
    Wording{"illegal character found while scanning anchor", Code::anchor_or_alias, "an anchor",
            "quote the value if the sign belongs to it"},
    Wording{"aliases can't have any content", Code::anchor_or_alias, "an alias",
            "write the value out"},
    Wording{"illegal character found while scanning tag", Code::tag, "a tag",
            "quote the value if the `!` belongs to it"},
    Wording{"tag handle with no suffix", Code::tag, "a tag",
            "quote the value if the `!` belongs to it"},
    Wording{"end of verbatim tag not found", Code::tag, "a tag",
            "quote the value if the `!` belongs to it"},
    Wording{"bad YAML version", Code::not_yaml, "a line that begins with `%`", "leave it out"},
    Wording{"YAML", Code::not_yaml, "a line that begins with `%`", "leave it out"},
    Wording{"TAG", Code::tag, "a line that begins with `%`", "leave it out"},
    Wording{"repeated", Code::not_yaml, "a line that begins with `%`", "leave it out"},
};

}  // namespace

YamlFault in_our_words(std::string_view parsers_message) {
  const auto* const found = std::find_if(
      kWordings.begin(), kWordings.end(),
      [&](const Wording& wording) { return parsers_message.starts_with(wording.begins); });
  if (found == kWordings.end()) {
    return {Code::not_yaml, "this cannot be read as YAML: " + std::string(parsers_message), {}};
  }
  return {found->code, std::string(found->message), std::string(found->help)};
}

}  // namespace kartwright
