// SPDX-License-Identifier: MIT
#include "book/calibration_points.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "book/calibration_document.hpp"
#include "book/calibration_series.hpp"
#include "quantity/limit.hpp"
#include "record/sample.hpp"

namespace driftwarden {
namespace {

// What a quantity of a list is, by its refType. The names are those of the DCC's good practice, from memory and as they
// stand in published certificates.
enum Role : std::size_t { nominal, reference, indicated, error_of_it };
constexpr std::array<std::string_view, 4> ref_types{"basic_nominalValue", "basic_referenceValue", "basic_measuredValue",
                                                    "basic_measurementError"};
constexpr std::string_view adjustment = "basic_adjustment";

struct Condition {
  std::string_view ref_type;
  Dimension dimension;
  std::optional<double> DocumentPoints::*figure;
};
constexpr std::array<Condition, 2> conditions{{
    {"basic_temperature", Dimension::temperature, &DocumentPoints::temperature_k},
    {"basic_pressure", Dimension::pressure, &DocumentPoints::pressure_kpa},
}};

std::optional<Role> role_of(const XmlElement& quantity) {
  for (std::size_t role = 0; role < ref_types.size(); ++role) {
    if (has_ref_type(quantity, ref_types[role])) return static_cast<Role>(role);
  }
  return std::nullopt;
}

// The quantities of a list that make points together.
struct Group {
  const XmlElement* list = nullptr;
  AdjustmentState state = AdjustmentState::unsaid;
  std::array<const XmlElement*, ref_types.size()> quantity{};
  std::array<std::optional<CalibrationSeries>, ref_types.size()> series{};

  bool has(Role role) const { return series[role].has_value(); }
  // A list of one serves all points.
  double figure(Role role, std::size_t i) const { return series[role]->figures[series[role]->size() == 1 ? 0 : i]; }
  double half_step(Role role, std::size_t i) const {
    return series[role]->half_steps[series[role]->size() == 1 ? 0 : i];
  }
};

class PointReader {
 public:
  explicit PointReader(const PointsWanted& wanted) : wanted_(wanted) {}

  Result<DocumentPoints> read(const XmlElement& results) {
    for (const XmlElement* one : dcc_children(results, "measurementResult")) {
      if (is_of_item(*one)) read_result(*one);
    }
    if (!fault_ && found_.points.empty()) fail(no_points(results));
    if (!fault_) check_states(results);
    if (fault_) return *fault_;
    return std::move(found_);
  }

 private:
  void fail(Diagnostic fault) {
    if (!fault_) fault_ = std::move(fault);
  }
  void fail_structure(const XmlElement& at, const std::string& message, const std::string& hint = {}) {
    fail(structure_fault(wanted_.file, at, message, hint));
  }
  void fail_at(const char* id, const XmlElement& at, const std::string& message, const std::string& hint) {
    fail(error(id, {wanted_.file, at.place.line, at.place.column}, message, hint));
  }

  Diagnostic no_points(const XmlElement& results) const {
    return error("dcc/no-points", {wanted_.file, results.place.line, results.place.column},
                 "it has no points of " + std::string(to_text(wanted_.dimension)) +
                     (wanted_.item.empty() ? "" : " whose results refer to the item " + in_quotes(wanted_.item)),
                 "points are lists with " + std::string(ref_types[reference]) + " and " +
                     std::string(ref_types[indicated]) + "; write others to a CSV file of certificates");
  }

  bool is_of_item(const XmlElement& result) const {
    const std::vector<std::string_view> ids = words_of(result.attribute("refId"));
    return wanted_.item.empty() || std::find(ids.begin(), ids.end(), wanted_.item) != ids.end();
  }

  void read_result(const XmlElement& result) {
    const AdjustmentState state = state_of(result, AdjustmentState::unsaid);
    read_conditions(result);
    const XmlElement* results = dcc_child(result, "results");
    if (results == nullptr) return fail_structure(result, "there is no 'results' in 'measurementResult'");
    for (const XmlElement* one : dcc_children(*results, "result")) {
      if (const XmlElement* data = dcc_child(*one, "data")) read_list(*data, state);
    }
  }

  // What a part says of the state before or after an adjustment; where it says nothing, what holds around it.
  AdjustmentState state_of(const XmlElement& part, AdjustmentState around) {
    const XmlElement* all = dcc_child(part, "influenceConditions");
    if (all == nullptr) return around;
    for (const XmlElement* one : dcc_children(*all, "influenceCondition")) {
      if (!has_ref_type(*one, adjustment)) continue;
      const std::string status = plain_text(dcc_child(*one, "status"));
      found_.understood.emplace(adjustment);
      if (status == "beforeAdjustment") return AdjustmentState::before;
      if (status == "afterAdjustment") return AdjustmentState::after;
      fail_structure(*one, "the status " + in_quotes(status) + " of an adjustment is not understood",
                     "beforeAdjustment and afterAdjustment are; write its points to a CSV file of certificates");
    }
    return around;
  }

  // A temperature or pressure that is one figure.
  void read_conditions(const XmlElement& result) {
    const XmlElement* all = dcc_child(result, "influenceConditions");
    if (all == nullptr) return;
    for (const XmlElement* one : dcc_children(*all, "influenceCondition")) {
      const XmlElement* data = dcc_child(*one, "data");
      const std::vector<const XmlElement*> quantities =
          data == nullptr ? std::vector<const XmlElement*>() : dcc_children(*data, "quantity");
      for (const Condition& condition : conditions) {
        if (quantities.size() == 1 &&
            (has_ref_type(*one, condition.ref_type) || has_ref_type(*quantities.front(), condition.ref_type)))
          take_condition(*quantities.front(), condition);
      }
    }
  }
  void take_condition(const XmlElement& quantity, const Condition& condition) {
    const Result<CalibrationSeries> series = calibration_series(quantity, false, wanted_.file);
    const bool is_one_figure = series && series->dimension == condition.dimension && series->size() == 1;
    if (!is_one_figure || found_.*condition.figure) return;
    found_.*condition.figure = series->figures.front();
    found_.understood.emplace(condition.ref_type);
    found_.used.insert(&quantity);
  }

  // Lists may lie in each other; each one's own quantities go together.
  void read_list(const XmlElement& list, AdjustmentState around) {
    const AdjustmentState state = state_of(list, around);
    std::vector<std::pair<const XmlElement*, AdjustmentState>> quantities;
    std::set<AdjustmentState> own;
    for (const XmlElement* quantity : dcc_children(list, "quantity")) {
      if (!role_of(*quantity)) continue;
      quantities.emplace_back(quantity, state_of(*quantity, AdjustmentState::unsaid));
      if (quantities.back().second != AdjustmentState::unsaid) own.insert(quantities.back().second);
    }
    if (!quantities.empty() && own.empty()) own.insert(state);
    for (const AdjustmentState one : own) {
      Group group{&list, one, {}, {}};
      for (const auto& [quantity, said] : quantities) {
        if (said == one || said == AdjustmentState::unsaid) put(*quantity, group);
      }
      read_group(group);
    }
    for (const XmlElement* inner : dcc_children(list, "list")) read_list(*inner, state);
  }
  void put(const XmlElement& quantity, Group& group) {
    const Role role = *role_of(quantity);
    if (group.quantity[role] != nullptr)
      return fail_structure(quantity, "a second quantity of one list is a " + std::string(ref_types[role]));
    group.quantity[role] = &quantity;
  }

  void read_group(Group& group) {
    if (fault_) return;
    for (std::size_t role = 0; role < ref_types.size(); ++role) {
      if (group.quantity[role] == nullptr) continue;
      Result<CalibrationSeries> series = calibration_series(*group.quantity[role], role == error_of_it, wanted_.file);
      if (!series) return fail(series.faults().front());
      group.series[role] = *std::move(series);
    }
    if (!is_whole(group) || !is_of_one_kind(group)) return;
    const std::optional<Role> uncertain = uncertain_role(group);
    for (std::size_t i = 0; i < points_of(group) && !fault_; ++i) add_point(group, i, uncertain);
    for (std::size_t role = 0; role < ref_types.size(); ++role) {
      if (!group.has(static_cast<Role>(role))) continue;
      found_.understood.emplace(ref_types[role]);
      found_.used.insert(group.quantity[role]);
    }
  }

  static std::size_t points_of(const Group& group) {
    std::size_t most = 0;
    for (const auto& series : group.series) most = std::max(most, series ? series->size() : 0);
    return most;
  }

  bool is_whole(const Group& group) {
    const int known =
        (group.has(reference) ? 1 : 0) + (group.has(indicated) ? 1 : 0) + (group.has(error_of_it) ? 1 : 0);
    if (known < 2) {
      fail_structure(*group.list, "a list has " + roles_of(group) + " alone, of which no point can be made");
      return false;
    }
    for (std::size_t role = 0; role < ref_types.size(); ++role) {
      const auto& series = group.series[role];
      if (!series || series->size() == 1 || series->size() == points_of(group)) continue;
      fail_structure(*group.quantity[role], "a list has " + std::to_string(series->size()) +
                                                " figures beside others of " + std::to_string(points_of(group)));
      return false;
    }
    return true;
  }
  static std::string roles_of(const Group& group) {
    std::string roles;
    for (std::size_t role = 0; role < ref_types.size(); ++role) {
      if (group.has(static_cast<Role>(role))) roles += (roles.empty() ? "" : " and ") + std::string(ref_types[role]);
    }
    return roles;
  }

  // False: it is of another kind of figure, or (then told) of several.
  bool is_of_one_kind(const Group& group) {
    const Role main = group.has(reference) ? reference : indicated;
    const Dimension kind = group.series[main]->dimension;
    for (std::size_t role = 0; role < ref_types.size(); ++role) {
      const auto& series = group.series[role];
      const Dimension own =
          role == error_of_it && kind == Dimension::temperature ? Dimension::temperature_difference : kind;
      if (!series || series->dimension == own) continue;
      fail_structure(*group.quantity[role], std::string(ref_types[role]) + " is a " +
                                                std::string(to_text(series->dimension)) + " beside a " +
                                                std::string(to_text(kind)));
      return false;
    }
    return kind == wanted_.dimension;
  }

  // Which quantity states the uncertainty: that of the error is the calibration's; of two others they have to agree.
  std::optional<Role> uncertain_role(const Group& group) {
    const auto states = [&group](Role role) { return group.has(role) && !group.series[role]->expanded.empty(); };
    if (states(error_of_it)) return error_of_it;
    if (!states(indicated)) return states(reference) ? std::optional<Role>(reference) : std::nullopt;
    if (states(reference) && group.series[reference]->expanded != group.series[indicated]->expanded) {
      fail_structure(*group.quantity[indicated],
                     "the reference and the indication have uncertainties of their own, and nothing says which is that "
                     "of the calibration");
    }
    return indicated;
  }

  void add_point(const Group& group, std::size_t i, const std::optional<Role>& uncertain) {
    DocumentPoint point;
    point.state = group.state;
    const Role shown = group.has(indicated) ? indicated : error_of_it;
    point.line = group.series[shown]->line;
    const double stated_error = group.has(error_of_it) ? group.figure(error_of_it, i) : missing;
    point.reference = group.has(reference) ? group.figure(reference, i) : group.figure(indicated, i) - stated_error;
    point.indicated = group.has(indicated) ? group.figure(indicated, i) : point.reference + stated_error;
    point.nominal = group.has(nominal) ? group.figure(nominal, i) : point.reference;
    if (group.has(reference) && group.has(indicated) && group.has(error_of_it)) check_error(group, i);
    if (uncertain) take_uncertainty(group, *uncertain, i, point);
    found_.points.push_back(point);
  }

  // The error is the indication less the reference (JCGM 200:2012, 2.16), but for what rounding leaves.
  void check_error(const Group& group, std::size_t i) {
    const double of_figures = group.figure(indicated, i) - group.figure(reference, i);
    const double apart = std::abs(group.figure(error_of_it, i) - of_figures);
    double room = 0;
    for (const Role role : {reference, indicated, error_of_it}) room += group.half_step(role, i);
    if (side_of_limit(apart, room) != Side::above) return;
    fail_at("dcc/wrong-error", *group.quantity[error_of_it],
            "the error of point " + std::to_string(i + 1) +
                " is not the indication less the reference: by another convention, or by a slip",
            "ask the laboratory; write its points to a CSV file of certificates");
  }

  void take_uncertainty(const Group& group, Role role, std::size_t i, DocumentPoint& point) {
    const CalibrationSeries& series = *group.series[role];
    const std::size_t at = series.size() == 1 ? 0 : i;
    point.expanded = series.expanded[at];
    const double k = series.coverage_factors[at];
    if (!found_.coverage_factor) found_.coverage_factor = k;
    if (*found_.coverage_factor != k) {
      fail_at("dcc/coverage-factors", *group.quantity[role],
              "its points have several coverage factors, " + shortest(*found_.coverage_factor) + " and " + shortest(k),
              "write its points to a CSV file of certificates, with the uncertainties converted to one");
    }
  }

  // Where some points are told to be before or after, the others must be, too.
  void check_states(const XmlElement& results) {
    const auto is_unsaid = [](const DocumentPoint& point) { return point.state == AdjustmentState::unsaid; };
    const auto unsaid = std::count_if(found_.points.begin(), found_.points.end(), is_unsaid);
    if (unsaid == 0 || static_cast<std::size_t>(unsaid) == found_.points.size()) return;
    fail_structure(results, "some of its points say whether they were read before or after an adjustment, and " +
                                std::to_string(unsaid) + " don't");
  }

  const PointsWanted& wanted_;
  DocumentPoints found_;
  std::optional<Diagnostic> fault_;
};

}  // namespace

Result<DocumentPoints> calibration_points(const XmlElement& results, const PointsWanted& wanted) {
  return PointReader(wanted).read(results);
}

}  // namespace driftwarden
