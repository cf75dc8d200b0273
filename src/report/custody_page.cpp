// SPDX-License-Identifier: MIT
#include <initializer_list>
#include <string_view>
#include <utility>

#include "quantity/rounding.hpp"
#include "report/custody_sheet.hpp"
#include "report/html_text.hpp"
#include "report/page_style.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

// One page about one sheet.
class CustodyPage {
 public:
  explicit CustodyPage(const CustodySheet& sheet) : sheet_(sheet), html_(out_) {}

  std::string text() {
    head();
    samples();
    if (!sheet_.voids.empty()) voids();
    hand_over_lines();
    foot();
    return std::move(out_);
  }

 private:
  void head() {
    append_page_head(html_, {"Chain of custody, batch " + sheet_.batch, std::string(custody_css())});
    html_.open("body").line_end();
    html_.open("header", {{"class", "masthead"}}).element("p", {{"class", "kicker"}}, "Chain of custody");
    html_.open("h1").text("Batch ").from_book(sheet_.batch).close().line_end();
    html_.open("p", {{"class", "days"}}).from_book(sheet_.title).close().line_end();
    const std::size_t blanks = sheet_.blanks();
    html_.element("p", counted(sheet_.lines.size() - blanks, "sample", "samples") + ", " +
                           counted(blanks, "blank", "blanks") + "; " + std::to_string(sheet_.voids.size()) +
                           " void, listed apart.");
    html_.close().line_end().open("main").line_end();
  }

  // A heading: its words and the class of its column.
  using Heading = std::pair<std::string_view, std::string_view>;
  void headings(std::initializer_list<Heading> columns) {
    html_.open("thead").open("tr");
    for (const auto& [words, kind] : columns) html_.element("th", {{"scope", "col"}, {"class", kind}}, words);
    html_.close().close().line_end();
  }

  // A cell; where lines become paragraphs, its label stands before it.
  void cell(std::string_view label, std::string_view kind, std::string_view words) {
    html_.element("td", {{"class", kind}, {"data-label", label}}, words);
  }
  void words_of_book(std::string_view label, std::string_view words) {
    html_.open("td", {{"data-label", label}});
    if (!words.empty()) html_.from_book(words);
    html_.close();
  }

  void texts(const std::vector<std::string>& texts) {
    bool is_first = true;
    for (const std::string& text : texts) {
      if (!is_first) html_.markup("<br>");
      is_first = false;
      html_.from_book(text);
    }
  }

  void samples() {
    html_.element("h2", "Samples and blanks").line_end().open("table");
    headings({{"sample", "sample"},
              {"date", "time"},
              {"start", "time"},
              {"stop", "time"},
              {"min", "figure"},
              {"flow, L/min", "figure"},
              {"volume, L", "figure"},
              {"ref. volume, L", "figure"},
              {"analysis wanted", "analysis"},
              {"method", "method"},
              {"remarks", "remarks"}});
    html_.open("tbody").line_end();
    for (const CustodyLine& line : sheet_.lines) {
      html_.open("tr").element_from_book("th", {{"scope", "row"}}, line.sample);
      cell("date", "time", line.is_blank ? "blank" : line.date);
      cell("start", "time", line.start);
      cell("stop", "time", line.stop);
      cell("min", "figure", line.minutes);
      cell("flow, L/min", "figure", line.flow);
      cell("volume, L", "figure", line.volume);
      cell("ref. volume, L", "figure", line.volume_reference);
      words_of_book("analysis wanted", line.analysis);
      words_of_book("method", line.method);
      html_.open("td", {{"class", "remarks"}, {"data-label", "remarks"}});
      texts(line.remarks);
      html_.close().close().line_end();
    }
    html_.close().close().line_end();
    html_.element("p", {{"class", "note"}},
                  "Times: " + sheet_.zone +
                      ". Flow and volume are actual, at the conditions of sampling; the reference "
                      "volume is at " +
                      sheet_.reference + ". Minutes are without pauses.");
    html_.line_end();
  }

  void voids() {
    html_.element("h2", "Void: no air volume is stated for these").line_end().open("table");
    headings({{"sample", "sample"}, {"date", "time"}, {"void because", "reasons"}, {"remarks", "remarks"}});
    html_.open("tbody").line_end();
    for (const CustodyLine& line : sheet_.voids) {
      html_.open("tr").element_from_book("th", {{"scope", "row"}}, line.sample);
      cell("date", "time", line.date);
      html_.open("td", {{"data-label", "void because"}});
      texts(line.reasons);
      html_.close().open("td", {{"class", "remarks"}, {"data-label", "remarks"}});
      texts(line.remarks);
      html_.close().close().line_end();
    }
    html_.close().close().line_end();
  }

  void hand_over_lines() {
    html_.open("div", {{"class", "hand-overs"}});
    // It may stand on a sheet of its own.
    html_.open("h2").text("Hand-overs of batch ").from_book(sheet_.batch).close().line_end().open("table");
    constexpr std::string_view columns[] = {"relinquished by (name, signature)", "received by (name, signature)",
                                            "date and time", "condition, seals, temperature"};
    html_.open("thead").open("tr");
    for (const std::string_view words : columns) html_.element("th", {{"scope", "col"}}, words);
    html_.close().close().line_end().open("tbody").line_end();
    for (int i = 0; i < hand_overs; ++i) {
      html_.open("tr");
      for (const std::string_view words : columns) html_.element("td", {{"data-label", words}}, "");
      html_.close().line_end();
    }
    html_.close().close().close().line_end();
  }

  void foot() {
    html_.open("aside", {{"class", "cautions"}, {"aria-label", "Cautions"}}).element("p", cautions);
    html_.element("p", "driftwarden " + sheet_.version + ", as of " + sheet_.as_of + ".").close().line_end();
    html_.close().close().markup("\n</html>\n");
  }

  const CustodySheet& sheet_;
  std::string out_;
  HtmlText html_;
};

}  // namespace

std::string custody_page(const CustodySheet& sheet) { return CustodyPage(sheet).text(); }

}  // namespace driftwarden
