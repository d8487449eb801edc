// The schemas themselves: draft-07, strict, with a word on every key, and with the names that the
// built-in rules have today.

#include <cstdlib>
#include <fstream>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "tests/schemas/pack_definitions.h"
#include "tests/schemas/pretty.h"
#include "tests/schemas/schema.h"

namespace kartwright {
namespace {

using Ordered = nlohmann::ordered_json;

/// Everything of draft-07 that is used here, and `patternErrorMessage`, which editors show.
const std::set<std::string> kKeywords{"$schema",
                                      "$id",
                                      "$ref",
                                      "$comment",
                                      "title",
                                      "type",
                                      "description",
                                      "definitions",
                                      "properties",
                                      "required",
                                      "dependencies",
                                      "additionalProperties",
                                      "minProperties",
                                      "items",
                                      "minItems",
                                      "maxProperties",
                                      "maxItems",
                                      "enum",
                                      "uniqueItems",
                                      "const",
                                      "minimum",
                                      "maximum",
                                      "multipleOf",
                                      "exclusiveMinimum",
                                      "minLength",
                                      "pattern",
                                      "examples",
                                      "exclusiveMaximum",
                                      "allOf",
                                      "anyOf",
                                      "oneOf",
                                      "not",
                                      "if",
                                      "then",
                                      "else",
                                      "patternErrorMessage"};

class SchemaFile : public testing::TestWithParam<std::string> {
 protected:
  const Ordered json_ = Ordered::parse(schema_text(GetParam()));

  const Ordered& definition(const std::string& pointer) const {
    return json_.at(Ordered::json_pointer(pointer.substr(1)));
  }

  /// Every schema below one, with its place.
  template <typename Visit>
  void each_schema(const Ordered& schema, const std::string& place, const Visit& visit) const {
    if (!schema.is_object()) return;
    visit(schema, place);
    for (const auto& [key, value] : schema.items()) {
      const std::string below = place + "/" + key;
      if (key == "properties" || key == "definitions") {
        for (const auto& [name, each] : value.items()) each_schema(each, below + "/" + name, visit);
      } else if (key == "dependencies") {
        for (const auto& [name, each] : value.items()) {
          if (each.is_object()) each_schema(each, below + "/" + name, visit);
        }
      } else if (key == "allOf" || key == "anyOf" || key == "oneOf") {
        for (const Ordered& each : value) each_schema(each, below, visit);
      } else if (key == "items" || key == "additionalProperties" || key == "not" || key == "if" ||
                 key == "then" || key == "else") {
        each_schema(value, below, visit);
      }
    }
  }
  template <typename Visit>
  void each_schema(const Visit& visit) const {
    each_schema(json_, "", visit);
  }

  bool has_a_word(const Ordered& property) const {
    if (property.contains("description")) return property.at("description") != "";
    return property.contains("$ref") && has_a_word(definition(property.at("$ref")));
  }
};

TEST_P(SchemaFile, IsWrittenAsTheOthersAre) {
  EXPECT_EQ(schema_text(GetParam()), pretty(json_));
  EXPECT_EQ(json_.at("$schema"), "http://json-schema.org/draft-07/schema#");
  EXPECT_EQ(json_.at("$id"), "kartwright/" + GetParam() + ".schema.json");
  EXPECT_NE(json_.value("title", ""), "");
  EXPECT_NE(json_.value("description", ""), "");
}

TEST_P(SchemaFile, IsUnderstoodByAGeneralValidator) {
  EXPECT_NO_THROW(Schema(nlohmann::json::parse(schema_text(GetParam()))));
}

TEST_P(SchemaFile, UsesNoKeywordThatDraftSevenDoesNotHave) {
  each_schema([&](const Ordered& schema, const std::string& place) {
    for (const auto& [key, value] : schema.items())
      EXPECT_TRUE(kKeywords.contains(key)) << place << " " << key;
  });
}

TEST_P(SchemaFile, StandsAlone) {
  std::set<std::string> used;
  each_schema([&](const Ordered& schema, const std::string& place) {
    if (!schema.contains("$ref")) return;
    const std::string pointer = schema.at("$ref");
    ASSERT_TRUE(pointer.starts_with("#/definitions/")) << place;
    EXPECT_NO_THROW(definition(pointer)) << place << " " << pointer;
    EXPECT_EQ(schema.size(), 1U) << place << ": nothing counts beside a $ref";
    used.insert(pointer.substr(std::string("#/definitions/").size()));
  });
  const Ordered definitions = json_.value("definitions", Ordered::object());
  for (const auto& [name, each] : definitions.items())
    EXPECT_TRUE(used.contains(name)) << name << " is not used";
}

TEST_P(SchemaFile, SaysOfEveryKeyWhatItIs) {
  each_schema([&](const Ordered& schema, const std::string& place) {
    if (!schema.contains("additionalProperties")) return;  // of a branch, said elsewhere
    const Ordered properties = schema.value("properties", Ordered::object());
    for (const auto& [key, property] : properties.items())
      EXPECT_TRUE(has_a_word(property)) << place << "/" << key;
  });
}

TEST_P(SchemaFile, LetsNoKeyThroughThatItDoesNotName) {
  each_schema([&](const Ordered& schema, const std::string& place) {
    const bool object = schema.contains("type") &&
                        (schema.at("type") == "object" ||
                         (schema.at("type").is_array() && schema.at("type").size() == 2 &&
                          schema.at("type").at(0) == "object"));
    const bool of_a_branch =
        place.ends_with("/if") || place.find("/anyOf/properties") != std::string::npos;
    if (!object || of_a_branch || place.find("/then/") != std::string::npos ||
        place.find("/else/") != std::string::npos || place.find("/if/") != std::string::npos)
      return;
    EXPECT_TRUE(schema.contains("additionalProperties")) << place;
  });
}

INSTANTIATE_TEST_SUITE_P(All, SchemaFile, testing::ValuesIn(schema_names()), [](const auto& each) {
  std::string name = each.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

// KARTWRIGHT_REGENERATE=1 writes them anew.
TEST(SchemaNames, AreThoseOfTheBuiltInRules) {
  const Ordered made = pack_definitions(built_in_pack());
  std::set<std::string> seen;
  for (const std::string& name : schema_names()) {
    Ordered json = Ordered::parse(schema_text(name));
    if (!json.contains("definitions")) continue;
    for (auto& [key, definition] : json.at("definitions").items()) {
      if (!made.contains(key) || !definition.contains("$comment")) continue;
      seen.insert(key);
      if (std::getenv("KARTWRIGHT_REGENERATE") != nullptr) definition = made.at(key);
      EXPECT_TRUE(definition == made.at(key))
          << name << ": `" << key << "` is not what the rules have; KARTWRIGHT_REGENERATE=1 writes "
          << "it anew";
    }
    if (std::getenv("KARTWRIGHT_REGENERATE") != nullptr)
      std::ofstream(schemas_folder() / (name + ".schema.json")) << pretty(json);
  }
  EXPECT_EQ(seen.size(), made.size()) << "something is made for no schema";
}

TEST(SchemaNames, WhatTwoSchemasShareTheyHaveAlike) {
  std::map<std::string, std::pair<std::string, Ordered>> first;
  for (const std::string name : {"kart", "debrief", "scenario", "cases"}) {
    const Ordered json = Ordered::parse(schema_text(name));
    for (const auto& [key, definition] : json.at("definitions").items()) {
      const auto [there, fresh] = first.emplace(key, std::pair(name, definition));
      EXPECT_TRUE(fresh || there->second.second == definition)
          << key << " differs between " << there->second.first << " and " << name;
    }
  }
}

}  // namespace
}  // namespace kartwright
