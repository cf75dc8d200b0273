// SPDX-License-Identifier: MIT
#include "report/review_page.hpp"

#include "book/stamp_text.hpp"
#include "report/page_style.hpp"
#include "report/printed_figures.hpp"
#include "report/review_parts.hpp"
#include "verdict/cautions.hpp"
#include "verdict/decision_risk.hpp"

namespace driftwarden {
namespace {

// Of a book that says which kits go out.
constexpr std::string_view kits_style = ".kits tbody th, .unfit tbody th { white-space: nowrap; }\n";

std::string style_of(const ReviewPage& page) {
  std::string style(review_css());
  style += page.chart_style;
  if (keeps_kits(page.screening.book())) style += kits_style;
  return style;
}

void append_count(HtmlText& html, std::size_t count, Verdict verdict) {
  html.open("div").open("dt");
  append_verdict(html, verdict);
  html.close().element("dd", std::to_string(count)).close();
}

void append_masthead(HtmlText& html, const ReviewPage& page) {
  const Review& review = page.review;
  html.open("header", {{"class", "masthead"}}).element("p", {{"class", "kicker"}}, "Review of air-sampling flow");
  html.element_from_book("h1", {}, page.screening.book().settings.title);
  html.open("p", {{"class", "days"}}).text("Days reviewed: ");
  html.element("time", date_text(review.period.from)).text(" to ").element("time", date_text(review.period.to));
  html.text(". Everything stands as of ").element("time", date_text(page.as_of)).text(".").close();
  html.open("dl", {{"class", "counts"}});
  append_count(html, review.recent.void_, Verdict::void_);
  append_count(html, review.recent.undecided, Verdict::undecided);
  append_count(html, review.recent.qualified, Verdict::qualified);
  append_count(html, review.recent.valid, Verdict::valid);
  html.close().close().line_end();
}

void append_cautions(HtmlText& html, const ReviewPage& page) {
  html.open("aside", {{"class", "cautions"}, {"aria-label", "Cautions"}});
  html.element("p", cautions);
  html.element("p", "Decision rule: " + decision_rule_text(page.screening) + ".");
  html.close().line_end();
}

void append_contents(HtmlText& html) {
  constexpr std::pair<std::string_view, std::string_view> sections[] = {{"action", "What needs action"},
                                                                        {"batches", "Batches"},
                                                                        {"samples", "Samples"},
                                                                        {"instruments", "Pumps and calibrators"},
                                                                        {"records", "Data faults, remarks"},
                                                                        {"unjudged", "Not judged"},
                                                                        {"decisions", "Overrides, decisions"},
                                                                        {"rules", "Rules"},
                                                                        {"provenance", "Provenance"},
                                                                        {"signature", "Signature"}};
  html.open("nav", {{"aria-label", "Contents"}}).open("ol");
  for (const auto& [id, name] : sections) html.open("li").element("a", {{"href", "#" + std::string(id)}}, name).close();
  html.close().close().line_end();
}

// Lines to be filled in by hand.
void append_signature(HtmlText& html) {
  open_section(html, 10, "signature", "Signature");
  html.element("p", "I have gone through this review; what needs action has been given to somebody.");
  html.open("dl", {{"class", "sign"}});
  for (const std::string_view what : {"Reviewed by", "Function", "Date", "Signature", "Remarks"})
    html.open("div").element("dt", what).element("dd", "").close();
  html.close().close().line_end();
}

// On paper its beginning is enough to know it by.
void append_digest(HtmlText& html, std::string_view digest) {
  constexpr std::size_t shown_on_paper = 16;
  html.open("code").text(digest.substr(0, shown_on_paper));
  html.element("span", {{"class", "rest"}}, digest.substr(shown_on_paper)).close();
}

}  // namespace

void append_provenance(HtmlText& html, const ReviewPage& page) {
  const Settings& settings = page.screening.book().settings;
  open_section(html, 9, "provenance", "Where this page comes from");
  html.open("dl", {{"class", "facts"}});
  const auto fact = [&html](std::string_view what, std::string_view is) {
    html.open("div").element("dt", what).element_from_book("dd", {}, is).close();
  };
  fact("Program", "driftwarden " + page.version);
  fact("As of", date_text(page.as_of));
  fact("Time zone", settings.zone_name);
  fact("Reference conditions",
       conditions_text(settings.reference) + (settings.reference_was_said ? "" : " (preset; the book does not say)"));
  html.close().line_end();
  open_table(html, "inputs", "Files of the book as they were read", {"File", "#Bytes", "SHA-256"});
  html.open("tbody").line_end();
  for (const InputFile& file : page.inputs) {
    html.open("tr").element_from_book("th", {{"scope", "row"}}, file.name);
    const bool was_read = !file.sha256.empty();
    html.element("td", {{"class", "figure"}}, was_read ? std::to_string(file.bytes) : "");
    html.open("td");
    if (was_read) append_digest(html, file.sha256);
    if (!was_read) html.text("could not be read");
    html.close().close().line_end();
  }
  html.close();
  close_table(html);
  html.element("p", {{"class", "note"}},
               "The digests of the rule packs stand in section 8. The same files, rules and day give this page again, "
               "byte for byte.");
  html.element("p", {{"class", "note on-paper"}},
               "On paper the first 16 of the 64 digits of each digest; the file of this page has them all.");
  html.close().line_end();
}

std::string review_html(const ReviewPage& page) {
  std::string out;
  HtmlText html(out);
  const std::string title = "Review of " + page.screening.book().settings.title + ", " + date_text(page.as_of);
  append_page_head(html, {title, style_of(page), review_js(), page.paper});
  html.open("body").markup("<a class=\"skip\" href=\"#action\">To what needs action</a>\n");
  append_masthead(html, page);
  append_contents(html);
  html.open("main").line_end();
  append_cautions(html, page);
  append_actions(html, page);
  append_batches(html, page);
  append_samples(html, page);
  append_instruments(html, page);
  append_records(html, page);
  append_unjudged(html, page);
  append_decisions(html, page);
  append_rules(html, page);
  append_provenance(html, page);
  append_signature(html);
  html.close().line_end();
  html.markup("<script>" + std::string(review_js()) + "</script>\n");
  html.close().markup("\n</html>\n");
  return out;
}

}  // namespace driftwarden
