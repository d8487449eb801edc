// Build-time tool: writes the manual and the completions of shells.
//
//   papers FOLDER      into FOLDER/man/man1, FOLDER/bash, FOLDER/fish and FOLDER/zsh

#include "cli/papers/papers.h"

#include <filesystem>
#include <fstream>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/command_line.h"
#include "cli/version.h"
#include "engine/knowledge/built_in.h"

namespace {

namespace fs = std::filesystem;

bool write(const fs::path& path, const std::string& text) {
  fs::create_directories(path.parent_path());
  std::ofstream out(path, std::ios::binary);
  out << text;
  out.close();
  if (!out) fmt::print(stderr, "papers: {} cannot be written\n", path.string());
  return static_cast<bool>(out);
}

bool write_all(const fs::path& folder) {
  using namespace kartwright;
  cli::CommandLine line;
  const cli::ProgramPage program = cli::command_pages(*cli::build_app(line), built_in_pack());
  const cli::Edition edition{.version = cli::kVersion, .data = KARTWRIGHT_DATA, .day = cli::kDay};
  const fs::path manual = folder / "man" / "man1";
  bool good = write(manual / "kartwright.1", cli::program_manual(program, edition));
  for (const cli::CommandPage& command : program.commands) {
    const std::string name = "kartwright-" + command.name + ".1";
    good = write(manual / name, cli::command_manual(command, edition)) && good;
  }
  good = write(folder / "bash" / "kartwright", cli::bash_completion(program)) && good;
  good = write(folder / "fish" / "kartwright.fish", cli::fish_completion(program)) && good;
  return write(folder / "zsh" / "_kartwright", cli::zsh_completion(program)) && good;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    fmt::print(stderr, "usage: papers FOLDER\n");
    return 2;
  }
  return write_all(argv[1]) ? 0 : 73;
}
