// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "report/html_text.hpp"
#include "report/page_style.hpp"
#include "report/review_page.hpp"

// The parts of the review page, in the order they stand on it, and what they share.
namespace driftwarden {

// Anchors on the page.
std::string sample_anchor(Row row);
std::string instrument_anchor(Row row);

// A section with its number and heading; closed with two close().
void open_section(HtmlText& html, int number, std::string_view id, std::string_view heading);

// The head of a table: a caption for those who can't see it, and the headings. A heading that begins with '#' is of a
// column of figures.
void open_table(HtmlText& html, std::string_view classes, std::string_view caption,
                std::initializer_list<std::string_view> headings);
void close_table(HtmlText& html);

void append_actions(HtmlText& html, const ReviewPage& page);
void append_batches(HtmlText& html, const ReviewPage& page);
void append_samples(HtmlText& html, const ReviewPage& page);
void append_instruments(HtmlText& html, const ReviewPage& page);
// Below the due list, where the book says which kits go out.
void append_kits(HtmlText& html, const ReviewPage& page);
void append_records(HtmlText& html, const ReviewPage& page);
void append_unjudged(HtmlText& html, const ReviewPage& page);
void append_decisions(HtmlText& html, const ReviewPage& page);
void append_rules(HtmlText& html, const ReviewPage& page);
void append_provenance(HtmlText& html, const ReviewPage& page);

}  // namespace driftwarden
