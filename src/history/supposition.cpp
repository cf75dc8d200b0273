// SPDX-License-Identifier: MIT
#include "history/supposition.hpp"

namespace driftwarden {
namespace {

bool is_in_window(Day day, const LookbackWindow& window) {
  return day != no_day && day >= window.from && day < window.until;
}

// Where no point has a true flow left, nobody knows the error: it must not read as none.
ErrorCurve unless_empty(const ErrorCurve& curve) { return curve.empty() ? ErrorCurve{{0, missing}} : curve; }

// The instrument's own errors, a curve a day; of `sudden` one for all days.
std::vector<ErrorCurve> own_errors(const Book& book, const LookbackWindow& window, Supposition supposition) {
  const ErrorCurve found = as_found_curve(book.certificates[static_cast<std::size_t>(window.found)]);
  if (supposition == Supposition::sudden) return {found};
  const ErrorCurve left = error_curve(book.certificates[static_cast<std::size_t>(window.last_good)]);
  const Day days = window.until - window.from;
  std::vector<ErrorCurve> by_day;
  for (Day day = 0; day < days; ++day) {
    by_day.push_back(error_on_the_way(left, found, static_cast<double>(day) / static_cast<double>(days)));
  }
  return by_day;
}

}  // namespace

std::string_view to_text(Supposition supposition) { return supposition == Supposition::sudden ? "sudden" : "linear"; }

std::vector<LeaningCertificate> leaning_certificates(const Screening& screening, const LookbackWindow& window) {
  const std::vector<Certificate>& certificates = screening.book().certificates;
  std::vector<LeaningCertificate> leaning;
  std::vector<std::vector<LeaningCertificate>> leaning_on(certificates.size());
  for (std::size_t i = 0; i < certificates.size(); ++i) {
    const Certificate& certificate = certificates[i];
    const Standard standard = screening.basis().standards.of(certificate, screening.basis().calibrators);
    if (certificate.instrument == no_row || certificate.instrument == window.instrument) continue;
    if (standard.instrument == no_row) continue;
    const LeaningCertificate each{static_cast<std::int32_t>(i), standard};
    if (standard.instrument == window.instrument) {
      if (is_in_window(certificate.calibrated, window)) leaning.push_back(each);
    } else if (standard.certificate >= 0) {
      leaning_on[static_cast<std::size_t>(standard.certificate)].push_back(each);
    }
  }
  // None comes twice: a certificate leans on one, and what leans on the instrument itself is not reached from another.
  for (std::size_t next = 0; next < leaning.size(); ++next) {
    const std::vector<LeaningCertificate>& further = leaning_on[static_cast<std::size_t>(leaning[next].certificate)];
    leaning.insert(leaning.end(), further.begin(), further.end());
  }
  return leaning;
}

SupposedErrors supposed_errors(const Screening& screening, const LookbackWindow& window,
                               const std::vector<LeaningCertificate>& leaning, Supposition supposition) {
  const Book& book = screening.book();
  SupposedErrors errors{window.instrument, window.from, window.until, own_errors(book, window, supposition), {}};
  for (const LeaningCertificate& each : leaning) {
    const Certificate& certificate = book.certificates[static_cast<std::size_t>(each.certificate)];
    const ErrorCurve* supposed =
        errors.curve(each.standard.instrument, each.standard.certificate, certificate.calibrated);
    if (supposed == nullptr) continue;
    const std::span<const ErrorPoint> stated = screening.basis().calibrators.curve(each.standard.certificate);
    errors.by_certificate[each.certificate] =
        unless_empty(error_curve(with_other_standard(certificate, stated, *supposed)));
  }
  return errors;
}

}  // namespace driftwarden
