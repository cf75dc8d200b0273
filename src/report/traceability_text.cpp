// SPDX-License-Identifier: MIT
#include "report/traceability_text.hpp"

#include <algorithm>

#include "assessment/traceability.hpp"
#include "book/stamp_text.hpp"
#include "diagnostic/diagnostic.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {
namespace {

// A calibrator on a day, and the sets read with it then.
struct Start {
  Row calibrator = no_row;
  Day day = no_day;
  std::int32_t certificate = -1;
  std::vector<std::string> stages;
};

// "2.0 %", "0.50 to 1.0 %": of the points that state one.
std::string uncertainty_text(const Certificate& certificate) {
  double low = missing;
  double high = missing;
  for (const CertificatePoint& point : certificate.points) {
    if (!point.expanded_uncertainty_l_min || !(point.reference_l_min > 0)) continue;
    const double percent = 100 * *point.expanded_uncertainty_l_min / point.reference_l_min;
    low = std::fmin(low, percent);
    high = std::fmax(high, percent);
  }
  if (is_missing(low)) return "";
  const std::string from = with_significant_digits(low, 2);
  const std::string to = with_significant_digits(high, 2);
  std::string text = "U " + (from == to ? to : from + " to " + to) + " %";
  if (certificate.coverage_factor) text += " (k = " + shortest(*certificate.coverage_factor) + ")";
  return text;
}

class ChainText {
 public:
  ChainText(const Screening& screening, std::size_t width)
      : book_(screening.book()), basis_(screening.basis()), width_(width) {}

  std::string of(const SampleAssessment& figures) {
    for (const Start& start : starts(figures)) {
      line(sets_text(start.stages), 2);
      chain(chain_of(book_, basis_.calibrators, basis_.standards, start.calibrator, start.day));
    }
    return std::move(out_);
  }

 private:
  void line(std::string_view text, std::size_t indent) { out_ += wrapped(text, indent, width_); }
  const Certificate& certificate(std::int32_t place) const {
    return book_.certificates[static_cast<std::size_t>(place)];
  }

  std::vector<Start> starts(const SampleAssessment& figures) const {
    std::vector<Start> all;
    for (const ReadingSet& set : figures.sets) {
      if (set.rows.calibrator == no_row) continue;
      // A set that runs over midnight may lean on two certificates.
      for (const Moment moment : {set.rows.first, set.rows.last}) add(all, set.rows, moment);
    }
    return all;
  }

  void add(std::vector<Start>& all, const SetRows& set, Moment moment) const {
    const Day day = local_day(moment, book_.settings.zone);
    const std::int32_t certificate = basis_.calibrators.certificate(set.calibrator, day);
    const auto same = std::find_if(all.begin(), all.end(), [&](const Start& start) {
      return start.calibrator == set.calibrator && start.certificate == certificate;
    });
    Start& start = same == all.end() ? all.emplace_back(Start{set.calibrator, day, certificate, {}}) : *same;
    const std::string stage(to_text(set.stage));
    if (std::find(start.stages.begin(), start.stages.end(), stage) == start.stages.end()) start.stages.push_back(stage);
  }

  static std::string sets_text(const std::vector<std::string>& stages) {
    return joined(stages, ", ") + (stages.size() == 1 ? " set" : " sets") + ", read with";
  }

  void chain(const Chain& chain) {
    for (std::size_t i = 0; i < chain.links.size(); ++i) link(chain.links[i], i == 0);
    end(chain);
  }

  void link(const ChainLink& link, bool is_first) {
    const Instrument& instrument = book_.instruments[link.instrument];
    std::string text = (is_first ? "" : "against ") + instrument.name;
    if (!instrument.serial.empty()) text += ", serial " + instrument.serial;
    if (link.certificate < 0) return line(text, 4);
    const Certificate& c = certificate(link.certificate);
    text += ", by certificate " + c.name + " of " + date_text(c.calibrated);
    if (!c.issuer.empty()) text += ", " + c.issuer;
    const std::string uncertainty = uncertainty_text(c);
    if (!uncertainty.empty()) text += ", " + uncertainty;
    line(text + " [" + book_.place_text(book_.files.certificates, c.place) + "]", 4);
    gaps(link, c);
  }

  void gaps(const ChainLink& link, const Certificate& c) {
    const CertificateLacks lacks = lacks_of(c);
    if (lacks.points_without_uncertainty > 0)
      gap("the certificate states no uncertainty" + at_points(lacks.points_without_uncertainty, c.points.size()));
    if (lacks.coverage_factor)
      gap("the certificate states no coverage factor of its uncertainty; " + shortest(usual_coverage_factor) +
          " is taken");
    if (lacks.issuer) gap("the certificate does not say who issued it");
    if (link.certificate != link.in_force) gap(not_in_force(link));
    const Day due = basis_.calibrators.due(link.certificate);
    if (due != no_day && link.relied_on != no_day && due < link.relied_on)
      gap("it was due on " + date_text(due) + " and relied on on " + date_text(link.relied_on));
  }

  static std::string at_points(std::size_t without, std::size_t points) {
    return without == points ? "" : " at " + std::to_string(without) + " of its " + std::to_string(points) + " points";
  }

  std::string not_in_force(const ChainLink& link) const {
    const std::string on = "on " + date_text(link.relied_on);
    return "it was not in force " + on + ": " +
           (link.in_force < 0 ? "none was" : certificate(link.in_force).name + " was");
  }

  void gap(const std::string& text) { line("- gap: " + text, 6); }

  void end(const Chain& chain) {
    const ChainLink& last = chain.links.back();
    const std::string& name = book_.instruments[last.instrument].name;
    switch (chain.end) {
      case ChainEnd::no_certificate:
        return gap("no certificate of " + name + " was in force on " + date_text(last.relied_on) +
                   "; the chain ends here");
      case ChainEnd::names_no_standard:
        return gap("the certificate does not say what it was made against; the chain ends here");
      case ChainEnd::ring:
        return gap("its standard, " + in_quotes(certificate(last.certificate).standard) +
                   ", leans on this chain itself: a ring");
      case ChainEnd::outside_the_book:
        line("against " + in_quotes(certificate(last.certificate).standard) +
                 ", which the book does not hold: what stands behind it is known elsewhere",
             4);
    }
  }

  const Book& book_;
  const AssessmentBasis& basis_;
  std::size_t width_;
  std::string out_;
};

}  // namespace

std::string traceability_text(const Screening& screening, const SampleAssessment& figures, std::size_t width) {
  return ChainText(screening, width).of(figures);
}

}  // namespace driftwarden
