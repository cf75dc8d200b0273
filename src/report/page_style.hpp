// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "record/moment.hpp"
#include "report/html_text.hpp"
#include "verdict/finding.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden {

// Style sheets and the script of the pages: src/report/….css and review.js, built into the engine. All pages share the
// first, and lay their own on top of it.
std::string_view page_css();
std::string_view review_css();
std::string_view custody_css();
std::string_view letter_css();
std::string_view lookback_css();
std::string_view sheet_css();
std::string_view labels_css();
std::string_view form_css();
std::string_view form_js();
std::string_view kit_css();
std::string_view review_js();

struct PageHead {
  std::string title;
  std::string style;             // on top of page_css()
  std::string_view script = {};  // of the page's own; empty: none may run
  std::string paper = {};        // CSS size of the sheet, "A4 landscape"; "" leaves it to the printer
};

// What a page says of its making, and what it is printed on.
struct PageMaking {
  Day as_of = no_day;
  std::string_view version;
  std::string paper;  // CSS size of the sheet, "A4"; "" leaves it to the printer
};

// Of a sheet that lies: "A4 landscape".
std::string lying(const std::string& paper);

// A page from its first byte to the end of its head, with a policy that lets nothing come from anywhere.
void append_page_head(HtmlText& html, const PageHead& head);

// A verdict as a word with its mark, the same on every page.
void append_verdict(HtmlText& html, Verdict verdict);

// What the verdicts mean, small, below a list of them.
void append_verdict_key(HtmlText& html, KeyOf what);

// A Content-Security-Policy that allows just this style sheet and this script (none where it is empty), by their
// SHA-256, and nothing from anywhere else.
std::string content_policy(std::string_view style, std::string_view script);

// SHA-256 of some bytes as such a policy writes it: "sha256-" and base64 (RFC 4648, section 4).
std::string policy_hash(std::string_view bytes);

}  // namespace driftwarden
