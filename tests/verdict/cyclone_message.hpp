// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "support/book_text.hpp"
#include "verdict/message.hpp"

namespace driftwarden {

// What a rule on the cut that hardly anything keeps says of the one sample of a book; "" where it is kept.
inline std::string of_cyclone(const BookText& text, std::string_view measure,
                              const Sampler& sampler = cyclone_sampler()) {
  const bool is_size = measure == "cut.size";
  const RuleText rule{Subject::sample, measure, is_size ? "at_most" : "within", {is_size ? "4.1 µm" : "0.01 %"}};
  JudgedBook book(text, {{rule}, {sampler}});
  const SampleResult& result = book.result("S1");
  return result.findings.empty() ? "" : message_of(book.screening(), result, result.findings.front());
}

}  // namespace driftwarden
