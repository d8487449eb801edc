// advice_json.h - an advice as one JSON object, schema kartwright/advice/1.

#pragma once

#include <string>

#include "cli/beside.h"
#include "cli/json_writer.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

inline constexpr std::size_t kBriefAdvice = 24U << 10U;  ///< bytes, of most answers
inline constexpr std::size_t kWholeAdvice = 80U << 10U;

/// SI and notches, nothing rounded, one line and its end. `brief` leaves working and ask out.
std::string advice_json(const Advice& advice, const Pack& pack, bool brief,
                        const Beside& beside = {});

/// The same without the line's end, through a writer that may have been used before.
void write_advice(JsonWriter& out, const Advice& advice, const Pack& pack, bool brief,
                  const Beside& beside = {});

}  // namespace kartwright::cli
