// SPDX-License-Identifier: MIT
#include "assessment/condition_inputs.hpp"

#include "driftwarden/correction/rotameter.hpp"

namespace driftwarden {
namespace {

// How a set's corrected flow follows the conditions at its readings, relative change per K and per kPa.
struct Slopes {
  double per_k = 0;
  double per_kpa = 0;
};

class ConditionInputs {
 public:
  explicit ConditionInputs(BudgetSheet& sheet)
      : sheet_(sheet), f_(sheet.figures()), pre_(sheet.pre()), post_(sheet.post()) {}

  void enter() {
    conditions();
    corrections_left_out();
  }

 private:
  Slopes slopes(const ReadingSet& set) const {
    const double by_t = 1 / set.temperature_k;
    const double by_p = -1 / set.pressure_kpa;
    switch (sheet_.calibrator_of(set).principle) {
      case Principle::rotameter:
        return is_read_off(set) ? Slopes{} : Slopes{by_t / 2, by_p / 2};
      case Principle::mass:
        return {by_t, by_p};
      case Principle::orifice:
        return {by_t / 2, 0};
      case Principle::none:
      case Principle::volumetric:
      case Principle::bubble:
        break;
    }
    return {};
  }

  // Whether a rotameter's reading stands for the flow, by a practice that leaves it uncorrected.
  bool is_read_off(const ReadingSet& set) const {
    const RotameterCorrection practice = sheet_.basis().practice.correction.rotameter;
    if (practice != RotameterCorrection::beyond_5_percent) return practice == RotameterCorrection::never;
    const Instrument& rotameter = sheet_.calibrator_of(set);
    if (!rotameter.scale_temperature || !rotameter.scale_pressure) return false;
    return !differs_by_more_than({*rotameter.scale_temperature, *rotameter.scale_pressure},
                                 {Temperature(set.temperature_k), Pressure(set.pressure_kpa)}, 0.05);
  }

  void conditions() {
    const Slopes pre = slopes(pre_);
    const Slopes post = slopes(post_);
    double field_t = 0;
    double field_p = 0;
    double field_altitude_p = 0;
    sheet_.each_field_set([&](const ReadingSet& set, double share) {
      const Slopes field = slopes(set);
      if (field.per_k != 0) field_t += share * field.per_k * set.flow.mean;
      if (field.per_kpa != 0)
        (set.has_altitude_pressure ? field_altitude_p : field_p) += share * field.per_kpa * set.flow.mean;
    });
    const bool has_reference = !is_missing(f_.measured_volume_reference_l);
    // Conditions that the sample has from its sets are not known apart from theirs.
    Effect read_t{
        .on_pre = pre.per_k * f_.pre_l_min, .on_post = post.per_k * f_.post_l_min, .on_flow_between = field_t};
    Effect own_t;
    if (has_reference)
      (f_.temperature_from == ConditionsFrom::sets ? read_t : own_t).on_reference = -1 / f_.temperature_k;
    condition(BudgetSource::reading_temperature, known(pre_.temperature_k, post_.temperature_k),
              sheet_.said().temperature_k, read_t);
    condition(BudgetSource::sampling_temperature, f_.temperature_k, sheet_.said().temperature_k, own_t);
    Effect read_p{.on_flow_between = field_p};
    Effect altitude_p{.on_flow_between = field_altitude_p};
    Effect own_p;
    (pre_.has_altitude_pressure ? altitude_p : read_p).on_pre = pre.per_kpa * f_.pre_l_min;
    (post_.has_altitude_pressure ? altitude_p : read_p).on_post = post.per_kpa * f_.post_l_min;
    Effect& sample_p = f_.pressure_from == ConditionsFrom::altitude ? altitude_p
                       : f_.pressure_from == ConditionsFrom::sets   ? read_p
                                                                    : own_p;
    if (has_reference) sample_p.on_reference = 1 / f_.pressure_kpa;
    const double by_altitude = sheet_.basis().calibrators.site_pressure_kpa().value_or(missing);
    condition(BudgetSource::altitude_pressure, by_altitude, sheet_.said().altitude_pressure * by_altitude, altitude_p);
    const double read_before = pre_.has_altitude_pressure ? missing : pre_.pressure_kpa;
    condition(BudgetSource::reading_pressure, known(read_before, post_.pressure_kpa), sheet_.said().pressure_kpa,
              read_p);
    condition(BudgetSource::sampling_pressure, f_.pressure_kpa, sheet_.said().pressure_kpa, own_p);
  }

  static double known(double pre, double post) { return is_missing(pre) ? post : pre; }

  void corrections_left_out() {
    const auto any_set = [this](auto is_so) {
      bool is_any = is_so(pre_) || is_so(post_);
      sheet_.each_field_set([&](const ReadingSet& set, double) { is_any |= is_so(set); });
      return is_any;
    };
    const auto is_of = [this](const ReadingSet& set, Principle principle) {
      return sheet_.calibrator_of(set).principle == principle;
    };
    const Effect on_both{.on_pre = f_.pre_l_min, .on_post = f_.post_l_min};
    if (any_set([&](const ReadingSet& set) { return is_of(set, Principle::rotameter) && is_read_off(set); }))
      sheet_.lack(BudgetSource::rotameter_as_read, on_both, false);
    if (any_set([&](const ReadingSet& set) { return is_of(set, Principle::bubble); }))
      sheet_.lack(BudgetSource::bubble_humidity, on_both, false);
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
