// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/lookback.hpp"
#include "report/page_style.hpp"

namespace driftwarden {

// A look-back as a page to print or to send to a client: one HTML file that needs nothing else.
std::string lookback_page(const Screening& screening, const Lookback& lookback, const PageMaking& making);

// The page that says that no certificate found it beyond its tolerance.
std::string lookback_page_of_nothing(const Book& book, Row instrument, const std::string& paper);

}  // namespace driftwarden
