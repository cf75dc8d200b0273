// SPDX-License-Identifier: MIT
#include "plot/panel_layout.hpp"

#include <algorithm>
#include <cmath>

#include "plot/label_places.hpp"

namespace driftwarden {
namespace {

constexpr double pixels_of_a_key_line = 14;
constexpr double side_of_a_head = 16;  // free at its left and right

double height_on(const Panel& panel, double y) { return (y - panel.y.low) / (panel.y.high - panel.y.low); }

// Moves level names apart, from the bottom up, then back down where they ran out at the top.
std::vector<double> heights_apart(const Panel& panel, const std::vector<PlacedLevel>& levels, double gap) {
  std::vector<double> heights;
  for (const PlacedLevel& level : levels) heights.push_back(height_on(panel, level.level->y));
  for (std::size_t i = 1; i < heights.size(); ++i) heights[i] = std::max(heights[i], heights[i - 1] + gap);
  double ceiling = 0.97;  // below the title, which may be long
  for (std::size_t i = heights.size(); i-- > 0;) {
    heights[i] = std::min(heights[i], ceiling);
    ceiling = heights[i] - gap;
  }
  return heights;
}

// What is drawn on a panel, in its pixels, so that words keep off it.
class Drawn {
 public:
  Drawn(const Panel& panel, double width, double height)
      : panel_(panel), width_(width), height_(height), places_({0, width, 0, height + panel.room_above}) {
    for (const Panel::Area& area : panel.areas) {
      line(area.x, area.low);
      line(area.x, area.high);
      for (std::size_t i = 0; i < area.x.size(); ++i)
        places_.keep_off_line(at(area.x[i], area.low[i]), at(area.x[i], area.high[i]));
    }
    for (const Panel::Curve& curve : panel.curves) line(curve.x, curve.y);
    for (const Panel::Bars& bars : panel.bars) {
      for (std::size_t i = 0; i < bars.x.size(); ++i)
        places_.keep_off_line(at(bars.x[i], bars.y[i] - bars.half[i]), at(bars.x[i], bars.y[i] + bars.half[i]));
    }
    for (const Panel::Marks& marks : panel.marks) {
      for (std::size_t i = 0; i < marks.x.size(); ++i) mark(at(marks.x[i], marks.y[i]), marks.mark.size);
    }
  }

  std::optional<LabelPlaces::Box> take(const Panel::Note& note, double width, double height) {
    const LabelPlaces::Point point = at(note.x, note.y);
    if (!note.is_of_a_line) return places_.take(places_around(point, width, height, note.is_above, note.farthest));
    std::vector<LabelPlaces::Box> places;
    for (double bottom = height_ + panel_.room_above - height; bottom >= 0; bottom -= height) {
      for (const double left : {point.x + beside_a_line, point.x - beside_a_line - width})
        places.push_back({left, left + width, bottom, bottom + height});
    }
    return places_.take(places);
  }

 private:
  static constexpr double pixels_of_a_mark = 6.5;  // from its middle to its edge, at size 1
  static constexpr double beside_a_line = 4;

  LabelPlaces::Point at(double x, double y) const {
    return {(x - panel_.x.low) / (panel_.x.high - panel_.x.low) * width_, height_on(panel_, y) * height_};
  }
  void line(const std::vector<double>& x, const std::vector<double>& y) {
    for (std::size_t i = 1; i < x.size(); ++i) places_.keep_off_line(at(x[i - 1], y[i - 1]), at(x[i], y[i]));
  }
  void mark(LabelPlaces::Point middle, double size) {
    const double half = pixels_of_a_mark * size;
    places_.keep_off({middle.x - half, middle.x + half, middle.y - half, middle.y + half});
  }

  const Panel& panel_;
  double width_;
  double height_;
  LabelPlaces places_;
};

double text_width(std::string_view text, double points) {
  constexpr double of_a_letter = 0.6;  // of its height; DejaVu Sans has less on average
  const auto letters = std::count_if(text.begin(), text.end(), [](char byte) { return (byte & 0xC0) != 0x80; });
  return of_a_letter * points * static_cast<double>(letters);
}

double pixels_before_words(const PictureKey& entry) {
  if (entry.line.width > 0) return length_of_key_line + 6;
  return entry.mark.shape != 0 ? 12 : 0;
}

// Where each stands, in pixels from the left end of its line and in lines from the first.
struct KeyPlace {
  double x = 0;
  int line = 0;
};
std::vector<KeyPlace> places_of(const std::vector<PictureKey>& key, double width, const Theme& theme) {
  std::vector<KeyPlace> places;
  KeyPlace next;
  for (const PictureKey& entry : key) {
    const double needed = text_width(entry.text, theme.small_points) + pixels_before_words(entry);
    if (next.x > 0 && next.x + needed > width - 2 * side_of_a_head) next = {0, next.line + 1};
    places.push_back(next);
    next.x += needed + side_of_a_head;
  }
  return places;
}

}  // namespace

std::vector<PlacedLevel> placed_levels(const Panel& panel) {
  std::vector<PlacedLevel> placed;
  for (const Panel::Level& level : panel.levels) {
    if (level.y >= panel.y.low && level.y <= panel.y.high) placed.push_back({&level, 0});
  }
  std::stable_sort(placed.begin(), placed.end(),
                   [](const PlacedLevel& a, const PlacedLevel& b) { return a.level->y < b.level->y; });
  const double gap = std::min(0.2, panel.level_gap / (panel.top - panel.bottom));
  const std::vector<double> heights = heights_apart(panel, placed, gap);
  for (std::size_t i = 0; i < placed.size(); ++i) placed[i].height = heights[i];
  return placed;
}

std::vector<PlacedNote> placed_notes(const Panel& panel, const Theme& theme, Extent picture) {
  std::vector<PlacedNote> placed;
  if (panel.notes.empty()) return placed;
  const double width = (panel.right - panel.left) * picture.width;
  const double height = (panel.top - panel.bottom) * picture.height;
  Drawn drawn(panel, width, height);
  for (const Panel::Note& note : panel.notes) {
    const auto box = drawn.take(note, text_width(note.text, theme.small_points), 1.2 * theme.small_points);
    if (box) placed.push_back({&note, box->left / width, (box->bottom + box->top) / 2 / height});
  }
  return placed;
}

double height_of_key(const std::vector<PictureKey>& key, double width, const Theme& theme) {
  return key.empty() ? 0 : (places_of(key, width, theme).back().line + 1) * pixels_of_a_key_line;
}

std::vector<PlacedKey> placed_key(const PictureHead& head, const Theme& theme) {
  std::vector<PlacedKey> placed;
  const std::vector<KeyPlace> places = places_of(head.key, head.size.width, theme);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const PictureKey& entry = head.key[i];
    const double left = side_of_a_head + places[i].x;
    const double x = left + (entry.is_a_line() ? pixels_before_words(entry) : entry.has_a_mark() ? 4 : 0);
    placed.push_back({&entry, left, x, (head.forecast.empty() ? 60 : 78) + places[i].line * pixels_of_a_key_line});
  }
  return placed;
}

}  // namespace driftwarden
