// Loader and schema on the same files: what a schema refuses the loader refuses, whatever the file;
// and what the loader refuses for its form the schema refuses as well.

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/document/code_pages.h"
#include "tests/schemas/document_json.h"
#include "tests/schemas/mutations.h"
#include "tests/schemas/readers.h"
#include "tests/schemas/schema.h"
#include "tests/support/kart_pack.h"
#include "tests/support/scenario_files.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

namespace fs = std::filesystem;
using testing::IsEmpty;

const fs::path kProject = KARTWRIGHT_SOURCE_DIR;

std::string file_at(const fs::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

struct GoodFile {
  std::string name;
  std::string text;
};

std::vector<GoodFile> files_below(const fs::path& folder,
                                  const std::function<bool(const fs::path&)>& wanted) {
  std::vector<GoodFile> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().extension() == ".yaml" && wanted(entry.path()))
      files.push_back({entry.path().string(), file_at(entry.path())});
  }
  std::sort(files.begin(), files.end(),
            [](const GoodFile& a, const GoodFile& b) { return a.name < b.name; });
  return files;
}

bool is_of_cases(const fs::path& path) { return path.string().ends_with(".cases.yaml"); }

/// Every file of the project that is of a kind, and the karts that `start` writes.
std::vector<GoodFile> good_files(FileKind kind) {
  const auto scenarios = scenario_files();
  const std::set<std::string> debriefs(scenarios.begin(), scenarios.end());
  switch (kind) {
    case FileKind::kart: {
      auto files = files_below(kProject / "scenarios", [&](const fs::path& path) {
        return !debriefs.contains(path.string());
      });
      files.push_back({"start", start_kart_file(rules_of_schemas(), false)});
      files.push_back({"start --example", start_kart_file(rules_of_schemas(), true)});
      return files;
    }
    case FileKind::debrief:
    case FileKind::scenario:
      return files_below(kProject / "scenarios",
                         [&](const fs::path& path) { return debriefs.contains(path.string()); });
    case FileKind::cases:
      return files_below(kProject / "rules", is_of_cases);
    case FileKind::rule:
      break;
  }
  return files_below(kProject / "rules", [](const fs::path& path) { return !is_of_cases(path); });
}

std::string in_lines(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all += text + "\n";
  return all;
}

class Agreement : public testing::TestWithParam<FileKind> {
 protected:
  const Schema& schema_ = schema(name_of(GetParam()));
};

TEST_P(Agreement, EveryFileOfTheProjectIsGoodToBoth) {
  const std::vector<GoodFile> files = good_files(GetParam());
  ASSERT_GT(files.size(), 5U);
  for (const GoodFile& file : files) {
    EXPECT_EQ(told(loader_errors(GetParam(), file.text)), "") << file.name;
    EXPECT_EQ(in_lines(schema_.faults(json_of(parse_document(file.name, file.text)))), "")
        << file.name;
  }
}

/// How many slips are tried, of all files of a kind together; each takes the loader a moment, and
/// reading a rule file takes reading all rules.
std::size_t slips_tried(FileKind kind) {
  const bool quick = kind == FileKind::kart || kind == FileKind::cases;
  const int tried = kind == FileKind::rule ? 100 : quick ? 3000 : 300;
  return static_cast<std::size_t>(throws_of_the_dice(tried));
}

/// Faults of form that the loader tells by a code, but that lie in what other places say.
bool is_of_several_places(const Diagnostic& d) {
  static const std::vector<std::string> kPhrases{"which has no setting", "is not a mount of",
                                                 "is not a rule",
                                                 // its keys are the directions:
                                                 "`watch`", "`back-out`"};
  return std::any_of(kPhrases.begin(), kPhrases.end(), [&](const std::string& phrase) {
    return d.message.find(phrase) != std::string::npos;
  });
}

/// True where the form alone is at fault, so that a schema must see it.
bool is_of_form(FileKind kind, const Diagnostic& d) {
  static const std::set<Code> kForm{Code::wrong_shape, Code::missing_key, Code::unknown_key,
                                    Code::bad_number,  Code::bad_report,  Code::bad_fact};
  if (is_of_several_places(d)) return false;
  if (kForm.contains(d.code)) return true;
  // Names of a rule file may be of the crew's own rules, and units go with them.
  const bool named = d.code == Code::unknown_name || d.code == Code::bad_quantity;
  return named && kind != FileKind::rule;
}

TEST_P(Agreement, ASlipThatTheSchemaRefusesTheLoaderRefusesToo) {
  std::size_t tried = 0, refused = 0, by_loader_alone = 0;
  const std::vector<GoodFile> files = good_files(GetParam());
  for (std::size_t i = 0; i < files.size(); ++i) {
    const GoodFile& file = files[i];
    const nlohmann::json good = json_of(parse_document(file.name, file.text));
    const std::size_t stride =
        (1 + places_in(good).size() * kSlips * files.size() / slips_tried(GetParam())) | 1U;
    each_slip(good, {.first = i % stride, .stride = stride},
              [&](const std::string& place, Slip slip, const nlohmann::json& mutated) {
                const std::vector<Diagnostic> errors = loader_errors(GetParam(), mutated.dump());
                const bool accepted = schema_.accepts(mutated);
                ++tried;
                refused += accepted ? 0 : 1;
                by_loader_alone += accepted && !errors.empty() ? 1 : 0;
                EXPECT_TRUE(accepted || !errors.empty())
                    << file.name << " " << place << " " << name_of(slip) << "\n"
                    << in_lines(schema_.faults(mutated));
                for (const Diagnostic& error : errors)
                  EXPECT_FALSE(accepted && is_of_form(GetParam(), error))
                      << file.name << " " << place << " " << name_of(slip) << ": " << told({error});
              });
  }
  RecordProperty("tried", static_cast<int>(tried));
  RecordProperty("refused", static_cast<int>(refused));
  RecordProperty("by_loader_alone", static_cast<int>(by_loader_alone));
  EXPECT_GT(refused, tried / 10) << "of " << tried << " slips, " << by_loader_alone
                                 << " seen by the loader alone";
}

/// What the pages of messages show, each right and wrong.
TEST_P(Agreement, TheExamplesOfTheMessagesAreJudgedAlike) {
  std::size_t looked_at = 0;
  for (const CodeText& code : kCodes) {
    const CodePage* const page = page_of(code.code);
    const bool ours =
        page != nullptr && ((page->shown == Shown::kart && GetParam() == FileKind::kart) ||
                            (page->shown == Shown::debrief && GetParam() == FileKind::debrief) ||
                            (page->shown == Shown::rules && GetParam() == FileKind::rule) ||
                            (page->shown == Shown::cases && GetParam() == FileKind::cases));
    if (!ours) continue;
    ++looked_at;
    for (const std::string_view example : {page->avoid, page->prefer}) {
      const std::string text(example);
      if (loader_errors(GetParam(), text).empty()) {
        EXPECT_EQ(in_lines(schema_.faults(json_of(parse_document("page", text)))), "")
            << code.name << "\n"
            << text;
      }
    }
  }
  EXPECT_GE(looked_at, GetParam() == FileKind::kart ? 6U : 0U);
}

INSTANTIATE_TEST_SUITE_P(All, Agreement,
                         testing::Values(FileKind::kart, FileKind::debrief, FileKind::scenario,
                                         FileKind::cases, FileKind::rule),
                         [](const auto& each) { return name_of(each.param); });

}  // namespace
}  // namespace kartwright
