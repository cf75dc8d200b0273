// SPDX-License-Identifier: MIT
#include <set>
#include <string_view>
#include <utility>

#include "report/field_sheet.hpp"
#include "report/html_text.hpp"
#include "report/page_style.hpp"
#include "report/qr_code.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

class FieldSheetPage {
 public:
  explicit FieldSheetPage(const FieldSheets& sheets) : sheets_(sheets), html_(out_) {}

  std::string text() {
    append_page_head(html_, {"Field sheets, batch " + sheets_.batch, std::string(sheet_css()), {}, sheets_.paper});
    html_.open("body").line_end();
    for (std::size_t i = 0; i < sheets_.sides.size(); ++i) side(sheets_.sides[i], i + 1);
    if (!sheets_.blanks.empty() || !sheets_.without_pump.empty() || !sheets_.left_out.empty() || sheets_.sides.empty())
      others();
    html_.close().markup("\n</html>\n");
    return std::move(out_);
  }

 private:
  void side(const PumpDay& of, std::size_t number) {
    const std::size_t held = of.samples.size() + of.guides.size();
    html_.open("article", {{"class", held > 3 ? "side dense denser" : held > 2 ? "side dense" : "side"}}).line_end();
    head("Field sheet " + std::to_string(number) + " of " + std::to_string(sheets_.sides.size()), of.pump, of.day);
    notes(of.notes);
    samples(of.samples);
    before(of);
    for (const SheetGuide& each : of.guides) guide(each, of.samples.size() > 1);
    if (!of.guides.empty()) below_guides(of.guides);
    if (of.guides.empty())
      html_.element("p", {{"class", "note"}},
                    "No calibrator or no nominal flow is known: there is nothing to compare with.");
    sampling(of);
    after(of);
    remarks();
    foot();
    html_.close().line_end();
  }

  void head(const std::string& kicker, const std::string& name, const std::string& day) {
    html_.open("header").open("div", {{"class", "who"}}).element("p", {{"class", "kicker"}}, kicker);
    html_.open("h1").from_book(name).close();
    html_.open("p", {{"class", "days"}}).from_book(sheets_.title).text(". Batch ").from_book(sheets_.batch).close();
    html_.close().open("div", {{"class", "when"}});
    box("day", day);
    box("taken by (initials)");
    html_.close();
    html_.markup(qr_code_svg(sheets_.sides.empty() ? "" : name)).close().line_end();
  }

  // A box to write in, or what is in it already.
  void box(std::string_view label, std::string_view filled = {}, std::string_view kind = {}) {
    html_.open("span", {{"class", "box " + std::string(kind)}}).element("small", label).open("b");
    if (!filled.empty()) html_.from_book(filled);
    html_.close().close();
  }
  void boxes(std::string_view label, std::size_t count, std::string_view kind) {
    for (std::size_t i = 1; i <= count; ++i) box(std::string(label) + std::to_string(i), {}, kind);
  }
  void tick(std::string_view label) { html_.open("span", {{"class", "tick"}}).element("i", "").text(label).close(); }
  void title(std::string_view words, std::string_view more = {}) {
    html_.open("h2").text(words);
    if (!more.empty()) html_.element("small", more);
    html_.close().line_end();
  }

  void samples(const std::vector<SheetSample>& all) {
    html_.open("ul", {{"class", "samples"}}).line_end();
    for (const SheetSample& each : all) {
      html_.open("li").markup(qr_code_svg(each.name)).open("div").open("strong").from_book(each.name).close();
      html_.open("p");
      particulars(each);
      html_.close();
      if (!each.window.empty()) html_.element("p", {{"class", "window"}}, each.window);
      html_.close();
      box("cassette, filter or tube", each.medium);
      tick("label on it is ");
      html_.from_book(each.name).close().line_end();
    }
    html_.close().line_end();
  }

  void particulars(const SheetSample& each) {
    bool is_first = true;
    for (const std::string* words : {&each.sampler, &each.nominal, &each.method, &each.analysis}) {
      if (words->empty()) continue;
      if (!std::exchange(is_first, false)) html_.text(", ");
      html_.from_book(*words);
    }
  }

  void before(const PumpDay& of) {
    std::string more;
    if (!is_missing(of.pre_age_max_min)) more = "at most " + duration_text(of.pre_age_max_min) + " before the start";
    if (!is_missing(of.warm_up_min))
      more += (more.empty() ? "" : "; ") + ("let the pump run " + duration_text(of.warm_up_min)) + " first";
    title("Before sampling", more);
    html_.open("div", {{"class", "boxes"}});
    box("switched on");
    reading_boxes(of, of.pre_boxes, "warm-up, min");
    html_.close().line_end();
  }

  void after(const PumpDay& of) {
    title("After sampling", is_missing(of.post_age_max_min) ? "pump not touched"
                                                            : "at most " + duration_text(of.post_age_max_min) +
                                                                  " after the stop; pump not touched");
    html_.open("div", {{"class", "boxes"}});
    reading_boxes(of, of.post_boxes);
    html_.close().line_end();
  }

  void reading_boxes(const PumpDay& of, std::size_t count, std::string_view before_the_time = {}) {
    const bool is_one = of.guides.size() == 1;
    if (!before_the_time.empty()) box(before_the_time);
    box("calibrator", is_one ? of.guides[0].calibrator : std::string());
    box("time");
    box("temperature, °C");
    box("pressure, kPa");
    bool asks_for_humidity = false;
    for (const SheetGuide& guide : of.guides) asks_for_humidity |= guide.asks_for_humidity;
    if (asks_for_humidity) box("humidity, %");
    html_.element("span", {{"class", "say line"}}, "Readings, with the sampler in line, L/min");
    boxes("", count, "reading");
    box("if one is struck out", {}, "reading");
    box("initials");
  }

  void guide(const SheetGuide& of, bool names_samples) {
    html_.open("section", {{"class", "guide"}}).open("h2").text("What ").from_book(of.calibrator);
    html_.text(" should show, L/min").open("small");
    if (!of.serial.empty()) html_.text("serial ").from_book(of.serial).text(", ");
    html_.text("principle " + of.principle).text(of.read_at.empty() ? "" : ", ");
    if (!of.read_at.empty()) html_.element("b", of.read_at);
    html_.close().close();
    html_.open("p", {{"class", "flow"}}).text("For " + of.flow);
    if (names_samples) {
      html_.text(": ");
      for (std::size_t i = 0; i < of.samples.size(); ++i) {
        if (i > 0) html_.text(", ");
        html_.from_book(of.samples[i]);
      }
    }
    html_.close();
    table(of);
    notes(of.notes);
    html_.close().line_end();
  }

  void notes(const std::vector<std::string>& all) {
    if (all.empty()) return;
    html_.open("p", {{"class", "note"}});
    for (const std::string& note : all) html_.open("b").from_book(note).close().text(" ");
    html_.close();
  }

  // The rules behind the bands, each once, and what the tables are made around.
  void below_guides(const std::vector<SheetGuide>& guides) {
    std::set<std::string> rules;
    bool has_table = false;
    html_.open("p", {{"class", "note"}});
    for (const SheetGuide& each : guides) {
      has_table |= each.rows.size() > 1 || each.pressures.size() > 1;
      for (const std::string& rule : each.rules) {
        if (rules.insert(rule).second) html_.text("Mean of the readings " + rule + ". ");
      }
    }
    if (has_table) html_.text(sheets_.air).text(" Between two lines take the middle. ");
    html_.text(sheets_.guard).close().line_end();
  }

  void table(const SheetGuide& of) {
    html_.open("table").open("thead").open("tr").element("th", {{"scope", "col"}}, "air at the calibrator");
    for (const std::string& pressure : of.pressures) html_.element("th", {{"scope", "col"}}, pressure);
    html_.close().close().open("tbody").line_end();
    for (const SheetRow& row : of.rows) {
      html_.open("tr").element("th", {{"scope", "row"}}, row.temperature);
      for (const SheetShown& at : row.at) html_.open("td").element("b", at.nominal).element("span", at.band).close();
      html_.close().line_end();
    }
    html_.close().close();
  }

  void sampling(const PumpDay& of) {
    title("Sampling", "times as the clock shows them, " + sheets_.zone);
    for (const SheetSample& each : of.samples) {
      html_.open("div", {{"class", "boxes"}});
      if (of.samples.size() > 1) html_.open("span", {{"class", "say line"}}).from_book(each.name).close();
      for (const std::string_view label : {"start", "stop", "paused, min", "temperature, °C", "pressure, kPa"})
        box(label);
      if (of.asks_for_vacuum) box("vacuum, with its unit");
      if (of.asks_for_leak) box("leak test, with its unit");
      if (of.asks_for_interruptions) box("interruptions");
      if (of.asks_for_pressure_drop) box("pressure drop, with its unit");
      if (of.asks_for_pulsation) box("pulsation, %");
      html_.open("span", {{"class", "ticks"}});
      tick("inlet free at the start");
      tick("inlet free at the stop");
      tick("pump had stopped, or a fault");
      html_.close().close().line_end();
    }
    html_.open("div", {{"class", of.asks_for_field_readings ? "boxes between asked" : "boxes between"}});
    html_.element("span", {{"class", "say"}}, of.asks_for_field_readings ? "In between" : "In between, if read");
    box("time");
    boxes("", of.field_boxes, "reading");
    html_.close().line_end();
  }

  void remarks() {
    html_.open("div", {{"class", "boxes"}});
    box("remarks: a reading struck out stays legible, with why and initials beside it", {}, "remarks");
    html_.close().line_end();
  }

  void foot() {
    html_.open("footer").element("p", cautions);
    html_.element("p", "driftwarden " + sheets_.version + ", as of " + sheets_.as_of + ".").close().line_end();
  }

  // A side for what hangs on no pump.
  void others() {
    html_.open("article", {{"class", "side"}}).line_end();
    html_.open("header").open("div", {{"class", "who"}}).element("p", {{"class", "kicker"}}, "Field sheet");
    html_.element("h1", !sheets_.blanks.empty()         ? "Blanks"
                        : !sheets_.without_pump.empty() ? "Without a pump"
                                                        : "Left out");
    html_.open("p", {{"class", "days"}})
        .from_book(sheets_.title)
        .text(". Batch ")
        .from_book(sheets_.batch)
        .close()
        .close();
    html_.open("div", {{"class", "when"}});
    box("day");
    box("taken by (initials)");
    html_.close().close().line_end();
    samples(sheets_.blanks);
    if (!sheets_.blanks.empty()) {
      html_.open("div", {{"class", "boxes"}})
          .element("span", {{"class", "say line"}}, "Handled like the samples, without air drawn");
      box("opened at");
      box("closed at");
      html_.close().line_end();
    }
    if (!sheets_.without_pump.empty()) {
      html_.open("p").text("No pump is named yet for ");
      for (std::size_t i = 0; i < sheets_.without_pump.size(); ++i) {
        if (i > 0) html_.text(", ");
        html_.from_book(sheets_.without_pump[i]);
      }
      html_.text(": name it in the plan, and print the sheets again.").close();
    }
    for (const std::string& each : sheets_.left_out) {
      html_.open("p").text("Left out: ").from_book(each);
      html_.text(": give it another name in the plan, and print the sheets again.").close();
    }
    remarks();
    foot();
    html_.close().line_end();
  }

  const FieldSheets& sheets_;
  std::string out_;
  HtmlText html_;
};

}  // namespace

std::string field_sheets_page(const FieldSheets& sheets) { return FieldSheetPage(sheets).text(); }

}  // namespace driftwarden
