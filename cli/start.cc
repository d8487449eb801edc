// start: a kart file to fill in, or a complete invented one.

#include <cstdio>

#include <fmt/format.h>
#include <unistd.h>

#include "cli/commands.h"
#include "cli/schema_folder.h"
#include "cli/tell.h"
#include "engine/kart/kart.h"

namespace kartwright::cli {

int run_start(const StartOptions& options) {
  const std::string text =
      schema_line("kart") + start_kart_file(load_rules(options.common), options.example);
  std::fwrite(text.data(), 1, text.size(), stdout);
  if (isatty(STDOUT_FILENO) == 1 && options.common.loudness >= 0) {
    std::fflush(stdout);
    tell("kartwright: to keep it as a file: kartwright start{} > kart.yaml\n",
         options.example ? " --example" : "");
  }
  return kSuccess;
}

}  // namespace kartwright::cli
