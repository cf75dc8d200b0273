// SPDX-License-Identifier: MIT
#pragma once

#include <numeric>
#include <vector>

#include "book/timestamp.hpp"
#include "history/review.hpp"
#include "support/book_text.hpp"

namespace driftwarden {

inline Day day(const std::string& text) {
  Day result = no_day;
  StampReader(TimeZone::utc(), DateOrder::iso).read_date(text, result);
  return result;
}

// A small book that has been reviewed.
class ReviewedBook {
 public:
  explicit ReviewedBook(const BookText& text, const RulesText& rules = {}, const std::string& as_of = "2026-09-24",
                        int days = 7)
      : book_(text, rules) {
    std::vector<Row> all(book_.book().instruments.size());
    std::iota(all.begin(), all.end(), Row{0});
    histories_ = histories_of(book_.screening(), all, day(as_of), {});
    review_ = review_of(book_.screening(), histories_, day(as_of), days);
  }

  const Review& review() const { return review_; }
  const Screening& screening() const { return book_.screening(); }
  const std::vector<InstrumentHistory>& histories() const { return histories_; }

  // The actions as "kind name" or, open from before, "(kind name)".
  std::vector<std::string> actions() const {
    std::vector<std::string> texts;
    for (const ReviewAction& action : review_.actions) {
      const std::string text = std::string(to_text(action.kind)) + " " + action.name;
      texts.push_back(action.is_recent ? text : "(" + text + ")");
    }
    return texts;
  }

 private:
  JudgedBook book_;
  std::vector<InstrumentHistory> histories_;
  Review review_;
};

inline RulesText drift_within(const std::string& limit, Otherwise otherwise = Otherwise::void_) {
  return {{{Subject::sample, "drift", "within", {limit}, otherwise}}};
}

}  // namespace driftwarden
