// SPDX-License-Identifier: MIT
#include "plot/theme.hpp"

#include <algorithm>

#include "diagnostic/hexadecimal.hpp"
#include "rule/toml_reader.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

constexpr double largest_size = 20000;

bool is_colour(std::string_view text) {
  return text.size() == 7 && text[0] == '#' &&
         text.substr(1).find_first_not_of(small_hexadecimal) == std::string_view::npos;
}

bool is_dashes(std::string_view text) {
  return text.empty() || (text.front() == '(' && text.back() == ')' &&
                          text.find_first_not_of("(0123456789,.)") == std::string_view::npos);
}

class ThemeReader {
 public:
  ThemeReader(const toml::table& table, TomlFile& file) : file_(file), top_(table, file, "the theme") {}

  Theme read() {
    theme_.name = top_.required_text("theme");
    section("font", &ThemeReader::fonts);
    section("colour", &ThemeReader::colours);
    section("line", &ThemeReader::lines);
    section("shape", &ThemeReader::shapes);
    section("size", &ThemeReader::sizes);
    top_.refuse_other_keys();
    return theme_;
  }

 private:
  void section(std::string_view key, void (ThemeReader::*take)(TableReader&)) {
    if (top_.require(key) == nullptr) return;
    const toml::table* table = top_.table(key);
    if (table == nullptr) return;
    TableReader reader(*table, file_, "[" + std::string(key) + "]");
    (this->*take)(reader);
    reader.refuse_other_keys();
  }

  double size(TableReader& reader, std::string_view key) {
    if (reader.require(key) == nullptr) return 0;
    const std::optional<double> size = reader.number(key);
    if (size && !(*size > 0 && *size < largest_size))
      reader.fault("theme/size", reader.place_of_key(key), in_quotes(key) + " is no size", "write a number above 0");
    return size.value_or(0);
  }

  std::string colour(TableReader& reader, std::string_view key) {
    const std::string text = reader.required_text(key);
    if (!text.empty() && !is_colour(text))
      reader.fault("theme/colour", reader.place_of_key(key), in_quotes(text) + " is no colour",
                   "write six hexadecimal digits in small letters, as in \"#0b4f8a\"");
    return text;
  }

  // Two entries, the first a number.
  const toml::array* pair(TableReader& reader, std::string_view key) {
    const toml::node* node = reader.require(key);
    if (node == nullptr) return nullptr;
    const toml::array* array = node->as_array();
    if (array != nullptr && array->size() == 2 && array->get(0)->is_number()) return array;
    reader.fault("theme/pair", reader.place_of_key(key), in_quotes(key) + " is no pair",
                 "write a list of two, as in the shipped themes");
    return nullptr;
  }

  LineStyle line(TableReader& reader, std::string_view key, const std::string& colour) {
    const toml::array* array = pair(reader, key);
    if (array == nullptr) return {};
    LineStyle style{array->get(0)->value_or(1.0), array->get(1)->value_or(std::string("?")), colour};
    if (!is_dashes(style.dashes))
      reader.fault("theme/dashes", reader.place_of_key(key), in_quotes(style.dashes) + " are no dashes",
                   "write lengths in brackets, as in \"(8,4)\", or \"\"");
    return style;
  }

  std::pair<double, double> numbers(TableReader& reader, std::string_view key) {
    const toml::array* array = pair(reader, key);
    if (array == nullptr) return {1, 1};
    const double first = array->get(0)->value_or(0.0);
    const double second = array->get(1)->value_or(0.0);
    if (!(first > 0 && second > 0 && first < largest_size && second < largest_size))
      reader.fault("theme/size", reader.place_of_key(key), in_quotes(key) + " holds no sizes",
                   "write two numbers above 0");
    return {first, second};
  }

  MarkStyle mark(TableReader& reader, std::string_view key, const std::string& colour) {
    const auto [shape, size] = numbers(reader, key);
    return {static_cast<int>(shape), size, colour};
  }

  Extent extent(TableReader& reader, std::string_view key) {
    const auto [width, height] = numbers(reader, key);
    return {static_cast<int>(width), static_cast<int>(height)};
  }

  void fonts(TableReader& reader) {
    theme_.font = reader.required_text("name");
    theme_.title_points = size(reader, "title");
    theme_.text_points = size(reader, "text");
    theme_.small_points = size(reader, "small");
  }

  void colours(TableReader& reader) {
    theme_.background = colour(reader, "background");
    theme_.text = colour(reader, "text");
    theme_.faint = colour(reader, "faint");
    theme_.grid = colour(reader, "grid");
    theme_.band = colour(reader, "band");
    theme_.baseline = colour(reader, "baseline");
    value_ = colour(reader, "value");
    spread_ = colour(reader, "spread");
    void_ = colour(reader, "void");
    signal_ = colour(reader, "signal");
    centre_ = colour(reader, "centre");
    limit_ = colour(reader, "limit");
    tolerance_ = colour(reader, "tolerance");
    trend_ = colour(reader, "trend");
  }

  void lines(TableReader& reader) {
    theme_.value = line(reader, "value", spread_);
    theme_.spread = theme_.value;
    theme_.centre = line(reader, "centre", centre_);
    theme_.limit = line(reader, "limit", limit_);
    theme_.tolerance = line(reader, "tolerance", tolerance_);
    theme_.trend = line(reader, "trend", trend_);
    theme_.next = line(reader, "next", signal_);
    theme_.phase = line(reader, "phase", theme_.faint);
  }

  void shapes(TableReader& reader) {
    theme_.point = mark(reader, "value", value_);
    theme_.points.front() = theme_.point;
    for (std::size_t kind = 1; kind < point_kinds.size(); ++kind)
      theme_.points[kind] = mark(reader, point_kinds[kind].word, value_);
    theme_.signal = mark(reader, "signal", signal_);
    theme_.void_ = mark(reader, "void", void_);
    theme_.crossing = mark(reader, "crossing", trend_);
    for (std::size_t i = 0; i < marked_calibrators.size(); ++i)
      theme_.calibrators[i] = mark(reader, marked_calibrators[i], value_);
  }

  void sizes(TableReader& reader) {
    theme_.chart = extent(reader, "chart");
    theme_.tile = extent(reader, "tile");
  }

  TomlFile& file_;
  TableReader top_;
  Theme theme_;
  std::string value_, spread_, void_, signal_, centre_, limit_, tolerance_, trend_;
};

}  // namespace

MarkStyle filled(MarkStyle mark) {
  mark.shape |= 1;
  return mark;
}

MarkStyle open(MarkStyle mark) {
  mark.shape &= ~1;
  return mark;
}

Result<Theme> parse_theme(std::string_view text, const std::string& file) {
  TomlFile toml{file, {}};
  const std::optional<toml::table> table = toml_of(text, toml);
  if (!table) return toml.faults;
  Theme theme = ThemeReader(*table, toml).read();
  if (!toml.faults.empty()) return in_reading_order(std::move(toml.faults));
  return theme;
}

Result<Theme> read_theme(const std::filesystem::path& share, const std::string& name) {
  const std::filesystem::path path = share / "plots" / (name + ".toml");
  const Result<HeldFile> file = HeldFile::open(path, path.string());
  if (!file) {
    return error("theme/missing", {path.string(), 0, 0},
                 "the theme " + in_quotes(name) + " " + file.faults().front().message,
                 "its file belongs to the program; install it again");
  }
  return parse_theme(file->bytes(), path.string());
}

}  // namespace driftwarden
