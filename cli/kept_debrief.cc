#include "cli/kept_debrief.h"

#include <charconv>
#include <cstdint>
#include <filesystem>
#include <system_error>

#include <fmt/format.h>

#include "cli/schema_folder.h"
#include "cli/state_folder.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/debrief_text.h"

namespace kartwright::cli {
namespace {

namespace fs = std::filesystem;

/// One path for one file, however it was given.
std::string whole_path(const std::string& path) {
  if (path.empty()) return {};
  std::error_code error;
  const fs::path whole = fs::weakly_canonical(path, error);
  return error ? fs::absolute(path).string() : whole.string();
}

/// FNV-1a: names a file after a path of any length.
std::uint64_t number_of(const std::string& text) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return hash;
}

std::string name_for(const WhoseDebrief& whose) {
  const std::string& path = whose.kart.empty() ? whose.debrief : whose.kart;
  if (path.empty()) return "asking-typical.yaml";
  return fmt::format("asking-{:016x}.yaml", number_of(whole_path(path)));
}

/// The number that a title begins with.
std::size_t answers_in(const Document& document) {
  const Node* title = document.root.find("title");
  std::size_t answers = 0;
  if (title != nullptr)
    std::from_chars(title->text.data(), title->text.data() + title->text.size(), answers);
  return answers;
}

}  // namespace

DebriefKeeper::DebriefKeeper(const WhoseDebrief& whose)
    : whose_(whose), folder_(state_folder()), name_(name_for(whose)) {}

bool DebriefKeeper::has_one() const {
  std::error_code none;
  return folder_ && fs::is_regular_file(fs::path(*folder_) / name_, none);
}

KeptDebrief DebriefKeeper::read(const Pack& pack) const {
  const Document document = read_document((fs::path(*folder_) / name_).string());
  Findings findings;
  KeptDebrief kept{.debrief = read_debrief(document, pack, findings).debrief,
                   .answers = answers_in(document)};
  findings.throw_if_errors();
  return kept;
}

void DebriefKeeper::keep(const KeptDebrief& kept) const {
  const std::string title = fmt::format("{} answer{} to `advise --ask`, which was broken off",
                                        kept.answers, kept.answers == 1 ? "" : "s");
  write_state(
      *folder_, name_,
      schema_line("debrief") +
          debrief_text(kept.debrief, {.title = title, .kart_path = whole_path(whose_.kart)}));
}

std::string DebriefKeeper::path() const {
  return folder_ ? (fs::path(*folder_) / name_).string() : std::string();
}

bool DebriefKeeper::forget() const { return !folder_ || remove_state(*folder_, name_); }

std::string DebriefKeeper::options() const {
  if (!whose_.kart.empty()) return " --kart " + whose_.kart;
  return whose_.debrief.empty() ? "" : " --debrief " + whose_.debrief;
}

}  // namespace kartwright::cli
