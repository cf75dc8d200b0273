// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/reviewed_book.hpp"
#include "report/html_text.hpp"
#include "report/review_page.hpp"

namespace driftwarden {

// What a page is made of, for a small book; a test adds what it is about.
inline ReviewPage page_of(const ReviewedBook& book, const std::string& as_of = "2026-09-24") {
  ReviewPage page{book.screening(), book.review(), book.histories(), day(as_of), "0.1.0", {}, {}, {}, {}, {}, {}, {}};
  page.inputs.push_back({"book.toml", 40, std::string(64, 'a')});
  return page;
}

// One part of the page.
template <class Part>
std::string part_of(const ReviewPage& page, Part append) {
  std::string out;
  HtmlText html(out);
  append(html, page);
  return out;
}

inline bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

inline std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

}  // namespace driftwarden
