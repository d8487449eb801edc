// Build-time tool: reads rule files or their cases and writes them as one array of bytes in a C++
// source.
//
//   freeze OUTPUT NAME SOURCE_DIR FILE...      NAME is the array's; FILE is relative to SOURCE_DIR
//   and becomes its name in messages

#include <cstdio>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "engine/document/frozen.h"

namespace {

std::string as_source(const std::string& name, const std::string& bytes) {
  std::string out = fmt::format(
      "#include <cstddef>\n"
      "namespace kartwright {{\n"
      "extern const unsigned char {0}[];\n"
      "extern const std::size_t {0}Size;\n"
      "const unsigned char {0}[] = {{",
      name);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (i % 32 == 0) out += '\n';
    fmt::format_to(std::back_inserter(out), "{},",
                   static_cast<unsigned>(static_cast<unsigned char>(bytes[i])));
  }
  return out +
         fmt::format(
             "\n}};\nconst std::size_t {0}Size = sizeof {0};\n}}  // namespace kartwright\n", name);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 5) {
    fmt::print(stderr, "usage: freeze OUTPUT NAME SOURCE_DIR FILE...\n");
    return 2;
  }
  std::vector<kartwright::Document> documents;
  try {
    for (int i = 4; i < argc; ++i) {
      documents.push_back(kartwright::read_document(std::string(argv[3]) + "/" + argv[i]));
      documents.back().name = argv[i];
    }
  } catch (const kartwright::InputError& error) {
    for (const kartwright::Diagnostic& d : error.found()) {
      fmt::print(stderr, "{}:{}:{}: error[{}]: {}\n", d.file, d.span.line, d.span.column,
                 kartwright::code_name(d.code), d.message);
    }
    return 65;
  }
  std::ofstream out(argv[1], std::ios::binary);
  out << as_source(argv[2], kartwright::freeze(documents));
  out.close();
  return out ? 0 : 73;
}
