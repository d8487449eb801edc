// schema.h - the project's JSON Schemas, and a general validator that holds JSON against them.

#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace kartwright {

/// `cli/schemas` of the project.
std::filesystem::path schemas_folder();

/// The names of all schemas, sorted: `advice`, `kart`.
std::vector<std::string> schema_names();

/// The text of a schema's file.
std::string schema_text(const std::string& name);

class Schema {
 public:
  /// Throws where the validator cannot use it.
  explicit Schema(const nlohmann::json& schema);

  /// What is wrong with a value, each with its place; empty where it is valid.
  std::vector<std::string> faults(const nlohmann::json& value) const;
  bool accepts(const nlohmann::json& value) const;

 private:
  struct Compiled;
  std::shared_ptr<const Compiled> compiled_;
};

/// One of the project's, read once.
const Schema& schema(const std::string& name);

}  // namespace kartwright
