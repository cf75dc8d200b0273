// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

namespace driftwarden {

// Finds where words stand on a picture so that they cover no line, no mark and no other word. All in pixels, from the
// lower left corner of what they belong to.
class LabelPlaces {
 public:
  struct Box {
    double left = 0;
    double right = 0;
    double bottom = 0;
    double top = 0;
  };
  struct Point {
    double x = 0;
    double y = 0;
  };

  // Words stay inside the room.
  explicit LabelPlaces(Box room) : room_(room) {}

  // A missing coordinate is no line.
  void keep_off_line(Point from, Point to);
  void keep_off(Box box) { boxes_.push_back(box); }

  // The first of the places that is free, taken; nothing where none is.
  std::optional<Box> take(const std::vector<Box>& places);

 private:
  struct Line {
    Point from;
    Point to;
  };
  bool is_free(const Box& box) const;

  Box room_;
  std::vector<Line> lines_;
  std::vector<Box> boxes_;
};

// Places for words of a size around a point, the nearest first: above it or below, straight or to a side, at most so
// many times their height away.
std::vector<LabelPlaces::Box> places_around(LabelPlaces::Point point, double width, double height, bool above_first,
                                            int farthest);

}  // namespace driftwarden
