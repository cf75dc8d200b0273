// SPDX-License-Identifier: MIT
#include "book/calibration_series.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>

#include "book/calibration_document.hpp"
#include "quantity/dsi_unit.hpp"

namespace driftwarden {
namespace {

// How the two forms of figures name what they hold; a list's names are those of its elements.
struct Form {
  std::string_view element;
  std::string_view value;
  std::string_view unit;
};
constexpr std::array<Form, 2> forms{{
    {"real", "value", "unit"},
    {"realListXMLList", "valueXMLList", "unitXMLList"},
}};

// Where an expanded uncertainty stands, in D-SI up to 2.1 and from 2.2 on.
struct UncertaintyForm {
  std::string_view outer;
  std::string_view inner;  // "": the outer holds the figures itself
  std::string_view uncertainty;
  std::string_view factor;
};
constexpr std::array<UncertaintyForm, 4> uncertainty_forms{{
    {"expandedUnc", "", "uncertainty", "coverageFactor"},
    {"expandedUncXMLList", "", "uncertaintyXMLList", "coverageFactorXMLList"},
    {"measurementUncertaintyUnivariate", "expandedMU", "valueExpandedMU", "coverageFactor"},
    {"measurementUncertaintyUnivariateXMLList", "expandedMUXMLList", "valueExpandedMUXMLList", "coverageFactorXMLList"},
}};
// Uncertainties that are no expanded ones.
constexpr std::array<std::string_view, 4> other_uncertainties{"coverageInterval", "coverageIntervalXMLList",
                                                              "ellipsoidalRegionXMLList", "rectangularRegionXMLList"};
constexpr double least_factor = 1;
constexpr double most_factor = 10;

const XmlElement* dsi_child(const XmlElement& element, std::string_view name) {
  for (const XmlElement& child : element.children) {
    if (child.is(dsi_space, name)) return &child;
  }
  return nullptr;
}

// Half a step of the last digit of "20.05" is 0.005, of "1.2E1" 0.5.
double half_step(std::string_view written) {
  const std::size_t exponent_at = std::min(written.find_first_of("eE"), written.size());
  const std::size_t point = written.substr(0, exponent_at).find('.');
  const int decimals = point == std::string_view::npos ? 0 : static_cast<int>(exponent_at - point - 1);
  std::string_view power = written.substr(std::min(exponent_at + 1, written.size()));
  if (power.starts_with('+')) power.remove_prefix(1);
  int exponent = 0;
  std::from_chars(power.data(), power.data() + power.size(), exponent);
  return number_from("5e" + std::to_string(std::int64_t{exponent} - decimals - 1)).value_or(0);
}

class SeriesReader {
 public:
  SeriesReader(const XmlElement& figures, const Form& form, const std::string& file)
      : figures_(figures), form_(form), file_(file) {}

  Result<CalibrationSeries> read(bool is_difference) {
    const XmlElement* values = part(figures_, form_.value);
    const XmlElement* units = part(figures_, form_.unit);
    if (fault_) return *fault_;
    series_.line = values->place.line;
    read_units(*units, is_difference);
    if (fault_) return *fault_;
    const std::vector<std::string_view> written = words_of(values->text);
    if (written.empty()) return structure_fault(file_, *values, "there are no figures");
    if (units_.size() != 1 && units_.size() != written.size())
      return structure_fault(file_, *units,
                             counted(units_.size(), "units") + " do not go with " + counted(written.size(), "figures"));
    for (std::size_t i = 0; i < written.size(); ++i) add(written[i], unit(i), *values);
    read_uncertainty();
    if (fault_) return *fault_;
    return std::move(series_);
  }

 private:
  static std::string counted(std::size_t count, const std::string& what) { return std::to_string(count) + ' ' + what; }
  const Unit& unit(std::size_t i) const { return units_[units_.size() == 1 ? 0 : i]; }
  void fail(Diagnostic fault) {
    if (!fault_) fault_ = std::move(fault);
  }

  const XmlElement* part(const XmlElement& of, std::string_view name) {
    const XmlElement* found = dsi_child(of, name);
    if (found == nullptr)
      fail(structure_fault(file_, of, "there is no " + in_quotes(name) + " in " + in_quotes(of.name)));
    return found;
  }

  void read_units(const XmlElement& element, bool is_difference) {
    for (const std::string_view written : words_of(element.text)) {
      const std::optional<Unit> unit = dsi_unit(written);
      if (!unit) {
        return fail(error("dcc/unit", {file_, element.place.line, element.place.column},
                          "the unit " + in_quotes(written) + " is not understood",
                          "flows (volume by time), temperatures and pressures are, as \\litre\\per\\minute, "
                          "\\degreecelsius, \\hecto\\pascal"));
      }
      if (!units_.empty() && unit->dimension != units_.front().dimension)
        return fail(structure_fault(file_, element, "its units are of several kinds"));
      units_.push_back(is_difference ? as_difference(*unit) : *unit);
    }
    if (units_.empty()) return fail(structure_fault(file_, element, "there is no unit"));
    series_.dimension = units_.front().dimension;
  }

  double number(std::string_view written, const XmlElement& at) {
    const std::optional<double> number = number_from(written);
    if (!number)
      fail(error("dcc/number", {file_, at.place.line, at.place.column}, in_quotes(written) + " is not a number",
                 "ask the laboratory what stands there"));
    return number.value_or(0);
  }
  void add(std::string_view written, const Unit& unit, const XmlElement& at) {
    series_.figures.push_back(unit.to_inside(number(written, at)));
    series_.half_steps.push_back(as_difference(unit).to_inside(half_step(written)));
  }

  void read_uncertainty() {
    for (const std::string_view name : other_uncertainties) {
      if (const XmlElement* other = dsi_child(figures_, name)) return refuse_uncertainty(*other);
    }
    for (const UncertaintyForm& form : uncertainty_forms) {
      const XmlElement* outer = dsi_child(figures_, form.outer);
      if (outer == nullptr) continue;
      const XmlElement* inner = form.inner.empty() ? outer : dsi_child(*outer, form.inner);
      if (inner == nullptr) return refuse_uncertainty(*outer);
      read_expanded(*inner, form);
    }
  }
  void refuse_uncertainty(const XmlElement& at) {
    fail(structure_fault(file_, at, "the uncertainty is not stated as an expanded one with its coverage factor"));
  }
  void read_expanded(const XmlElement& element, const UncertaintyForm& form) {
    const XmlElement* uncertainty = part(element, form.uncertainty);
    const XmlElement* factor = part(element, form.factor);
    if (fault_) return;
    const std::vector<double> stated = numbers_for_all(*uncertainty);
    series_.coverage_factors = numbers_for_all(*factor);
    for (std::size_t i = 0; i < stated.size() && !fault_; ++i) {
      series_.expanded.push_back(as_difference(unit(i)).to_inside(stated[i]));
      const double k = series_.coverage_factors[i];
      if (stated[i] < 0) fail(structure_fault(file_, *uncertainty, "an uncertainty is negative"));
      if (k < least_factor || k > most_factor)
        fail(structure_fault(file_, *factor, "the coverage factor " + shortest(k) + " can't be"));
    }
  }
  // One figure for each of the series; a single one serves all.
  std::vector<double> numbers_for_all(const XmlElement& element) {
    std::vector<double> numbers;
    for (const std::string_view written : words_of(element.text)) numbers.push_back(number(written, element));
    if (numbers.size() == 1) numbers.resize(series_.size(), numbers.front());
    if (numbers.size() != series_.size()) {
      fail(structure_fault(
          file_, element,
          counted(numbers.size(), "figures") + " do not go with the " + counted(series_.size(), "of the list")));
      numbers.resize(series_.size());
    }
    return numbers;
  }

  const XmlElement& figures_;
  const Form& form_;
  const std::string& file_;
  CalibrationSeries series_;
  std::vector<Unit> units_;
  std::optional<Diagnostic> fault_;
};

Result<CalibrationSeries> series_in(const XmlElement& holder, bool is_difference, const std::string& file) {
  for (const Form& form : forms) {
    const XmlElement* figures = dsi_child(holder, form.element);
    if (figures != nullptr) return SeriesReader(*figures, form, file).read(is_difference);
  }
  return structure_fault(file, holder, "no figures of a kind that is understood stand in " + in_quotes(called(holder)),
                         "real, realListXMLList and hybrid of these are; write its points to a CSV file");
}

// The same figures in several units.
Result<CalibrationSeries> hybrid_series(const XmlElement& hybrid, bool is_difference, const std::string& file) {
  std::optional<Result<CalibrationSeries>> first_fault;
  for (const XmlElement& one : hybrid.children) {
    XmlElement holder;
    holder.place = one.place;
    holder.children = {one};
    Result<CalibrationSeries> series = series_in(holder, is_difference, file);
    if (series) return series;
    const bool is_another_unit = series.faults().front().id == "dcc/unit";
    if (!first_fault) first_fault = series;
    if (!is_another_unit) return series;
  }
  return first_fault ? *first_fault : structure_fault(file, hybrid, "nothing stands in 'hybrid'");
}

}  // namespace

Result<CalibrationSeries> calibration_series(const XmlElement& quantity, bool is_difference, const std::string& file) {
  const XmlElement* hybrid = dsi_child(quantity, "hybrid");
  return hybrid != nullptr ? hybrid_series(*hybrid, is_difference, file) : series_in(quantity, is_difference, file);
}

}  // namespace driftwarden
