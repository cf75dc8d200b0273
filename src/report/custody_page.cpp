// SPDX-License-Identifier: MIT
#include <iterator>
#include <span>
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
  explicit CustodyPage(const CustodySheet& sheet) : sheet_(sheet), common_(sheet.common_remarks()), html_(out_) {}

  std::string text() {
    head();
    particulars();
    samples();
    if (!sheet_.voids.empty()) voids();
    hand_over_lines();
    foot();
    return std::move(out_);
  }

 private:
  void head() {
    append_page_head(html_, {"Chain of custody, batch " + sheet_.batch, std::string(custody_css()), {}, sheet_.paper});
    html_.open("body").line_end();
    html_.open("header", {{"class", "masthead"}}).element("p", {{"class", "kicker"}}, "Chain of custody");
    html_.open("h1").text("Batch ").from_book(sheet_.batch).close().line_end();
    html_.open("p", {{"class", "days"}}).from_book(sheet_.title).text(". " + totals() + ".").close();
    html_.close().line_end().open("main").line_end();
  }

  std::string totals() const {
    const std::size_t blanks = sheet_.blanks();
    return counted(sheet_.lines.size() - blanks, "sample", "samples") + ", " + counted(blanks, "blank", "blanks") +
           "; " + std::to_string(sheet_.voids.size()) + " void, listed apart";
  }

  // Who sends what to whom. What nobody said is a line to write on.
  void particulars() {
    html_.open("dl", {{"class", "parties"}}).line_end();
    particular("From", sheet_.consignment.sender);
    particular("To the laboratory", sheet_.consignment.laboratory);
    particular("Laboratory's reference", {sheet_.consignment.reference});
    for (const SharedParticular& each : shared_particulars) particular(each.on_a_form, {sheet_.usual(each)});
    html_.close().line_end();
  }

  void particular(std::string_view name, const std::vector<std::string>& lines) {
    const bool is_said = !lines.empty() && !lines.front().empty();
    html_.open("div").element("dt", name).open("dd", {{"class", is_said ? "" : "to-write"}});
    if (is_said) texts(lines);
    html_.close().close().line_end();
  }

  // A heading: its words and the class of its column.
  using Heading = std::pair<std::string_view, std::string_view>;
  void headings(std::span<const Heading> columns) {
    html_.open("table").open("thead").open("tr");
    for (const auto& [words, kind] : columns) html_.element("th", {{"scope", "col"}, {"class", kind}}, words);
    html_.close().close().line_end();
  }

  // A cell; where lines become paragraphs, its label stands before it.
  void cell(const Heading& column, std::string_view words) {
    html_.open("td", {{"class", column.second}, {"data-label", column.first}});
    if (!words.empty()) html_.from_book(words);
    html_.close();
  }

  void texts(const std::vector<std::string>& texts) {
    bool is_first = true;
    for (const std::string& text : texts) {
      if (!std::exchange(is_first, false)) html_.markup("<br>");
      html_.from_book(text);
    }
  }

  // What there is to say of a line besides: across the sheet, below its row.
  void below(const std::vector<std::string>& words, std::size_t columns) {
    if (words.empty()) return;
    html_.open("tr", {{"class", "below"}}).open("td", {{"colspan", std::to_string(columns)}});
    for (const std::string& text : words) html_.from_book(text);
    html_.close().close().line_end();
  }

  void samples() {
    constexpr Heading columns[] = {{"sample", "sample"},    {"medium", "medium"},
                                   {"pump", "pump"},        {"date", "time"},
                                   {"start", "time"},       {"stop", "time"},
                                   {"min", "figure"},       {"flow, L/min", "figure"},
                                   {"volume, L", "figure"}, {"ref. volume, L", "figure"}};
    html_.element("h2", "Samples and blanks").line_end();
    for (const std::string& remark : common_)
      html_.open("p", {{"class", "common"}}).text("Of every sample listed: ").from_book(remark).text(".").close();
    headings(columns);
    for (const CustodyLine& line : sheet_.lines) {
      const std::string cells[] = {line.medium, line.pump,   line.is_blank ? "blank" : line.date,
                                   line.start,  line.stop,   line.minutes,
                                   line.flow,   line.volume, line.volume_reference};
      html_.open("tbody", {{"class", "record"}}).open("tr").element_from_book("th", {{"scope", "row"}}, line.sample);
      for (std::size_t i = 0; i < std::size(cells); ++i) cell(columns[i + 1], cells[i]);
      html_.close().line_end();
      below(remarks_of(line, common_), std::size(columns));
      html_.close().line_end();
    }
    html_.close().line_end();
    note();
  }

  std::vector<std::string> remarks_of(const CustodyLine& line, const std::vector<std::string>& said_already) const {
    std::vector<std::string> words = without(said_already, line.remarks);
    std::string unlike = sheet_.unlike_usual(line);
    if (!unlike.empty()) words.insert(words.begin(), std::move(unlike));
    return words;
  }

  void note() {
    html_.element(
        "p", {{"class", "note"}},
        "Analysis, method, sampler and who took it are as above, unless said below a row. Times: " + sheet_.zone +
            ". Flow and volume are actual, at the conditions of sampling; the reference volume is at " +
            sheet_.reference + ". Minutes are without pauses.");
    html_.line_end();
    append_verdict_key(html_, KeyOf::verdicts);
  }

  void voids() {
    constexpr Heading columns[] = {{"sample", "sample"}, {"medium", "medium"}, {"pump", "pump"}, {"date", "time"}};
    html_.element("h2", "Void: no air volume is stated for these").line_end();
    headings(columns);
    for (const CustodyLine& line : sheet_.voids) {
      html_.open("tbody", {{"class", "record"}}).open("tr").element_from_book("th", {{"scope", "row"}}, line.sample);
      cell(columns[1], line.medium);
      cell(columns[2], line.pump);
      cell(columns[3], line.date);
      html_.close().line_end();
      std::vector<std::string> words = line.reasons;
      for (std::string& remark : remarks_of(line, {})) words.push_back(std::move(remark));
      below(words, std::size(columns));
      html_.close().line_end();
    }
    html_.close().line_end();
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
  const std::vector<std::string> common_;
  std::string out_;
  HtmlText html_;
};

}  // namespace

std::string custody_page(const CustodySheet& sheet) { return CustodyPage(sheet).text(); }

}  // namespace driftwarden
