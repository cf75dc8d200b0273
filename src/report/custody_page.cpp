// SPDX-License-Identifier: MIT
#include <initializer_list>
#include <string_view>
#include <utility>

#include "driftwarden/book/own_page.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/report/custody_sheet.hpp"
#include "driftwarden/report/html_text.hpp"
#include "driftwarden/verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view custody_style = R"(
:root { color-scheme: light; }
@page { size: landscape; margin: 12mm; }
body { font: 9.5pt/1.35 "DejaVu Sans", "Liberation Sans", Arial, sans-serif; color: #111; background: #fff;
       max-width: 273mm; margin: 0 auto; padding: 8mm; }
h1 { font-size: 15pt; margin: 0 0 1mm; }
h2 { font-size: 11pt; margin: 6mm 0 1.5mm; break-after: avoid; }
p { margin: 1mm 0; }
.small { font-size: 8pt; color: #444; }
table { border-collapse: collapse; width: 100%; }
thead { display: table-header-group; }
tr, .hand-overs { break-inside: avoid; }
th, td { border: 0.25mm solid #888; padding: 0.8mm 1.4mm; text-align: left; vertical-align: top; }
th { background: #eee; font-weight: 600; }
th.figure, td.figure { text-align: right; width: 16mm; font-variant-numeric: tabular-nums; white-space: nowrap; }
td.time { white-space: nowrap; font-variant-numeric: tabular-nums; }
td.words { overflow-wrap: anywhere; }
.sample { width: 26mm; }
.analysis { width: 40mm; }
.method { width: 26mm; }
td.remarks { font-size: 8.5pt; }
th.figure { white-space: normal; }
.reasons { width: 55%; }
.hand-overs td { height: 11mm; }
.hand-overs th:nth-child(3) { width: 18%; }
.hand-overs th:nth-child(4) { width: 26%; }
@media print {
  body { max-width: none; padding: 0 0.3mm; }
  th { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
}
)";

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
    html_.markup("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n").markup(html_mark);
    html_.markup(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n");
    html_.markup("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    html_.element("title", "Chain of custody, batch " + sheet_.batch).line_end();
    html_.markup("<style>").markup(custody_style).markup("</style>\n</head>\n<body>\n");
    html_.open("h1").text("Chain of custody, batch ").from_book(sheet_.batch).close().line_end();
    html_.open("p").from_book(sheet_.title).close().line_end();
    const std::size_t blanks = sheet_.blanks();
    html_.element("p", counted(sheet_.lines.size() - blanks, "sample", "samples") + ", " +
                           counted(blanks, "blank", "blanks") + "; " + std::to_string(sheet_.voids.size()) +
                           " void, listed apart.");
    html_.line_end();
  }

  // A heading: its words and the class of its column.
  using Heading = std::pair<std::string_view, std::string_view>;
  void headings(std::initializer_list<Heading> columns) {
    html_.open("thead").open("tr");
    for (const auto& [words, kind] : columns) html_.element("th", {{"scope", "col"}, {"class", kind}}, words);
    html_.close().close().line_end();
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
      html_.open("tr").element_from_book("td", {{"class", "words"}}, line.sample);
      html_.element("td", {{"class", "time"}}, line.is_blank ? "blank" : line.date);
      for (const std::string* time : {&line.start, &line.stop}) html_.element("td", {{"class", "time"}}, *time);
      for (const std::string* figure : {&line.minutes, &line.flow, &line.volume, &line.volume_reference})
        html_.element("td", {{"class", "figure"}}, *figure);
      html_.element_from_book("td", {{"class", "words"}}, line.analysis);
      html_.element_from_book("td", {{"class", "words"}}, line.method);
      html_.open("td", {{"class", "words remarks"}});
      texts(line.remarks);
      html_.close().close().line_end();
    }
    html_.close().close().line_end();
    html_.element("p", {{"class", "small"}},
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
      html_.open("tr").element_from_book("td", {{"class", "words"}}, line.sample);
      html_.element("td", {{"class", "time"}}, line.date).open("td", {{"class", "words"}});
      texts(line.reasons);
      html_.close().open("td", {{"class", "words remarks"}});
      texts(line.remarks);
      html_.close().close().line_end();
    }
    html_.close().close().line_end();
  }

  void hand_over_lines() {
    html_.open("div", {{"class", "hand-overs"}});
    // It may stand on a sheet of its own.
    html_.open("h2").text("Hand-overs of batch ").from_book(sheet_.batch).close().line_end().open("table");
    headings({{"relinquished by (name, signature)", "words"},
              {"received by (name, signature)", "words"},
              {"date and time", "words"},
              {"condition, seals, temperature", "words"}});
    html_.open("tbody");
    for (int i = 0; i < hand_overs; ++i) html_.markup("<tr><td></td><td></td><td></td><td></td></tr>\n");
    html_.close().close().close().line_end();
  }

  void foot() {
    html_.element("p", {{"class", "small"}}, cautions).line_end();
    html_.element("p", {{"class", "small"}}, "driftwarden " + sheet_.version + ", as of " + sheet_.as_of + ".");
    html_.markup("\n</body>\n</html>\n");
  }

  const CustodySheet& sheet_;
  std::string out_;
  HtmlText html_;
};

}  // namespace

std::string custody_page(const CustodySheet& sheet) { return CustodyPage(sheet).text(); }

}  // namespace driftwarden
