// broken_stream.h - tells a file that ends from one that cannot be read any further.

#pragma once

#include <istream>

namespace kartwright::cli {

/// Whether a stream ended because it could not be read any further. Standard input too.
bool broke_off(std::istream& in);

}  // namespace kartwright::cli
