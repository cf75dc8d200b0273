// SPDX-License-Identifier: MIT
#include "assessment/budget_of_field_sets.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/budget_of_calibrators.hpp"
#include "assessment/certificate_uncertainty.hpp"

namespace driftwarden {
namespace {

class FieldInputs {
 public:
  explicit FieldInputs(BudgetSheet& sheet)
      : sheet_(sheet), f_(sheet.figures()), pre_(sheet.pre()), post_(sheet.post()) {}

  void enter() {
    flow_between();
    field_sets();
  }

  void enter_sets() {
    field_repeatability();
    field_certificates();
    field_calibrators_since();
    field_resolution();
  }

 private:
  void flow_between() {
    const KnownBetween known = known_between(sheet_.basis(), f_);
    sheet_.tell(known.told);
    sheet_.add(BudgetSource::flow_between, 0, known.u,
               std::isinf(known.dof) ? Distribution::rectangular : Distribution::student_t, known.dof,
               {.on_flow_between = 1});
  }

  void field_sets() {
    if (f_.course.empty()) return;
    if (!sheet_.follows_line()) return field_difference();
    enter_sets();
    on_the_flow(BudgetSource::pauses, rectangular(pauses_half_width(f_)), Distribution::rectangular);
  }

  // A known difference that is not corrected for.
  void field_difference() {
    const double difference = f_.course.mean_l_min - (f_.pre_l_min + f_.post_l_min) / 2;
    if (is_missing(difference)) return sheet_.lack(BudgetSource::field_difference, {.on_flow_between = 1}, false);
    sheet_.add(BudgetSource::field_difference, difference, std::abs(difference), Distribution::difference, infinite_dof,
               {.on_flow_between = 1});
  }

  void field_repeatability() {
    bool is_known = true;
    sheet_.each_field_set([&](const ReadingSet& set, double) { is_known &= repeatability_of(sheet_, set).is_known(); });
    if (!is_known) return sheet_.lack(BudgetSource::field_repeatability, {.on_flow_between = 1}, true);
    scatter_in_the_field(BudgetSource::field_repeatability, false);
    scatter_in_the_field(BudgetSource::field_pooled_repeatability, true);
  }

  // Of the field sets whose scatter is pooled, or of the others, together.
  void scatter_in_the_field(BudgetSource source, bool is_pooled) {
    double u2 = 0;
    double by_dof = 0;
    bool is_any = false;
    sheet_.each_field_set([&](const ReadingSet& set, double share) {
      const Repeatability known = repeatability_of(sheet_, set);
      if (known.is_pooled != is_pooled) return;
      const double u = share * known.u;
      const double part = u * u;
      u2 += part;
      by_dof += part * part / known.dof;
      is_any = true;
    });
    if (!is_any) return;
    sheet_.add(source, f_.course.mean_l_min, std::sqrt(u2), Distribution::student_t,
               u2 > 0 ? u2 * u2 / by_dof : infinite_dof, {.on_flow_between = 1});
  }

  bool is_of_an_end(const ReadingSet& set) const {
    return set.certificate == pre_.certificate || set.certificate == post_.certificate;
  }

  // The same of all certificates that read neither pre nor post, together, L/min; missing where one is not known.
  template <class KnownTo>
  double alone_in_the_field(KnownTo u_of) const {
    std::vector<std::int32_t> certificates;
    double u2 = 0;
    sheet_.each_field_set([&](const ReadingSet& set, double) {
      if (is_of_an_end(set) || std::ranges::count(certificates, set.certificate) > 0) return;
      certificates.push_back(set.certificate);
      const double u = on_field_flow(sheet_, set.certificate, 1, u_of);
      u2 += u * u;
    });
    return std::sqrt(u2);
  }

  // Of calibrators that read neither end; the bow between points that neither end lies between, once for all field
  // sets.
  void field_certificates() {
    const double alone = alone_in_the_field([this](const ReadingSet& set) { return stated_uncertainty(sheet_, set); });
    if (is_missing(alone)) return sheet_.lack(BudgetSource::field_certificate, {.on_flow_between = 1}, true);
    on_the_flow(BudgetSource::field_certificate, alone, Distribution::normal);
    const CertificateUncertainty pre = certificate_uncertainty(sheet_.basis(), pre_);
    const CertificateUncertainty post = certificate_uncertainty(sheet_.basis(), post_);
    double bow = 0;
    sheet_.each_field_set([&](const ReadingSet& set, double share) {
      const CertificateUncertainty of_set = certificate_uncertainty(sheet_.basis(), set);
      if (bow_together(pre, of_set) || bow_together(post, of_set)) return;
      bow += share * set.flow.mean * of_set.interpolation_half_width;
    });
    on_the_flow(BudgetSource::field_interpolation, rectangular(bow), Distribution::rectangular);
  }

  void field_calibrators_since() {
    const double alone = alone_in_the_field([this](const ReadingSet& set) { return moved_since(sheet_, set).u; });
    if (is_missing(alone)) return sheet_.lack(BudgetSource::field_calibrator_drift, {.on_flow_between = 1}, false);
    double dof = infinite_dof;
    sheet_.each_field_set([&](const ReadingSet& set, double) {
      const CalibratorKnowledge::MovedSince since = moved_since(sheet_, set);
      if (!is_of_an_end(set) && since.u > 0) dof = std::min(dof, since.dof);
    });
    on_the_flow(BudgetSource::field_calibrator_drift, alone, Distribution::student_t, dof);
  }

  void field_resolution() {
    double u2 = 0;
    sheet_.each_field_set([&](const ReadingSet& set, double share) {
      const double step = sheet_.calibrator_of(set).resolution_l_min.value_or(missing);
      const double u = of_a_step(share * gain(sheet_, set) * step);
      u2 += u * u;
    });
    if (is_missing(u2)) return sheet_.lack(BudgetSource::field_resolution, {.on_flow_between = 1}, false);
    on_the_flow(BudgetSource::field_resolution, std::sqrt(u2), Distribution::rectangular);
  }

  // An input of the flow during the sample alone; none where it is not there.
  void on_the_flow(BudgetSource source, double u, Distribution distribution, double dof = infinite_dof) {
    if (u > 0) sheet_.add(source, 0, u, distribution, dof, {.on_flow_between = 1});
  }

  BudgetSheet& sheet_;
  const SampleAssessment& f_;
  const ReadingSet& pre_;
  const ReadingSet& post_;
};

}  // namespace

void enter_field(BudgetSheet& sheet) { FieldInputs(sheet).enter(); }

void enter_field_sets(BudgetSheet& sheet) { FieldInputs(sheet).enter_sets(); }

}  // namespace driftwarden
