// SPDX-License-Identifier: MIT
#include "book/settings.hpp"

#include <algorithm>
#include <array>
#include <limits>

#include "book/book_table.hpp"
#include "book/settings_table.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

constexpr double unbounded = std::numeric_limits<double>::max();
constexpr double least_positive = std::numeric_limits<double>::min();

// Conditions and altitudes under which people work; anything else is a slip of the pen or the wrong unit.
constexpr SaidRange working_temperature{zero_celsius_in_kelvin - 60, zero_celsius_in_kelvin + 60, "-60 °C to 60 °C"};
constexpr SaidRange working_pressure{20, 200, "20 kPa to 200 kPa, absolute"};
constexpr SaidRange some_kelvin{0, 20, "0 °C to 20 °C, half the width of what is possible"};
constexpr SaidRange some_kilopascal{0, 20, "0 kPa to 20 kPa, half the width of what is possible"};
constexpr SaidRange some_minutes{0, 60, "0 min to 60 min, half the width of what is possible"};
constexpr SaidRange some_share{0, 0.2, "0 % to 20 %, half the width of what is possible"};
constexpr SaidRange some_error{0, 1, "0 % to 100 %"};
constexpr SaidRange working_altitude{-500, 9000, "-500 m to 9000 m"};
constexpr SaidRange not_negative{0, unbounded, "0 or more"};
constexpr SaidRange positive{least_positive, unbounded, "more than 0"};
constexpr SaidRange weight{least_positive, 1, "more than 0 and at most 1"};
constexpr SaidRange any_number{-unbounded, unbounded, "a finite number"};
constexpr SaidRange some_diameter{0.01, 200, "0.01 µm to 200 µm, the smaller one first"};
constexpr SaidRange some_spread{1, 10, "1 to 10, the smaller one first"};
constexpr SaidRange some_line{1, 1'000'000, "the number of a line, from 1 on"};
// As many as control charts need (history/chart_choices.hpp, and its test).
constexpr SaidRange enough_points{8, 1'000'000, "8 or more, for no limits come from fewer points, or \"all\""};

constexpr std::array<std::string_view, 2> date_orders{"month first", "day first"};

class SettingsReader {
 public:
  SettingsReader(const toml::table& table, TomlFile& file) : file_(file), top_(table, "", file) {
    settings_.place = {file.name, 0, 0};
  }

  Settings read() {
    if (auto title = top_.text("title")) settings_.title = title->text;
    time_zone();
    settings_.decimal = decimal(top_).value_or(settings_.decimal);
    settings_.dates = dates(top_).value_or(settings_.dates);
    empty_marks();
    if (const auto* table = top_.table("reference")) reference(*table);
    if (const auto* table = top_.table("site")) site(*table);
    if (const auto* table = top_.table("rules")) rules(*table);
    if (const auto* table = top_.table("files")) files(*table);
    if (const auto* table = top_.table("decision")) decision(*table);
    if (const auto* table = top_.table("headings")) headings(*table);
    if (const auto* table = top_.table("history")) history(*table);
    if (const auto* table = top_.table("uncertainty")) uncertainty(*table);
    if (const auto* table = top_.table("pump")) pump(*table);
    if (const auto* table = top_.table("custody")) custody(*table);
    if (const auto* table = top_.table("aerosol")) aerosol(*table);
    leave_to_the_rules();
    top_.refuse_other_keys();
    return std::move(settings_);
  }

 private:
  void time_zone() {
    if (!top_.has("time_zone"))
      return top_.miss("time_zone", "write the zone of the clocks that were read, as time_zone = \"America/Denver\"");
    const auto name = top_.text("time_zone");
    if (!name) return;
    settings_.zone = zone_of(*name).value_or(settings_.zone);
    settings_.zone_name = name->text;
  }

  std::optional<TimeZone> zone_of(const SaidText& name) {
    auto zone = TimeZone::named(name.text, name.place);
    if (zone) return *std::move(zone);
    file_.faults.insert(file_.faults.end(), zone.faults().begin(), zone.faults().end());
    return std::nullopt;
  }

  std::optional<char> decimal(SettingsTable& table) {
    const auto sign = table.text("decimal");
    if (!sign) return std::nullopt;
    if (sign->text == "." || sign->text == ",") return sign->text.front();
    file_.fault("settings/unknown-word", sign->place, table.called("decimal") + " can't be " + in_quotes(sign->text),
                R"(write "." or ",")");
    return std::nullopt;
  }

  std::optional<DateOrder> dates(SettingsTable& table) {
    const auto order = table.text("dates");
    if (!order) return std::nullopt;
    if (order->text == date_orders[0]) return DateOrder::month_first;
    if (order->text == date_orders[1]) return DateOrder::day_first;
    file_.fault("settings/unknown-word", order->place, table.called("dates") + " can't be " + in_quotes(order->text),
                did_you_mean(order->text, date_orders));
    return std::nullopt;
  }

  void empty_marks() {
    const auto marks = top_.texts("empty");
    if (!marks) return;
    std::vector<std::string> texts;
    for (const SaidText& mark : *marks) texts.push_back(mark.text);
    settings_.empty_marks = EmptyMarks(texts);
  }

  void reference(const toml::table& table) {
    SettingsTable reference(table, "reference", file_);
    const auto kelvin = reference.amount("temperature", Dimension::temperature, working_temperature, "25 °C");
    const auto kpa = reference.amount("pressure", Dimension::pressure, working_pressure, "101.325 kPa");
    if (!reference.has("temperature"))
      reference.miss("temperature", R"(reference conditions are a pair: add temperature, as "25 °C")");
    if (!reference.has("pressure"))
      reference.miss("pressure", R"(reference conditions are a pair: add pressure, as "101.325 kPa")");
    reference.refuse_other_keys();
    if (!kelvin || !kpa) return;
    settings_.reference = {Temperature(*kelvin), Pressure(*kpa)};
    settings_.reference_was_said = true;
  }

  void site(const toml::table& table) {
    SettingsTable site(table, "site", file_);
    settings_.altitude_m = site.amount("altitude", Dimension::length, working_altitude, "1500 m");
    settings_.altitude_place = site.place_of("altitude");
    site.refuse_other_keys();
  }

  void rules(const toml::table& table) {
    SettingsTable rules(table, "rules", file_);
    for (const auto& pack : rules.texts("packs").value_or(std::vector<SaidText>{})) add_pack(pack);
    rules.refuse_other_keys();
  }

  void add_pack(const SaidText& pack) {
    if (std::find(settings_.packs.begin(), settings_.packs.end(), pack.text) != settings_.packs.end())
      return file_.fault("settings/repeated", pack.place, "the pack " + in_quotes(pack.text) + " is named twice",
                         "name it once");
    settings_.packs.push_back(pack.text);
    settings_.pack_places.push_back(pack.place);
  }

  void files(const toml::table& table) {
    SettingsTable files(table, "files", file_);
    for (const auto& pattern : files.texts("ignore").value_or(std::vector<SaidText>{}))
      settings_.ignored_files.push_back(pattern.text);
    for (const auto& [pattern, of_them] : files.all_tables()) {
      if (pattern.text != "ignore") files_of(pattern, *of_them);
    }
    files.refuse_other_keys();
  }

  void files_of(const SaidText& pattern, const toml::table& table) {
    SettingsTable files(table, "files.\"" + pattern.text + "\"", file_);
    Settings::Files said;
    said.pattern = pattern.text;
    said.place = pattern.place;
    said.decimal = decimal(files);
    said.dates = dates(files);
    if (const auto zone = files.text("time_zone")) said.zone = zone_of(*zone);
    said.heading = files.whole_number("heading", some_line);
    if (const auto sheet = files.text("sheet")) said.sheet = sheet->text;
    if (const auto rows = files.texts("ignore_rows")) {
      said.ignored_rows.emplace();
      for (const SaidText& row : *rows) said.ignored_rows->push_back(row.text);
    }
    files.refuse_other_keys();
    settings_.files.push_back(std::move(said));
  }

  void decision(const toml::table& table) {
    SettingsTable decision(table, "decision", file_);
    settings_.guard = decision.number("guard", not_negative).value_or(0);
    decision.refuse_other_keys();
  }

  void pump(const toml::table& table) {
    SettingsTable pump(table, "pump", file_);
    if (const auto said = pump.text("compensates")) {
      if (said->text == "yes" || said->text == "no")
        settings_.pumps_compensate = said->text == "yes";
      else
        file_.fault("settings/unknown-word", said->place, "'pump.compensates' can't be " + in_quotes(said->text),
                    R"(write "yes" or "no"; leave it out where nobody knows)");
    }
    pump.refuse_other_keys();
  }

  void custody(const toml::table& table) {
    SettingsTable custody(table, "custody", file_);
    consignment({}, custody);
    for (const auto& [batches, table_of_them] : custody.all_tables()) {
      SettingsTable of_them(*table_of_them, "custody.\"" + batches.text + "\"", file_);
      consignment(batches, of_them);
      of_them.refuse_other_keys();
    }
    custody.refuse_other_keys();
  }

  void consignment(const SaidText& batches, SettingsTable& table) {
    Settings::Consignment said{batches.text, batches.place, address(table, "sender"), address(table, "laboratory"), {}};
    if (const auto reference = table.text("reference")) said.reference = reference->text;
    settings_.consignments.push_back(std::move(said));
  }

  static std::vector<std::string> address(SettingsTable& table, std::string_view key) {
    std::vector<std::string> lines;
    for (const SaidText& line : table.texts(key).value_or(std::vector<SaidText>{})) lines.push_back(line.text);
    return lines;
  }

  void headings(const toml::table& table) {
    SettingsTable headings(table, "headings", file_);
    for (const BookTable& table_of_book : book_tables()) {
      const std::string_view name = table_of_book.spec->table;
      if (const auto* of_table = headings.table(name))
        headings_of(std::string(name), SettingsTable(*of_table, "headings." + std::string(name), file_));
    }
    headings.refuse_other_keys();
  }

  void headings_of(const std::string& name, SettingsTable table) {
    auto& ours = settings_.headings[name];
    for (const auto& [theirs, our_heading] : table.all_texts())
      ours[theirs.text] = {our_heading.text, our_heading.place};
  }

  void uncertainty(const toml::table& table) {
    SettingsTable uncertainty(table, "uncertainty", file_);
    auto& said = settings_.uncertainty;
    said.place = uncertainty.place();
    const auto take = [&](double& figure, std::string_view key, Dimension dimension, const SaidRange& range,
                          std::string_view example) {
      figure = uncertainty.amount(key, dimension, range, example).value_or(figure);
    };
    take(said.temperature_k, "temperature", Dimension::temperature_difference, some_kelvin, "0.5 °C");
    take(said.pressure_kpa, "pressure", Dimension::pressure, some_kilopascal, "0.3 kPa");
    take(said.time_min, "time", Dimension::time, some_minutes, "0.5 min");
    take(said.altitude_pressure, "altitude_pressure", Dimension::ratio, some_share, "3 %");
    said.flow_between_was_said = uncertainty.has("flow_between");
    take(said.flow_between, "flow_between", Dimension::ratio, some_share, "1 %");
    uncertainty.refuse_other_keys();
  }

  void aerosol(const toml::table& table) {
    SettingsTable aerosol(table, "aerosol", file_);
    const auto mmad = aerosol.span("mmad", Dimension::diameter, some_diameter, R"("5 µm" or ["3 µm", "8 µm"])");
    const auto gsd = aerosol.span("gsd", Dimension::count, some_spread, "2 or [1.8, 2.5]");
    const auto source = aerosol.text("source");
    settings_.small_mass_error =
        aerosol.amount("small_error", Dimension::ratio, some_error, "5 %").value_or(settings_.small_mass_error);
    const bool is_stated = aerosol.has("mmad") || aerosol.has("gsd") || aerosol.has("source");
    for (const auto& [key, hint] :
         {std::pair{"mmad", "write the mass median aerodynamic diameter, as \"5 µm\", or from where to where"},
          {"gsd", "write the geometric standard deviation, as 2, or from where to where"},
          {"source", "say who measured the sizes, or where they are from"}}) {
      if (is_stated && !aerosol.has(key)) aerosol.miss(key, hint);
    }
    if (mmad && gsd && source) settings_.aerosol = {*mmad, *gsd, source->text, aerosol.place()};
    aerosol.refuse_other_keys();
  }

  void history(const toml::table& table) {
    SettingsTable history(table, "history", file_);
    auto& said = settings_.history;
    said.place = history.place();
    baseline(history);
    said.target = history.number("target", any_number);
    said.ewma_lambda = history.number("ewma_lambda", weight);
    said.ewma_width = history.number("ewma_width", positive);
    said.cusum_k = history.number("cusum_k", positive);
    said.cusum_h = history.number("cusum_h", positive);
    said.false_actions_a_week = history.number("false_actions_a_week", positive).value_or(said.false_actions_a_week);
    if (const auto rules = history.texts("run_rules")) {
      said.run_rules.emplace();
      for (const auto& rule : *rules) said.run_rules->push_back(rule.text);
    }
    history.refuse_other_keys();
  }

  // A number of points, "all", or { from = …, to = … }.
  void baseline(SettingsTable& history) {
    const toml::node* node = history.find("baseline");
    if (node == nullptr) return;
    auto& said = settings_.history;
    if (node->is_integer()) {
      said.baseline = history.whole_number("baseline", enough_points);
    } else if (const auto* days = node->as_table()) {
      baseline_days(*days);
    } else if (node->is_string() && *node->value<std::string_view>() == "all") {
      said.baseline = Settings::History::every_point;
    } else {
      history.wrong_type("baseline", *node,
                         R"(write a whole number of points, "all", or { from = "2026-01-01", to = "2026-03-31" })");
    }
  }

  void baseline_days(const toml::table& table) {
    SettingsTable days(table, "history.baseline", file_);
    auto& said = settings_.history;
    said.baseline_from = day(days, "from");
    said.baseline_to = day(days, "to");
    if (said.baseline_from != no_day && said.baseline_to != no_day && said.baseline_from > said.baseline_to)
      file_.fault("settings/out-of-range", days.place_of("to"), "'history.baseline.to' lies before 'from'",
                  "write the first day under from and the last under to");
    days.refuse_other_keys();
  }

  Day day(SettingsTable& table, std::string_view key) {
    Day found = no_day;
    const auto said = table.text(key);
    if (!said) {
      if (!table.has(key)) table.miss(key, "write the day as \"2026-01-31\"");
      return found;
    }
    StampReader reader(settings_.zone, DateOrder::iso);
    if (!reader.read_date(said->text, found)) {
      const StampFault why = reader.why_date(said->text);
      file_.fault("settings/not-a-date", said->place, table.called(key) + " can't be read: " + why.message, why.hint);
    }
    return found;
  }

  // They are read where rules are known; here it only matters that nobody mistakes them for a slip of the pen.
  void leave_to_the_rules() {
    top_.table("practice");
    for (const char* described : {"sampler", "method", "analysis"}) top_.table(described);
    const toml::node* overrides = top_.find("override");
    if (overrides != nullptr && !overrides->is_array_of_tables())
      top_.wrong_type("override", *overrides, "write each as [[override]] and its keys below");
  }

  TomlFile& file_;
  SettingsTable top_;
  Settings settings_;
};

}  // namespace

Result<Settings> parse_settings(std::string_view text, const std::string& file_name) {
  TomlFile file{file_name, {}};
  const auto table = toml_of(text, file);
  if (!table) return file.faults;
  Settings settings = SettingsReader(*table, file).read();
  if (file.faults.empty()) return settings;
  return in_reading_order(std::move(file.faults));
}

}  // namespace driftwarden
