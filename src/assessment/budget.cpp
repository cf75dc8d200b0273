// SPDX-License-Identifier: MIT
#include "driftwarden/assessment/budget.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "assessment/certificate_uncertainty.hpp"
#include "driftwarden/statistics/propagation.hpp"

namespace driftwarden {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double coverage = 0.95;
constexpr double root_of_12 = 2 * std::numbers::sqrt3;

double rectangular(double half_width) { return half_width / std::numbers::sqrt3; }

// What one input does to the things that all four figures are made of, per unit of the input.
struct Effect {
  double on_pre = 0;           // L/min
  double on_post = 0;          // L/min
  double on_flow_between = 0;  // L/min of the flow during the sample
  double on_minutes = 0;       // min
  double on_reference = 0;     // relative change of the conversion to reference conditions
};

class BudgetMaker {
 public:
  BudgetMaker(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget)
      : basis_(basis),
        settings_(basis.book.settings.uncertainty),
        f_(figures),
        pre_(*figures.pre_set()),
        post_(*figures.post_set()),
        budget_(budget) {}

  void make() {
    weigh();
    repeatability(BudgetSource::pre_repeatability, pre_, {.on_pre = 1});
    repeatability(BudgetSource::post_repeatability, post_, {.on_post = 1});
    certificates();
    resolution(BudgetSource::pre_resolution, pre_, {.on_pre = gain(pre_)});
    resolution(BudgetSource::post_resolution, post_, {.on_post = gain(post_)});
    flow_between();
    conditions();
    times();
    for (std::size_t y = 0; y < budget_figures; ++y) combine(y);
  }

 private:
  // How flow, and drift, follow the pre and post flow.
  void weigh() {
    const double q1 = f_.pre_l_min;
    const double q2 = f_.post_l_min;
    switch (basis_.practice.flow_for_volume) {
      case FlowForVolume::pre:
        flow_of_pre_ = 1;
        break;
      case FlowForVolume::lower:
        (q1 <= q2 ? flow_of_pre_ : flow_of_post_) = 1;
        break;
      case FlowForVolume::mean:
      case FlowForVolume::nominal:
        flow_of_pre_ = flow_of_post_ = 0.5;
        break;
    }
    switch (basis_.practice.drift_base) {
      case DriftBase::pre:
        drift_of_pre_ = -q2 / (q1 * q1);
        drift_of_post_ = 1 / q1;
        break;
      case DriftBase::post:
        drift_of_pre_ = -1 / q2;
        drift_of_post_ = q1 / (q2 * q2);
        break;
      case DriftBase::mean: {
        const double sum = q1 + q2;
        drift_of_pre_ = -4 * q2 / (sum * sum);
        drift_of_post_ = 4 * q1 / (sum * sum);
        break;
      }
      case DriftBase::nominal:
        drift_of_pre_ = -1 / f_.nominal_l_min;
        drift_of_post_ = 1 / f_.nominal_l_min;
        break;
    }
  }

  void sensitivities(const Effect& e, double (&c)[budget_figures]) const {
    const double flow = flow_of_pre_ * e.on_pre + flow_of_post_ * e.on_post + e.on_flow_between;
    const double volume = flow * f_.minutes + f_.flow_l_min * e.on_minutes;
    const double to_reference = f_.volume_reference_l / f_.volume_l;
    c[0] = drift_of_pre_ * e.on_pre + drift_of_post_ * e.on_post;
    // Equal shares of both flows cancel in a ratio; what is left is only rounding.
    if (std::abs(c[0]) <= 1e-12 * (std::abs(drift_of_pre_ * e.on_pre) + std::abs(drift_of_post_ * e.on_post))) c[0] = 0;
    c[1] = flow;
    c[2] = volume;
    c[3] = volume * to_reference + f_.volume_reference_l * e.on_reference;
  }

  void add(BudgetSource source, double estimate, double u, Distribution distribution, double dof,
           const Effect& effect) {
    BudgetLine line{source, estimate, u, distribution, dof, {}};
    sensitivities(effect, line.sensitivity);
    budget_.lines.push_back(line);
  }

  // An input of unknown uncertainty. An essential one forbids a statement on each figure it acts on.
  void lack(BudgetSource source, const Effect& effect, bool is_essential) {
    BudgetLack lack{source, {}};
    double c[budget_figures];
    sensitivities(effect, c);
    for (std::size_t y = 0; y < budget_figures; ++y) lack.is_essential[y] = is_essential && c[y] != 0;
    budget_.lacks.push_back(lack);
  }

  static double gain(const ReadingSet& set) { return set.flow.mean / set.indicated_l_min; }

  void repeatability(BudgetSource source, const ReadingSet& set, const Effect& effect) {
    const auto n = static_cast<double>(set.flow.n);
    if (set.flow.n < 2) return lack(source, effect, true);
    add(source, set.flow.mean, set.flow.s / std::sqrt(n), Distribution::student_t, n - 1, effect);
  }

  void certificates() {
    if (pre_.certificate >= 0 && pre_.certificate == post_.certificate) {
      // One calibrator under one certificate: its error is the same before and after.
      certificate(BudgetSource::certificate, BudgetSource::interpolation, pre_,
                  {.on_pre = f_.pre_l_min, .on_post = f_.post_l_min});
    } else {
      certificate(BudgetSource::pre_certificate, BudgetSource::pre_interpolation, pre_, {.on_pre = f_.pre_l_min});
      certificate(BudgetSource::post_certificate, BudgetSource::post_interpolation, post_, {.on_post = f_.post_l_min});
    }
  }

  // Relative errors, so that a change of 1 in them changes the flow by itself.
  void certificate(BudgetSource source, BudgetSource between_points, const ReadingSet& set, const Effect& effect) {
    const CertificateUncertainty known = certificate_uncertainty(basis_, set);
    if (is_missing(known.standard)) {
      lack(source, effect, true);
    } else {
      add(source, known.error, known.standard, Distribution::normal, infinite, effect);
    }
    if (known.interpolation_half_width > 0) {
      add(between_points, 0, rectangular(known.interpolation_half_width), Distribution::rectangular, infinite, effect);
    }
  }

  void resolution(BudgetSource source, const ReadingSet& set, const Effect& effect) {
    const std::optional<double> step = basis_.book.instruments[set.rows.calibrator].resolution_l_min;
    if (!step) return lack(source, effect, false);
    add(source, 0, *step / root_of_12, Distribution::rectangular, infinite, effect);
  }

  // The flow may have moved from one value to the other at any moment: its mean lies anywhere between them.
  void flow_between() {
    const bool is_middle = flow_of_pre_ == flow_of_post_;
    const double apart = std::abs(f_.post_l_min - f_.pre_l_min);
    add(BudgetSource::flow_between, 0, rectangular(is_middle ? apart / 2 : apart), Distribution::rectangular, infinite,
        {.on_flow_between = 1});
    const bool is_nominal = basis_.practice.flow_for_volume == FlowForVolume::nominal;
    if (is_nominal && f_.flow_l_min != (f_.pre_l_min + f_.post_l_min) / 2)
      lack(BudgetSource::nominal_as_measured, {.on_flow_between = 1}, false);
  }

  // Exponents of temperature and pressure in a set's correction: flow ∝ T^a · P^−a.
  double exponent(const ReadingSet& set) const {
    switch (basis_.book.instruments[set.rows.calibrator].principle) {
      case Principle::rotameter:
        return basis_.practice.correction.rotameter == RotameterCorrection::never ? 0 : 0.5;
      case Principle::mass:
        return 1;
      case Principle::orifice:
        return 0.5;
      case Principle::none:
      case Principle::volumetric:
      case Principle::bubble:
        break;
    }
    return 0;
  }
  bool follows_pressure(const ReadingSet& set) const {
    return basis_.book.instruments[set.rows.calibrator].principle != Principle::orifice;
  }

  void conditions() {
    const double a1 = exponent(pre_);
    const double a2 = exponent(post_);
    const Effect at_readings_t{.on_pre = a1 * f_.pre_l_min / pre_.temperature_k,
                               .on_post = a2 * f_.post_l_min / post_.temperature_k};
    condition(BudgetSource::reading_temperature, pre_.temperature_k, settings_.temperature_k, at_readings_t,
              a1 + a2 > 0);
    condition(BudgetSource::sampling_temperature, f_.temperature_k, settings_.temperature_k,
              {.on_reference = -1 / f_.temperature_k}, !is_missing(f_.volume_reference_l));
    Effect at_readings_p{.on_pre = follows_pressure(pre_) ? -a1 * f_.pre_l_min / pre_.pressure_kpa : 0,
                         .on_post = follows_pressure(post_) ? -a2 * f_.post_l_min / post_.pressure_kpa : 0};
    for (double* effect : {&at_readings_p.on_pre, &at_readings_p.on_post}) {
      if (is_missing(*effect)) *effect = 0;
    }
    const bool reads_by_altitude = pre_.has_altitude_pressure || post_.has_altitude_pressure;
    const bool samples_by_altitude = f_.pressure_from == ConditionsFrom::altitude;
    Effect by_altitude;
    if (reads_by_altitude) by_altitude = at_readings_p;
    if (samples_by_altitude) by_altitude.on_reference = 1 / f_.pressure_kpa;
    if (reads_by_altitude || samples_by_altitude) {
      const double pressure = basis_.calibrators.site_pressure_kpa().value_or(missing);
      condition(BudgetSource::altitude_pressure, pressure, settings_.altitude_pressure * pressure, by_altitude, true);
    }
    const bool reads_pressure = at_readings_p.on_pre != 0 || at_readings_p.on_post != 0;
    if (!reads_by_altitude) {
      condition(BudgetSource::reading_pressure, pre_.pressure_kpa, settings_.pressure_kpa, at_readings_p,
                reads_pressure);
    }
    if (!samples_by_altitude) {
      condition(BudgetSource::sampling_pressure, f_.pressure_kpa, settings_.pressure_kpa,
                {.on_reference = 1 / f_.pressure_kpa}, !is_missing(f_.volume_reference_l));
    }
  }

  void condition(BudgetSource source, double estimate, double half_width, const Effect& effect, bool matters) {
    if (!matters) return;
    if (is_missing(half_width)) return lack(source, effect, false);
    add(source, estimate, rectangular(half_width), Distribution::rectangular, infinite, effect);
  }

  void times() {
    add(BudgetSource::start_time, 0, rectangular(settings_.time_min), Distribution::rectangular, infinite,
        {.on_minutes = -1});
    add(BudgetSource::stop_time, 0, rectangular(settings_.time_min), Distribution::rectangular, infinite,
        {.on_minutes = 1});
  }

  void combine(std::size_t y) {
    for (const BudgetLack& lack : budget_.lacks) {
      if (lack.is_essential[y]) return;
    }
    std::array<UncertaintyContribution, static_cast<std::size_t>(BudgetSource::count_)> parts;
    std::size_t count = 0;
    for (const BudgetLine& line : budget_.lines) parts[count++] = {line.u, line.sensitivity[y], line.dof};
    const CombinedUncertainty combined = combined_uncertainty(std::span(parts.data(), count));
    FigureUncertainty& of = budget_.of[y];
    of.u = combined.u;
    of.dof = combined.dof;
    of.expanded = expanded_uncertainty(combined, coverage);
    of.coverage_factor = combined.u > 0 ? of.expanded / combined.u : missing;
  }

  const AssessmentBasis& basis_;
  const Settings::Uncertainty& settings_;
  const SampleAssessment& f_;
  const ReadingSet& pre_;
  const ReadingSet& post_;
  Budget& budget_;
  double flow_of_pre_ = 0;
  double flow_of_post_ = 0;
  double drift_of_pre_ = 0;
  double drift_of_post_ = 0;
};

}  // namespace

void Budget::clear() {
  lines.clear();
  lacks.clear();
  std::fill(std::begin(of), std::end(of), FigureUncertainty{});
}

void work_out_budget(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget) {
  budget.clear();
  const bool has_flows = !is_missing(figures.pre_l_min) && !is_missing(figures.post_l_min);
  if (has_flows && !is_missing(figures.volume_l)) BudgetMaker(basis, figures, budget).make();
}

}  // namespace driftwarden
