// apply --log that was ended between the kart file and the log, and is asked for again.

#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

const Words kSetWider{"--set", "rear-width=1370mm", "--at", "2024-11-14 10:40"};
const Words kTakeBack{"--undo", "--at", "2024-11-14 10:45"};

/// A pit box with a run in its log.
class DrivenBox : public PitBox {
 public:
  DrivenBox() { add({"--at", "2024-11-14 10:30"}); }
};

/// Changes the kart file alone: what the log was before is put back.
void break_off(const PitBox& box, const Words& words) {
  const std::string kept = box.folder().path() + "/kept.db";
  const bool there = fs::exists(box.log());
  if (there) fs::copy_file(box.log(), kept, fs::copy_options::overwrite_existing);
  ASSERT_EQ(box.apply(words).exit, 0);
  fs::remove(box.log());
  if (there) fs::rename(kept, box.log());
}

/// Asks for a change in one box, and in another one after it was broken off: both come to the same.
void expect_the_same(const PitBox& whole, const PitBox& broken, const Words& words) {
  ASSERT_EQ(whole.apply(words).exit, 0);
  break_off(broken, words);
  ASSERT_NE(broken.exported(), whole.exported());
  const Ended again = broken.apply(words);
  EXPECT_EQ(again.exit, 0) << again.err;
  EXPECT_THAT(again.out, HasSubstr("the kart file had it already"));
  EXPECT_EQ(broken.exported(), whole.exported());
  EXPECT_EQ(file_text(broken.kart()), file_text(whole.kart()));
  EXPECT_EQ(broken.apply(words).exit, 2);
}

TEST(BrokenOffApply, IsWrittenDownByTheSameCommand) {
  expect_the_same(DrivenBox(), DrivenBox(), kSetWider);
}

TEST(BrokenOffApply, IsWrittenDownInALogThatIsNew) {
  expect_the_same(PitBox(), PitBox(), kSetWider);
}

TEST(BrokenOffApply, OfAnAdviceIsWrittenDownWithIt) {
  const DrivenBox whole;
  const DrivenBox broken;
  whole.advise();
  broken.advise();
  expect_the_same(whole, broken, {"--change", "1", "--at", "2024-11-14 10:40"});
  EXPECT_THAT(broken.exported(), HasSubstr("\"rank\""));
}

TEST(BrokenOffApply, AnUndoIsWrittenDownWithItsVerdict) {
  const DrivenBox whole;
  const DrivenBox broken;
  for (const DrivenBox* const box : {&whole, &broken}) {
    box->apply(kSetWider);
    box->add({"--at", "2024-11-14 10:42"});
  }
  expect_the_same(whole, broken, kTakeBack);
  EXPECT_THAT(broken.exported(), HasSubstr("taken back"));
}

TEST(BrokenOffApply, BehindAnotherChangeIsWrittenDownBehindIt) {
  const DrivenBox whole;
  const DrivenBox broken;
  whole.apply(kSetWider);
  broken.apply(kSetWider);
  expect_the_same(whole, broken, {"--set", "axle=soft", "--at", "2024-11-14 10:44"});
}

TEST(BrokenOffApply, OtherChangesAreMadeAsEver) {
  const DrivenBox box;
  break_off(box, kSetWider);
  EXPECT_EQ(box.apply({"--set", "rear-width=1360mm"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), pit_box_kart());
  const Ended there = box.apply({"--set", "rear-width=1360mm"});
  EXPECT_EQ(there.exit, 2);
  EXPECT_THAT(there.err, HasSubstr("the kart stands there already"));
}

TEST(BrokenOffApply, ADryRunLeavesTheLogAlone) {
  const DrivenBox box;
  break_off(box, kSetWider);
  const std::string before = box.exported();
  Words dry = kSetWider;
  dry.emplace_back("--dry-run");
  EXPECT_EQ(box.apply(dry).exit, 2);
  EXPECT_EQ(box.exported(), before);
}

TEST(BrokenOffApply, WhereMoreDiffersFromTheCopyNothingIsGuessed) {
  const DrivenBox box;
  break_off(box, kSetWider);
  const std::string kart = file_text(box.kart());
  box.folder().write("blue27.yaml", with_exchanged(kart, "axle: medium", "axle: soft"));
  const Ended again = box.apply(kSetWider);
  EXPECT_EQ(again.exit, 2);
  EXPECT_THAT(again.err, HasSubstr("the kart stands there already"));
}

}  // namespace
}  // namespace kartwright
