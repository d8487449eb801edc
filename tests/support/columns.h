// columns.h - a file of numbers with commas between, for the tests that check against one.

#pragma once

#include <Eigen/Dense>
#include <map>
#include <string>
#include <vector>

namespace kartwright {

/// Numeric columns by the name in the first line; those with other text in them are left out. The
/// path is below the project's root. Throws std::runtime_error where the file cannot be read.
std::map<std::string, Eigen::VectorXd> numeric_columns(const std::string& path);

/// A column as it stands, by its name.
std::vector<std::string> text_column(const std::string& path, const std::string& name);

}  // namespace kartwright
