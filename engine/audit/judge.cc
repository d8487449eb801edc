#include "engine/audit/judge.h"

#include <functional>

namespace kartwright {
namespace {

void each_test_of(const Condition& condition, const std::function<void(const Test&)>& visit) {
  if (condition.op == Condition::Op::test) visit(condition.test);
  for (const Condition& part : condition.parts) each_test_of(part, visit);
}

}  // namespace

Search search(const Condition& condition, const Pack& pack, const std::vector<std::string>& fitted,
              FactsAs facts) {
  const std::optional<NormalForm> form = normal_form(condition, pack, facts);
  if (!form) return {.too_large = true};
  for (const Conjunction& all : *form) {
    if (auto sample = sample_of(all, pack, fitted)) return {.sample = std::move(sample)};
  }
  return {};
}

std::optional<bool> implies(const Condition& first, const Condition& second, const Pack& pack) {
  const Search against = search(both_of(first, denial_of(second)), pack);
  if (against.too_large) return std::nullopt;
  return against.impossible();
}

Condition both_of(const Condition& a, const Condition& b) {
  return {.op = Condition::Op::all, .parts = {a, b}};
}

Condition denial_of(const Condition& condition) {
  return {.op = Condition::Op::negated, .parts = {condition}};
}

std::vector<FactTest> fact_tests(const Condition& condition) {
  std::vector<FactTest> out;
  each_test_of(condition, [&](const Test& test) {
    if (const auto* fact = std::get_if<FactTest>(&test)) out.push_back(*fact);
  });
  return out;
}

std::vector<std::string> symptoms_of(const Condition& condition) {
  std::vector<std::string> out;
  each_test_of(condition, [&](const Test& test) {
    if (const auto* report = std::get_if<ReportTest>(&test)) out.push_back(report->symptom);
  });
  return out;
}

}  // namespace kartwright
