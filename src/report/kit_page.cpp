// SPDX-License-Identifier: MIT
#include <initializer_list>

#include "report/html_text.hpp"
#include "report/kit_sheet.hpp"
#include "report/page_style.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

class KitPage {
 public:
  explicit KitPage(const KitSheet& sheet) : sheet_(sheet), html_(out_) {}

  std::string text() {
    head();
    particulars();
    things();
    hands();
    foot();
    return std::move(out_);
  }

 private:
  std::string_view name() const { return sheet_.kit.empty() ? sheet_.kind : sheet_.kit; }

  void head() {
    append_page_head(html_, {"Kit " + std::string(name()), std::string(kit_css()), {}, sheet_.paper});
    html_.open("body").line_end().open("header", {{"class", "masthead"}});
    html_.element("p", {{"class", "kicker"}}, "Kit list, out and back").open("h1").text("Kit ");
    html_.from_book(name()).close().line_end();
    html_.open("p", {{"class", "days"}}).from_book(sheet_.title).text(".").close();
    html_.close().line_end().open("main").line_end();
  }

  void particulars() {
    html_.open("dl", {{"class", "parties"}}).line_end();
    if (sheet_.kit.empty()) particular("Kit number", "");
    particular("Kind of kit", sheet_.kind);
    particular("To", sheet_.to);
    particular("Out on", sheet_.out);
    particular("Due back", due_back_text(sheet_));
    particular("Back on", sheet_.back);
    html_.close().line_end();
  }

  // What nobody said is a line to write on.
  void particular(std::string_view name, std::string_view said) {
    html_.open("div").element("dt", name);
    html_.open("dd", {{"class", said.empty() ? "to-write" : ""}});
    if (!said.empty()) html_.from_book(said);
    html_.close().close().line_end();
  }

  void things() {
    html_.element("h2", "What belongs to it").line_end().open("table", {{"class", "things"}}).open("thead").open("tr");
    constexpr std::pair<std::string_view, std::string_view> columns[] = {
        {"item", "item"},   {"number", "figure"}, {"instrument", "name"}, {"serial number", "name"},
        {"charged", "box"}, {"out", "box"},       {"back", "box"},        {"condition as it came back", "condition"}};
    for (const auto& [words, kind] : columns) html_.element("th", {{"scope", "col"}, {"class", kind}}, words);
    html_.close().close().line_end();
    for (const KitLine& line : sheet_.lines) thing(line);
    html_.close().line_end();
    html_.element("p", {{"class", "note"}},
                  "Tick what is there and in order, on the way out and on the way back. Cross out what is missing.");
    html_.line_end();
  }

  void thing(const KitLine& line) {
    html_.open("tbody", {{"class", "record"}}).open("tr").element_from_book("th", {{"scope", "row"}}, line.item);
    html_.element("td", {{"class", "figure"}, {"data-label", "number"}}, std::to_string(line.number));
    cell("instrument", line.instrument, line.is_instrument);
    cell("serial number", line.serial, line.is_instrument);
    box("charged", line.is_instrument, line.is_charged);
    box("out", true, false);
    box("back", true, false);
    html_.open("td", {{"class", "condition"}, {"data-label", "condition"}});
    html_.from_book(line.came_back).close().close().line_end();
    below(line);
    html_.close().line_end();
  }

  void cell(std::string_view label, std::string_view words, bool is_to_write) {
    html_.open("td", {{"class", words.empty() && is_to_write ? "name blank" : "name"}, {"data-label", label}});
    if (!words.empty()) html_.from_book(words);
    html_.close();
  }

  void box(std::string_view label, bool is_asked, bool is_ticked) {
    html_.open("td", {{"class", "box"}, {"data-label", label}});
    if (is_asked) html_.element("span", {{"class", "tick"}}, is_ticked ? "yes" : "");
    html_.close();
  }

  // What there is to say of a thing besides: across the sheet, below its row.
  void below(const KitLine& line) {
    if (line.note.empty() && line.why_unfit.empty() && !line.is_beyond_the_list) return;
    html_.open("tr", {{"class", "below"}}).open("td", {{"colspan", "8"}});
    if (!line.why_unfit.empty())
      html_.open("b", {{"class", "unfit"}}).text("Not fit to go: ").from_book(line.why_unfit).close();
    if (!line.note.empty()) html_.from_book(line.note);
    if (line.is_beyond_the_list) html_.element("bdi", "Not on the list of this kind of kit");
    html_.close().close().line_end();
  }

  void hands() {
    html_.open("div", {{"class", "hand-overs"}}).element("h2", "Checked").line_end().open("table");
    html_.open("thead").open("tr");
    for (const std::string_view words : {"", "by (name, signature)", "date and time", "remarks"})
      html_.element("th", {{"scope", "col"}}, words);
    html_.close().close().line_end().open("tbody").line_end();
    hand("on the way out", sheet_.checked_by, sheet_.out);
    hand("on the way back", sheet_.checked_back_by, sheet_.back);
    html_.close().close().close().line_end();
  }

  void hand(std::string_view when, std::string_view by, std::string_view day) {
    html_.open("tr").element("th", {{"scope", "row"}}, when).open("td", {{"data-label", "by"}}).from_book(by).close();
    html_.open("td", {{"data-label", "date and time"}}).text(day).close();
    html_.element("td", {{"data-label", "remarks"}}, "").close().line_end();
  }

  void foot() {
    html_.open("aside", {{"class", "cautions"}, {"aria-label", "Cautions"}}).element("p", cautions);
    html_.element("p", "driftwarden " + sheet_.version + ", as of " + sheet_.as_of + ".").close().line_end();
    html_.close().close().markup("\n</html>\n");
  }

  const KitSheet& sheet_;
  std::string out_;
  HtmlText html_;
};

}  // namespace

std::string kit_page(const KitSheet& sheet) { return KitPage(sheet).text(); }

}  // namespace driftwarden
