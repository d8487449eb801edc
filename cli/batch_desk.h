// batch_desk.h - answers one line of a batch: a debrief as a JSON object in, an answer out.

#pragma once

#include <exception>
#include <map>
#include <memory>
#include <string>
#include <utility>

#include "cli/arguments.h"
#include "cli/json_writer.h"
#include "engine/advice/groundwork.h"
#include "engine/debrief/sentence.h"
#include "engine/document/document.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/pack.h"

namespace kartwright::cli {

struct BatchLine {
  std::string text;
  int number = 0;         ///< of the batch, from 1
  bool too_long = false;  ///< `text` is its beginning
  std::string answer = {};
  bool failed = false;
  std::exception_ptr fault = {};  ///< of the program, not of the line
};

/// Answers lines one after another, with an ear and a shelf of karts that it keeps.
class BatchDesk {
 public:
  /// REQUIRES: both outlive it. Throws InputError where the kart for lines without one cannot be
  /// read.
  BatchDesk(const AdviseOptions& options, const Pack& pack);

  /// Sets the answer of a line, which is a line itself; of one that cannot be answered, its errors,
  /// each with its place in options.batch. Never throws.
  void answer(BatchLine& line);

 private:
  /// A kart, with what was worked out of it already.
  struct KnownKart {
    Kart kart;
    Groundwork ground;
    KnownKart(const Pack& pack, Kart of_this) : kart(std::move(of_this)), ground(pack, kart) {}
    KnownKart(const KnownKart&) = delete;
    KnownKart& operator=(const KnownKart&) = delete;
  };

  Kart usual_kart() const;
  Diagnostic at_line(Code code, std::string message, std::string help) const;
  Document document(const BatchLine& line) const;
  void fill_in(const Document& document, Debrief& debrief) const;
  KnownKart& shelved(const std::string& path);
  void answer_in(BatchLine& line);

  const AdviseOptions& options_;
  const Pack& pack_;
  Ear ear_;
  KnownKart usual_;
  std::map<std::string, std::unique_ptr<KnownKart>> karts_;
  JsonWriter out_;
};

}  // namespace kartwright::cli
