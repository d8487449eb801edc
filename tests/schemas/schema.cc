#include "tests/schemas/schema.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

namespace kartwright {
namespace {

constexpr std::string_view kEnd = ".schema.json";

}  // namespace

struct Schema::Compiled {
  valijson::Schema schema = {};
  mutable valijson::Validator validator = {};  // keeps the patterns that it has compiled
};

std::filesystem::path schemas_folder() {
  return std::filesystem::path(KARTWRIGHT_SOURCE_DIR) / "cli" / "schemas";
}

std::vector<std::string> schema_names() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(schemas_folder())) {
    const std::string file = entry.path().filename().string();
    names.push_back(file.substr(0, file.size() - std::min(file.size(), kEnd.size())));
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string schema_text(const std::string& name) {
  std::ifstream file(schemas_folder() / (name + std::string(kEnd)));
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

Schema::Schema(const nlohmann::json& schema) {
  auto compiled = std::make_shared<Compiled>();
  valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
  parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(schema), compiled->schema);
  compiled_ = compiled;
}

bool Schema::accepts(const nlohmann::json& value) const {
  return compiled_->validator.validate(compiled_->schema,
                                       valijson::adapters::NlohmannJsonAdapter(value), nullptr);
}

std::vector<std::string> Schema::faults(const nlohmann::json& value) const {
  valijson::ValidationResults results;
  compiled_->validator.validate(compiled_->schema, valijson::adapters::NlohmannJsonAdapter(value),
                                &results);
  std::vector<std::string> faults;
  for (const auto& error : results) {
    std::string place;
    for (const std::string& part : error.context) place += part;
    faults.push_back(place + ": " + error.description);
  }
  return faults;
}

const Schema& schema(const std::string& name) {
  static std::map<std::string, Schema> all;
  const auto found = all.find(name);
  if (found != all.end()) return found->second;
  return all.emplace(name, Schema(nlohmann::json::parse(schema_text(name)))).first->second;
}

}  // namespace kartwright
