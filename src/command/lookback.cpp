// SPDX-License-Identifier: MIT
#include "history/lookback.hpp"

#include <algorithm>
#include <limits>
#include <ostream>

#include "command/opened_book.hpp"
#include "command/output.hpp"
#include "command/selection.hpp"
#include "diagnostic/suggestion.hpp"
#include "report/lookback_csv.hpp"
#include "report/lookback_json.hpp"
#include "report/lookback_page.hpp"
#include "report/lookback_table.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

const Place command_line{"command line", 0, 0};

// The window asked for. Nothing: told why, or (`found_nothing`) that no certificate found it beyond its tolerance.
struct Asked {
  std::optional<LookbackWindow> window;
  bool found_nothing = false;
};

std::optional<Row> calibrator_named(const Book& book, const std::string& name, Surroundings& surroundings) {
  std::vector<std::string> known;
  for (const Instrument& instrument : book.instruments) {
    if (instrument.kind == InstrumentKind::calibrator) known.push_back(instrument.name);
  }
  for (Row row = 0; row < book.instruments.size(); ++row) {
    if (book.instruments[row].name == name && book.instruments[row].kind == InstrumentKind::calibrator) return row;
  }
  tell(surroundings.err, {error("command/unknown-name", command_line, "the book has no calibrator " + in_quotes(name),
                                did_you_mean(name, known))});
  return std::nullopt;
}

std::optional<std::int32_t> certificate_named(const Book& book, Row instrument, const std::string& name,
                                              Surroundings& surroundings) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < book.certificates.size(); ++i) {
    if (book.certificates[i].instrument != instrument) continue;
    if (book.certificates[i].name == name) return static_cast<std::int32_t>(i);
    known.push_back(book.certificates[i].name);
  }
  tell(surroundings.err, {error("command/unknown-name", command_line,
                                book.instruments[instrument].name + " has no certificate " + in_quotes(name),
                                did_you_mean(name, known))});
  return std::nullopt;
}

Asked from_certificate(const Screening& screening, Row instrument, const std::string& name,
                       Surroundings& surroundings) {
  const Book& book = screening.book();
  const std::optional<std::int32_t> certificate = certificate_named(book, instrument, name, surroundings);
  if (!certificate) return {};
  Asked asked{window_of(screening, *certificate), false};
  if (!asked.window) {
    const Certificate& named = book.certificates[static_cast<std::size_t>(*certificate)];
    const Place place{book.place_text(book.files.certificates, named.place), 0, 0};
    tell(surroundings.err,
         {error("lookback/no-as-found", place,
                "certificate " + in_quotes(name) + " has no date or does not say how the instrument was found",
                "give 'calibrated' and 'as found', or name another certificate with --certificate")});
  }
  return asked;
}

Asked from_newest(const Screening& screening, Row instrument, Day as_of, Surroundings& surroundings) {
  const std::vector<const Certificate*> certificates = certificates_of(screening.book(), instrument, as_of);
  if (!certificates.empty() && !tolerance_of(screening, certificates).is_stated()) {
    const std::string& name = screening.book().instruments[instrument].name;
    tell(surroundings.err,
         {error("lookback/no-tolerance", command_line,
                "neither a certificate of " + in_quotes(name) + " nor a rule says how far off it may be",
                "name the certificate to look back from with --certificate")});
    return {};
  }
  Asked asked{newest_window(screening, instrument, as_of), false};
  asked.found_nothing = !asked.window;
  return asked;
}

std::string written(const OpenedBook& opened, const Lookback& lookback, const std::string& format, Paint paint,
                    const PageMaking& making) {
  const Screening& screening = *opened.screening;
  if (format == "csv") return lookback_csv(screening, lookback);
  if (format == "json") return lookback_json(screening, lookback);
  if (format == "html" || format == "pdf") return lookback_page(screening, lookback, making);
  return lookback_table(screening, lookback, paint);
}

bool is_amiss(const Lookback& lookback) {
  return std::any_of(lookback.samples.begin(), lookback.samples.end(), [](const LookedBackSample& looked) {
    return looked.verdict_changes() || looked.before.verdict >= Verdict::undecided;
  });
}

std::string nothing_text(const Book& book, Row instrument, const std::string& format, const std::string& paper) {
  if (format == "csv") return lookback_csv_headings();
  if (format == "json") return lookback_json_of_nothing(book, instrument);
  if (format == "html" || format == "pdf") return lookback_page_of_nothing(book, instrument, paper);
  return "No certificate found " + book.instruments[instrument].name +
         " beyond its tolerance: there is nothing to look back on.\n\n" + wrapped(cautions, 0, table_width);
}

}  // namespace

int run_lookback(const LookbackOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr || tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  const std::optional<Row> instrument = calibrator_named(opened->book, options.instrument, surroundings);
  if (!instrument) return cannot_be_used;
  // Without a day, everything in the book is known.
  const Day as_of = options.book.as_of.empty() ? std::numeric_limits<Day>::max() : opened->as_of;
  const Asked asked = options.certificate.empty()
                          ? from_newest(*opened->screening, *instrument, as_of, surroundings)
                          : from_certificate(*opened->screening, *instrument, options.certificate, surroundings);
  if (!asked.window && !asked.found_nothing) return cannot_be_used;
  const std::optional<std::string> format =
      format_meant(options.format, options.out, {"table", "csv", "json", "html", "pdf"}, surroundings);
  if (!format) return cannot_be_used;
  const std::string paper = paper_of(*format, options.paper);
  int status = all_is_well;
  std::string text;
  if (asked.window) {
    const Lookback lookback = look_back(*opened->screening, *asked.window, as_of);
    text = written(*opened, lookback, *format, Paint(options.out.empty() && surroundings.out_is_terminal),
                   {opened->as_of, surroundings.version, paper});
    status = is_amiss(lookback) ? something_is_amiss : all_is_well;
  } else {
    text = nothing_text(opened->book, *instrument, *format, paper);
  }
  if (!write_result({text, *format, options.out, opened->as_of}, surroundings)) return cannot_be_used;
  return opened->has_faults() ? cannot_be_used : status;
}

}  // namespace driftwarden
