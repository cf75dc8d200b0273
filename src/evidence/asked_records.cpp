// SPDX-License-Identifier: MIT
#include "evidence/asked_records.hpp"

#include <algorithm>
#include <set>

#include "correction/due.hpp"
#include "diagnostic/characters.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t names_shown = 6;

std::string shown(std::string_view text) { return shows_itself(text) ? std::string(text) : in_quotes(text); }

// Counts the records of one kind, and those of them that lack something.
class Tally {
 public:
  Tally(std::string kind, std::string lack) : kind_(std::move(kind)), lack_(std::move(lack)) {}

  void count(bool lacks, const std::string& name) {
    ++of_;
    if (!lacks) return;
    ++lacking_;
    if (names_.size() < names_shown) names_.push_back(name);
  }

  void put(std::vector<std::string>& lacks) const {
    if (lacking_ == 0) return;
    std::string text = lack_ + ": for " + std::to_string(lacking_) + " of " + std::to_string(of_) + " " + kind_ + " (";
    for (std::size_t i = 0; i < names_.size(); ++i) text += (i == 0 ? "" : ", ") + names_[i];
    if (lacking_ > names_.size()) text += " and " + std::to_string(lacking_ - names_.size()) + " more";
    lacks.push_back(text + ")");
  }

 private:
  std::string kind_;
  std::string lack_;
  std::size_t of_ = 0;
  std::size_t lacking_ = 0;
  std::vector<std::string> names_;
};

class Asked {
 public:
  Asked(const Screening& screening, const RecordsUsed& used, const PackageNote& note)
      : screening_(screening), book_(screening.book()), used_(used), note_(note) {}

  std::vector<AskedRecord> list() {
    return {identity(), traceability(),     dates(),    found_and_left(), conditions(),    people(),
            sampling(), corrections(),      checks(),   budgets(),        decision_rule(), rules(),
            validity(), corrections_kept(), software(), intervals(),      retention()};
  }

 private:
  using Lacks = std::vector<std::string>;

  AskedRecord identity() const {
    Lacks lacks;
    instruments("serial number", lacks, [](const Instrument& i) { return i.serial.empty(); });
    return {"Which instruments were used: identity, serial number",
            "ISO/IEC 17025:2017 6.4.13*",
            "data/book/instruments.csv",
            lacks,
            {"maker, type, firmware, location, maintenance, damage and repair of each instrument"}};
  }

  AskedRecord traceability() const {
    Lacks lacks;
    without_certificate(InstrumentKind::calibrator, "calibrators", lacks);
    without_certificate(InstrumentKind::balance, "balances", lacks);
    certificates("issuer", lacks, [](const Certificate& c) { return c.issuer.empty(); });
    certificates("standard", lacks, [](const Certificate& c) { return c.standard.empty(); });
    certificates("uncertainty", lacks, [](const Certificate& c) {
      return points_lack(c, [](const CertificatePoint& p) { return !p.expanded_uncertainty_l_min; });
    });
    return {"An unbroken chain of calibrations to a recognised standard, with its uncertainty",
            "ISO/IEC 17025:2017 6.5*; 40 CFR 50 App. L 9.1.2; 40 CFR 58 App. A 2.6.3",
            "data/book/certificates…: issuer, standard, expanded uncertainty",
            lacks,
            {"the certificates themselves: a book has their figures"}};
  }

  void without_certificate(InstrumentKind kind, std::string_view what, Lacks& lacks) const {
    Tally without(std::string(what), "certificate");
    for (const Row row : used_.instruments) {
      const Instrument& instrument = book_.instruments[row];
      if (instrument.kind != kind) continue;
      const bool has_one = std::any_of(used_.certificates.begin(), used_.certificates.end(),
                                       [&](Row c) { return book_.certificates[c].instrument == row; });
      without.count(!has_one, shown(instrument.name));
    }
    without.put(lacks);
  }

  AskedRecord dates() const {
    Lacks lacks;
    certificates("due date, and interval of the instrument", lacks, [this](const Certificate& c) {
      return c.instrument == no_row || due_day(c, book_.instruments[c.instrument]) == no_day;
    });
    certificates("tolerance", lacks, [](const Certificate& c) { return !c.tolerance && !c.condition_tolerance; });
    return {"When each was calibrated, with what result, when again, and what would have been acceptable",
            "ISO/IEC 17025:2017 6.4.13*",
            "data/book/certificates…: calibrated, due, tolerance",
            lacks,
            {}};
  }

  AskedRecord found_and_left() const {
    Lacks lacks;
    certificates("figures as found", lacks, [](const Certificate& c) {
      return points_lack(c, [](const CertificatePoint& p) { return !p.as_found_l_min; });
    });
    certificates("figures as left, or as found where nothing was adjusted", lacks, [](const Certificate& c) {
      return points_lack(c, [](const CertificatePoint& p) { return !p.as_left_l_min && !p.as_found_l_min; });
    });
    return {"What the instrument showed as found, and as left after adjustment",
            "ISO/IEC 17025:2017 7.8.4.1*; 40 CFR 58 App. A 3.2.3; 40 CFR 50 App. L 9.1.2",
            "data/book/certificates…: as found, as left",
            lacks,
            {}};
  }

  AskedRecord conditions() const {
    Lacks lacks;
    certificates("temperature or pressure", lacks, [](const Certificate& c) { return !c.temperature || !c.pressure; });
    readings("temperature", lacks, [&](Row r) { return is_missing(field(book_.readings.temperature_k, r)); });
    readings("pressure", lacks, [&](Row r) { return is_missing(field(book_.readings.pressure_kpa, r)); });
    samples("temperature of their own", lacks,
            [&](Row s) { return is_missing(field(book_.samples.temperature_k, s)); });
    samples("pressure of their own", lacks, [&](Row s) { return is_missing(field(book_.samples.pressure_kpa, s)); });
    return {"The conditions, temperature and pressure, at calibration, at the readings and while sampling",
            "ISO/IEC 17025:2017 6.3.3*; NMAM 4th ed. Chapter D p. 12 step 6; 29 CFR 1910.1043 App. A III(g)",
            "data/book/certificates…, readings…, samples…: temperature, pressure",
            lacks,
            {}};
  }

  AskedRecord people() const {
    Lacks lacks;
    readings("who took them", lacks, [&](Row r) { return field(book_.readings.by, r, TextId{0}) == 0; });
    readings("time", lacks, [&](Row r) { return book_.readings.taken[r] == no_moment; });
    return {"Who took each reading, and when",
            "NMAM 4th ed. Chapter D p. 12 step 6; 29 CFR 1910.1043 App. A III(g)",
            "data/book/readings…: taken, by",
            lacks,
            {"that these people were trained and authorised (ISO/IEC 17025:2017 6.2*)"}};
  }

  AskedRecord sampling() const {
    Lacks lacks;
    samples("method", lacks, [&](Row s) { return field(book_.samples.method, s, TextId{0}) == 0; });
    samples("sampler", lacks, [&](Row s) { return field(book_.samples.sampler, s, TextId{0}) == 0; });
    samples("start or stop", lacks, [&](Row s) {
      return field(book_.samples.started, s, no_moment) == no_moment ||
             field(book_.samples.stopped, s, no_moment) == no_moment;
    });
    return {"The sampling record: method, date, start and stop, equipment, deviations",
            "ISO/IEC 17025:2017 7.3.3*, 7.8.5*; 29 CFR 1910.1043 App. A IV(a)",
            "data/book/samples…",
            lacks,
            {"who sampled, whom and where: field sheets, notes"}};
  }

  AskedRecord corrections() const {
    return {"That the corrections from the certificates are those in use",
            "ISO/IEC 17025:2017 6.4.11*",
            "data/workings/: each reading, the certificate it was corrected by, and the formula",
            {},
            {}};
  }

  AskedRecord checks() const {
    Lacks lacks;
    if (note_.charts_of == ChartsOf::none) {
      lacks.emplace_back("charts: none were asked for; their figures are");
    } else if (!note_.has_charts) {
      lacks.emplace_back(
          "charts: they could not be drawn, because the program gnuplot was not there; their figures are");
    }
    return {"Checks between calibrations, and control charts",
            "ISO/IEC 17025:2017 6.4.10*, 7.7.1*",
            "data/charts/, data/results/history.csv, data/results/history.json",
            lacks,
            {}};
  }

  AskedRecord budgets() const {
    Lacks lacks;
    Tally without("samples", "uncertainty of the volume (the working says what is not known)");
    const std::set<Row> unsaid(used_.without_uncertainty.begin(), used_.without_uncertainty.end());
    for (const Row row : used_.samples) {
      if (book_.samples.kind[row] == SampleKind::sample)
        without.count(unsaid.count(row) > 0, shown(book_.samples.name[row]));
    }
    without.put(lacks);
    return {"How well each result is known, and what that is made of",
            "ISO/IEC 17025:2017 7.6*; NMAM 4th ed. Chapter P p. 4",
            "data/workings/: Uncertainty; data/results/screen.csv: volume_expanded_uncertainty_l",
            lacks,
            {}};
  }

  AskedRecord decision_rule() const {
    return {"The decision rule in writing, and its risk",
            "ISO/IEC 17025:2017 7.1.3*, 7.8.6*; ILAC-G8:09/2019 (its risk figures at second hand)",
            "data/results/screen.txt (its head); data/book/book.toml: [decision]",
            {},
            {}};
  }

  AskedRecord rules() const {
    Lacks lacks;
    std::size_t remembered = 0;
    for (const Rule& rule : screening_.rules().rules) remembered += rule.standing == Standing::memory ? 1U : 0U;
    if (remembered > 0)
      lacks.push_back(counted(remembered, "rule in force has", "rules in force have") +
                      " a limit that nobody read in its source");
    return {"The method and the limits that were held to, with their sources",
            "ISO/IEC 17025:2017 7.2*; 21 CFR 58.63 (of another trade, as a model)",
            "data/rules/, data/book/…: rule packs; data/book/book.toml: overrides and practices, with their reasons",
            lacks,
            {}};
  }

  AskedRecord validity() const {
    return {"Everything that was seen to affect validity",
            "40 CFR 50 App. L 10.11 to 10.12",
            "data/results/screen.txt, screen.json: findings and problems; data/workings/: remarks",
            {},
            {}};
  }

  AskedRecord corrections_kept() const {
    Lacks lacks;
    Tally silent("struck-out readings", "reason");
    for (const Row row : used_.readings) {
      if (book_.readings.is_void(row))
        silent.count(field(book_.readings.note, row, TextId{0}) == 0, place_of_reading(row));
    }
    silent.put(lacks);
    return {
        "Corrections without erasure: what was there, what was changed, why, when, by whom",
        "ISO/IEC 17025:2017 7.5.2*; 21 CFR 58.130(e) (of another trade, as a model)",
        "data/book/decisions…; readings…: void, note; book.toml: override, reason",
        lacks,
        {"earlier states of the files: a book is what it is today, and its keeper has to show that nothing in it was "
         "overwritten"}};
  }

  AskedRecord software() const {
    Lacks lacks;
    if (!note_.is_signed) lacks.emplace_back("a signature: this package is not signed, so anybody could have made it");
    return {"Which software, in which version, and that its results can be checked",
            "ISO/IEC 17025:2017 6.4.13*, 7.11.2*, 7.11.6*",
            "data/package.json, bag-info.txt; `driftwarden verify` judges the inputs anew",
            lacks,
            {"that the program was validated for this use before it was taken into use"}};
  }

  AskedRecord intervals() const {
    return {"Why the calibration intervals are what they are",
            "ISO/IEC 17025:2017 6.4.7*; ILAC-G24 / OIML D 10*",
            "data/results/history.json: interval, with what each method lacks",
            {},
            {}};
  }

  AskedRecord retention() const {
    return {"How long the records are kept",
            "29 CFR 1910.1020(d)(1)(ii): exposure records, 30 years",
            "nowhere",
            {},
            {"how long, where and by whom this package is kept"}};
  }

  template <class Condition>
  static bool points_lack(const Certificate& certificate, Condition lacks) {
    return std::any_of(certificate.points.begin(), certificate.points.end(), lacks);
  }

  template <class Condition>
  void instruments(std::string lack, Lacks& lacks, Condition condition) const {
    Tally tally("instruments", std::move(lack));
    for (const Row row : used_.instruments)
      tally.count(condition(book_.instruments[row]), shown(book_.instruments[row].name));
    tally.put(lacks);
  }

  template <class Condition>
  void certificates(std::string lack, Lacks& lacks, Condition condition) const {
    Tally tally("certificates", std::move(lack));
    for (const Row row : used_.certificates)
      tally.count(condition(book_.certificates[row]), shown(book_.certificates[row].name));
    tally.put(lacks);
  }

  template <class Condition>
  void readings(std::string lack, Lacks& lacks, Condition condition) const {
    Tally tally("readings", std::move(lack));
    for (const Row row : used_.readings) tally.count(condition(row), place_of_reading(row));
    tally.put(lacks);
  }

  // Blanks need none of it.
  template <class Condition>
  void samples(std::string lack, Lacks& lacks, Condition condition) const {
    Tally tally("samples", std::move(lack));
    for (const Row row : used_.samples) {
      if (book_.samples.kind[row] == SampleKind::sample) tally.count(condition(row), shown(book_.samples.name[row]));
    }
    tally.put(lacks);
  }

  std::string place_of_reading(Row row) const {
    return shown(book_.place_text(book_.files.readings, book_.readings.place[row]));
  }

  const Screening& screening_;
  const Book& book_;
  const RecordsUsed& used_;
  const PackageNote& note_;
};

}  // namespace

std::vector<AskedRecord> asked_records(const Screening& screening, const RecordsUsed& used, const PackageNote& note) {
  return Asked(screening, used, note).list();
}

}  // namespace driftwarden
