// SPDX-License-Identifier: MIT
#include "assessment/budget_of_calibrators.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "assessment/certificate_uncertainty.hpp"
#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

class CalibratorInputs {
 public:
  explicit CalibratorInputs(BudgetSheet& sheet)
      : sheet_(sheet), f_(sheet.figures()), pre_(sheet.pre()), post_(sheet.post()) {}

  void enter() {
    repeatability(BudgetSource::pre_repeatability, BudgetSource::pre_pooled_repeatability, pre_, {.on_pre = 1});
    repeatability(BudgetSource::post_repeatability, BudgetSource::post_pooled_repeatability, post_, {.on_post = 1});
    certificates();
    since_the_certificates();
    resolution(BudgetSource::pre_resolution, pre_, {.on_pre = gain(sheet_, pre_)});
    resolution(BudgetSource::post_resolution, post_, {.on_post = gain(sheet_, post_)});
  }

 private:
  bool is_one_certificate() const {
    const bool is_one_each = !pre_.earlier_certificate && !post_.earlier_certificate;
    return is_one_each && pre_.certificate >= 0 && pre_.certificate == post_.certificate;
  }

  void repeatability(BudgetSource own, BudgetSource pooled, const ReadingSet& set, const Effect& effect) {
    const Repeatability known = repeatability_of(sheet_, set);
    if (!known.is_known()) return sheet_.lack(own, effect, true);
    sheet_.add(known.is_pooled ? pooled : own, set.flow.mean, known.u, Distribution::student_t, known.dof, effect);
  }

  void certificates() {
    const CertificateUncertainty pre = certificate_uncertainty(sheet_.basis(), pre_);
    const CertificateUncertainty post = certificate_uncertainty(sheet_.basis(), post_);
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

  void since_the_certificates() {
    const CalibratorKnowledge::MovedSince pre = moved_since(sheet_, pre_);
    const CalibratorKnowledge::MovedSince post = moved_since(sheet_, post_);
    if (is_one_certificate()) {
      moved(BudgetSource::calibrator_drift, post.u > pre.u ? post : pre, pre_, both(pre.u, post.u));
    } else {
      moved(BudgetSource::pre_calibrator_drift, pre, pre_, {.on_pre = f_.pre_l_min});
      moved(BudgetSource::post_calibrator_drift, post, post_, {.on_post = f_.post_l_min});
    }
  }

  void moved(BudgetSource source, const CalibratorKnowledge::MovedSince& since, const ReadingSet& set, Effect effect) {
    if (set.certificate < 0) return;  // nothing is known of its error at all, and that is said
    const Certificate& certificate = sheet_.basis().book.certificates[static_cast<std::size_t>(set.certificate)];
    if (is_missing(since.u)) return sheet_.lack(source, effect, false, certificate.tolerance.value_or(missing));
    effect.on_flow_between = on_field_flow(sheet_, set.certificate, since.u,
                                           [this](const ReadingSet& of) { return moved_since(sheet_, of).u; });
    if (since.u > 0) sheet_.add(source, 0, since.u, Distribution::student_t, since.dof, effect);
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
    const ReadingSet& set = source == BudgetSource::post_certificate ? post_ : pre_;
    if (!is_known) {
      effect.on_flow_between = on_field_flow(sheet_, set.certificate, 1, [](const ReadingSet&) { return 1.0; });
      return sheet_.lack(source, effect, true);
    }
    effect.on_flow_between = on_field_flow(sheet_, set.certificate, known.standard,
                                           [this](const ReadingSet& of) { return stated_uncertainty(sheet_, of); });
    sheet_.add(source, known.error, known.standard, Distribution::normal, infinite_dof, effect);
  }

  void between_points(BudgetSource source, const CertificateUncertainty& known, Effect effect) {
    if (!(known.interpolation_half_width > 0)) return;
    sheet_.each_field_set([&](const ReadingSet& set, double share) {
      const CertificateUncertainty field = certificate_uncertainty(sheet_.basis(), set);
      const double part = field.interpolation_half_width / known.interpolation_half_width;
      if (bow_together(known, field)) effect.on_flow_between += share * set.flow.mean * part;
    });
    sheet_.add_rectangular(source, 0, known.interpolation_half_width, effect);
  }

  void resolution(BudgetSource source, const ReadingSet& set, const Effect& effect) {
    const std::optional<double> step = sheet_.calibrator_of(set).resolution_l_min;
    if (!step) return sheet_.lack(source, effect, false);
    sheet_.add(source, 0, of_a_step(*step), Distribution::rectangular, infinite_dof, effect);
  }

  BudgetSheet& sheet_;
  const SampleAssessment& f_;
  const ReadingSet& pre_;
  const ReadingSet& post_;
};

}  // namespace

void enter_calibrators(BudgetSheet& sheet) { CalibratorInputs(sheet).enter(); }

Repeatability repeatability_of(const BudgetSheet& sheet, const ReadingSet& set) {
  const auto n = static_cast<double>(set.flow.n);
  if (set.flow.n >= 2) return {set.flow.s / std::sqrt(n), n - 1, false};
  if (set.flow.n == 0) return {};
  const PooledSpread pooled = sheet.basis().scatter.of_single(set.rows);
  return {pooled.s * set.flow.mean, pooled.dof, true};
}

double stated_uncertainty(const BudgetSheet& sheet, const ReadingSet& set) {
  return certificate_uncertainty(sheet.basis(), set).standard;
}

CalibratorKnowledge::MovedSince moved_since(const BudgetSheet& sheet, const ReadingSet& set) {
  const AssessmentBasis& basis = sheet.basis();
  const Day on = local_day(set.rows.last, basis.book.settings.zone);
  const auto since = [&](std::int32_t certificate) {
    return basis.calibrators.moved_since(certificate, set.rows.calibrator, on);
  };
  const CalibratorKnowledge::MovedSince last = since(set.certificate);
  if (!set.earlier_certificate) return last;
  const CalibratorKnowledge::MovedSince earlier = since(*set.earlier_certificate);
  return earlier.u > last.u ? earlier : last;
}

double gain(const BudgetSheet& sheet, const ReadingSet& set) {
  const auto curve = sheet.basis().calibrators.curve_for(sheet.figures().rows[set.rows.begin], set.certificate);
  return set.flow.mean / set.indicated_l_min * step_through(curve, set.indicated_l_min);
}

double of_a_step(double step) { return rectangular(step / 2); }

}  // namespace driftwarden
