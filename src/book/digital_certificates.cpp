// SPDX-License-Identifier: MIT
#include "book/digital_certificates.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "book/calibration_document.hpp"
#include "book/calibration_points.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

constexpr double most_figure = 1e5;  // as in CSV files, in the inside unit
constexpr std::size_t most_named = 12;

// Parts of the document that hold others, and those that are read whole; all else is told as not used.
constexpr std::array<std::string_view, 15> containers{"digitalCalibrationCertificate",
                                                      "administrativeData",
                                                      "coreData",
                                                      "items",
                                                      "item",
                                                      "calibrationLaboratory",
                                                      "measurementResults",
                                                      "measurementResult",
                                                      "results",
                                                      "result",
                                                      "data",
                                                      "list",
                                                      "quantity",
                                                      "influenceConditions",
                                                      "influenceCondition"};
constexpr std::array<std::string_view, 11> read_whole{
    "uniqueIdentifier", "beginPerformanceDate", "endPerformanceDate",   "identifications", "name",
    "contact",          "countryCodeISO3166_1", "usedLangCodeISO639_1", "status",          "mandatoryLangCodeISO639_1",
    "dccSoftware"};

template <std::size_t count>
bool holds(const std::array<std::string_view, count>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// "a, b, c and 5 more"
std::string few_of(const std::set<std::string>& names) {
  std::string text;
  std::size_t named = 0;
  for (const std::string& name : names) {
    if (named++ < most_named) text += (text.empty() ? "" : ", ") + name;
  }
  return named <= most_named ? text : text + " and " + std::to_string(named - most_named) + " more";
}

// The names of what a document holds and nobody uses: quantities by their refType, other parts by their element.
void name_unused(const XmlElement& element, const DocumentPoints& points, std::set<std::string>& unused) {
  if (points.used.contains(&element)) return;
  if (element.name == "quantity") unused.insert(called(element) + " of line " + std::to_string(element.place.line));
  for (const XmlElement& child : element.children) {
    const bool is_container = child.space == dcc_space && holds(containers, child.name);
    if (is_container) name_unused(child, points, unused);
    if (!is_container && child.space == dcc_space && !holds(read_whole, child.name)) unused.insert(child.name);
  }
}

// A point of either kind of certificate, in its own words.
template <class Point>
struct PointMembers {
  double Point::*nominal;
  double Point::*reference;
  std::optional<double> Point::*as_found;
  std::optional<double> Point::*as_left;
  std::optional<double> Point::*expanded;
};
constexpr PointMembers<CertificatePoint> flow_members{
    &CertificatePoint::nominal_l_min, &CertificatePoint::reference_l_min, &CertificatePoint::as_found_l_min,
    &CertificatePoint::as_left_l_min, &CertificatePoint::expanded_uncertainty_l_min};
constexpr PointMembers<ConditionPoint> condition_members{&ConditionPoint::nominal, &ConditionPoint::reference,
                                                         &ConditionPoint::as_found, &ConditionPoint::as_left,
                                                         &ConditionPoint::expanded_uncertainty};

// Where nothing is told of an adjustment the instrument stands as it was found.
template <class Point>
Point as_point(const DocumentPoint& read, const PointMembers<Point>& members, std::uint32_t file) {
  Point point;
  point.place = {file, read.line};
  point.*members.nominal = read.nominal;
  point.*members.reference = read.reference;
  point.*members.expanded = read.expanded;
  (point.*(read.state == AdjustmentState::after ? members.as_left : members.as_found)) = read.indicated;
  point.is_before_adjustment = read.state == AdjustmentState::before;
  return point;
}

// "2 points before and 3 after an adjustment", "4 points, of no adjustment told"
std::string counted(const std::vector<DocumentPoint>& points) {
  const auto in_state = [&points](AdjustmentState state) {
    return std::count_if(points.begin(), points.end(), [state](const DocumentPoint& it) { return it.state == state; });
  };
  const auto before = in_state(AdjustmentState::before);
  const auto after = in_state(AdjustmentState::after);
  const auto of = [](auto count) { return std::to_string(count) + (count == 1 ? " point" : " points"); };
  if (before + after == 0) return of(points.size()) + " (nothing in it tells of an adjustment)";
  if (after == 0) return of(before) + " before an adjustment, and none after it";
  return before == 0 ? of(after) + " after an adjustment"
                     : of(before) + " before and " + std::to_string(after) + " after an adjustment";
}

bool is_all_before(const std::vector<DocumentPoint>& points) {
  return std::all_of(points.begin(), points.end(),
                     [](const DocumentPoint& it) { return it.state == AdjustmentState::before; });
}

class DocumentReader {
 public:
  DocumentReader(const TableFile& file, const BookInHand& hand, KnownCertificates& known)
      : file_(file), hand_(hand), known_(known) {}

  void read() {
    const Result<XmlElement> root = xml_tree(file_.bytes.bytes(), file_.name, "dataBase64");
    if (!root) return lose(root.faults().front());
    const Result<CalibrationDocument> document = calibration_document(*root, file_.name);
    if (!document) return lose(document.faults().front());
    document_ = &*document;
    certificate_ = head();
    find_instrument();
    std::optional<DocumentPoints> points;
    if (certificate_.problem == no_problem) points = read_points();
    if (points) tell(*root, *points);
    add();
  }

 private:
  Place whole_file() const { return {file_.name, 0, 0}; }

  // Nobody knows whose certificate it is.
  void lose(const Diagnostic& fault) { hand_.lose("certificates", hand_.problems.add(fault)); }
  void fail(Diagnostic fault) {
    const ProblemNumber told = hand_.problems.add(std::move(fault));
    if (certificate_.problem == no_problem) certificate_.problem = told;
  }

  Certificate head() const {
    Certificate head;
    head.place = {file_.number, document_->line};
    head.name = document_->number;
    head.calibrated = document_->calibrated;
    head.issuer = document_->laboratory;
    return head;
  }

  // The instruments that have a serial number of one of the items, with that item.
  void find_instrument() {
    std::vector<std::pair<Row, const CalibratedItem*>> found;
    std::string serials;
    for (const CalibratedItem& item : document_->items) {
      for (const std::string& serial : item.serials) {
        serials += (serials.empty() ? "" : ", ") + in_quotes(serial);
        for (Row row = 0; row < hand_.book.instruments.size(); ++row) {
          if (hand_.book.instruments[row].serial == serial) found.emplace_back(row, &item);
        }
      }
    }
    if (found.size() == 1) return take_instrument(found.front().first, *found.front().second);
    if (found.empty()) return fail_unknown(serials);
    const auto name = [&](const auto& one) { return hand_.book.instruments[one.first].name; };
    const std::string names = joined(found, ", ", name);
    fail(error("dcc/which-item", whole_file(), "its serial numbers are those of several instruments: " + names,
               "give each instrument a serial number of its own; write the points of a certificate of several items to "
               "a CSV file"));
  }

  void fail_unknown(const std::string& serials) {
    if (const ProblemNumber lost = hand_.lost["instruments"]; lost != no_problem) {
      certificate_.problem = lost;
      return;
    }
    const auto name = [](const CalibratedItem& item) { return in_quotes(item.name); };
    const std::string names = joined(document_->items, ", ", name);
    fail(error("dcc/unknown-serial", whole_file(),
               serials.empty() ? "no serial number is named of what was calibrated, " + names
                               : "no instrument has the serial number " + serials + " (" + names + ")",
               "write it in the column 'serial' of the instrument it belongs to"));
  }

  void take_instrument(Row row, const CalibratedItem& item) {
    certificate_.instrument = row;
    item_ = &item;
    const Instrument& instrument = hand_.book.instruments[row];
    if (instrument.kind != InstrumentKind::pump) return;
    fail(error("dcc/no-principle", whole_file(),
               in_quotes(instrument.name) +
                   " is a pump and has no measuring principle, so that nothing says whether the flows are actual ones "
                   "or at standard conditions",
               "certificates are of calibrators, thermometers and barometers"));
  }

  std::optional<DocumentPoints> read_points() {
    const Instrument& instrument = hand_.book.instruments[certificate_.instrument];
    const bool is_one_of_several = document_->items.size() > 1;
    if (is_one_of_several && item_->id.empty()) {
      fail(error("dcc/which-item", whole_file(), "it is of several items, and the one that is known has no id",
                 "write its points to a CSV file of certificates"));
      return std::nullopt;
    }
    const Dimension kind = dimension_of_points(instrument.kind);
    Result<DocumentPoints> points =
        calibration_points(*document_->results, {kind, is_one_of_several ? item_->id : "", file_.name});
    if (!points) {
      fail(points.faults().front());
      return std::nullopt;
    }
    certificate_.coverage_factor = points->coverage_factor;
    if (points->temperature_k) certificate_.temperature = Temperature(*points->temperature_k);
    if (points->pressure_kpa) certificate_.pressure = Pressure(*points->pressure_kpa);
    for (const DocumentPoint& point : points->points) add_point(point, kind);
    if (is_all_before(points->points)) {
      fail(error("dcc/none-after", whole_file(),
                 "it tells how " + in_quotes(instrument.name) + " was before an adjustment, and not how it is since",
                 "ask the laboratory for what was read after it"));
    }
    return *std::move(points);
  }

  void add_point(const DocumentPoint& point, Dimension kind) {
    const auto is_plausible = [](double figure) { return figure >= 0 && figure <= most_figure; };
    const bool has_flow = kind != Dimension::flow || point.reference != 0;
    const std::array<double, 4> figures{point.nominal, point.reference, point.indicated, point.expanded.value_or(0)};
    if (!std::all_of(figures.begin(), figures.end(), is_plausible) || !has_flow) {
      fail(error("dcc/implausible", {file_.name, point.line, 0},
                 "a point can't be: reference " + shortest(point.reference) + ", indication " +
                     shortest(point.indicated) + " " + std::string(inside_unit(kind).name),
                 "a flow of 0 gives no relative error, and nothing is below 0"));
    }
    if (kind == Dimension::flow) certificate_.points.push_back(as_point(point, flow_members, file_.number));
    if (kind != Dimension::flow)
      certificate_.condition_points.push_back(as_point(point, condition_members, file_.number));
  }

  void add() {
    std::vector<Certificate>& all = hand_.book.certificates;
    const auto [place, is_new] = known_.certificates.try_emplace(certificate_.name, all.size());
    if (!is_new) {
      fail(error("dcc/twice", whole_file(),
                 "the certificate " + in_quotes(certificate_.name) + " is already in " +
                     hand_.book.place_text(hand_.book.files.certificates, all[place->second].place),
                 "keep one of the two"));
    }
    all.push_back(std::move(certificate_));
  }

  void tell(const XmlElement& root, const DocumentPoints& points) {
    const Instrument& instrument = hand_.book.instruments[certificate_.instrument];
    std::set<std::string> unused;
    name_unused(root, points, unused);
    hand_.problems.add(remark("dcc/read", whole_file(),
                              "read as the certificate " + in_quotes(certificate_.name) + " of " +
                                  in_quotes(instrument.name) + ", " + counted(points.points) + ", by " +
                                  few_of(points.understood) + (unused.empty() ? "" : "; not used: " + few_of(unused))));
    if (!document_->has_signature) return;
    hand_.problems.add(remark("dcc/signature", whole_file(), "it bears an XML signature, which is not checked",
                              "check it with a program for that before you lean on it"));
  }

  const TableFile& file_;
  const BookInHand& hand_;
  KnownCertificates& known_;
  const CalibrationDocument* document_ = nullptr;
  const CalibratedItem* item_ = nullptr;
  Certificate certificate_;
};

}  // namespace

void read_digital_certificate(const TableFile& file, const BookInHand& hand, KnownCertificates& known) {
  DocumentReader(file, hand, known).read();
}

}  // namespace driftwarden
