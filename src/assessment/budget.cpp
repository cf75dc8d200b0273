// SPDX-License-Identifier: MIT
#include "driftwarden/assessment/budget.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "assessment/certificate_uncertainty.hpp"
#include "assessment/flow_between.hpp"
#include "driftwarden/assessment/drift.hpp"
#include "driftwarden/correction/rotameter.hpp"
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

// What an input does to a function of both flows. Equal shares of both cancel in a ratio: what is left is only
// rounding.
double weighted(FlowWeights weights, double on_pre, double on_post) {
  const double by_pre = weights.pre * on_pre;
  const double by_post = weights.post * on_post;
  const double sum = by_pre + by_post;
  return std::abs(sum) <= 1e-12 * (std::abs(by_pre) + std::abs(by_post)) ? 0 : sum;
}

template <class Sensitivity>
FigureUncertainty combined(const Budget& budget, Sensitivity sensitivity) {
  std::array<UncertaintyContribution, static_cast<std::size_t>(BudgetSource::count_)> parts;
  std::size_t count = 0;
  for (const BudgetLine& line : budget.lines) parts[count++] = {line.u, sensitivity(line), line.dof};
  const CombinedUncertainty combined = combined_uncertainty(std::span(parts.data(), count));
  FigureUncertainty of;
  of.u = combined.u;
  of.dof = combined.dof;
  of.expanded = expanded_uncertainty(combined, coverage);
  of.coverage_factor = combined.u > 0 ? of.expanded / combined.u : missing;
  return of;
}

// How a set's corrected flow follows the conditions at its readings, relative change per K and per kPa.
struct Slopes {
  double per_k = 0;
  double per_kpa = 0;
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
    since_the_certificates();
    resolution(BudgetSource::pre_resolution, pre_, {.on_pre = gain(pre_)});
    resolution(BudgetSource::post_resolution, post_, {.on_post = gain(post_)});
    flow_between();
    field_sets();
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
        flow_of_pre_ = follows_line_ ? f_.course.share_of(f_.pre) : 0.5;
        flow_of_post_ = follows_line_ ? f_.course.share_of(f_.post) : 0.5;
        break;
    }
    drift_ = drift_weights(q1, q2, basis_.practice.drift_base, f_.nominal_l_min);
  }

  void sensitivities(const Effect& e, double (&c)[budget_figures]) const {
    const double flow = flow_of_pre_ * e.on_pre + flow_of_post_ * e.on_post + e.on_flow_between;
    const double volume = flow * f_.minutes + f_.measured_flow_l_min() * e.on_minutes;
    c[0] = weighted(drift_, e.on_pre, e.on_post);
    c[1] = flow;
    c[2] = volume;
    c[3] = volume * to_reference_ + f_.measured_volume_reference_l * e.on_reference;
  }

  void add(BudgetSource source, double estimate, double u, Distribution distribution, double dof,
           const Effect& effect) {
    BudgetLine line{source, estimate, u, distribution, dof, {}, effect.on_pre, effect.on_post};
    sensitivities(effect, line.sensitivity);
    budget_.lines.push_back(line);
  }

  // An input of unknown uncertainty. An essential one forbids a statement on each figure it acts on.
  void lack(BudgetSource source, const Effect& effect, bool is_essential, double within = missing) {
    BudgetLack lack{source, {}, is_essential ? effect.on_pre : 0, is_essential ? effect.on_post : 0, within};
    double c[budget_figures];
    sensitivities(effect, c);
    for (std::size_t y = 0; y < budget_figures; ++y) lack.is_essential[y] = is_essential && c[y] != 0;
    budget_.lacks.push_back(lack);
  }

  bool is_one_certificate() const { return pre_.certificate >= 0 && pre_.certificate == post_.certificate; }

  // What one step of the indication does to the flow, through the slope of the error curve.
  double gain(const ReadingSet& set) const {
    const auto curve = basis_.calibrators.curve_for(f_.rows[set.rows.begin], set.certificate);
    return set.flow.mean / set.indicated_l_min * step_through(curve, set.indicated_l_min);
  }

  void repeatability(BudgetSource source, const ReadingSet& set, const Effect& effect) {
    const auto n = static_cast<double>(set.flow.n);
    if (set.flow.n < 2) return lack(source, effect, true);
    add(source, set.flow.mean, set.flow.s / std::sqrt(n), Distribution::student_t, n - 1, effect);
  }

  void certificates() {
    const CertificateUncertainty pre = certificate_uncertainty(basis_, pre_);
    const CertificateUncertainty post = certificate_uncertainty(basis_, post_);
    const Effect on_pre{.on_pre = f_.pre_l_min};
    const Effect on_post{.on_post = f_.post_l_min};
    const bool is_one = is_one_certificate();
    if (is_one) {
      // One calibrator under one certificate: its error is the same before and after, but for where it was read.
      const bool is_known = !is_missing(pre.standard) && !is_missing(post.standard);
      const bool is_known_worse_after = post.standard > pre.standard;
      certificate(BudgetSource::certificate, is_known_worse_after ? post : pre,
                  is_known ? both(pre.standard, post.standard) : both(0, 0), is_known);
    } else {
      certificate(BudgetSource::pre_certificate, pre, on_pre, !is_missing(pre.standard));
      certificate(BudgetSource::post_certificate, post, on_post, !is_missing(post.standard));
    }
    if (is_one && pre.below == post.below && pre.interpolation_half_width > 0 && post.interpolation_half_width > 0) {
      const bool bows_more_after = post.interpolation_half_width > pre.interpolation_half_width;
      between_points(BudgetSource::interpolation, bows_more_after ? post : pre,
                     both(pre.interpolation_half_width, post.interpolation_half_width));
    } else {
      between_points(BudgetSource::pre_interpolation, pre, on_pre);
      between_points(BudgetSource::post_interpolation, post, on_post);
    }
  }

  CalibratorKnowledge::MovedSince moved_since(const ReadingSet& set) const {
    return basis_.calibrators.moved_since(set.certificate, set.rows.calibrator,
                                          local_day(set.rows.last, basis_.book.settings.zone));
  }

  void since_the_certificates() {
    const CalibratorKnowledge::MovedSince pre = moved_since(pre_);
    const CalibratorKnowledge::MovedSince post = moved_since(post_);
    if (is_one_certificate()) {
      moved(BudgetSource::calibrator_drift, post.u > pre.u ? post : pre, pre_, both(pre.u, post.u));
    } else {
      moved(BudgetSource::pre_calibrator_drift, pre, pre_, {.on_pre = f_.pre_l_min});
      moved(BudgetSource::post_calibrator_drift, post, post_, {.on_post = f_.post_l_min});
    }
  }

  void moved(BudgetSource source, const CalibratorKnowledge::MovedSince& since, const ReadingSet& set, Effect effect) {
    if (set.certificate < 0) return;  // nothing is known of its error at all, and that is said
    const Certificate& certificate = basis_.book.certificates[static_cast<std::size_t>(set.certificate)];
    if (is_missing(since.u)) return lack(source, effect, false, certificate.tolerance.value_or(missing));
    effect.on_flow_between =
        on_field_flow(set.certificate, since.u, [this](const ReadingSet& of) { return moved_since(of).u; });
    if (since.u > 0) add(source, 0, since.u, Distribution::student_t, since.dof, effect);
  }

  // Of a relative error common to both sets that is known to so much before, and to so much after: per unit of the
  // larger.
  Effect both(double u_pre, double u_post) const {
    const double larger = std::max(u_pre, u_post);
    if (!(larger > 0)) return {.on_pre = f_.pre_l_min, .on_post = f_.post_l_min};
    return {.on_pre = u_pre / larger * f_.pre_l_min, .on_post = u_post / larger * f_.post_l_min};
  }

  // Relative errors, so that a change of 1 in them changes the flow by itself.
  void certificate(BudgetSource source, const CertificateUncertainty& known, Effect effect, bool is_known) {
    if (!is_known) return lack(source, effect, true);
    const ReadingSet& set = source == BudgetSource::post_certificate ? post_ : pre_;
    effect.on_flow_between =
        on_field_flow(set.certificate, known.standard, [this](const ReadingSet& of) { return stated(of); });
    add(source, known.error, known.standard, Distribution::normal, infinite, effect);
  }

  void between_points(BudgetSource source, const CertificateUncertainty& known, const Effect& effect) {
    if (!(known.interpolation_half_width > 0)) return;
    add(source, 0, rectangular(known.interpolation_half_width), Distribution::rectangular, infinite, effect);
  }

  void resolution(BudgetSource source, const ReadingSet& set, const Effect& effect) {
    const std::optional<double> step = basis_.book.instruments[set.rows.calibrator].resolution_l_min;
    if (!step) return lack(source, effect, false);
    add(source, 0, *step / root_of_12, Distribution::rectangular, infinite, effect);
  }

  void flow_between() {
    const KnownBetween known = known_between(basis_, f_);
    budget_.flow_between = known.told;
    add(BudgetSource::flow_between, 0, known.u,
        std::isinf(known.dof) ? Distribution::rectangular : Distribution::student_t, known.dof, {.on_flow_between = 1});
  }

  void field_sets() {
    if (f_.course.empty()) return;
    if (!follows_line_) return field_difference();
    field_repeatability();
    field_certificates();
    field_calibrators_since();
    field_resolution();
    on_the_flow(BudgetSource::pauses, rectangular(pauses_half_width(f_)), Distribution::rectangular);
  }

  // A known difference that is not corrected for.
  void field_difference() {
    const double difference = f_.course.mean_l_min - (f_.pre_l_min + f_.post_l_min) / 2;
    if (is_missing(difference)) return lack(BudgetSource::field_difference, {.on_flow_between = 1}, false);
    add(BudgetSource::field_difference, difference, std::abs(difference), Distribution::difference, infinite,
        {.on_flow_between = 1});
  }

  // Calls look(set, share in the flow) for each field set on the course that the flow follows.
  template <class Look>
  void each_field_set(Look look) const {
    if (!follows_line_) return;
    for (const CourseSet& each : f_.course.sets) {
      if (each.set != f_.pre && each.set != f_.post) look(f_.sets[static_cast<std::size_t>(each.set)], each.share);
    }
  }

  void field_repeatability() {
    double u2 = 0;
    double by_dof = 0;
    bool is_known = true;
    each_field_set([&](const ReadingSet& set, double share) {
      is_known &= set.flow.n >= 2;
      const auto n = static_cast<double>(set.flow.n);
      const double part = share * share * set.flow.s * set.flow.s / n;
      u2 += part;
      by_dof += part * part / (n - 1);
    });
    if (!is_known) return lack(BudgetSource::field_repeatability, {.on_flow_between = 1}, true);
    add(BudgetSource::field_repeatability, f_.course.mean_l_min, std::sqrt(u2), Distribution::student_t,
        u2 > 0 ? u2 * u2 / by_dof : infinite, {.on_flow_between = 1});
  }

  // What a relative error that one certificate's sets share, known to u_of(set), does to the flow through the field
  // sets; per unit of u.
  template <class KnownTo>
  double on_field_flow(std::int32_t certificate, double u, KnownTo u_of) const {
    double effect = 0;
    each_field_set([&](const ReadingSet& set, double share) {
      if (set.certificate == certificate && u > 0) effect += share * set.flow.mean * u_of(set) / u;
    });
    return effect;
  }

  // The same of all certificates that read neither pre nor post, together, L/min; missing where one is not known.
  template <class KnownTo>
  double alone_in_the_field(KnownTo u_of) const {
    std::vector<std::int32_t> certificates;
    double u2 = 0;
    each_field_set([&](const ReadingSet& set, double) {
      const bool is_of_an_end = set.certificate == pre_.certificate || set.certificate == post_.certificate;
      const bool is_unknown = is_missing(u_of(set));
      if (is_unknown) u2 = missing;
      if (is_unknown || is_of_an_end || std::ranges::count(certificates, set.certificate) > 0) return;
      certificates.push_back(set.certificate);
      u2 += std::pow(on_field_flow(set.certificate, 1, u_of), 2);
    });
    return std::sqrt(u2);
  }

  // Of calibrators that read neither end; the bow between the points once for all field sets.
  void field_certificates() {
    const double alone = alone_in_the_field([this](const ReadingSet& set) { return stated(set); });
    if (is_missing(alone)) return lack(BudgetSource::field_certificate, {.on_flow_between = 1}, true);
    on_the_flow(BudgetSource::field_certificate, alone, Distribution::normal);
    double bow = 0;
    each_field_set([&](const ReadingSet& set, double share) {
      bow += share * set.flow.mean * certificate_uncertainty(basis_, set).interpolation_half_width;
    });
    on_the_flow(BudgetSource::field_interpolation, rectangular(bow), Distribution::rectangular);
  }

  double stated(const ReadingSet& set) const { return certificate_uncertainty(basis_, set).standard; }

  void field_calibrators_since() {
    const double alone = alone_in_the_field([this](const ReadingSet& set) { return moved_since(set).u; });
    if (is_missing(alone)) return lack(BudgetSource::field_calibrator_drift, {.on_flow_between = 1}, false);
    double dof = infinite;
    each_field_set([&](const ReadingSet& set, double) { dof = std::min(dof, moved_since(set).dof); });
    on_the_flow(BudgetSource::field_calibrator_drift, alone, Distribution::student_t, dof);
  }

  void field_resolution() {
    double u2 = 0;
    each_field_set([&](const ReadingSet& set, double share) {
      const double step = basis_.book.instruments[set.rows.calibrator].resolution_l_min.value_or(missing);
      u2 += std::pow(share * gain(set) * step / root_of_12, 2);
    });
    if (is_missing(u2)) return lack(BudgetSource::field_resolution, {.on_flow_between = 1}, false);
    on_the_flow(BudgetSource::field_resolution, std::sqrt(u2), Distribution::rectangular);
  }

  // An input of the flow during the sample alone; none where it is not there.
  void on_the_flow(BudgetSource source, double u, Distribution distribution, double dof = infinite) {
    if (u > 0) add(source, 0, u, distribution, dof, {.on_flow_between = 1});
  }

  Slopes slopes(const ReadingSet& set) const {
    const double by_t = 1 / set.temperature_k;
    const double by_p = -1 / set.pressure_kpa;
    switch (basis_.book.instruments[set.rows.calibrator].principle) {
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
    const RotameterCorrection practice = basis_.practice.correction.rotameter;
    if (practice != RotameterCorrection::beyond_5_percent) return practice == RotameterCorrection::never;
    const Instrument& rotameter = basis_.book.instruments[set.rows.calibrator];
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
    each_field_set([&](const ReadingSet& set, double share) {
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
              settings_.temperature_k, read_t);
    condition(BudgetSource::sampling_temperature, f_.temperature_k, settings_.temperature_k, own_t);
    Effect read_p{.on_flow_between = field_p};
    Effect altitude_p{.on_flow_between = field_altitude_p};
    Effect own_p;
    (pre_.has_altitude_pressure ? altitude_p : read_p).on_pre = pre.per_kpa * f_.pre_l_min;
    (post_.has_altitude_pressure ? altitude_p : read_p).on_post = post.per_kpa * f_.post_l_min;
    Effect& sample_p = f_.pressure_from == ConditionsFrom::altitude ? altitude_p
                       : f_.pressure_from == ConditionsFrom::sets   ? read_p
                                                                    : own_p;
    if (has_reference) sample_p.on_reference = 1 / f_.pressure_kpa;
    const double by_altitude = basis_.calibrators.site_pressure_kpa().value_or(missing);
    condition(BudgetSource::altitude_pressure, by_altitude, settings_.altitude_pressure * by_altitude, altitude_p);
    const double read_before = pre_.has_altitude_pressure ? missing : pre_.pressure_kpa;
    condition(BudgetSource::reading_pressure, known(read_before, post_.pressure_kpa), settings_.pressure_kpa, read_p);
    condition(BudgetSource::sampling_pressure, f_.pressure_kpa, settings_.pressure_kpa, own_p);
    corrections_left_out();
  }

  static double known(double pre, double post) { return is_missing(pre) ? post : pre; }

  void corrections_left_out() {
    const auto any_set = [this](auto is_so) {
      bool is_any = is_so(pre_) || is_so(post_);
      each_field_set([&](const ReadingSet& set, double) { is_any |= is_so(set); });
      return is_any;
    };
    const auto is_of = [this](const ReadingSet& set, Principle principle) {
      return basis_.book.instruments[set.rows.calibrator].principle == principle;
    };
    const Effect on_both{.on_pre = f_.pre_l_min, .on_post = f_.post_l_min};
    if (any_set([&](const ReadingSet& set) { return is_of(set, Principle::rotameter) && is_read_off(set); }))
      lack(BudgetSource::rotameter_as_read, on_both, false);
    if (any_set([&](const ReadingSet& set) { return is_of(set, Principle::bubble); }))
      lack(BudgetSource::bubble_humidity, on_both, false);
  }

  void condition(BudgetSource source, double estimate, double half_width, const Effect& effect) {
    if (effect.on_pre == 0 && effect.on_post == 0 && effect.on_flow_between == 0 && effect.on_reference == 0) return;
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
    budget_.of[y] = combined(budget_, [y](const BudgetLine& line) { return line.sensitivity[y]; });
  }

  const AssessmentBasis& basis_;
  const Settings::Uncertainty& settings_;
  const SampleAssessment& f_;
  const ReadingSet& pre_;
  const ReadingSet& post_;
  Budget& budget_;
  const bool follows_line_ = follows_course(basis_, f_);
  double to_reference_ = f_.measured_volume_reference_l / f_.measured_volume_l;
  double flow_of_pre_ = 0;
  double flow_of_post_ = 0;
  FlowWeights drift_;
};

}  // namespace

void Budget::clear() {
  lines.clear();
  lacks.clear();
  flow_between = {};
  std::fill(std::begin(of), std::end(of), FigureUncertainty{});
}

FigureUncertainty uncertainty_of_change(const Budget& budget, FlowWeights weights) {
  for (const BudgetLack& lack : budget.lacks) {
    if (weighted(weights, lack.on_pre, lack.on_post) != 0) return {};
  }
  if (budget.lines.empty()) return {};
  return combined(budget, [&](const BudgetLine& line) { return weighted(weights, line.on_pre, line.on_post); });
}

// A pair of sets has a budget like that of pre and post.
FigureUncertainty uncertainty_of_sets(const AssessmentBasis& basis, const SampleAssessment& figures,
                                      const SetPair& sets, FlowWeights weights) {
  SampleAssessment of_pair = figures;
  of_pair.pre = static_cast<std::int32_t>(&sets.first - figures.sets.data());
  of_pair.post = static_cast<std::int32_t>(&sets.second - figures.sets.data());
  of_pair.course.clear();
  of_pair.pre_l_min = sets.first.flow.mean;
  of_pair.post_l_min = sets.second.flow.mean;
  if (is_missing(of_pair.pre_l_min) || is_missing(of_pair.post_l_min)) return {};
  Budget budget;
  BudgetMaker(basis, of_pair, budget).make();
  return uncertainty_of_change(budget, weights);
}

void work_out_budget(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget) {
  budget.clear();
  const bool has_flows = !is_missing(figures.pre_l_min) && !is_missing(figures.post_l_min);
  if (has_flows && !is_missing(figures.measured_volume_l)) BudgetMaker(basis, figures, budget).make();
}

}  // namespace driftwarden
