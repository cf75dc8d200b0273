// SPDX-License-Identifier: MIT
#include "report/label_sheet.hpp"

#include <algorithm>
#include <array>

#include "quantity/number.hpp"
#include "report/html_text.hpp"
#include "report/page_style.hpp"
#include "report/qr_code.hpp"

namespace driftwarden {
namespace {

constexpr std::array<LabelSize, 6> common_sizes{{
    {"63.5x38.1", "A4", 3, 7, 63.5, 38.1, 7.2, 15.15, 66.0, 38.1},
    {"70x37", "A4", 3, 8, 70.0, 37.0, 0.0, 0.5, 70.0, 37.0},
    {"99.1x38.1", "A4", 2, 7, 99.1, 38.1, 4.65, 15.15, 101.6, 38.1},
    {"38.1x21.2", "A4", 5, 13, 38.1, 21.2, 4.65, 10.7, 40.6, 21.2},
    {"66.7x25.4", "letter", 3, 10, 66.675, 25.4, 4.7625, 12.7, 69.85, 25.4},
    {"101.6x50.8", "letter", 2, 5, 101.6, 50.8, 4.0, 12.7, 106.3, 50.8},
}};

std::string mm(double figure) { return shortest(figure) + "mm"; }

// Places of the size alone; what is the same for all sizes is in labels.css.
std::string css_of(const LabelSize& size) {
  const double code_mm = std::min(size.height_mm - 4, size.width_mm * 0.36);
  std::string css = ".label{width:" + mm(size.width_mm) + ";height:" + mm(size.height_mm) + "}\n";
  for (int column = 0; column < size.columns; ++column)
    css += ".c" + std::to_string(column) + "{left:" + mm(size.left_mm + column * size.across_mm) + "}\n";
  for (int row = 0; row < size.rows; ++row)
    css += ".r" + std::to_string(row) + "{top:" + mm(size.top_mm + row * size.down_mm) + "}\n";
  css += ".label .code{width:" + mm(code_mm) + ";height:" + mm(code_mm) + "}\n";
  if (size.height_mm < 25) css += ".label{font-size:6.5pt}.label strong{font-size:8.5pt}\n";
  css += std::string(".sheet{width:") + (size.paper == "A4" ? "210mm" : "215.9mm") +
         ";height:" + (size.paper == "A4" ? "296.9mm" : "279.3mm") + "}\n";
  return css;
}

}  // namespace

std::span<const LabelSize> label_sizes() { return common_sizes; }

const LabelSize* label_size_named(std::string_view name) {
  const auto* const found = std::find_if(common_sizes.begin(), common_sizes.end(),
                                         [name](const LabelSize& size) { return size.name == name; });
  return found == common_sizes.end() ? nullptr : found;
}

std::vector<std::string> label_size_names() {
  std::vector<std::string> names;
  for (const LabelSize& size : common_sizes) names.emplace_back(size.name);
  return names;
}

std::string label_sheet_page(const LabelSheet& sheet) {
  std::string out;
  HtmlText html(out);
  const auto on_a_sheet = static_cast<std::size_t>(sheet.size.on_a_sheet());
  const auto columns = static_cast<std::size_t>(sheet.size.columns);
  append_page_head(html, {"Labels, batch " + sheet.batch,
                          std::string(labels_css()) + css_of(sheet.size),
                          {},
                          std::string(sheet.size.paper)});
  html.open("body").line_end();
  const std::size_t skip = sheet.skip % on_a_sheet;
  for (std::size_t i = 0; i < sheet.labels.size(); ++i) {
    const std::size_t place = (i + skip) % on_a_sheet;
    if (i == 0 || place == 0) html.open("div", {{"class", "sheet"}}).line_end();
    const LabelText& label = sheet.labels[i];
    html.open("div", {{"class", "label c" + std::to_string(place % columns) + " r" + std::to_string(place / columns)}});
    html.markup(qr_code_svg(label.name)).open("div").open("strong").from_book(label.name).close();
    for (const std::string& line : label.lines) html.open("span").from_book(line).close();
    html.close().close().line_end();
    if (place + 1 == on_a_sheet || i + 1 == sheet.labels.size()) html.close().line_end();
  }
  html.close().markup("\n</html>\n");
  return out;
}

}  // namespace driftwarden
