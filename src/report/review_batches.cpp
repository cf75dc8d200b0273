// SPDX-License-Identifier: MIT
#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "report/review_parts.hpp"

namespace driftwarden {
namespace {

Verdict worst_of(const Totals& totals) {
  if (totals.void_ > 0) return Verdict::void_;
  if (totals.undecided > 0) return Verdict::undecided;
  return totals.qualified > 0 ? Verdict::qualified : Verdict::valid;
}

void append_count(HtmlText& html, std::size_t count) {
  html.element("td", {{"class", count == 0 ? "figure none" : "figure"}}, std::to_string(count));
}

void append_batch(HtmlText& html, const ReviewedBatch& batch) {
  html.open("tr");
  if (batch.name.empty()) {
    html.element("th", {{"scope", "row"}}, "without a batch");
  } else {
    html.element_from_book("th", {{"scope", "row"}}, batch.name);
  }
  html.open("td");
  append_verdict(html, worst_of(batch.totals));
  html.close();
  const std::string days = date_text(batch.first) + (batch.first == batch.last ? "" : " to " + date_text(batch.last));
  html.element("td", days);
  append_count(html, batch.totals.samples - batch.blanks);
  append_count(html, batch.blanks);
  append_count(html, batch.totals.void_);
  append_count(html, batch.totals.undecided);
  append_count(html, batch.totals.qualified);
  append_count(html, batch.totals.valid);
  html.close().line_end();
}

void append_table(HtmlText& html, const ReviewPage& page, bool is_recent, std::string_view caption) {
  open_table(html, "batches", caption,
             {"Batch", "Worst verdict", "Days", "#Samples", "#Blanks", "#Void", "#Undecided", "#Qualified", "#Valid"});
  html.open("tbody").line_end();
  for (const ReviewedBatch& batch : page.review.batches) {
    if (batch.is_recent == is_recent) append_batch(html, batch);
  }
  html.close();
  close_table(html);
}

}  // namespace

void append_batches(HtmlText& html, const ReviewPage& page) {
  open_section(html, 2, "batches", "Batches");
  std::size_t earlier = 0;
  for (const ReviewedBatch& batch : page.review.batches) earlier += batch.is_recent ? 0U : 1U;
  if (earlier < page.review.batches.size()) {
    append_table(html, page, true, "Batches from these days");
  } else {
    html.element("p", "No batch falls in these days.");
  }
  if (earlier > 0) {
    html.open("details").element("summary", counted(earlier, "earlier batch", "earlier batches"));
    append_table(html, page, false, "Earlier batches");
    html.close();
  }
  html.close().line_end();
}

}  // namespace driftwarden
