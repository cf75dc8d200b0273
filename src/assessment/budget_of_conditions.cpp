// SPDX-License-Identifier: MIT
#include "assessment/budget_of_conditions.hpp"

namespace driftwarden {
namespace {

// What a correction that is left out stands for in the budget.
struct LeftOut {
  Correction correction;
  BudgetSource source;
};
constexpr LeftOut corrections[] = {{Correction::to_scale, BudgetSource::rotameter_as_read},
                                   {Correction::of_humidity, BudgetSource::bubble_humidity}};

class ConditionInputs {
 public:
  explicit ConditionInputs(BudgetSheet& sheet)
      : sheet_(sheet), f_(sheet.figures()), pre_(sheet.pre()), post_(sheet.post()) {}

  void enter() {
    conditions();
    corrections_left_out();
  }

 private:
  void conditions() {
    FollowsConditions field;
    sheet_.each_field_set([&](const ReadingSet& set, double share) {
      field.per_k += share * set.follows.per_k;
      field.per_kpa_read += share * set.follows.per_kpa_read;
      field.per_kpa_by_altitude += share * set.follows.per_kpa_by_altitude;
    });
    const bool has_reference = !is_missing(f_.measured_volume_reference_l);
    // Conditions that the sample has from its sets are not known apart from theirs.
    Effect read_t = effect(&FollowsConditions::per_k, field);
    Effect own_t;
    if (has_reference)
      (f_.temperature_from == ConditionsFrom::sets ? read_t : own_t).on_reference = -1 / f_.temperature_k;
    condition(BudgetSource::reading_temperature, known(pre_.temperature_k, post_.temperature_k),
              sheet_.said().temperature_k, read_t);
    condition(BudgetSource::sampling_temperature, f_.temperature_k, sheet_.said().temperature_k, own_t);
    Effect read_p = effect(&FollowsConditions::per_kpa_read, field);
    Effect altitude_p = effect(&FollowsConditions::per_kpa_by_altitude, field);
    Effect own_p;
    Effect& sample_p = f_.pressure_from == ConditionsFrom::altitude ? altitude_p
                       : f_.pressure_from == ConditionsFrom::sets   ? read_p
                                                                    : own_p;
    if (has_reference) sample_p.on_reference = 1 / f_.pressure_kpa;
    const double by_altitude = sheet_.basis().calibrators.site_pressure_kpa().value_or(missing);
    condition(BudgetSource::altitude_pressure, by_altitude, sheet_.said().altitude_pressure * by_altitude, altitude_p);
    const double read_before = read_p.on_pre == 0 ? missing : pre_.pressure_kpa;
    condition(BudgetSource::reading_pressure, known(read_before, post_.pressure_kpa), sheet_.said().pressure_kpa,
              read_p);
    condition(BudgetSource::sampling_pressure, f_.pressure_kpa, sheet_.said().pressure_kpa, own_p);
  }

  Effect effect(double FollowsConditions::*per, const FollowsConditions& field) const {
    return {.on_pre = pre_.follows.*per, .on_post = post_.follows.*per, .on_flow_between = field.*per};
  }

  static double known(double pre, double post) { return is_missing(pre) ? post : pre; }

  void corrections_left_out() {
    for (const LeftOut& each : corrections) {
      const auto leaves_out = [&](const ReadingSet& set) { return set.left_out == each.correction; };
      bool is_any = leaves_out(pre_) || leaves_out(post_);
      sheet_.each_field_set([&](const ReadingSet& set, double) { is_any |= leaves_out(set); });
      if (is_any) sheet_.lack(each.source, {.on_pre = f_.pre_l_min, .on_post = f_.post_l_min}, false);
    }
  }

  void condition(BudgetSource source, double estimate, double half_width, const Effect& effect) {
    if (effect.on_pre == 0 && effect.on_post == 0 && effect.on_flow_between == 0 && effect.on_reference == 0) return;
    if (is_missing(half_width)) return sheet_.lack(source, effect, false);
    sheet_.add_rectangular(source, estimate, half_width, effect);
  }

  BudgetSheet& sheet_;
  const SampleAssessment& f_;
  const ReadingSet& pre_;
  const ReadingSet& post_;
};

}  // namespace

void enter_conditions(BudgetSheet& sheet) { ConditionInputs(sheet).enter(); }

}  // namespace driftwarden
