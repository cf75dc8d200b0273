// SPDX-License-Identifier: MIT
#include "plot/pictures.hpp"

#include <algorithm>
#include <cmath>

#include "book/file_name.hpp"
#include "book/timestamp.hpp"
#include "diagnostic/letters.hpp"
#include "plot/gnuplot_text.hpp"
#include "plot/legend.hpp"
#include "plot/series_panels.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr double pixels_of_a_head = 58;
constexpr double pixels_of_a_forecast = 18;
constexpr double pixels_of_a_foot = 34;
constexpr double pixels_of_the_cautions = 16;
constexpr std::size_t most_columns = 6;

// A title short enough for a thumbnail.
std::string as_a_word(std::string title) {
  title = title.substr(0, title.find(','));
  if (!title.empty()) title[0] = small_letter(title[0]);
  return title;
}

bool is_per_point(const Series& series) { return series.name.find(" at ") != std::string::npos; }

// The series that makes an instrument urgent; where none does, the one that says most of it.
const SeriesHistory* shown_in_the_fleet(const InstrumentHistory& history) {
  const SeriesHistory* shown = nullptr;
  for (const std::string_view name : {"pre-flow-deviation", "pre-flow", "as-found-error", "drift"}) {
    const SeriesHistory* series = history.find(name);
    if (series == nullptr) continue;
    if (shown == nullptr || (urgency_of(*series) >= 1 && urgency_of(*series) > urgency_of(*shown))) shown = series;
  }
  return shown;
}

// What a picture is of ("PUMP-04"), and what of it (".drift"): the two parts of its file's name before the ending.
struct PictureName {
  std::string of;
  std::string what;
};

class PictureWriter {
 public:
  PictureWriter(const Screening& screening, const ChartChoices& choices, const Theme& theme, PictureFormat format)
      : screening_(screening),
        choices_(choices),
        theme_(theme),
        format_(format),
        zone_(screening.book().settings.zone) {}

  void instrument(const InstrumentHistory& history) {
    const std::string& name = screening_.book().instruments[history.instrument].name;
    std::vector<const SeriesHistory*> per_point;
    for (const SeriesHistory& series : history.series) {
      if (is_per_point(series.series)) {
        per_point.push_back(&series);
      } else if (series.series.is_charted &&
                 (series.series.name != "pre-flow" || history.find("pre-flow-deviation") == nullptr)) {
        chart(name, series);
      }
    }
    const auto is_found = [](const SeriesHistory* series) { return series->series.is_charted; };
    if (std::any_of(per_point.begin(), per_point.end(), is_found)) points_page(name, per_point);
  }

  void fleet(const std::vector<InstrumentHistory>& histories, InstrumentKind kind, const std::string& file,
             const std::string& title) {
    struct Tile {
      const InstrumentHistory* history;
      const SeriesHistory* series;
    };
    std::vector<Tile> tiles;
    for (const InstrumentHistory& history : histories) {
      if (screening_.book().instruments[history.instrument].kind != kind) continue;
      const SeriesHistory* series = shown_in_the_fleet(history);
      if (series != nullptr) tiles.push_back({&history, series});
    }
    if (tiles.size() < 2) return;
    std::stable_sort(tiles.begin(), tiles.end(),
                     [](const Tile& a, const Tile& b) { return a.history->urgency > b.history->urgency; });
    std::vector<std::pair<std::string, const SeriesHistory*>> titled;
    for (const Tile& tile : tiles)
      titled.emplace_back(
          screening_.book().instruments[tile.history->instrument].name + ", " + as_a_word(tile.series->series.title),
          tile.series);
    page({file, ""}, title, "most urgent first; the last figure beside each name (out: beyond its tolerance)", titled);
  }

  Pictures take() { return std::move(pictures_); }

 private:
  std::string new_file(const PictureName& name) {
    pictures_.files.push_back(names_.name(as_file_name(name.of), name.what + std::string(ending_of(format_))));
    return pictures_.files.back();
  }

  std::string when(const Series& series, Moment at) const {
    return date_text(series.is_by_day ? static_cast<Day>(at / 86400) : local_day(at, zone_));
  }

  std::string subtitle(const SeriesHistory& history) const {
    const Series& series = history.series;
    std::string text = std::to_string(series.points.size()) + (series.points.size() == 1 ? " point, " : " points, ");
    const std::string first = when(series, series.points.front().at);
    const std::string last = when(series, series.points.back().at);
    text += first == last ? first : first + " to " + last;
    for (const std::string& said : {beyond_tolerance_said(series, zone_), series.basis})
      text += said.empty() ? "" : "; " + said;
    return text;
  }

  static std::vector<ChartKind> kinds_of(const SeriesHistory& history) {
    std::vector<ChartKind> kinds;
    for (const ChartKind kind :
         {ChartKind::moving_range, ChartKind::ewma, ChartKind::mean, ChartKind::cusum, ChartKind::spread}) {
      const bool has = std::any_of(history.charts.begin(), history.charts.end(),
                                   [&](const ControlChart& chart) { return chart.kind == kind; });
      if (has) kinds.push_back(kind);
    }
    return kinds;
  }

  void chart(const std::string& name, const SeriesHistory& history) {
    const std::vector<ChartKind> kinds = kinds_of(history);
    const std::size_t rows = kinds.size() / 2 + 1;  // of small panels, the legend among them
    const double row_pixels = 0.2 * theme_.chart.height;
    const double main_pixels = 0.34 * theme_.chart.height;
    const double head = pixels_of_a_head + pixels_of_a_forecast;
    const double height = head + main_pixels + static_cast<double>(rows) * row_pixels + pixels_of_the_cautions;
    const Extent size{theme_.chart.width, static_cast<int>(height)};
    begin_picture(pictures_.script,
                  {new_file({name, "." + as_file_name(history.series.name)}), name + ": " + history.series.title,
                   subtitle(history), history.forecast.said, size, format_, std::string(cautions_in_a_line)},
                  theme_);
    Panel main = main_panel(history, zone_, theme_);
    const double left = 68.0 / size.width;
    const double label_room = 100.0 / size.width;
    main.left = left;
    main.right = 1 - label_room;
    main.top = 1 - head / height;
    main.bottom = 1 - (head + main_pixels - pixels_of_a_foot) / height;
    append_panel(pictures_.script, main, theme_);
    for (std::size_t i = 0; i <= kinds.size(); ++i) {
      const bool is_left = i % 2 == 0;
      Box box;
      const std::size_t row = i / 2;
      const double above = head + main_pixels + static_cast<double>(row) * row_pixels;
      box.top = 1 - (above + 20) / height;
      box.bottom = 1 - (above + row_pixels - pixels_of_a_foot) / height;
      box.left = (is_left ? 0 : 0.5) + left;
      box.right = (is_left ? 0.5 : 1) - label_room;
      if (i == kinds.size()) {
        append_legend(
            pictures_.script,
            {box.left - 30.0 / size.width, box.right + label_room, box.bottom - 24 / height, box.top + 14 / height},
            history, choices_, theme_);
        break;
      }
      Panel panel = chart_panel(history, kinds[i], zone_, theme_);
      panel.left = box.left;
      panel.right = box.right;
      panel.top = box.top;
      panel.bottom = box.bottom;
      append_panel(pictures_.script, panel, theme_);
    }
    end_picture(pictures_.script);
  }

  void points_page(const std::string& name, const std::vector<const SeriesHistory*>& series) {
    std::vector<std::pair<std::string, const SeriesHistory*>> titled;
    for (const SeriesHistory* history : series) titled.emplace_back(history->series.title, history);
    const std::string& unit = series.front()->series.unit;
    page({name, ".calibration-points"}, name + ": errors at each calibration point",
         "in " + (unit == "%" ? std::string("percent of the true flow") : unit) + "; the last figure beside each name",
         titled);
  }

  void page(const PictureName& file, const std::string& title, const std::string& said,
            const std::vector<std::pair<std::string, const SeriesHistory*>>& tiles) {
    const auto wanted = static_cast<std::size_t>(std::ceil(std::sqrt(1.2 * static_cast<double>(tiles.size()))));
    const std::size_t columns = std::clamp<std::size_t>(wanted, 2, most_columns);
    const std::size_t rows = (tiles.size() + columns - 1) / columns;
    const double width = static_cast<double>(columns) * theme_.tile.width;
    const double head = pixels_of_a_head + pixels_of_a_forecast;
    const double height = head + static_cast<double>(rows) * theme_.tile.height + pixels_of_the_cautions;
    begin_picture(pictures_.script,
                  {new_file(file),
                   title,
                   said,
                   "dashes: control limits; dash and dots: tolerance",
                   {static_cast<int>(width), static_cast<int>(height)},
                   format_,
                   std::string(cautions_in_a_line)},
                  theme_);
    for (std::size_t i = 0; i < tiles.size(); ++i) {
      const SeriesHistory& history = *tiles[i].second;
      const SeriesPoint& last = history.series.points.back();
      Panel panel = tile_panel(history,
                               tiles[i].first + ": " + chart_figure(last.value, 3) + " " + history.series.unit +
                                   (urgency_of(history) >= 3 ? ", out" : ""),
                               zone_, theme_);
      const auto column = static_cast<double>(i % columns);
      const std::size_t whole_rows = i / columns;
      const auto row = static_cast<double>(whole_rows);
      panel.left = (column * theme_.tile.width + 14) / width;
      panel.right = ((column + 1) * theme_.tile.width - 10) / width;
      panel.top = 1 - (head + row * theme_.tile.height + 22) / height;
      panel.bottom = 1 - (head + (row + 1) * theme_.tile.height - 12) / height;
      append_panel(pictures_.script, panel, theme_);
    }
    end_picture(pictures_.script);
  }

  const Screening& screening_;
  const ChartChoices& choices_;
  const Theme& theme_;
  PictureFormat format_;
  const TimeZone& zone_;
  Pictures pictures_;
  FreshNames names_;
};

}  // namespace

Pictures pictures_of(const Screening& screening, const std::vector<InstrumentHistory>& histories,
                     const ChartChoices& choices, const Theme& theme, PictureFormat format) {
  PictureWriter writer(screening, choices, theme, format);
  writer.fleet(histories, InstrumentKind::pump, "fleet-pumps", "All pumps");
  writer.fleet(histories, InstrumentKind::calibrator, "fleet-calibrators", "All calibrators");
  for (const InstrumentHistory& history : histories) writer.instrument(history);
  return writer.take();
}

}  // namespace driftwarden
