// SPDX-License-Identifier: MIT
#include "history/review.hpp"

#include <algorithm>
#include <map>

#include "book/stamp_text.hpp"
#include "history/action_cause.hpp"
#include "history/calibrator_cross_check.hpp"
#include "history/instrument_action.hpp"
#include "history/record_action.hpp"
#include "history/sample_action.hpp"
#include "verdict/sample_days.hpp"

namespace driftwarden {
namespace {

constexpr double days_a_week = 7;

class ReviewMaker {
 public:
  ReviewMaker(const Screening& screening, const std::vector<InstrumentHistory>& histories, Day as_of, int days)
      : screening_(screening), book_(screening.book()), histories_(histories), as_of_(as_of) {
    review_.period = review_period(as_of, days);
    review_.load.false_actions = book_.settings.history.false_actions_a_week * days / days_a_week;
    uses_.resize(book_.instruments.size());
    unjudged_.resize(screening.rules().rules.size());
  }

  Review make() {
    samples();
    for (std::uint32_t rule = 0; rule < unjudged_.size(); ++rule) {
      unjudged_[rule].rule = rule;
      if (unjudged_[rule].undecided + unjudged_[rule].passed_over > 0) review_.unjudged.push_back(unjudged_[rule]);
    }
    review_.subjects = judge_subjects(screening_, facts_, as_of_);
    review_.instruments = standings_of(screening_, uses_, as_of_);
    cross_check();
    instruments();
    charted();
    batches();
    for (ReviewAction& action : actions_about_records(book_, touched_)) review_.actions.push_back(std::move(action));
    decisions();
    kits();
    follow_up();
    review_.kits.unfit = unfit_to_go(screening_, review_.actions, review_.instruments, as_of_);
    return std::move(review_);
  }

 private:
  void samples() {
    const SampleDays days(book_, as_of_);
    SampleJudge judge(screening_, true);
    for (Row row = 0; row < book_.samples.size(); ++row) {
      if (days.has_come(row)) {
        sample(judge.judge(row), days.day_of(row));
      } else {
        ++review_.later_samples;
      }
    }
  }

  void sample(const SampleResult& result, Day day) {
    const bool is_recent = day == no_day || review_.period.holds(day);
    ReviewedSample reviewed{result.figures->sample, result.verdict, day, is_recent, false};
    reviewed.is_settled = result.verdict != Verdict::valid && is_settled(result);
    (is_recent ? review_.recent : review_.earlier).count(result.verdict, result.standing);
    count_in_batch(reviewed);
    count_use(uses_, screening_, result, day, is_recent);
    for (const auto* findings : {&result.findings, &result.kept}) count_unjudged(*findings);
    if (result.problem != no_problem) touched_[result.problem].push_back(reviewed.sample);
    facts_.push_back(facts_of(result));
    review_.samples.push_back(reviewed);
    std::optional<ReviewAction> action = action_about(screening_, result);
    if (!action) return;
    action->is_recent = is_recent;
    action->arose = day;
    review_.actions.push_back(*std::move(action));
  }

  void count_unjudged(const std::vector<Finding>& findings) {
    for (const Finding& finding : findings) {
      if (finding.rule == Finding::faulty_records) continue;
      if (finding.judgement.outcome == Outcome::undecided) ++unjudged_[finding.rule].undecided;
      if (finding.judgement.outcome == Outcome::skipped) ++unjudged_[finding.rule].passed_over;
    }
  }

  void count_in_batch(const ReviewedSample& sample) {
    const TextId id = field(book_.samples.batch, sample.sample, TextId{0});
    const auto [found, is_new] = batch_at_.emplace(id, review_.batches.size());
    if (is_new) review_.batches.push_back({book_.texts.text(id), no_day, no_day, false, 0, {}});
    ReviewedBatch& batch = review_.batches[found->second];
    batch.totals.count(sample.verdict);
    batch.blanks += book_.samples.kind[sample.sample] == SampleKind::blank ? 1U : 0U;
    batch.is_recent = batch.is_recent || sample.is_recent;
    if (sample.day == no_day) return;
    batch.first = batch.first == no_day ? sample.day : std::min(batch.first, sample.day);
    batch.last = std::max(batch.last, sample.day);
  }

  const SubjectResult* findings_about(Subject of, const std::string& name) const {
    for (const SubjectResult& subject : review_.subjects) {
      if (subject.of == of && subject.name == name) return &subject;
    }
    return nullptr;
  }

  // Of a pump in the cupboard nothing is asked; of what is calibrated, whether it is on its way.
  std::vector<std::vector<BehaviourTest>> all_tests() {
    std::vector<std::vector<BehaviourTest>> tests(histories_.size());
    for (const InstrumentStanding& standing : review_.instruments) {
      const InstrumentHistory& history = histories_[standing.instrument];
      if (!standing.is_in_service || !standing.is_worth_a_line(book_)) continue;
      std::vector<BehaviourTest>& of_it = tests[standing.instrument];
      if (standing.was_out()) of_it = behaviour_tests(history, review_.period.from, book_.settings.zone);
      review_.load.questions += questions_about(history, of_it);
    }
    return tests;
  }

  // All questions are counted before the first is answered.
  void cross_check() {
    tests_ = all_tests();
    const CrossReadings readings = cross_readings(screening_, histories_, as_of_);
    const AllowedErrors allowed = allowed_errors(screening_, as_of_);
    review_.load.questions += calibrator_questions(readings, allowed).size();
    for (const CalibratorSuspicion& suspicion : suspicions_among(readings, allowed, review_.load.chance())) {
      const Row calibrator = suspicion.by.calibrator;
      const Day newest = local_day(suspicion.by.newest, book_.settings.zone);
      review_.actions.push_back({suspicion.is_told ? ActionKind::check_calibrator : ActionKind::cross_check,
                                 ActionSubject::instrument,
                                 book_.instruments[calibrator].name,
                                 what_to_do(suspicion, book_),
                                 {{said_of(suspicion, book_), ""}},
                                 calibrator,
                                 review_.period.holds(newest)});
      review_.actions.back().arose = newest;
    }
  }

  void instruments() {
    for (const InstrumentStanding& standing : review_.instruments) {
      const Instrument& instrument = book_.instruments[standing.instrument];
      const Subject of = instrument.kind == InstrumentKind::pump ? Subject::pump : Subject::calibrator;
      const KnownInstrument known{screening_,
                                  standing,
                                  histories_[standing.instrument],
                                  findings_about(of, instrument.name),
                                  as_of_,
                                  review_.period.from,
                                  review_.load,
                                  signals_among(tests_[standing.instrument], review_.load)};
      for (ReviewAction& action : actions_about(known)) {
        action.arose = arose(action.kind, standing);
        review_.actions.push_back(std::move(action));
      }
    }
  }

  // An instrument's papers ask every day until they are in order.
  static Day arose(ActionKind kind, const InstrumentStanding& standing) {
    if (kind == ActionKind::look_back) return standing.newest->calibrated;
    const bool is_of_use = kind == ActionKind::take_out || kind == ActionKind::adjust_soon || kind == ActionKind::watch;
    return is_of_use ? standing.use.last_used : no_day;
  }

  void charted() {
    for (const InstrumentHistory& history : histories_) {
      if (!reviewed_series(history).empty()) review_.charted.push_back(&history);
    }
    const auto serves = [this](const InstrumentHistory* of) {
      return review_.instruments[of->instrument].is_in_service;
    };
    std::stable_sort(review_.charted.begin(), review_.charted.end(),
                     [&](const InstrumentHistory* a, const InstrumentHistory* b) {
                       return serves(a) != serves(b) ? serves(a) : a->urgency > b->urgency;
                     });
  }

  void batches() {
    for (const ReviewedBatch& batch : review_.batches) {
      const SubjectResult* found = findings_about(Subject::batch, batch.name);
      if (found == nullptr || found->verdict == Verdict::valid) continue;
      ReviewAction action{ActionKind::complete_batch,
                          ActionSubject::batch,
                          batch.name,
                          "Find out whether something is missing from the book; pass the reason on with its results.",
                          {},
                          no_row,
                          batch.is_recent};
      action.arose = batch.last;
      for (const SubjectFinding& finding : found->findings)
        action.why.push_back({message_of(screening_, finding), screening_.rules().rules[finding.rule].full_name()});
      review_.actions.push_back(std::move(action));
    }
  }

  void kits() {
    review_.kits = kits_out(book_, as_of_);
    for (ReviewAction& action : actions_about_kits(book_, review_.kits, as_of_))
      review_.actions.push_back(std::move(action));
  }

  void follow_up() {
    std::vector<ReviewAction> causes = by_cause(book_, std::move(review_.actions));
    FollowedUp followed = followed_up(book_, std::move(causes), review_.period.from, as_of_);
    review_.actions = std::move(followed.to_do);
    review_.done = std::move(followed.done);
    review_.lapsed = std::move(followed.lapsed);
  }

  void decisions() {
    for (const Decision& decision : book_.decisions) {
      if (local_day(decision.decided, book_.settings.zone) <= as_of_) review_.decisions.push_back(&decision);
    }
    std::stable_sort(review_.decisions.begin(), review_.decisions.end(),
                     [](const Decision* a, const Decision* b) { return a->decided > b->decided; });
  }

  const Screening& screening_;
  const Book& book_;
  const std::vector<InstrumentHistory>& histories_;
  Day as_of_;
  Review review_;
  std::vector<InstrumentUse> uses_;
  std::vector<SampleFacts> facts_;
  std::vector<std::vector<BehaviourTest>> tests_;  // by instrument
  std::vector<UnjudgedRule> unjudged_;
  std::map<TextId, std::size_t> batch_at_;
  std::map<ProblemNumber, std::vector<Row>> touched_;
};

}  // namespace

bool Review::asks_about(Row instrument) const {
  return std::any_of(actions.begin(), actions.end(), [&](const ReviewAction& action) {
    return action.concerns(ActionSubject::instrument, instrument);
  });
}

std::size_t Review::recent_actions() const {
  return static_cast<std::size_t>(
      std::count_if(actions.begin(), actions.end(), [](const ReviewAction& action) { return action.is_recent; }));
}

ReviewPeriod review_period(Day as_of, int days) { return {as_of - days, as_of}; }

Review review_of(const Screening& screening, const std::vector<InstrumentHistory>& histories, Day as_of, int days) {
  return ReviewMaker(screening, histories, as_of, days).make();
}

}  // namespace driftwarden
