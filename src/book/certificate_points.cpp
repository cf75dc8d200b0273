// SPDX-License-Identifier: MIT
#include "book/certificate_points.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

// Where the figures of a point are, of flow and of conditions.
template <class Point>
struct Figures {
  double Point::*nominal;
  double Point::*reference;
  std::optional<double> Point::*reference_as_found;
  std::optional<double> Point::*as_found;
  std::optional<double> Point::*as_left;
};
constexpr Figures<CertificatePoint> of_flow{&CertificatePoint::nominal_l_min, &CertificatePoint::reference_l_min,
                                            &CertificatePoint::reference_as_found_l_min,
                                            &CertificatePoint::as_found_l_min, &CertificatePoint::as_left_l_min};
constexpr Figures<ConditionPoint> of_condition{&ConditionPoint::nominal, &ConditionPoint::reference,
                                               &ConditionPoint::reference_as_found, &ConditionPoint::as_found,
                                               &ConditionPoint::as_left};

template <class Point>
class PointJoiner {
 public:
  PointJoiner(std::vector<Point>& points, const Figures<Point>& of) : points_(points), of_(of) {}

  std::optional<RowPlace> join() {
    has_rows_as_left_only_ =
        std::any_of(points_.begin(), points_.end(), [this](const Point& p) { return !(p.*of_.as_found) && left(p); });
    std::optional<RowPlace> first;
    std::vector<bool> is_joined(points_.size());
    for (std::size_t i = 0; i < points_.size(); ++i) {
      Point& point = points_[i];
      if (!(point.*of_.as_found) || left(point)) continue;
      Point* const partner = left_of(point.*of_.nominal);
      point.is_before_adjustment |= partner != nullptr || has_rows_as_left_only_;
      if (point.is_before_adjustment && !first) first = point.place;
      is_joined[i] = partner != nullptr && takes(*partner, point);
    }
    leave_out(is_joined);
    return first;
  }

 private:
  void leave_out(const std::vector<bool>& is_joined) {
    std::vector<Point> others;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if (!is_joined[i]) others.push_back(points_[i]);
    }
    points_ = std::move(others);
  }

  // Of two files, perhaps in two units.
  static bool is_same(double a, double b) { return side_of_limit(a, b) == Side::on; }
  bool left(const Point& point) const { return (point.*of_.as_left).has_value(); }

  Point* left_of(double nominal) {
    const auto found = std::find_if(points_.begin(), points_.end(), [&](const Point& point) {
      return left(point) && is_same(point.*of_.nominal, nominal);
    });
    return found == points_.end() ? nullptr : &*found;
  }

  // False where the row as left has an as found of its own.
  bool takes(Point& partner, const Point& point) const {
    if (partner.*of_.as_found) return false;
    partner.*of_.as_found = point.*of_.as_found;
    const std::optional<double>& stated = point.*of_.reference_as_found;
    partner.*of_.reference_as_found = stated.value_or(point.*of_.reference);
    return true;
  }

  std::vector<Point>& points_;
  const Figures<Point>& of_;
  bool has_rows_as_left_only_ = false;
};

}  // namespace

std::optional<RowPlace> join_found_and_left(Certificate& certificate) {
  const std::optional<RowPlace> flow = PointJoiner(certificate.points, of_flow).join();
  const std::optional<RowPlace> condition = PointJoiner(certificate.condition_points, of_condition).join();
  return flow ? flow : condition;
}

}  // namespace driftwarden
