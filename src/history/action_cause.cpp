// SPDX-License-Identifier: MIT
#include "history/action_cause.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

// What a symptom of a wrong calibrator waits for, and what holds until then.
std::string_view wait_of(const ReviewAction& symptom) {
  if (symptom.of == ActionSubject::instrument)
    return "Wait for the look-back before anything is done about these pumps: this calibrator's error may be all there "
           "is to it. Until then use them only where another calibrator finds them in order.";
  if (symptom.kind == ActionKind::weigh)
    return "Wait for the look-back before anything is decided about these samples: this calibrator's error may be all "
           "there is to it. Until then pass the reason on with every result.";
  return "Wait for the look-back before these are sampled again: without this calibrator's error they may stand. Until "
         "then leave their volumes out of every result.";
}

std::string_view own_of(const ReviewAction& symptom) { return symptom.what; }

bool is_of_a_wrong_calibrator(const ReviewAction& action) {
  return action.kind == ActionKind::look_back || action.kind == ActionKind::check_calibrator;
}

bool is_of_papers(const ReviewAction& action) {
  return action.kind == ActionKind::recalibrate || action.kind == ActionKind::find_certificate;
}

bool is_of_a_calibrator(const ReviewAction& action) {
  return action.of == ActionSubject::instrument && (is_of_a_wrong_calibrator(action) || is_of_papers(action));
}

// The one calibrator that all of them name; no_row where there is none, or several.
Row only_one(const std::vector<LeansOnCalibrator>& all) {
  for (const LeansOnCalibrator& each : all) {
    if (each.calibrator != all.front().calibrator) return no_row;
  }
  return all.empty() ? no_row : all.front().calibrator;
}

bool says_the_same(const std::vector<Reason>& one, const std::vector<Reason>& other) {
  return std::ranges::equal(one, other, {}, &Reason::said, &Reason::said);
}

void take_in(ReviewAction& cause, ReviewAction&& symptom, std::string_view what) {
  const Touched member{symptom.of, symptom.name, symptom.row, symptom.is_recent};
  cause.is_recent = cause.is_recent || symptom.is_recent;
  cause.arose = cause.arose == no_day || symptom.arose == no_day ? no_day : std::max(cause.arose, symptom.arose);
  for (TouchedPart& part : cause.touched) {
    if (part.kind != symptom.kind || part.what != what || !says_the_same(part.why, symptom.why)) continue;
    part.members.push_back(member);
    return;
  }
  TouchedPart part{symptom.kind, std::string(what), std::move(symptom.why), {member}, false};
  part.is_the_same = what == cause.what && says_the_same(part.why, cause.why);
  const auto alike = std::find_if(cause.touched.rbegin(), cause.touched.rend(),
                                  [&](const TouchedPart& each) { return each.what == what; });
  cause.touched.insert(alike == cause.touched.rend() ? cause.touched.end() : alike.base(), std::move(part));
}

class Causes {
 public:
  Causes(const Book& book, std::vector<ReviewAction> actions) : book_(book), actions_(std::move(actions)) {}

  std::vector<ReviewAction> all() {
    each_into([this](const ReviewAction& symptom) { return wrong_calibrator_of(symptom); }, wait_of);
    each_into([this](const ReviewAction& symptom) { return papers_of(symptom); });
    each_into([this](const ReviewAction& symptom) { return pump_of(symptom); });
    batches();
    instruments();
    return std::move(actions_);
  }

 private:
  using Found = ReviewAction*;

  // Takes every symptom into the action that `cause_of` finds for it.
  template <class CauseOf>
  void each_into(CauseOf cause_of, std::string_view (*what_of)(const ReviewAction&) = own_of) {
    std::vector<bool> is_taken(actions_.size());
    about_instruments_.clear();
    for (ReviewAction& action : actions_) {
      if (action.of == ActionSubject::instrument) about_instruments_.push_back(&action);
    }
    for (std::size_t i = 0; i < actions_.size(); ++i) {
      const Found cause = cause_of(actions_[i]);
      if (cause == nullptr || cause == &actions_[i]) continue;
      is_taken[i] = true;
      const std::string what(what_of(actions_[i]));
      take_in(*cause, std::move(actions_[i]), what);
    }
    drop(is_taken);
  }

  void drop(const std::vector<bool>& is_taken) {
    std::vector<ReviewAction> left;
    for (std::size_t i = 0; i < actions_.size(); ++i) {
      if (!is_taken[i]) left.push_back(std::move(actions_[i]));
    }
    actions_ = std::move(left);
  }

  template <class IsIt>
  Found find(IsIt is_it) {
    const auto found = std::ranges::find_if(about_instruments_, [&](Found each) { return is_it(*each); });
    return found == about_instruments_.end() ? nullptr : *found;
  }

  // The first wrong calibrator among those whose error could be the reason. A pump is not taken out on its word.
  Found wrong_calibrator_of(const ReviewAction& symptom) {
    if (is_of_a_calibrator(symptom) || symptom.origin.error.empty()) return nullptr;
    return find([&](const ReviewAction& cause) {
      return is_of_a_wrong_calibrator(cause) && std::ranges::any_of(symptom.origin.error, [&](const auto& leans) {
               const Day until = cause.origin.wrong_until;
               return leans.calibrator == cause.row && (until == no_day || leans.on < until);
             });
    });
  }

  // Of several calibrators the first, where something is to be done about each.
  Found papers_of(const ReviewAction& symptom) {
    const auto papers = [this](const LeansOnCalibrator& leans) {
      return find([&](const ReviewAction& cause) { return is_of_papers(cause) && cause.row == leans.calibrator; });
    };
    const std::vector<LeansOnCalibrator>& state = symptom.origin.state;
    const bool are_all_told = std::ranges::all_of(state, [&](const auto& leans) { return papers(leans) != nullptr; });
    return state.empty() || !are_all_told ? nullptr : papers(state.front());
  }

  Found pump_of(const ReviewAction& symptom) {
    if (symptom.of != ActionSubject::sample || !symptom.origin.is_of_flow) return nullptr;
    const Row pump = book_.samples.pump[symptom.row];
    return find([&](const ReviewAction& cause) {
      return cause.kind == ActionKind::take_out && cause.row == pump &&
             std::ranges::find(cause.origin.spoilt, symptom.name) != cause.origin.spoilt.end();
    });
  }

  // Samples of a batch, or that name one calibrator for its papers, of which the same rules say that the same is to be
  // done.
  void batches() {
    using Key = std::tuple<Row, std::string, ActionKind, std::string, std::vector<std::string>>;
    std::map<Key, std::vector<std::size_t>> alike;
    for (std::size_t i = 0; i < actions_.size(); ++i) {
      const ReviewAction& action = actions_[i];
      const Row calibrator = only_one(action.origin.state);
      if (action.of != ActionSubject::sample || (calibrator == no_row && action.origin.batch.empty())) continue;
      std::vector<std::string> rules;
      for (const Reason& reason : action.why) rules.push_back(reason.rule);
      alike[{calibrator, calibrator == no_row ? action.origin.batch : "", action.kind, action.what, rules}].push_back(
          i);
    }
    for (Row row = 0; !alike.empty() && row < book_.samples.size(); ++row) ++in_batch_[batch_of(row)];
    std::vector<bool> is_taken(actions_.size());
    for (const auto& [key, places] : alike) {
      if (places.size() < 2) continue;
      ReviewAction cause = std::get<Row>(key) == no_row ? about_batch(places) : about_calibrator(places);
      cause.arose = actions_[places.front()].arose;
      for (const std::size_t place : places) {
        if (place != places.front()) is_taken[place] = true;
        take_in(cause, std::move(actions_[place]), cause.what);
      }
      actions_[places.front()] = std::move(cause);
    }
    drop(is_taken);
  }

  ReviewAction about_batch(const std::vector<std::size_t>& places) const {
    const ReviewAction& first = actions_[places.front()];
    const std::string said = "The same of " + std::to_string(places.size()) + " of its " +
                             counted(in_batch_.at(batch_of(first.row)), "sample", "samples and blanks");
    return {first.kind, ActionSubject::batch, first.origin.batch, first.what, {{said, ""}}, no_row, false};
  }

  ReviewAction about_calibrator(const std::vector<std::size_t>& places) const {
    const ReviewAction& first = actions_[places.front()];
    const Row calibrator = only_one(first.origin.state);
    const std::string said =
        std::to_string(places.size()) + " samples were read with it when its papers were not in order";
    return {
        first.kind, ActionSubject::instrument, book_.instruments[calibrator].name, first.what, {{said, ""}}, calibrator,
        false};
  }

  TextId batch_of(Row sample) const { return field(book_.samples.batch, sample, TextId{0}); }

  // Into the first of those of whom the very same is said.
  void instruments() {
    std::map<std::tuple<ActionKind, bool, std::string, std::string>, Found> firsts;
    each_into([&](ReviewAction& symptom) -> Found {
      if (symptom.of != ActionSubject::instrument || !symptom.touched.empty() || symptom.why.size() != 1)
        return nullptr;
      return firsts.try_emplace({symptom.kind, symptom.is_recent, symptom.what, symptom.why[0].said}, &symptom)
          .first->second;
    });
  }

  const Book& book_;
  std::vector<ReviewAction> actions_;
  std::vector<Found> about_instruments_;
  std::map<TextId, std::size_t> in_batch_;
};

}  // namespace

std::vector<ReviewAction> by_cause(const Book& book, std::vector<ReviewAction> actions) {
  return Causes(book, std::move(actions)).all();
}

}  // namespace driftwarden
