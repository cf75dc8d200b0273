// SPDX-License-Identifier: MIT
#include "plot/calibrator_marks.hpp"

#include <algorithm>
#include <map>
#include <string_view>
#include <utility>

namespace driftwarden {
namespace {

constexpr double larger_around = 1.9;

bool is_of_a_pump(const SeriesPoint& point) {
  return (point.kind == PointKind::sample || point.kind == PointKind::bench) && point.calibrator != no_row;
}

bool is_read_with_two(const SeriesPoint& point) {
  return is_of_a_pump(point) && point.calibrator_after != no_row && point.calibrator_after != point.calibrator;
}

// gnuplot's filled marks as characters.
std::string_view character_of(const MarkStyle& mark) {
  static const std::map<int, std::string_view> characters{{5, "■"},  {7, "●"},  {9, "▲"},
                                                          {11, "▼"}, {13, "◆"}, {15, "⬟"}};
  const auto found = characters.find(mark.shape);
  return found == characters.end() ? "•" : found->second;
}

// By calibrator, how many points were read with it.
std::map<Row, std::size_t> points_of_each(const std::vector<const Series*>& shown) {
  std::map<Row, std::size_t> points;
  for (const Series* series : shown) {
    for (const SeriesPoint& point : series->points) {
      if (!is_of_a_pump(point)) continue;
      ++points[point.calibrator];
      if (is_read_with_two(point)) ++points[point.calibrator_after];
    }
  }
  return points;
}

bool any_point(const std::vector<const Series*>& shown, bool (*is_so)(const SeriesPoint&)) {
  return std::any_of(shown.begin(), shown.end(), [&](const Series* series) {
    return std::any_of(series->points.begin(), series->points.end(), is_so);
  });
}

}  // namespace

CalibratorMarks::CalibratorMarks(const std::vector<const Series*>& shown)
    : has_two_on_a_point_(any_point(shown, is_read_with_two)),
      has_bench_(any_point(
          shown, [](const SeriesPoint& point) { return is_of_a_pump(point) && point.kind == PointKind::bench; })) {
  constexpr std::size_t own_marks = marked_calibrators.size() - 1;
  const std::map<Row, std::size_t> points = points_of_each(shown);
  std::vector<std::pair<Row, std::size_t>> by_points(points.begin(), points.end());
  if (by_points.size() > marked_calibrators.size())
    std::stable_sort(by_points.begin(), by_points.end(),
                     [](const auto& a, const auto& b) { return a.second > b.second; });
  for (const auto& [calibrator, count] : by_points) {
    if (entries_.size() <= own_marks) entries_.push_back({entries_.size(), {}});
    entries_.back().calibrators.push_back(calibrator);
  }
}

std::size_t CalibratorMarks::place_of(Row calibrator) const {
  for (const Entry& entry : entries_) {
    if (std::find(entry.calibrators.begin(), entry.calibrators.end(), calibrator) != entry.calibrators.end())
      return entry.mark;
  }
  return marked_calibrators.size() - 1;
}

MarkStyle CalibratorMarks::mark_of(const SeriesPoint& point, const Theme& theme) const {
  if (point.is_void) return theme.void_;
  if (entries_.empty() || !is_of_a_pump(point)) return theme.points[static_cast<std::size_t>(point.kind)];
  const MarkStyle mark = theme.calibrators[place_of(point.calibrator)];
  return point.kind == PointKind::bench ? open(mark) : mark;
}

MarkStyle CalibratorMarks::mark_around(const SeriesPoint& point, const Theme& theme) const {
  if (entries_.empty() || point.is_void || !is_read_with_two(point)) return {0, 0, ""};
  MarkStyle mark = open(theme.calibrators[place_of(point.calibrator_after)]);
  mark.size *= larger_around;
  return mark;
}

std::string names_of(const CalibratorMarks::Entry& entry, const Book& book) {
  std::string names;
  for (const Row calibrator : entry.calibrators)
    names += (names.empty() ? "" : ", ") + book.instruments[calibrator].name;
  return names;
}

std::vector<std::string> words_of(const CalibratorMarks& marks) {
  std::vector<std::string> words;
  if (marks.has_two_on_a_point())
    words.emplace_back("an open mark around one: read with that calibrator after sampling");
  if (marks.has_bench()) words.emplace_back("open: read for no sample");
  return words;
}

std::string key_text(const CalibratorMarks& marks, const Book& book, const Theme& theme) {
  std::string key;
  for (const CalibratorMarks::Entry& entry : marks.entries())
    key += (key.empty() ? "" : ", ") + std::string(character_of(theme.calibrators[entry.mark])) + " " +
           names_of(entry, book);
  if (key.empty()) return key;
  for (const std::string& words : words_of(marks)) key += "; " + words;
  return key;
}

}  // namespace driftwarden
