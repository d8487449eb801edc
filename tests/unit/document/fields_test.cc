#include "engine/document/fields.h"

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

TEST(BareNumber, ReadsWholeAndDecimalNumbersOfEitherSign) {
  EXPECT_EQ(bare_number("15"), 15.0);
  EXPECT_EQ(bare_number("0.5"), 0.5);
  EXPECT_EQ(bare_number("+0.4"), 0.4);
  EXPECT_EQ(bare_number("-17"), -17.0);
  EXPECT_EQ(bare_number("1e-3"), 0.001);
  EXPECT_EQ(bare_number("2E2"), 200.0);
  EXPECT_EQ(bare_number(".5"), 0.5);
  EXPECT_FALSE(bare_number("010"));  // eight to some readers
  EXPECT_FALSE(bare_number("-007"));
  EXPECT_EQ(bare_number("0.5"), 0.5);
  EXPECT_EQ(bare_number("0"), 0.0);
  EXPECT_EQ(bare_number("0"), 0.0);
}

TEST(BareNumber, RefusesWhatIsNotAFinitePlainNumber) {
  for (const char* text :
       {"",     "+",        "-",     ".",     "nan",   "-nan",        "+nan",  ".nan",   "inf",
        "-inf", "infinity", ".inf",  "0x10",  "0b1",   "0o7",         "1e999", "-1e999", " 1",
        "1 ",   "1,5",      "1.2.3", "1 000", "1_000", "++1",         "--1",   "- 1",    "1e",
        "1f",   "12 psi",   "12psi", "one",   "1/2",   "\xEF\xBC\x91"}) {
    EXPECT_EQ(bare_number(text), std::nullopt) << text;
  }
  EXPECT_EQ(bare_number(std::string_view("1\0", 2)), std::nullopt);
}

TEST(BareNumber, RefusesASecondSignBehindThePlus) { EXPECT_EQ(bare_number("+-1"), std::nullopt); }

/// A map under the name `a thing`, and what reading it found.
struct Read {
  explicit Read(const std::string& text)
      : document(parse_document("f.yaml", text)),
        fields(document, document.root, findings, "a thing") {}
  std::string found() const { return told(findings.all()); }

  Document document;
  Findings findings;
  Fields fields;
};

TEST(Fields, GivesValuesAsTheTypesThatWereAskedFor) {
  Read read("name: blue\nweight: 1.2\nwidth: 53 1/2 in\nparts: [soft, hard]\none: x\n");
  EXPECT_EQ(read.fields.text("name"), "blue");
  EXPECT_EQ(read.fields.number("weight"), 1.2);
  EXPECT_NEAR(read.fields.quantity("width", Kind::length)->si, 1.3589, 1e-12);
  EXPECT_EQ(read.fields.texts_or_none("parts"), (std::vector<std::string>{"soft", "hard"}));
  EXPECT_EQ(read.fields.texts_or_none("one"), std::vector<std::string>{"x"});
  read.fields.finish();
  EXPECT_EQ(read.found(), "");
}

TEST(Fields, WhatIsOptionalMayBeMissingOrEmpty) {
  Read read("empty:\n");
  EXPECT_EQ(read.fields.optional("empty"), nullptr);
  EXPECT_EQ(read.fields.optional("missing"), nullptr);
  EXPECT_EQ(read.fields.text_or("missing", "else"), "else");
  EXPECT_EQ(read.fields.text_or("empty", "else"), "else");
  EXPECT_EQ(read.fields.number_or("missing", 7.0), 7.0);
  EXPECT_TRUE(read.fields.texts_or_none("missing").empty());
  EXPECT_EQ(read.fields.quantity("missing", Kind::mass), std::nullopt);
  read.fields.finish();
  EXPECT_EQ(read.found(), "");
}

TEST(Fields, WhatIsRequiredAndMissingIsToldWhereTheMapStands) {
  Read read("\n\n  other: 1\n");
  EXPECT_EQ(read.fields.text("name"), "");
  EXPECT_EQ(read.fields.number("weight"), 0.0);
  EXPECT_EQ(read.found(),
            "f.yaml:3:3: D011: a thing needs `name` ()\n"
            "f.yaml:3:3: D011: a thing needs `weight` ()\n");
}

TEST(Fields, KeysNobodyAskedForAreToldWithTheNearest) {
  Read read("label: x\nminuts: 3\n");
  read.fields.text("label");
  read.fields.number_or("minutes", 0.0);
  read.fields.finish();
  EXPECT_EQ(read.found(),
            "f.yaml:2:1: D012: `minuts` is not a key of a thing (did you mean `minutes`?)\n");
}

TEST(Fields, EveryMistakeIsToldAndReadingGoesOn) {
  Read read("a: [1]\nb: x\nc: {d: 1}\ne: 3 kg\nf: 1.2.3\n");
  EXPECT_EQ(read.fields.text("a"), "");
  EXPECT_EQ(read.fields.number("b"), 0.0);
  EXPECT_TRUE(read.fields.texts_or_none("c").empty());
  EXPECT_EQ(read.fields.quantity("e", Kind::length), std::nullopt);
  EXPECT_EQ(read.fields.number_or("f", 2.0), 0.0);
  std::vector<Code> codes;
  for (const Diagnostic& each : read.findings.all()) codes.push_back(each.code);
  EXPECT_EQ(codes, (std::vector<Code>{Code::wrong_shape, Code::bad_number, Code::wrong_shape,
                                      Code::bad_quantity, Code::bad_number}))
      << read.found();
}

TEST(Fields, WhatIsNoMapIsToldOnce) {
  Read read("- a\n- b\n");
  EXPECT_EQ(read.fields.required("name"), nullptr);
  EXPECT_EQ(read.fields.optional("other"), nullptr);
  read.fields.finish();
  EXPECT_EQ(read.found(), "f.yaml:1:1: D010: a thing must be a map of keys and values ()\n");
}

TEST(ScalarList, TellsEachItemThatIsNoPlainValue) {
  const Document document = parse_document("f.yaml", "[a, [b], c, {d: e}]");
  Findings findings;
  scalar_list(document, document.root, findings, "parts");
  EXPECT_EQ(told(findings.all()),
            "f.yaml:1:5: D010: `parts` must be a plain value ()\n"
            "f.yaml:1:13: D010: `parts` must be a plain value ()\n");
}

TEST(ScalarQuantity, TellsWhatIsWrongAndWhatWasExpected) {
  const Document document = parse_document("f.yaml", "1360");
  Findings findings;
  EXPECT_EQ(scalar_quantity(document, document.root, findings, Kind::length), std::nullopt);
  ASSERT_EQ(findings.all().size(), 1U);
  EXPECT_EQ(findings.all()[0].code, Code::bad_quantity);
  EXPECT_NE(findings.all()[0].message.find("`1360`"), std::string::npos);
  EXPECT_NE(findings.all()[0].help.find("a length"), std::string::npos);
}

TEST(KnownName, IsTrueForKnownNamesAndTellsTheRest) {
  const Document document = parse_document("f.yaml", "[wider, widre]");
  Findings findings;
  const std::vector<std::string> known{"wider", "narrower"};
  EXPECT_TRUE(known_name(document, document.root.items[0], findings, "a direction", known));
  EXPECT_FALSE(known_name(document, document.root.items[1], findings, "a direction", known));
  EXPECT_EQ(told(findings.all()),
            "f.yaml:1:9: D013: `widre` is not a direction (did you mean `wider`?)\n");
}

}  // namespace
}  // namespace kartwright
