#include "engine/advice/interview.h"

#include <algorithm>
#include <cmath>

#include "engine/debrief/debrief_file.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

using Eigen::Index;

bool in_tenths_differ(double a, double b) {
  constexpr double kTenths = 10.0;
  return std::round(a * kTenths) != std::round(b * kTenths);
}

Moved what_moved(const Advice& before, const Advice& after, const Pack& pack) {
  Moved moved{.leads = what_leads(after), .led = what_leads(before)};
  for (std::size_t i = 0; i < pack.axes.size(); ++i) {
    const double from = before.belief.mean[static_cast<Index>(i)];
    const double to = after.belief.mean[static_cast<Index>(i)];
    if (in_tenths_differ(from, to)) moved.axes.push_back({&pack.axes[i], from, to});
  }
  const auto weight = [](const Moved::OnAxis& m) {
    return m.axis->weight * std::abs(m.to - m.from);
  };
  std::stable_sort(moved.axes.begin(), moved.axes.end(),
                   [&](const auto& a, const auto& b) { return weight(a) > weight(b); });
  return moved;
}

bool is_track(const Question& question) {
  return question.fact != nullptr && question.fact->id == engine_facts::kTrack;
}

bool same(const Question& a, const Question& b) { return a.id() == b.id() && a.phase == b.phase; }

bool says_nothing(const Heard& heard) {
  return heard.reports.empty() && heard.facts.empty() && heard.not_understood.empty();
}

/// What is said last of a plain fact counts.
void drop_restated(const std::vector<StatedFact>& again, std::vector<StatedFact>& facts) {
  std::erase_if(facts, [&](const StatedFact& old) {
    return std::any_of(again.begin(), again.end(),
                       [&](const StatedFact& fact) { return fact.fact == old.fact; });
  });
}

}  // namespace

std::string what_leads(const Advice& advice) {
  switch (advice.verdict.headline) {
    case Headline::stop_and_fix:
      return advice.checks.empty() ? "stop and fix" : "stop: " + advice.checks.front().fault->label;
    case Headline::ask_again:
      return "ask again, it does not fit together";
    case Headline::leave_alone:
      return "leave it alone";
    case Headline::wait_for_track:
      return "wait for the track";
    case Headline::change:
      break;
  }
  if (advice.changes.empty()) return "no change";
  const Change& first = advice.changes.front();
  return first.adjustment().phrases.at(first.candidate.option.direction) + ", to " + first.to;
}

Interview::Interview(const InterviewOf& of, Debrief begun) : of_(of), reader_(of.pack) {
  now_.debrief = std::move(begun);
  settle();
}

void Interview::settle() {
  constexpr Depth kForQuestions{.questions = true, .together = 2};
  advice_ = advise(of_.pack, of_.kart, now_.debrief, of_.units, kForQuestions, of_.history);
  next_ = pick();
}

bool Interview::skipped(const Question& question) const {
  const std::pair<std::string_view, Phase> key{question.id(), question.phase};
  return std::find(now_.skipped.begin(), now_.skipped.end(), key) != now_.skipped.end();
}

std::optional<Asking> Interview::pick() const {
  const Question* first = nullptr;
  for (const Question& question : advice_.questions) {
    if (skipped(question)) continue;
    if (is_track(question)) return asking_of(question, of_.pack);
    if (first == nullptr) first = &question;
  }
  if (first != nullptr && first->worth >= kWorthAsking) return asking_of(*first, of_.pack);
  if (!now_.opened && says_nothing(now_.debrief.heard)) return open_question();
  return std::nullopt;
}

void Interview::skip(const Asking& asking) {
  if (asking.about == Asking::About::words)
    now_.opened = true;
  else
    now_.skipped.emplace_back(asking.question.id(), asking.question.phase);
}

void Interview::take(const Understood& understood) {
  if (!understood.track.empty()) now_.debrief.track = understood.track;
  drop_restated(understood.heard.facts, now_.debrief.heard.facts);
  add_heard(now_.debrief, understood.heard);
  ++now_.answers;
}

AnswerTaken Interview::answer(std::string_view text) {
  using Kind = Understood::Kind;
  const Asking asked = *next_;
  AnswerTaken out{.understood = reader_.read(text, asked)};
  const Kind kind = out.understood.kind;
  if (kind != Kind::answer && kind != Kind::skip && kind != Kind::back) return out;
  if (kind == Kind::back) {
    if (before_.empty()) return out;
    now_ = std::move(before_.back());
    before_.pop_back();
  } else {
    before_.push_back(now_);
    if (kind == Kind::skip || asked.about == Asking::About::words) skip(asked);
    if (kind == Kind::answer) take(out.understood);
  }
  const Advice earlier = std::move(advice_);
  settle();
  out.taken = true;
  out.open = kind == Kind::answer && asked.about != Asking::About::words &&
             std::any_of(advice_.questions.begin(), advice_.questions.end(),
                         [&](const Question& each) { return same(each, asked.question); });
  out.moved = what_moved(earlier, advice_, of_.pack);
  return out;
}

}  // namespace kartwright
