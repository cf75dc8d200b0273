// SPDX-License-Identifier: MIT
#include "plot/pictures.hpp"

#include <algorithm>
#include <cmath>

#include "book/file_name.hpp"
#include "book/stamp_text.hpp"
#include "plot/calibrator_marks.hpp"
#include "plot/gnuplot_text.hpp"
#include "plot/legend.hpp"
#include "plot/panel_layout.hpp"
#include "plot/picture_script.hpp"
#include "plot/series_panels.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr double pixels_of_a_head = 58;
constexpr double pixels_of_a_forecast = 18;
constexpr double pixels_of_a_foot = 34;
constexpr double pixels_of_the_cautions = 16;
constexpr double pixels_of_levels = 44;  // of the figures left of thumbnails
constexpr double pixels_of_dates = 22;   // below the lowest of them
constexpr double room_above_pixels = 14;
constexpr std::size_t most_columns = 6;

bool is_per_point(const Series& series) { return series.name.find(" at ") != std::string::npos; }

// The series that makes an instrument urgent; where none does, the one that says most of it. In percent, to be
// compared.
const SeriesHistory* shown_in_the_fleet(const InstrumentHistory& history) {
  const SeriesHistory* shown = nullptr;
  for (const std::string_view name : {"pre-flow-deviation", "as-found-error", "drift"}) {
    const SeriesHistory* series = history.find(name);
    if (series == nullptr || !has_a_chart(series->series)) continue;
    if (shown == nullptr || (urgency_of(*series) >= 1 && urgency_of(*series) > urgency_of(*shown))) shown = series;
  }
  return shown;
}

// What a picture is of ("PUMP-04"), and what of it (".drift"): the two parts of its file's name before the ending.
struct PictureName {
  std::string of;
  std::string what;
};

// A thumbnail and its words.
struct TitledTile {
  std::string name;
  const SeriesHistory* series = nullptr;
};

constexpr double out_of_tolerance = 3;  // urgency_of: from here on
constexpr double on_its_way = 2;

// "−7.07 %, out of tolerance"
std::string last_figure(const SeriesHistory& history) {
  const SeriesPoint& last = *last_counted(history.series);
  return chart_figure(std::round(100 * last.value) / 100, 3) + " " + history.series.unit +
         (urgency_of(history) >= out_of_tolerance ? ", out of tolerance" : "");
}

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
      if (!has_a_chart(series.series)) continue;
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
    std::vector<TitledTile> tiles;
    std::string left_out;
    for (const InstrumentHistory& history : histories) {
      const Instrument& instrument = screening_.book().instruments[history.instrument];
      if (instrument.kind != kind) continue;
      const SeriesHistory* series = shown_in_the_fleet(history);
      if (series != nullptr) tiles.push_back({instrument.name, series});
      if (series == nullptr) left_out += (left_out.empty() ? "" : ", ") + instrument.name;
    }
    if (tiles.size() < 2) return;
    std::stable_sort(tiles.begin(), tiles.end(), [](const TitledTile& a, const TitledTile& b) {
      return urgency_of(*a.series) > urgency_of(*b.series);
    });
    page({file, ""}, title, "most urgent first; the last figure beside each name", tiles,
         left_out.empty() ? "" : "too little is known to draw: " + left_out);
  }

  Pictures take() { return std::move(pictures_); }

 private:
  std::string new_file(const PictureName& name) {
    pictures_.files.push_back(names_.name(as_file_name(name.of), name.what + std::string(ending_of(format_))));
    return pictures_.files.back();
  }

  std::string when(const Series& series, Moment at) const {
    return date_text(series.is_by_day ? static_cast<Day>(at / seconds_a_day) : local_day(at, zone_));
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

  std::vector<PictureKey> key_of(const CalibratorMarks& marks) const {
    std::vector<PictureKey> key;
    for (const CalibratorMarks::Entry& entry : marks.entries())
      key.push_back({theme_.calibrators[entry.mark], "read with " + names_of(entry, screening_.book())});
    if (key.empty()) return key;
    for (const std::string& words : words_of(marks)) key.push_back({{0, 0, ""}, words});
    return key;
  }

  void chart(const std::string& name, const SeriesHistory& history) {
    const CalibratorMarks calibrators({&history.series});
    const ChartLook look{zone_, theme_, calibrators};
    const std::vector<ChartKind> kinds = kinds_of(history);
    const std::size_t rows = kinds.size() / 2 + 1;  // of small panels, the legend among them
    const double row_pixels = 0.2 * theme_.chart.height;
    const double main_pixels = 0.34 * theme_.chart.height;
    const double head = pixels_of_a_head + pixels_of_a_forecast + room_above_pixels;
    const double height = head + main_pixels + static_cast<double>(rows) * row_pixels + pixels_of_the_cautions;
    const Extent size{theme_.chart.width, static_cast<int>(height)};
    begin_picture(pictures_.script,
                  {new_file({name, "." + as_file_name(history.series.name)}), name + ": " + history.series.title,
                   subtitle(history), history.forecast.said, size, format_, std::string(cautions_in_a_line)},
                  theme_);
    Panel main = main_panel(history, look);
    main.room_above = room_above_pixels;
    const double left = 68.0 / size.width;
    const double label_room = 100.0 / size.width;
    main.left = left;
    main.right = 1 - label_room;
    main.top = 1 - head / height;
    main.bottom = 1 - (head + main_pixels - pixels_of_a_foot) / height;
    append_panel(pictures_.script, main, theme_, size);
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
            legend_of(history, choices_, theme_, key_of(calibrators)), theme_, size);
        break;
      }
      Panel panel = chart_panel(history, kinds[i], look);
      panel.left = box.left;
      panel.right = box.right;
      panel.top = box.top;
      panel.bottom = box.bottom;
      append_panel(pictures_.script, panel, theme_, size);
    }
    end_picture(pictures_.script);
  }

  void points_page(const std::string& name, const std::vector<const SeriesHistory*>& series) {
    std::vector<TitledTile> tiles;
    for (const SeriesHistory* history : series) tiles.push_back({history->series.title, history});
    const std::string& unit = series.front()->series.unit;
    page({name, ".calibration-points"}, name + ": errors at each calibration point",
         "in " + (unit == "%" ? std::string("percent of the true flow") : unit) + "; the last figure beside each name",
         tiles, "");
  }

  // What is said below a tile's name.
  std::string said_of(const TitledTile& tile) const {
    const SeriesHistory& history = *tile.series;
    const std::string what = is_per_point(history.series) ? "" : history.series.title;
    const double urgency = urgency_of(history);
    if (urgency < on_its_way || urgency >= out_of_tolerance) return what;
    return what + (what.empty() ? "" : "; ") + "leaves its tolerance " +
           date_text(day_of(history.series, history.forecast.crossing->day, zone_));
  }

  void page(const PictureName& file, const std::string& title, const std::string& said,
            const std::vector<TitledTile>& tiles, const std::string& left_out) {
    const auto wanted = static_cast<std::size_t>(std::ceil(std::sqrt(1.2 * static_cast<double>(tiles.size()))));
    const std::size_t columns = std::clamp<std::size_t>(wanted, 2, most_columns);
    const std::size_t rows = (tiles.size() + columns - 1) / columns;
    std::vector<const SeriesHistory*> shown;
    std::vector<const Series*> series;
    for (const TitledTile& tile : tiles) {
      shown.push_back(tile.series);
      series.push_back(&tile.series->series);
    }
    const CalibratorMarks calibrators(series);
    const ChartLook look{zone_, theme_, calibrators};
    const Tile scale = common_scale(shown, zone_);
    const double width = pixels_of_levels + static_cast<double>(columns) * theme_.tile.width;
    std::vector<PictureKey> key = key_of(calibrators);
    if (!left_out.empty()) key.push_back({{0, 0, ""}, left_out});
    const double head = pixels_of_a_head + pixels_of_a_forecast + height_of_key(key, width, theme_);
    const double height =
        head + static_cast<double>(rows) * theme_.tile.height + pixels_of_dates + pixels_of_the_cautions;
    const Extent size{static_cast<int>(width), static_cast<int>(height)};
    begin_picture(pictures_.script,
                  {new_file(file), title, said,
                   "all on one scale; dash and dots: tolerance; larger: beyond it; triangle on an edge: off the scale",
                   size, format_, std::string(cautions_in_a_line), key},
                  theme_);
    for (std::size_t i = 0; i < tiles.size(); ++i) {
      Panel panel = tile_panel(*tiles[i].series, scale, look);
      titled(panel, tiles[i]);
      const auto column = static_cast<double>(i % columns);
      const std::size_t whole_rows = i / columns;
      const auto row = static_cast<double>(whole_rows);
      panel.has_levels = i % columns == 0;
      panel.has_dates = i + columns >= tiles.size();
      panel.left = (pixels_of_levels + column * theme_.tile.width + 8) / width;
      panel.right = (pixels_of_levels + (column + 1) * theme_.tile.width - 12) / width;
      panel.top = 1 - (head + row * theme_.tile.height + 34) / height;
      panel.bottom = 1 - (head + (row + 1) * theme_.tile.height - 8) / height;
      append_panel(pictures_.script, panel, theme_, size);
    }
    end_picture(pictures_.script);
  }

  // Its words, and for one that is out, or on its way, what catches the eye.
  void titled(Panel& panel, const TitledTile& tile) const {
    const double urgency = urgency_of(*tile.series);
    panel.title = tile.name + ": " + last_figure(*tile.series);
    panel.subtitle = said_of(tile);
    if (urgency < on_its_way) return;
    panel.frame = panel.title_colour = urgency >= out_of_tolerance ? theme_.signal.colour : theme_.trend.colour;
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
