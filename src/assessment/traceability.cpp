// SPDX-License-Identifier: MIT
#include "assessment/traceability.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

bool holds(const Chain& chain, std::int32_t certificate) {
  return std::any_of(chain.links.begin(), chain.links.end(),
                     [certificate](const ChainLink& link) { return link.certificate == certificate; });
}

}  // namespace

Chain chain_of(const Book& book, const CalibratorKnowledge& knowledge, const StandardIndex& standards, Row calibrator,
               Day on) {
  Chain chain;
  const std::int32_t first = knowledge.certificate(calibrator, on);
  ChainLink next{calibrator, first, on, first};
  for (;;) {
    chain.links.push_back(next);
    if (next.certificate < 0) return chain;  // its end is that there is none
    const Certificate& certificate = book.certificates[static_cast<std::size_t>(next.certificate)];
    const Standard standard = standards.of(certificate, knowledge);
    if (standard.instrument == no_row) {
      chain.end = certificate.standard.empty() ? ChainEnd::names_no_standard : ChainEnd::outside_the_book;
      return chain;
    }
    if (holds(chain, standard.certificate)) {
      chain.end = ChainEnd::ring;
      return chain;
    }
    next = {standard.instrument, standard.certificate, certificate.calibrated,
            knowledge.certificate(standard.instrument, certificate.calibrated)};
  }
}

CertificateLacks lacks_of(const Certificate& certificate) {
  CertificateLacks lacks;
  lacks.points_without_uncertainty = static_cast<std::size_t>(
      std::count_if(certificate.points.begin(), certificate.points.end(),
                    [](const CertificatePoint& point) { return !point.expanded_uncertainty_l_min; }));
  const bool states_uncertainty = lacks.points_without_uncertainty < certificate.points.size();
  lacks.coverage_factor = states_uncertainty && !certificate.coverage_factor;
  lacks.issuer = certificate.issuer.empty();
  lacks.standard = certificate.standard.empty();
  return lacks;
}

bool is_sound(const ChainLink& link, const Chain& chain, const Book& book) {
  if (link.certificate < 0 || link.certificate != link.in_force) return false;
  if (&link == &chain.links.back() && chain.end != ChainEnd::outside_the_book) return false;
  const CertificateLacks lacks = lacks_of(book.certificates[static_cast<std::size_t>(link.certificate)]);
  return lacks.points_without_uncertainty == 0 && !lacks.issuer;
}

}  // namespace driftwarden
