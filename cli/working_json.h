// working_json.h - the working of an advice: from it alone anybody can do every sum again.

#pragma once

#include "cli/json_writer.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// The object `working` of schema kartwright/advice/1.
void write_working(JsonWriter& out, const Advice& advice, const Pack& pack);

/// What a question is about, as fields: a symptom at a phase, or a fact.
void write_asked(JsonWriter& out, const Question& question);

}  // namespace kartwright::cli
