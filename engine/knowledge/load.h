// load.h - rule files into a Pack.
//
// All mistakes of all files are found in one run. Later documents replace what earlier ones define
// under the same id, and add what is new: so a crew's own folder goes behind the built-in rules.

#pragma once

#include <string>
#include <vector>

#include "engine/document/document.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// REQUIRES nothing of the documents. Throws InputError.
/// `base` documents may not define an id twice among themselves, nor may `own`; `own` may redefine
/// ids of `base`.
Pack load_pack(const std::vector<Document>& base, const std::vector<Document>& own = {});

/// Every *.yaml below a folder that is not *.cases.yaml, sorted by path, named by path. Throws
/// InputError.
std::vector<Document> read_rule_folder(const std::string& folder);

/// Every *.cases.yaml below a folder: the cases beside its rule files, read the same way.
std::vector<Document> read_case_folder(const std::string& folder);

}  // namespace kartwright
