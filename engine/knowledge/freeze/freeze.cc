// Build-time tool: reads rule files or their cases and writes them as one array of bytes in a C++
// source: as documents, or as the pack that they make together, checked as a whole.
//
//   freeze documents|pack OUTPUT NAME SOURCE_DIR FILE...      NAME is the array's; FILE is relative
//   to SOURCE_DIR and becomes its name in messages

#include <cstdio>
#include <fstream>
#include <iterator>
#include <string_view>

#include <fmt/format.h>

#include "engine/document/frozen.h"
#include "engine/knowledge/frozen_pack.h"
#include "engine/knowledge/load.h"

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

/// The files of argv[5] on, named as they stand there.
std::vector<kartwright::Document> read_files(int argc, char** argv) {
  std::vector<kartwright::Document> documents;
  for (int i = 5; i < argc; ++i) {
    documents.push_back(kartwright::read_document(std::string(argv[4]) + "/" + argv[i]));
    documents.back().name = argv[i];
  }
  return documents;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 6) {
    fmt::print(stderr, "usage: freeze documents|pack OUTPUT NAME SOURCE_DIR FILE...\n");
    return 2;
  }
  std::string bytes;
  try {
    const std::vector<kartwright::Document> documents = read_files(argc, argv);
    const bool pack = std::string_view(argv[1]) == "pack";
    bytes = pack ? kartwright::freeze_pack(kartwright::load_pack(documents))
                 : kartwright::freeze(documents);
  } catch (const kartwright::InputError& error) {
    for (const kartwright::Diagnostic& d : error.found()) {
      fmt::print(stderr, "{}:{}:{}: error[{}]: {}\n", d.file, d.span.line, d.span.column,
                 kartwright::code_name(d.code), d.message);
    }
    return 65;
  }
  std::ofstream out(argv[2], std::ios::binary);
  out << as_source(argv[3], bytes);
  out.close();
  return out ? 0 : 73;
}
