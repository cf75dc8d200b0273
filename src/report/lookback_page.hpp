// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "history/lookback.hpp"

namespace driftwarden {

// A look-back as a page to print or to send to a client: one HTML file that needs nothing else, with the program's
// version and the day that stands for today on it.
std::string lookback_page(const Screening& screening, const Lookback& lookback, Day as_of, std::string_view version);

// The page that says that no certificate found it beyond its tolerance.
std::string lookback_page_of_nothing(const Book& book, Row instrument);

}  // namespace driftwarden
