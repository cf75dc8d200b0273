// SPDX-License-Identifier: MIT
#include "report/field_form.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "book/file_manner.hpp"
#include "book/rows_received.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "quantity/units.hpp"
#include "report/field_sheet.hpp"
#include "report/html_text.hpp"
#include "report/json_text.hpp"
#include "report/page_style.hpp"
#include "system/digest.hpp"
#include "verdict/against_use.hpp"
#include "verdict/cautions.hpp"
#include "verdict/readings_ahead.hpp"

namespace driftwarden {
namespace {

// A form's tables: wide enough for a day's air, and close enough for a band of some per cent: half a step of each moves
// what a rotameter should show by less than 0.2 %.
constexpr double form_celsius_step = 1;
constexpr double form_kpa_step = 0.25;
constexpr int form_temperatures_each_side = 20;
constexpr int form_pressures_each_side = 20;

// The heading that this book has for a column: the owner's own, where it is in the unit of ours.
std::string own_heading(const Settings& settings, const TableSpec& spec, const FieldSpec& field) {
  const std::string ours = heading_of(field);
  for (const auto& [theirs, meant] : owners_headings(settings, spec.table)) {
    const Heading heading = split_heading(meant.first);
    if (heading_key(heading.name) != heading_key(field.name)) continue;
    if (heading.unit == split_heading(ours).unit) return theirs;
  }
  return ours;
}

// What speaks against using an instrument on a day of the samples, as the sheet says it; each once.
std::vector<std::string> against_on_the_days(const Screening& screening, const FormAsked& asked, Row instrument) {
  std::vector<std::string> all;
  for (const SampleAhead& sample : asked.ahead.samples) {
    const Day on = sample.day == no_day ? asked.as_of : sample.day;
    for (std::string& one : against_use(screening, instrument, on, asked.as_of)) {
      if (std::ranges::find(all, one) == all.end()) all.push_back(std::move(one));
    }
  }
  return all;
}

// What there is to know before anything is typed: what is left out, and which of the instruments should not be used.
std::vector<std::string> beforehand(const Screening& screening, const FormAsked& asked) {
  std::vector<std::string> all;
  for (const std::string& each : left_out_texts(screening.book(), asked.ahead))
    all.push_back("Left out: " + each + ": give it another name in the plan, and make the form again.");
  std::set<Row> instruments(asked.calibrators.begin(), asked.calibrators.end());
  for (const SampleAhead& sample : asked.ahead.samples) instruments.insert({sample.pump, sample.calibrator});
  instruments.erase(no_row);
  for (const Row row : instruments) {
    for (const std::string& each : against_on_the_days(screening, asked, row))
      all.push_back(screening.book().instruments[row].name + ": " + each);
  }
  return all;
}

constexpr Day clock_days = 400;  // about the day of the form: around which changes of the clock are known to it

// How the file is kept that rows of a form will be received into.
FileManner manner_of_rows(const Settings& settings, const TableSpec& spec, Day as_of) {
  return manner_of(settings, received_name(spec, as_of, "000000000000"));
}

// The clock that times are of: that of the book's zone, unless the files that rows are received into have another.
std::string zone_text(const Settings& settings, Day as_of) {
  const auto name = [&](const TableSpec& spec) {
    const TimeZone* zone = manner_of_rows(settings, spec, as_of).zone;
    return zone == &settings.zone ? settings.zone_name : zone->name();
  };
  const std::string of_samples = name(samples_spec);
  const std::string of_readings = name(readings_spec);
  return of_samples == of_readings ? of_samples : of_samples + ", those of readings in " + of_readings;
}

class FormData {
 public:
  FormData(const Screening& screening, const FormAsked& asked)
      : screening_(screening), book_(screening.book()), asked_(asked), habit_(book_, asked.as_of) {}

  // Everything but the form's own name, which is made of it.
  std::string text() {
    json_.begin_object().member("batch", asked_.batch).member("title", book_.settings.title);
    json_.member("zone", zone_text(book_.settings, asked_.as_of));
    headings("samples", samples_spec);
    headings("readings", readings_spec);
    of_both("decimals",
            [&](const TableSpec&, const FileManner& manner) { json_.value(std::string(1, manner.decimal)); });
    of_both("clock_changes", [&](const TableSpec&, const FileManner& manner) { clock_changes(*manner.zone); });
    of_both("limits", [&](const TableSpec& spec, const FileManner&) { limits(spec); });
    air();
    json_.key("samples_of").begin_array();
    for (const SampleAhead& sample : asked_.ahead.samples) add(sample);
    json_.end_array();
    json_.key("calibrators").begin_array();
    for (const Row row : asked_.calibrators) calibrator(row);
    json_.end_array();
    json_.key("guides").begin_object();
    for (const auto& [key, guide] : guides_) json_.key(key).raw(guide);
    json_.end_object().end_object();
    return safe();
  }

 private:
  // In a page, nothing of a text may look like the end of its element.
  std::string safe() const {
    std::string text;
    for (const char c : out_) text += c == '<' ? "\\u003c" : std::string(1, c);
    return text;
  }

  // Of each column its name here and its heading in this book.
  void headings(std::string_view name, const TableSpec& spec) {
    json_.key(std::string(name) + "_headings").begin_object();
    for (const FieldSpec& field : spec.fields)
      json_.member(std::string(field.name), own_heading(book_.settings, spec, field));
    json_.member("form", std::string(form_column)).end_object();
  }

  // Of samples and of readings, as the files are kept that rows are received into.
  template <class Tell>
  void of_both(std::string_view name, Tell tell) {
    json_.key(name).begin_object();
    for (const TableSpec* spec : {&samples_spec, &readings_spec}) {
      json_.key(spec->table);
      tell(*spec, manner_of_rows(book_.settings, *spec, asked_.as_of));
    }
    json_.end_object();
  }

  // The hours that the clock showed twice, with what it was ahead of UTC each time, and those that it left out.
  void clock_changes(const TimeZone& zone) {
    json_.begin_array();
    for (Day day = asked_.as_of - clock_days; day <= asked_.as_of + clock_days; ++day) {
      if (zone.offset_of_whole_day(day)) continue;
      using Kind = TimeZone::Local::Kind;
      constexpr Moment minute = 60;
      const Moment midnight = day * Moment{seconds_a_day};
      const auto at = [&](Moment second) { return zone.offset_of_local(midnight + second); };
      for (Moment from = 0; from < seconds_a_day; from += minute) {
        const TimeZone::Local local = at(from);
        if (local.kind == Kind::unique) continue;
        Moment to = from;
        while (to < seconds_a_day && at(to).kind == local.kind) to += minute;
        json_.begin_object().member("from", clock_text(midnight + from)).member("to", clock_text(midnight + to));
        if (local.kind == Kind::ambiguous)
          json_.member("first", offset_text(local.offset_s)).member("second", offset_text(local.other_offset_s));
        json_.end_object();
        from = to - minute;
      }
    }
    json_.end_array();
  }

  // What figures the book takes, in the unit of the form's heading.
  void limits(const TableSpec& spec) {
    json_.begin_object();
    for (const FieldSpec& field : spec.fields) {
      if (field.type != CellType::quantity && field.type != CellType::number) continue;
      if (!std::isfinite(field.least) || !std::isfinite(field.most)) continue;
      const auto in_unit = [unit = customary_unit(field.dimension)](double figure) {
        return std::round(unit.from_inside(figure) * 100) / 100;
      };
      json_.key(field.name).begin_array().value(in_unit(field.least)).value(in_unit(field.most)).end_array();
    }
    json_.end_object();
  }

  void air() {
    has_air_ = !is_missing(asked_.centre.temperature_k) && !is_missing(asked_.centre.pressure_kpa);
    json_.key("air").begin_object();
    json_.member("celsius", has_air_ ? first_celsius() : missing).member("celsius_step", form_celsius_step);
    json_.member("kpa", has_air_ ? first_kpa() : missing).member("kpa_step", form_kpa_step);
    json_.member("celsius_count", static_cast<std::size_t>(2 * form_temperatures_each_side + 1));
    json_.member("kpa_count", static_cast<std::size_t>(2 * form_pressures_each_side + 1)).end_object();
  }
  double first_celsius() const {
    return std::round(asked_.centre.temperature_k - zero_celsius_in_kelvin) -
           form_temperatures_each_side * form_celsius_step;
  }
  double first_kpa() const { return std::round(asked_.centre.pressure_kpa) - form_pressures_each_side * form_kpa_step; }

  void add(const SampleAhead& sample) {
    const bool is_blank = sample.kind == SampleKind::blank;
    json_.begin_object().member("sample", sample.name).member("kind", std::string(to_text(sample.kind)));
    json_.member("pump", sample.pump == no_row ? std::string() : book_.instruments[sample.pump].name);
    json_.member("serial", sample.pump == no_row ? std::string() : book_.instruments[sample.pump].serial);
    json_.member("sampler", sample.sampler).member("method", sample.method).member("analysis", sample.analysis);
    json_.member("nominal", sample.nominal_l_min).member("medium", sample.medium).member("day", date_text(sample.day));
    const RulesAhead rules = rules_ahead(screening_, sample, sample.calibrator);
    json_.member("warm_up", rules.warm_up_min).member("latest_post", rules.post_age_max_min);
    const Row usual = sample.calibrator != no_row ? sample.calibrator : calibrator_used_last(book_, asked_.as_of);
    json_.member("pre_boxes", is_blank ? 0 : readings_ahead(rules.pre_count, habit_.of(usual)));
    json_.member("post_boxes", is_blank ? 0 : readings_ahead(rules.post_count, habit_.of(usual)));
    json_.member("field_boxes",
                 is_blank ? 0 : std::max(fewest_field_boxes, static_cast<std::size_t>(rules.field_count)));
    json_.member("field_asked", static_cast<std::size_t>(is_blank ? 0 : rules.field_count));
    json_.member("vacuum", rules.asks_for_vacuum && !is_blank).member("leak", rules.asks_for_leak && !is_blank);
    json_.member("interruptions", rules.asks_for_interruptions && !is_blank);
    if (rules.asks_for_pressure_drop) json_.member("pressure drop", true);
    if (rules.asks_for_pulsation) json_.member("pulsation", true);
    json_.member("calibrator", usual == no_row ? std::string() : book_.instruments[usual].name);
    json_.key("guide").begin_object();
    for (const Row calibrator : asked_.calibrators) {
      if (!is_blank && !is_missing(sample.nominal_l_min))
        json_.member(book_.instruments[calibrator].name, guide_of(sample, calibrator));
    }
    json_.end_object().end_object();
  }

  void calibrator(Row row) {
    const Instrument& it = book_.instruments[row];
    json_.begin_object().member("name", it.name).member("serial", it.serial);
    json_.member("read_at", read_at_text(it)).member("asks_for_humidity", needs_humidity(it.principle));
    json_.texts("notes", against_on_the_days(screening_, asked_, row)).end_object();
  }

  // The name of the table of what a calibrator should show for a sample: one for all samples that are alike.
  std::string guide_of(const SampleAhead& sample, Row calibrator) {
    const Day on = sample.day == no_day ? asked_.as_of : sample.day;
    const CalibratorDisplay display(screening_, calibrator, on);
    const RulesAhead rules = rules_ahead(screening_, sample, calibrator);
    std::string guide;
    JsonText json(guide);
    json.begin_object().member("decimals", static_cast<std::size_t>(display.decimals()));
    json.member("step", display.step_l_min()).key("rules").begin_array();
    for (const PreFlowRule& rule : rules.pre_flow) json.value(pre_rule_text(*rule.rule));
    json.end_array();
    json.key("shown").raw(shown(display, sample.nominal_l_min, rules.pre_band())).end_object();
    const auto known = std::find_if(guides_.begin(), guides_.end(), [&](const auto& it) { return it.second == guide; });
    if (known != guides_.end()) return known->first;
    const std::string key = "g" + std::to_string(guides_.size() + 1);
    guides_.emplace(key, std::move(guide));
    return key;
  }

  // In steps of the display: nominal, lowest and highest at each temperature and pressure; one triple where the air
  // does not matter.
  std::string shown(const CalibratorDisplay& display, double nominal_l_min, const FlowBand& band) const {
    std::vector<std::string> cells;
    const int temperatures = has_air_ ? 2 * form_temperatures_each_side + 1 : 1;
    const int pressures = has_air_ ? 2 * form_pressures_each_side + 1 : 1;
    for (int t = 0; t < temperatures; ++t) {
      for (int p = 0; p < pressures; ++p) {
        AirAhead air = asked_.centre;
        if (has_air_) {
          air.temperature_k = zero_celsius_in_kelvin + first_celsius() + t * form_celsius_step;
          air.pressure_kpa = first_kpa() + p * form_kpa_step;
        }
        cells.push_back(triple(display, display.should_show(nominal_l_min, band, air)));
      }
    }
    const bool are_alike = std::all_of(cells.begin(), cells.end(), [&](const auto& cell) { return cell == cells[0]; });
    if (are_alike) cells.resize(1);
    return '[' + joined(cells, ",") + ']';
  }

  static std::string triple(const CalibratorDisplay& display, const DisplayBand& shown) {
    const auto steps = [&](double figure) {
      return is_missing(figure) ? std::string("null") : with_decimals(figure / display.step_l_min(), 0);
    };
    return steps(shown.nominal) + "," + steps(shown.low) + "," + steps(shown.high);
  }

  const Screening& screening_;
  const Book& book_;
  const FormAsked& asked_;
  const ReadingHabit habit_;
  bool has_air_ = false;
  std::map<std::string, std::string> guides_;
  std::string out_;
  JsonText json_{out_};
};

}  // namespace

std::vector<Row> calibrators_in_use(const Screening& screening, Day on) {
  const Book& book = screening.book();
  std::vector<Row> rows;
  for (Row row = 0; row < book.instruments.size(); ++row) {
    const Instrument& it = book.instruments[row];
    const bool is_in_service =
        (it.in_service == no_day || it.in_service <= on) && (it.out_of_service == no_day || it.out_of_service > on);
    if (it.kind == InstrumentKind::calibrator && is_in_service &&
        screening.basis().calibrators.certificate(row, on) >= 0)
      rows.push_back(row);
  }
  return rows;
}

std::string field_form(const Screening& screening, const FormAsked& asked, std::string_view version) {
  const std::string data = FormData(screening, asked).text();
  constexpr std::size_t digits = 8;
  const std::string name = asked.batch + "/" + date_text(asked.as_of) + "/" + sha256_of(data).substr(0, digits);
  std::string out;
  HtmlText html(out);
  append_page_head(html, {"Form of batch " + asked.batch, std::string(form_css()), form_js(), {}});
  html.open("body").line_end().open("header", {{"class", "masthead"}});
  html.element("p", {{"class", "kicker"}}, "Records of a batch, to be typed in");
  html.open("h1").text("Batch ").from_book(asked.batch).close();
  html.open("p", {{"class", "days"}}).from_book(screening.book().settings.title).text(". Form ");
  html.element_from_book("span", {{"id", "form-name"}}, name).text(". Times as the clock shows them in ");
  html.text(zone_text(screening.book().settings, asked.as_of) + ".").close().close().line_end();
  for (const std::string& each : beforehand(screening, asked))
    html.open("p", {{"class", "told amiss"}}).from_book(each).close().line_end();
  html.open("p", {{"id", "kept"}, {"role", "status"}}).close().line_end();
  html.open("main", {{"id", "form"}}).element("noscript", "This form needs a browser that runs its script.").close();
  html.line_end().open("section", {{"id", "end"}}).close().line_end();
  html.open("aside", {{"class", "cautions"}, {"aria-label", "Cautions"}}).element("p", cautions);
  html.text("driftwarden " + std::string(version) + ", as of " + date_text(asked.as_of) + ".").close().line_end();
  html.markup("<script type=\"application/json\" id=\"data\">").markup(data).markup("</script>\n");
  html.markup("<script>").markup(form_js()).markup("</script>\n").close().markup("\n</html>\n");
  return out;
}

}  // namespace driftwarden
