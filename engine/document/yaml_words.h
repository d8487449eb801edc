// yaml_words.h - what the YAML parser found wrong, in the words of a crew.

#pragma once

#include <string>
#include <string_view>

#include "engine/document/codes.h"

namespace kartwright {

struct YamlFault {
  Code code = Code::not_yaml;
  std::string message;
  std::string help;
};

/// The parser's own message, as yaml-cpp words it, in ours. One that is not known keeps its words.
YamlFault in_our_words(std::string_view parsers_message);

}  // namespace kartwright
