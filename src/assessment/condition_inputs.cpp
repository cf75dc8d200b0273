// SPDX-License-Identifier: MIT
#include "assessment/condition_inputs.hpp"

#include "driftwarden/correction/principle.hpp"

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
  const PrincipleKind& kind(const ReadingSet& set) const { return kind_of(sheet_.calibrator_of(set).principle); }

  // Of a set as a whole, at its mean conditions.
  FactorInputs inputs(const ReadingSet& set) const {
    const Instrument& calibrator = sheet_.calibrator_of(set);
    FactorInputs of_set;
    of_set.temperature_k = set.temperature_k;
    of_set.pressure_kpa = set.pressure_kpa;
    of_set.scale_temperature = calibrator.scale_temperature;
    of_set.scale_pressure = calibrator.scale_pressure;
    of_set.practice = sheet_.basis().practice.correction;
    return of_set;
  }

  Slopes slopes(const ReadingSet& set) const { return kind(set).slopes(inputs(set)); }

  void conditions() {
    const Slopes pre = slopes(pre_);
    const Slopes post = slopes(post_);
    double field_t = 0;
    double field_p = 0;
    double field_altitude_p = 0;
    sheet_.each_field_set([&](const ReadingSet& set, double share) {
      const Slopes field = slopes(set);
      if (field.per_k != 0) field_t += share * field.per_k * set.flow.mean;
      const double by_p = share * field.per_kpa * set.flow.mean;
      if (by_p == 0) return;
      field_altitude_p += set.altitude_share * by_p;
      field_p += (1 - set.altitude_share) * by_p;
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
    altitude_p.on_pre = pre_.altitude_share * pre.per_kpa * f_.pre_l_min;
    altitude_p.on_post = post_.altitude_share * post.per_kpa * f_.post_l_min;
    read_p.on_pre = (1 - pre_.altitude_share) * pre.per_kpa * f_.pre_l_min;
    read_p.on_post = (1 - post_.altitude_share) * post.per_kpa * f_.post_l_min;
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

  static double known(double pre, double post) { return is_missing(pre) ? post : pre; }

  void corrections_left_out() {
    for (const LeftOut& each : corrections) {
      const auto leaves_out = [&](const ReadingSet& set) { return kind(set).left_out(inputs(set)) == each.correction; };
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
