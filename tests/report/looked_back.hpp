// SPDX-License-Identifier: MIT
#pragma once

#include <limits>

#include "history/lookback.hpp"
#include "history/lookback_book.hpp"

namespace driftwarden {

// A look-back on the small book of tests/history/lookback_book.hpp, whose only rule is a drift within 5 %.
struct LookedBack {
  explicit LookedBack(const BookText& text = lookback_text())
      : judged(text, drift_within_5_percent()),
        lookback(look_back(judged.screening(),
                           *window_of(judged.screening(), certificate_of(judged.book(), "V1/found")),
                           std::numeric_limits<Day>::max())) {}

  JudgedBook judged;
  Lookback lookback;
};

// The same where V1 was never known to be good.
inline BookText open_window_text() {
  BookText text = lookback_text();
  const std::size_t good = text.certificates.find("V1/good");
  text.certificates.erase(good, text.certificates.find('\n', good) + 1 - good);
  return text;
}

// The same where S3, which leaned on it before sampling, was not read afterwards.
inline BookText incomplete_text() {
  BookText text = lookback_text();
  const std::size_t post = text.readings.find("2026-03-07T16:10,post,S3");
  text.readings.erase(post, text.readings.find('\n', post) + 1 - post);
  return text;
}

// The same where two crews had the calibrators, and S3 was read with V2 afterwards.
inline BookText held_text() {
  BookText text = lookback_text();
  text.readings.replace(text.readings.find("post,S3,V3"), 10, "post,S3,V2");
  text.issues = "kit,instrument,out,to\nK-1,V1,2026-03-01,north crew\nK-2,V2,2026-03-01,crew\n";
  return text;
}

// And one whose texts would break a page.
inline BookText hostile_text() {
  BookText text = lookback_text();
  text.settings = "title = \"<b>Quarry</b> & sons\"\ntime_zone = \"UTC\"\n";
  for (std::string* file : {&text.samples, &text.readings}) {
    for (std::size_t at = 0; (at = file->find("S1,", at)) != std::string::npos; at += 20) {
      file->replace(at, 2, "<i onload=x>S1\u202E");
    }
  }
  return text;
}

inline std::size_t times(std::string_view text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string_view::npos; at += part.size()) ++count;
  return count;
}

}  // namespace driftwarden
