// SPDX-License-Identifier: MIT
#include "verdict/against_use.hpp"

#include "book/stamp_text.hpp"
#include "book/whereabouts.hpp"

namespace driftwarden {
namespace {

void add_service(const Instrument& of, Day on, std::vector<std::string>& sentences) {
  if (of.out_of_service != no_day && of.out_of_service <= on)
    sentences.push_back("Out of service since " + date_text(of.out_of_service) + ": do not use it.");
  if (of.in_service != no_day && of.in_service > on)
    sentences.push_back("In service from " + date_text(of.in_service) + ": do not use it before that day.");
}

void add_kits(const Book& book, Row instrument, Day as_of, std::vector<std::string>& sentences) {
  const Whereabouts where(book, as_of);
  for (const Issue* issue : where.issues_of(instrument)) {
    if (where.is_missing(*issue)) sentences.push_back("Missing from kit " + issue->kit + ".");
  }
  if (const Issue* damaged = where.damaged(instrument))
    sentences.push_back("Came back damaged on " + date_text(damaged->back) +
                        (damaged->note.empty() ? "" : " (" + damaged->note + ")") +
                        ": do not use it before something is done to it.");
}

void add_certificate(const Screening& screening, Row calibrator, Day on, std::vector<std::string>& sentences) {
  const CalibratorKnowledge& calibrators = screening.basis().calibrators;
  const std::int32_t certificate = calibrators.certificate(calibrator, on);
  if (certificate < 0) {
    sentences.emplace_back("No certificate of it is in force: its error is not corrected.");
  } else if (const Day due = calibrators.due(certificate); due != no_day && due < on) {
    sentences.push_back("Past due since " + date_text(due) + ": do not use it before it is calibrated.");
  }
}

}  // namespace

std::vector<std::string> against_use(const Screening& screening, Row instrument, Day on, Day as_of) {
  const Instrument& of = screening.book().instruments[instrument];
  std::vector<std::string> sentences;
  add_service(of, on, sentences);
  add_kits(screening.book(), instrument, as_of, sentences);
  if (of.kind == InstrumentKind::calibrator) add_certificate(screening, instrument, on, sentences);
  return sentences;
}

}  // namespace driftwarden
