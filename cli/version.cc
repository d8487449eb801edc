#include "cli/version.h"

namespace kartwright::cli {

std::string version_text() {
  std::string text = std::string("kartwright ") + kVersion;
  if (*kSources != '\0') text += std::string(" (") + kSources + ")";
  return text;
}

}  // namespace kartwright::cli
