#include "cli/exchange_csv.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/document/utf8.h"
#include "engine/records/field_words.h"
#include "engine/records/run_fields.h"

namespace kartwright::cli {
namespace {

constexpr std::string_view kRunRecord = "run";
constexpr std::string_view kEndRecord = "end";
constexpr const char* kRecords = "records";  // of a run: how many rows follow its own

/// A cell as RFC 4180 has it: quoted where it holds a comma, a quote, a line end or outer blanks.
std::string quoted_cell(const std::string& text) {
  const bool plain = text.find_first_of(",;\t\"\r\n") == std::string::npos &&
                     !text.starts_with(' ') && !text.ends_with(' ');
  if (plain) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

/// Gathers the fields of a record as texts; what is empty stays empty.
struct FieldTexts {
  std::vector<std::pair<std::string, std::string>>& out;

  void operator()(const char* name, const std::string& text) const { out.emplace_back(name, text); }
  void operator()(const char* name, double number) const {
    out.emplace_back(name, fmt::format("{}", number));
  }
  void operator()(const char* name, int number) const {
    out.emplace_back(name, std::to_string(number));
  }
  void operator()(const char* name, bool truth) const {
    out.emplace_back(name, truth ? "true" : "false");
  }
  template <typename T>
  void operator()(const char* name, const std::optional<T>& item) const {
    item ? (*this)(name, *item) : (*this)(name, std::string());
  }
  void operator()(const char* name, const std::vector<std::string>& texts) const {
    (*this)(name, in_one_text(texts));
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(const char* name, Enum value) const {
    out.emplace_back(name, std::string(name_of(value)));
  }
};

using Texts = std::vector<std::pair<std::string, std::string>>;

/// `record`, `kart`, `at`, `records`, then every field of any record, each name once.
const std::vector<std::string>& column_names() {
  static const std::vector<std::string> kNames = [] {
    std::vector<std::string> names{"record", "kart", "at", std::string(kRecords)};
    Texts texts;
    const Run run{};
    each_field_of_run(run, FieldTexts{texts});
    each_part_of_run(run, [&]<typename Part>(const char*, const std::vector<Part>&) {
      const Part part{};
      FieldsOf<Part>::each(part, FieldTexts{texts});
    });
    for (const auto& [name, text] : texts) {
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    return names;
  }();
  return kNames;
}

std::string row_of(std::string_view record, const Run& run, const Texts& texts) {
  std::string row = std::string(record) + "," + quoted_cell(run.kart) + "," + run.at;
  for (std::size_t i = 3; i < column_names().size(); ++i) {
    row += ",";
    const auto found = std::find_if(texts.begin(), texts.end(), [&](const auto& each) {
      return each.first == column_names()[i];
    });
    if (found != texts.end()) row += quoted_cell(found->second);
  }
  return row + "\n";
}

}  // namespace

std::string csv_head() {
  std::string row;
  for (const std::string& name : column_names()) row += (row.empty() ? "" : ",") + name;
  return row + "\n";
}

std::string csv_rows_of(const Run& run) {
  Texts texts;
  each_field_of_run(run, FieldTexts{texts});
  std::size_t records = 0;
  each_part_of_run(run, [&](const char*, const auto& parts) { records += parts.size(); });
  texts.emplace_back(kRecords, std::to_string(records));
  std::string rows = row_of(kRunRecord, run, texts);
  each_part_of_run(run, [&]<typename Part>(const char* name, const std::vector<Part>& parts) {
    for (const Part& part : parts) {
      Texts fields;
      FieldsOf<Part>::each(part, FieldTexts{fields});
      rows += row_of(name, run, fields);
    }
  });
  return rows;
}

std::string csv_end(std::size_t runs) {
  const Texts texts{{kRecords, std::to_string(runs)}};
  return row_of(kEndRecord, Run{}, texts);
}

CsvRuns::CsvRuns(CsvRows& rows, std::string file, Findings& findings)
    : rows_(rows), file_(std::move(file)), findings_(findings) {
  take_head();
}

namespace {

Diagnostic bad_row(const std::string& file, std::string message, std::string help) {
  return {.code = Code::bad_record,
          .file = file,
          .message = std::move(message),
          .help = std::move(help)};
}

bool has_a_fault(const CsvLine& row, const std::string& file, Findings& findings) {
  if (row.fault == CsvFault::none && !first_invalid_utf8(row.text)) return false;
  const bool utf8 = row.fault != CsvFault::none;
  findings.add(at_cell(row, row.fault_at, 1,
                       utf8 ? bad_row(file, "the row cannot be taken apart",
                                      "a quote that is not closed, or a row that is too long")
                            : bad_row(file, "the row is not UTF-8 text", "export it again")));
  return true;
}

}  // namespace

void CsvRuns::take_head() {
  CsvLine head;
  if (!rows_.next(head)) {
    Diagnostic found = bad_row(file_, "the export is empty", "was it copied whole?");
    found.span = {.line = 1, .column = 1};
    findings_.add(std::move(found));
    return;
  }
  if (has_a_fault(head, file_, findings_)) return;
  const auto refuse_column = [&](const CsvCell& cell, const char* words, std::string help) {
    findings_.add(at_cell(head, cell.at, std::max<std::size_t>(1, cell.text.size()),
                          bad_row(file_, "`" + cell.text + "` " + words, std::move(help))));
  };
  const auto& known = column_names();
  for (const CsvCell& cell : head.cells) {
    const bool twice = std::find(names_.begin(), names_.end(), cell.text) != names_.end();
    names_.push_back(cell.text);
    if (std::find(known.begin(), known.end(), cell.text) == known.end()) {
      refuse_column(cell, "is no column of an export", suggestion(cell.text, known));
    } else if (twice) {
      refuse_column(cell, "is a column twice", "");
    }
  }
  for (const std::string& needed : known) {
    if (std::find(names_.begin(), names_.end(), needed) != names_.end()) continue;
    findings_.add(at_cell(head, 0, 1,
                          bad_row(file_, "there is no column `" + needed + "`",
                                  "`kartwright log export --format csv` writes it")));
  }
  if (!findings_.has_errors()) ahead_ = take_row();
}

/// The next row, whole; nothing at the end or where it cannot be taken.
std::optional<CsvLine> CsvRuns::take_row() {
  CsvLine row;
  if (!rows_.next(row)) {
    Diagnostic found = bad_row(file_, "the end of the export is missing",
                               "its last row has how many runs it holds; was it copied whole?");
    found.span = {.line = line_, .column = 1};
    findings_.add(std::move(found));
    return {};
  }
  line_ = row.line;
  if (has_a_fault(row, file_, findings_)) return {};
  if (row.cells.size() == names_.size()) return row;
  const bool more = row.cells.size() > names_.size();
  findings_.add(at_cell(
      row, more ? row.cells[names_.size()].at : row.text.size(), 1,
      bad_row(file_,
              fmt::format("the row has {} cells, and there are {} columns", row.cells.size(),
                          names_.size()),
              more ? "a cell with a comma in it is quoted" : "was the export copied whole?")));
  return {};
}

const std::string* CsvRuns::cell(const CsvLine& row, std::string_view name) const {
  const auto found = std::find(names_.begin(), names_.end(), name);
  const auto at = static_cast<std::size_t>(found - names_.begin());
  return at < row.cells.size() ? &row.cells[at].text : nullptr;
}

Node CsvRuns::map_of(const CsvLine& row, std::size_t from) const {
  const auto span_at = [&](std::size_t at, std::size_t length) {
    return at_cell(row, at, length, Diagnostic{.code = Code::bad_record}).span;
  };
  Node map{.type = Node::Type::map, .span = span_at(0, 1), .entries = {}};
  for (std::size_t i = from; i < std::min(row.cells.size(), names_.size()); ++i) {
    const CsvCell& cell = row.cells[i];
    if (cell.text.empty()) continue;
    const Span span = span_at(cell.at, cell.text.size());
    Node value{.type = Node::Type::scalar, .text = cell.text, .span = span, .entries = {}};
    map.entries.push_back({names_[i], span, std::move(value)});
  }
  return map;
}

void CsvRuns::begin_run(const CsvLine& row) {
  run_ = Document{.name = file_, .text = {}, .root = map_of(row, 0)};
  std::erase_if(run_.root.entries,
                [](const Entry& entry) { return entry.key == "record" || entry.key == kRecords; });
}

void CsvRuns::add(const CsvLine& row) {
  const std::string list = *cell(row, "record") + "s";
  Node item = map_of(row, 0);
  std::erase_if(item.entries, [](const Entry& entry) {
    return entry.key == "record" || entry.key == "kart" || entry.key == "at";
  });
  for (Entry& entry : run_.root.entries) {
    if (entry.key == list) return entry.value.items.push_back(std::move(item));
  }
  Node items{.type = Node::Type::list, .span = item.span, .entries = {}};
  const Span span = item.span;
  items.items.push_back(std::move(item));
  run_.root.entries.push_back({list, span, std::move(items)});
}

void CsvRuns::refuse(const CsvLine& row, std::string message, std::string help) {
  findings_.add(at_cell(row, 0, 1, bad_row(file_, std::move(message), std::move(help))));
}

/// Whether a row is the last; it must fit to what stood before it, and nothing may follow.
bool CsvRuns::is_end(const CsvLine& row) {
  if (*cell(row, "record") != kEndRecord) return false;
  if (*cell(row, kRecords) != std::to_string(runs_)) {
    refuse(row, fmt::format("the export has {} runs, and its end says otherwise", runs_),
           "a run is missing, or stands elsewhere");
  }
  CsvLine more;
  if (rows_.next(more)) refuse(more, "something stands behind the end of the export", "");
  return true;
}

std::optional<Document> CsvRuns::next() {
  if (!ahead_ || is_end(*ahead_)) return {};
  const CsvLine first = std::move(*ahead_);
  ahead_.reset();
  const auto same = [&](const CsvLine& row, const char* name) {
    const std::string* const a = cell(first, name);
    const std::string* const b = cell(row, name);
    return a != nullptr && b != nullptr && *a == *b;
  };
  if (*cell(first, "record") != kRunRecord) {
    refuse(first, "a record stands before the run it is of", "the row `run` of a run comes first");
    return {};
  }
  ++runs_;
  begin_run(first);
  std::size_t records = 0;
  while (const std::optional<CsvLine> row = take_row()) {
    const std::string& kind = *cell(*row, "record");
    const bool belongs =
        same(*row, "kart") && same(*row, "at") && kind != kRunRecord && kind != kEndRecord;
    if (!belongs) {
      ahead_ = row;
      break;
    }
    add(*row);
    ++records;
  }
  const std::string* const told = cell(first, kRecords);
  if (*told != std::to_string(records)) {
    refuse(first, fmt::format("{} rows of this run follow, and it says `{}`", records, *told),
           "a row is missing, or stands elsewhere");
  }
  return std::move(run_);
}

}  // namespace kartwright::cli
