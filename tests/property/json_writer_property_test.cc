// What the writer of JSON does in its own way is what the library does: texts of any bytes, and
// whole numbers.

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "cli/json_writer.h"
#include "tests/support/any.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

using LibraryWriter = rapidjson::Writer<rapidjson::StringBuffer>;

template <typename Write>
std::string by_the_library(const Write& write) {
  rapidjson::StringBuffer buffer;
  LibraryWriter writer(buffer);
  write(writer);
  return std::string(buffer.GetString(), buffer.GetSize()) + '\n';
}

template <typename T>
std::string by_ours(const T& value) {
  cli::JsonWriter writer;
  writer.value(value);
  return writer.line();
}

std::string texts_alike(const std::string& text) {
  const std::string theirs = by_the_library([&](LibraryWriter& writer) {
    writer.String(text.data(), static_cast<rapidjson::SizeType>(text.size()));
  });
  return by_ours(text) == theirs ? "alike" : theirs;
}

TEST(JsonText, OfAnyLengthIsTheLibrarysWithAnOddByteAnywhere) {
  const std::vector<std::string> odd{"\"", "\\", "\n", std::string(1, '\0'), "\x1F", "ä", "€"};
  for (std::size_t length = 0; length < 40; ++length) {
    const std::string plain(length, '~');
    EXPECT_EQ(texts_alike(plain), "alike") << length;
    for (std::size_t at = 0; at < length; ++at) {
      for (const std::string& bytes : odd)
        EXPECT_EQ(texts_alike(std::string(plain).replace(at, 1, bytes)), "alike") << length << at;
    }
  }
}

TEST(JsonText, OfAnyAsciiIsTheLibrarys) {
  Random random(31);
  for (int round = 0; round < throws_of_the_dice(3000); ++round) {
    std::string text;
    for (std::size_t left = any_below(random, 30); left > 0; --left)
      text += static_cast<char>(whole(random, 0x20, 0x7E));
    EXPECT_EQ(texts_alike(text), "alike") << text;
  }
}

TEST(JsonText, ThatCouldSteerATerminalIsEscaped) {
  EXPECT_EQ(by_ours(std::string("a\x7F"
                                "bcdefghij")),
            "\"a\\u007fbcdefghij\"\n");
}

std::string numbers_alike(double number) {
  const std::string theirs = by_the_library([&](LibraryWriter& writer) { writer.Double(number); });
  return by_ours(number) == theirs ? "alike" : theirs;
}

TEST(JsonNumber, WholeOrNotIsTheLibrarys) {
  for (const double number : {0.0, -0.0, 1.0, -1.0, 0.5, 999999.0, 1e6, 1e6 + 1, 1e21, 1e22, 1e-7})
    EXPECT_EQ(numbers_alike(number), "alike") << number;
  Random random(37);
  for (int round = 0; round < throws_of_the_dice(3000); ++round) {
    const double number = any_between(random, -2e6, 2e6);
    EXPECT_EQ(numbers_alike(number), "alike") << number;
    EXPECT_EQ(numbers_alike(std::trunc(number)), "alike") << number;
  }
}

TEST(JsonWriter, BeginsAnewWithNothingOfWhatItWroteBefore) {
  cli::JsonWriter writer;
  writer.object([&] { writer.field("word", "a\x7F"); });
  writer.clear();
  writer.object([&] {
    writer.field("a", 1);
    writer.list("b", std::vector<double>{2.0, 2.5});
    writer.object("c", [&] { writer.field("d", nullptr); });
    writer.list("e", std::vector<int>{});
    writer.field("f", true);
  });
  std::string line =
      "as long as this is, nothing of it stays behind what is put in its place, "
      "whatever that is and however short";
  writer.put_line(line);
  EXPECT_EQ(line, "{\"a\":1,\"b\":[2.0,2.5],\"c\":{\"d\":null},\"e\":[],\"f\":true}\n");
}

}  // namespace
}  // namespace kartwright
