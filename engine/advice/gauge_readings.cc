#include "engine/advice/gauge_readings.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace kartwright {
namespace {

constexpr std::size_t kTyres = 4;

void refuse(Findings& findings, Code code, const std::string& option, std::string message,
            std::string help) {
  findings.add({.code = code,
                .file = "--" + option,
                .message = std::move(message),
                .help = std::move(help)});
}

std::vector<std::string> options_of(const Gauge& gauge) {
  std::vector<std::string> all;
  for (const GaugeReading& reading : gauge.readings) all.push_back(reading.id);
  for (const GaugeChoice& choice : gauge.choices) all.push_back(choice.id);
  return all;
}

/// One amount within what can be, or nothing and a message.
std::optional<Quantity> read_amount(const GaugeReading& reading, const std::string& text,
                                    Findings& findings) {
  const ParsedQuantity parsed = parse_quantity(text, reading.kind);
  if (const auto* error = std::get_if<QuantityError>(&parsed)) {
    refuse(
        findings, Code::bad_quantity, reading.id, fmt::format("`{}`: {}", text, error->what),
        fmt::format("expected {}, {}", error->expected, plausible_text(reading, System::metric)));
    return std::nullopt;
  }
  const Quantity quantity = std::get<Quantity>(parsed);
  const double slack = 1e-9 * std::max(std::abs(reading.from), std::abs(reading.to));
  const bool whole = reading.kind != Kind::count || quantity.si == std::round(quantity.si);
  if (whole && quantity.si >= reading.from - slack && quantity.si <= reading.to + slack) {
    return quantity;
  }
  refuse(findings, Code::implausible, reading.id,
         whole ? fmt::format("no kart has `{}` here: {}", text, reading.label)
               : fmt::format("`{}` is not a whole number: {}", text, reading.label),
         plausible_text(reading, quantity.written.value_or(System::metric)));
  return std::nullopt;
}

void take_reading(const GaugeReading& reading, const std::string& text, GaugeReadings& out,
                  Findings& findings) {
  const std::vector<std::string> parts =
      reading.each_tyre ? parts_of_list(text) : std::vector<std::string>{text};
  if (reading.each_tyre && parts.size() != kTyres) {
    refuse(findings, Code::bad_quantity, reading.id,
           fmt::format("`{}` holds {} amounts", text, parts.size()),
           fmt::format("four, one a tyre, with commas between: {}", reading.example));
    return;
  }
  Amounts amounts;
  for (const std::string& part : parts) {
    const std::optional<Quantity> amount = read_amount(reading, part, findings);
    if (!amount) return;
    amounts.push_back(amount->si);
    if (!out.written) out.written = amount->written;
  }
  out.amounts.emplace(reading.id, std::move(amounts));
}

void take_choice(const GaugeChoice& choice, const std::string& word, GaugeReadings& out,
                 Findings& findings) {
  std::vector<std::string> known;
  for (const GaugeChoice::Value& value : choice.values) known.push_back(value.id);
  const std::string plain = word.starts_with('#') ? word.substr(1) : word;
  if (std::find(known.begin(), known.end(), plain) != known.end()) {
    out.choices.emplace(choice.id, plain);
    return;
  }
  std::string help = suggestion(plain, known);
  if (help.empty()) help = fmt::format("one of {}", fmt::join(known, ", "));
  refuse(findings, Code::unknown_name, choice.id,
         fmt::format("`{}` is not a value of `--{}`", word, choice.id), help);
}

void refuse_option(const Gauge& gauge, const std::string& option,
                   const std::vector<std::string>& others, Findings& findings) {
  std::vector<std::string> known;
  for (const std::string& each : options_of(gauge)) known.push_back("--" + each);
  std::vector<std::string> all = known;
  for (const std::string& each : others) all.push_back("--" + each);
  const std::string near = nearest_name("--" + option, all);
  refuse(findings, Code::bad_option, option,
         fmt::format("`--{}` is not an option of `check {}`", option, gauge.id),
         near.empty() ? fmt::format("it takes {}", fmt::join(known, ", "))
                      : fmt::format("did you mean `{}`?", near));
}

void take_one(const Gauge& gauge, const std::string& option, const std::string& words,
              const std::vector<std::string>& others, GaugeReadings& out, Findings& findings) {
  if (out.amounts.contains(option) || out.choices.contains(option)) {
    refuse(findings, Code::bad_option, option, fmt::format("`--{}` is given twice", option),
           "give it once");
    return;
  }
  if (const GaugeReading* reading = gauge.reading(option)) {
    return take_reading(*reading, words, out, findings);
  }
  if (const GaugeChoice* choice = gauge.choice(option)) {
    return take_choice(*choice, words, out, findings);
  }
  refuse_option(gauge, option, others, findings);
}

bool is_given(const GivenWords& given, const std::string& option) {
  return std::any_of(given.begin(), given.end(),
                     [&](const auto& each) { return each.first == option; });
}

/// Every reading that must be there and is not, by name.
void find_missing(const Gauge& gauge, const GivenWords& given, Findings& findings) {
  const auto missing = [&](const std::string& option, const std::string& label,
                           const std::string& how) {
    refuse(findings, Code::bad_option, option, fmt::format("`--{}` is missing: {}", option, label),
           how);
  };
  for (const GaugeReading& reading : gauge.readings) {
    if (reading.optional || is_given(given, reading.id)) continue;
    missing(reading.id, reading.label, fmt::format("such as --{} {}", reading.id, reading.example));
  }
  for (const GaugeChoice& choice : gauge.choices) {
    if (is_given(given, choice.id)) continue;
    std::vector<std::string> values;
    for (const GaugeChoice::Value& value : choice.values) values.push_back(value.id);
    missing(
        choice.id, choice.label,
        fmt::format("--{} {}", choice.id, fmt::join(values, fmt::format(", --{} ", choice.id))));
  }
  const bool any = std::any_of(gauge.one_of.begin(), gauge.one_of.end(),
                               [&](const std::string& each) { return is_given(given, each); });
  if (any || gauge.one_of.empty()) return;
  refuse(findings, Code::bad_option, gauge.one_of.front(),
         fmt::format("one of --{} is missing", fmt::join(gauge.one_of, ", --")),
         fmt::format("`kartwright check {}` says how to measure", gauge.id));
}

}  // namespace

GaugeReadings read_gauge_readings(const Gauge& gauge, const GivenWords& given,
                                  const std::vector<std::string>& others) {
  Findings findings;
  GaugeReadings out;
  for (const auto& [option, words] : given) take_one(gauge, option, words, others, out, findings);
  find_missing(gauge, given, findings);
  findings.throw_if_errors();
  return out;
}

std::string plausible_text(const GaugeReading& reading, System system) {
  return fmt::format("between {} and {}", print_quantity(reading.from, reading.kind, system),
                     print_quantity(reading.to, reading.kind, system));
}

}  // namespace kartwright
