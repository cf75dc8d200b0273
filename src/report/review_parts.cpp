// SPDX-License-Identifier: MIT
#include "report/review_parts.hpp"

namespace driftwarden {

std::string sample_anchor(Row row) { return "s" + std::to_string(row); }
std::string instrument_anchor(Row row) { return "i" + std::to_string(row); }

void open_section(HtmlText& html, int number, std::string_view id, std::string_view heading) {
  const std::string heading_id = std::string(id) + "-heading";
  html.open("section", {{"id", id}, {"aria-labelledby", heading_id}}).line_end();
  html.open("h2", {{"id", heading_id}});
  html.element("span", {{"class", "number"}}, std::to_string(number)).text(" ").text(heading).close().line_end();
}

void open_table(HtmlText& html, std::string_view classes, std::string_view caption,
                std::initializer_list<std::string_view> headings) {
  html.open("table", {{"class", classes}}).element("caption", caption).open("thead").open("tr");
  for (const std::string_view heading : headings) {
    const bool is_figure = heading.starts_with('#');
    html.element("th", {{"scope", "col"}, {"class", is_figure ? "figure" : "word"}}, heading.substr(is_figure ? 1 : 0));
  }
  html.close().close().line_end();
}

void close_table(HtmlText& html) { html.close().line_end(); }

}  // namespace driftwarden
