// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <map>
#include <unordered_map>

#include "book/certificate_points.hpp"
#include "book/digital_certificates.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

enum Field : int {
  certificate,
  instrument,
  calibrated,
  due,
  issuer,
  standard,
  temperature,
  pressure,
  nominal,
  reference,
  as_found,
  as_left,
  expanded_uncertainty,
  coverage_factor,
  tolerance,
  reference_as_found
};
using D = Dimension;
// A thermometer's points are temperatures, a barometer's are pressures, a balance's are masses.
constexpr std::array<D, 3> conditions{D::temperature, D::pressure, D::mass};
constexpr std::array<D, 4> uncertainties{D::ratio, D::temperature_difference, D::pressure, D::mass};
constexpr std::array<D, 3> tolerances{D::temperature_difference, D::pressure, D::mass};
constexpr std::array<FieldSpec, 16> fields{{
    {certificate, "certificate", CellType::text, D::count, true},
    {instrument, "instrument", CellType::text, D::count, true},
    {calibrated, "calibrated", CellType::date, D::count, true},
    {due, "due", CellType::date},
    {issuer, "issuer"},
    {standard, "standard"},
    {temperature, "temperature", CellType::quantity, D::temperature, false, 180, 400},
    {pressure, "pressure", CellType::quantity, D::pressure, false, 10, 200},
    {nominal, "nominal", CellType::quantity, D::flow, true, 0, 1e5, conditions},
    {reference, "reference", CellType::quantity, D::flow, true, 0, 1e5, conditions},
    {as_found, "as found", CellType::quantity, D::flow, false, 0, 1e5, conditions},
    {as_left, "as left", CellType::quantity, D::flow, false, 0, 1e5, conditions},
    {expanded_uncertainty, "expanded uncertainty", CellType::quantity, D::flow, false, 0, 1e5, uncertainties, "%"},
    {coverage_factor, "coverage factor", CellType::number, D::count, false, 1, 10},
    {tolerance, "tolerance", CellType::quantity, D::ratio, false, 0, 1, tolerances},
    {reference_as_found, "reference as found", CellType::quantity, D::flow, false, 0, 1e5, conditions},
}};
static_assert(are_complete(fields, reference_as_found));

std::optional<double> optional(double figure) {
  return is_missing(figure) ? std::nullopt : std::optional<double>(figure);
}

D dimension_of(const TableLayout& layout, Field field) {
  return layout.unit_of_field[static_cast<std::size_t>(field)].dimension;
}

// A difference, as an uncertainty or a tolerance is, of figures of a dimension.
D dimension_of_difference(D points) { return points == D::temperature ? D::temperature_difference : points; }

// The column of a file whose unit does not go with that of the nominal figure.
std::optional<Field> odd_column(const TableLayout& layout) {
  const D points = dimension_of(layout, nominal);
  for (const Field field : {reference, reference_as_found, as_found, as_left}) {
    if (layout.has(field) && dimension_of(layout, field) != points) return field;
  }
  const D difference = dimension_of_difference(points);
  const bool may_be_relative = points != D::temperature;
  for (const Field field : {expanded_uncertainty, tolerance}) {
    if (!layout.has(field) || dimension_of(layout, field) == difference) continue;
    const bool is_relative = dimension_of(layout, field) == D::ratio;
    if (!is_relative || !may_be_relative || (field == tolerance && points != D::flow)) return field;
  }
  return std::nullopt;
}

// Whether figures of samples lean on what its certificate says.
bool leans_on_certificates(InstrumentKind kind) {
  return kind == InstrumentKind::calibrator || kind == InstrumentKind::balance;
}

// Where certificates are lost, with all that stood in them, they may be any calibrator's.
void doubt_all_calibrators(const BookInHand& hand) {
  const ProblemNumber problem = hand.lost["certificates"];
  if (problem == no_problem) return;
  for (Instrument& instrument : hand.book.instruments) {
    if (leans_on_certificates(instrument.kind)) doubt(instrument, problem);
  }
}

// A certificate of nobody known may be that of a calibrator that has none.
void doubt_calibrators_without_certificate(Book& book) {
  const auto nobodys = std::find_if(book.certificates.begin(), book.certificates.end(),
                                    [](const Certificate& it) { return it.instrument == no_row; });
  if (nobodys == book.certificates.end()) return;
  std::vector<bool> has_one(book.instruments.size());
  for (const Certificate& certificate : book.certificates) {
    if (certificate.instrument != no_row) has_one[certificate.instrument] = true;
  }
  for (Row row = 0; row < book.instruments.size(); ++row) {
    const bool lacks_one = leans_on_certificates(book.instruments[row].kind) && !has_one[row];
    if (lacks_one) doubt(book.instruments[row], nobodys->problem);
  }
}

// Of two certificates of one day only one can be in force.
void note_same_days(const BookInHand& hand) {
  std::map<std::pair<Row, Day>, const Certificate*> known;
  for (const Certificate& certificate : hand.book.certificates) {
    if (certificate.instrument == no_row || certificate.calibrated == no_day) continue;
    const auto [place, is_new] = known.try_emplace({certificate.instrument, certificate.calibrated}, &certificate);
    if (is_new) continue;
    const std::vector<std::string>& files = hand.book.files.certificates;
    hand.problems.add(remark("certificate/same-day", {files[certificate.place.file], certificate.place.line, 0},
                             in_quotes(hand.book.instruments[certificate.instrument].name) +
                                 " has another certificate of " + date_text(certificate.calibrated) + " in " +
                                 hand.book.place_text(files, place->second->place) +
                                 "; this one counts from that day on",
                             "put all points of one calibration under one certificate's name"));
    place->second = &certificate;
  }
}

// What a report states before and after an adjustment in two parts, each with rows of its own.
void join_parts(const BookInHand& hand) {
  for (Certificate& certificate : hand.book.certificates) {
    const std::optional<RowPlace> first = join_found_and_left(certificate);
    const bool is_in_rows = first && !is_document_name(hand.book.files.certificates[first->file]);
    if (!is_in_rows) continue;  // a document tells it by a list of its own
    hand.problems.add(
        remark("certificate/found-apart", {hand.book.files.certificates[first->file], first->line, 0},
               "the certificate " + in_quotes(certificate.name) +
                   " has as found and as left in rows apart; what was as found only tells how it was, and "
                   "corrects no reading",
               "one row a point says it, with 'reference as found' where that was another"));
  }
}

void fail_without_flow(RowReader& row, Field field) {
  row.fail(field, "certificate/no-flow", "a reference flow of 0 gives no relative error", "leave the point out");
}

CertificatePoint read_point(RowReader& row, const TableLayout& layout, RowPlace place) {
  CertificatePoint point;
  point.place = place;
  point.nominal_l_min = row.quantity(nominal);
  point.reference_l_min = row.quantity(reference);
  if (point.reference_l_min == 0) fail_without_flow(row, reference);
  point.reference_as_found_l_min = optional(row.quantity(reference_as_found));
  if (point.reference_as_found_l_min == 0) fail_without_flow(row, reference_as_found);
  point.as_found_l_min = optional(row.quantity(as_found));
  point.as_left_l_min = optional(row.quantity(as_left));
  point.expanded_uncertainty_l_min = optional(row.quantity(expanded_uncertainty));
  if (point.expanded_uncertainty_l_min && dimension_of(layout, expanded_uncertainty) == D::ratio) {
    *point.expanded_uncertainty_l_min *= point.reference_l_min;
  }
  return point;
}

ConditionPoint read_condition_point(RowReader& row, const TableLayout& layout, RowPlace place) {
  ConditionPoint point;
  point.place = place;
  point.nominal = row.quantity(nominal);
  point.reference = row.quantity(reference);
  point.reference_as_found = optional(row.quantity(reference_as_found));
  point.as_found = optional(row.quantity(as_found));
  point.as_left = optional(row.quantity(as_left));
  point.expanded_uncertainty = optional(row.quantity(expanded_uncertainty));
  if (point.expanded_uncertainty && dimension_of(layout, expanded_uncertainty) == D::ratio) {
    *point.expanded_uncertainty *= point.reference;
  }
  return point;
}

Certificate read_certificate(RowReader& row, const TableLayout& layout, RowPlace place) {
  Certificate result;
  result.place = place;
  result.name = row.kept_text(certificate);
  result.calibrated = row.date(calibrated);
  result.due = row.date(due);
  result.issuer = row.kept_text(issuer);
  result.standard = row.kept_text(standard);
  if (const double t = row.quantity(temperature); !is_missing(t)) result.temperature = Temperature(t);
  if (const double p = row.quantity(pressure); !is_missing(p)) result.pressure = Pressure(p);
  result.coverage_factor = optional(row.quantity(coverage_factor));
  const bool is_relative = dimension_of(layout, tolerance) == D::ratio;
  (is_relative ? result.tolerance : result.condition_tolerance) = optional(row.quantity(tolerance));
  return result;
}

class CertificateRows {
 public:
  CertificateRows(const TableFile& file, const BookInHand& hand, KnownCertificates& known)
      : file_(file), hand_(hand), known_(known), reader_(hand.context(file, certificates_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    reader_.start(scanner, line);
    const RowPlace place{file_.number, line};
    Certificate head = read_certificate(reader_, file_.layout, place);
    head.instrument = read_instrument();
    check_quantity(head.instrument);
    const bool is_of_flow = dimension_of(file_.layout, nominal) == D::flow;
    CertificatePoint point;
    ConditionPoint condition;
    if (is_of_flow) point = read_point(reader_, file_.layout, place);
    if (!is_of_flow) condition = read_condition_point(reader_, file_.layout, place);
    Certificate& whole = certificate_of(std::move(head));
    if (whole.problem == no_problem) whole.problem = reader_.problem();
    if (is_of_flow) whole.points.push_back(point);
    if (!is_of_flow) whole.condition_points.push_back(condition);
    if (reader_.problem() != no_problem && whole.instrument != no_row && whole.calibrated == no_day) {
      doubt(hand_.book.instruments[whole.instrument], reader_.problem());
    }
  }

 private:
  Row read_instrument() {
    const std::string_view name = reader_.text(instrument);
    const Row row = known_.instruments.find(name);
    if (row == no_row) fail_unknown(name);
    return row;
  }

  // A flow of a thermometer, or a temperature of a pump.
  void check_quantity(Row row) {
    if (row == no_row) return;
    const Instrument& known = hand_.book.instruments[row];
    const D wanted = dimension_of_points(known.kind);
    if (dimension_of(file_.layout, nominal) == wanted) return;
    reader_.fail(instrument, "certificate/wrong-quantity",
                 in_quotes(known.name) + " is a " + std::string(to_text(known.kind)) + ", and its points are no " +
                     std::string(to_text(dimension_of(file_.layout, nominal))) + "s",
                 "put them into a file of their own in the folder certificates, with headings such as 'nominal [" +
                     std::string(customary_unit(wanted).name) + "]'");
  }

  void fail_unknown(std::string_view name) {
    const ProblemNumber lost = hand_.lost["instruments"];
    if (lost != no_problem) return reader_.lean_on(lost);
    if (name.empty()) return;
    const ProblemNumber told = reader_.fail(instrument, "certificate/unknown-instrument",
                                            "the instrument " + in_quotes(name) + " is not in instruments.csv",
                                            "add it to instruments.csv as a calibrator");
    hand_.problems.add_unknown({told, std::string(name), InstrumentKind::calibrator});
  }

  // The certificate that this row is a point of: known by its name, or new.
  Certificate& certificate_of(Certificate head) {
    std::vector<Certificate>& all = hand_.book.certificates;
    if (head.name.empty()) return all.emplace_back(std::move(head));
    const auto [place, is_new] = known_.certificates.try_emplace(head.name, all.size());
    if (is_new) return all.emplace_back(std::move(head));
    Certificate& known = all[place->second];
    if (const std::optional<Field> odd = reconcile(known, head)) {
      reader_.fail(*odd, "certificate/torn",
                   "the certificate " + in_quotes(head.name) + " has another " +
                       in_quotes(fields[static_cast<std::size_t>(*odd)].name) + " in " +
                       hand_.book.place_text(hand_.book.files.certificates, known.place),
                   "all rows of one certificate say the same; give another certificate another name");
    }
    return known;
  }

  template <class T>
  static bool is_same(const T& one, const T& other) {
    return one == other;
  }
  // Also where two files state them in two units.
  static bool is_same(const std::optional<double>& one, const std::optional<double>& other) {
    return side_of_limit(*one, *other) == Side::on;
  }

  // What one row of a certificate leaves empty another may say. The column in which two rows contradict each other, if
  // they do; one that can't be understood has been told as that. Conditions, issuers and standards may differ from
  // point to point; the first counts.
  static std::optional<Field> reconcile(Certificate& known, const Certificate& head) {
    std::optional<Field> odd;
    const auto heed = [&odd](auto& one, const auto& other, const auto& nothing, Field column) {
      if (other == nothing) return;
      if (one == nothing) one = other;
      if (!is_same(one, other) && !odd) odd = column;
    };
    const auto heed_first = [](auto& one, const auto& other, const auto& nothing) {
      if (one == nothing) one = other;
    };
    heed_first(known.issuer, head.issuer, std::string());
    heed_first(known.standard, head.standard, std::string());
    heed_first(known.temperature, head.temperature, std::nullopt);
    heed_first(known.pressure, head.pressure, std::nullopt);
    heed(known.instrument, head.instrument, no_row, instrument);
    heed(known.calibrated, head.calibrated, no_day, calibrated);
    heed(known.due, head.due, no_day, due);
    heed(known.coverage_factor, head.coverage_factor, std::nullopt, coverage_factor);
    heed(known.tolerance, head.tolerance, std::nullopt, tolerance);
    heed(known.condition_tolerance, head.condition_tolerance, std::nullopt, tolerance);
    return odd;
  }

  const TableFile& file_;
  const BookInHand& hand_;
  KnownCertificates& known_;
  RowReader reader_;
};

}  // namespace

const TableSpec certificates_spec{"certificates", fields};

void doubt(Instrument& instrument, ProblemNumber problem) {
  if (instrument.problem == no_problem) instrument.problem = problem;
}

void read_certificates(const std::vector<TableFile>& files, const BookInHand& hand) {
  KnownCertificates known{index_of_instruments(hand.book.instruments), {}};
  for (const TableFile& file : files) {
    if (file.is_document) {
      read_digital_certificate(file, hand, known);
      continue;
    }
    if (const std::optional<Field> odd = odd_column(file.layout)) {
      const Unit& unit = file.layout.unit_of_field[nominal];
      hand.lose("certificates",
                hand.problems.add(error(
                    "certificate/mixed-units", {file.name, file.layout.first_line - 1, 0},
                    "the unit of " + in_quotes(fields[static_cast<std::size_t>(*odd)].name) +
                        " does not go with that of 'nominal', " + std::string(unit.name),
                    "one file holds flows, temperatures, pressures or masses; put others into a file of their own in "
                    "the folder certificates")));
      continue;
    }
    read_rows_in_order(file, CertificateRows(file, hand, known));
  }
  join_parts(hand);
  note_same_days(hand);
  doubt_all_calibrators(hand);
  doubt_calibrators_without_certificate(hand.book);
}

}  // namespace driftwarden
