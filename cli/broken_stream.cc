#include "cli/broken_stream.h"

#include <cstdio>
#include <iostream>

namespace kartwright::cli {

bool broke_off(std::istream& in) {
  return in.bad() || (&in == &std::cin && std::ferror(stdin) != 0);
}

}  // namespace kartwright::cli
