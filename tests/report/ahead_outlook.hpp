// SPDX-License-Identifier: MIT
#pragma once

#include "verdict/ahead_book.hpp"
#include "verdict/outlook.hpp"

namespace driftwarden {

// The outlook of one sample, without a pump, and of the blanks of so many.
class OutlookBook {
 public:
  explicit OutlookBook(const RulesText& rules = ahead_rules()) : book_({}, rules) {}

  Outlook outlook(const VolumeAsked& asked, double minutes = missing, std::size_t samples = 24) const {
    Outlook made;
    made.samples = {sample_outlook(book_.screening(), asked, minutes, 0, 20717)};
    made.samples[0].why_not = "no pump is said";
    made.blanks =
        blanks_ahead(book_.screening().rules(), "", samples, made.samples[0].volume.facts.of(MassFactKind::blanks));
    return made;
  }
  const Book& book() const { return book_.book(); }

 private:
  JudgedBook book_;
};

}  // namespace driftwarden
