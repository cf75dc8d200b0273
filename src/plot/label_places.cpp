// SPDX-License-Identifier: MIT
#include "plot/label_places.hpp"

#include <algorithm>
#include <cmath>

namespace driftwarden {
namespace {

constexpr double air = 1.5;      // around words
constexpr double from_mark = 5;  // between a mark and its words

bool overlap(const LabelPlaces::Box& a, const LabelPlaces::Box& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

// Narrows [enter, leave], the part of a line inside a strip, to low..high of one coordinate. False: nothing is left.
bool narrow(double from, double step, double low, double high, double& enter, double& leave) {
  if (step == 0) return from >= low && from <= high;
  const double a = (low - from) / step;
  const double b = (high - from) / step;
  enter = std::max(enter, std::min(a, b));
  leave = std::min(leave, std::max(a, b));
  return enter <= leave;
}

bool crosses(LabelPlaces::Point from, LabelPlaces::Point to, const LabelPlaces::Box& box) {
  double enter = 0;
  double leave = 1;
  return narrow(from.x, to.x - from.x, box.left, box.right, enter, leave) &&
         narrow(from.y, to.y - from.y, box.bottom, box.top, enter, leave);
}

}  // namespace

void LabelPlaces::keep_off_line(Point from, Point to) {
  if (std::isfinite(from.x + from.y + to.x + to.y)) lines_.push_back({from, to});
}

bool LabelPlaces::is_free(const Box& box) const {
  if (box.left < room_.left || box.right > room_.right || box.bottom < room_.bottom || box.top > room_.top)
    return false;
  const Box aired{box.left - air, box.right + air, box.bottom - air, box.top + air};
  return std::none_of(boxes_.begin(), boxes_.end(), [&](const Box& other) { return overlap(aired, other); }) &&
         std::none_of(lines_.begin(), lines_.end(),
                      [&](const Line& line) { return crosses(line.from, line.to, aired); });
}

std::optional<LabelPlaces::Box> LabelPlaces::take(const std::vector<Box>& places) {
  const auto found = std::find_if(places.begin(), places.end(), [&](const Box& box) { return is_free(box); });
  if (found == places.end()) return std::nullopt;
  keep_off(*found);
  return *found;
}

std::vector<LabelPlaces::Box> places_around(LabelPlaces::Point point, double width, double height, bool above_first,
                                            int farthest) {
  std::vector<LabelPlaces::Box> places;
  for (int step = 0; step <= farthest; ++step) {
    for (const bool above : {above_first, !above_first}) {
      const double away = from_mark + step * height / 2;
      const double bottom = above ? point.y + away : point.y - away - height;
      for (const double left : {point.x - width / 2, point.x, point.x - width})
        places.push_back({left, left + width, bottom, bottom + height});
    }
  }
  return places;
}

}  // namespace driftwarden
