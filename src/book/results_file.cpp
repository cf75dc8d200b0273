// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "book/row_blocks.hpp"
#include "book/sample_names.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "diagnostic/letters.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/decimal_difference.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

enum ResultField : int {
  result_sample,
  result_analyte,
  result_amount,
  result_before,
  result_after,
  result_limit,
  result_expanded,
  result_factor,
  result_laboratory,
  result_reported,
  result_balance,
  result_qualifier,
  result_note,
  result_kind,
  result_batch,
  result_weighed_before,
  result_weighed_after
};
using D = Dimension;
constexpr double most_milligrams = 1e9;
constexpr std::array<D, 1> or_fibres{D::fibres};
constexpr std::array<D, 2> uncertainties{D::ratio, D::fibres};
constexpr std::array<FieldSpec, 17> result_fields{{
    {result_sample, "sample", CellType::text, D::count, true},
    {result_analyte, "analyte", CellType::text, D::count, true},
    {result_amount, "amount", CellType::quantity, D::mass, false, -most_milligrams, most_milligrams, or_fibres},
    {result_before, "before", CellType::quantity, D::mass, false, 0, most_milligrams},
    {result_after, "after", CellType::quantity, D::mass, false, 0, most_milligrams},
    {result_limit, "limit", CellType::quantity, D::mass, false, 0, most_milligrams, or_fibres},
    {result_expanded, "expanded uncertainty", CellType::quantity, D::mass, false, 0, most_milligrams, uncertainties,
     "%"},
    {result_factor, "coverage factor", CellType::number, D::count, false, 1, 20},
    {result_laboratory, "laboratory"},
    {result_reported, "reported", CellType::date},
    {result_balance, "balance"},
    {result_qualifier, "qualifier"},
    {result_note, "note"},
    {result_kind, "kind", CellType::word},
    {result_batch, "batch"},
    {result_weighed_before, "weighed before", CellType::date},
    {result_weighed_after, "weighed after", CellType::date},
}};
static_assert(are_complete(result_fields, result_weighed_after));
// What a row may be about but a sample or blank.
constexpr std::string_view other_kinds[] = {"control"};

// How laboratories write that it was not found, beside a limit in its own column; in small letters, without blanks.
constexpr std::array<std::string_view, 13> not_found_words{
    "nd", "n.d.", "notdetected", "nonedetected", "<lod", "<loq", "<mdl", "<dl", "<rl", "<limit", "bdl", "bql", "<"};

// What rows name, over all files.
struct ResultNames {
  SampleIndex samples;
  InstrumentIndex instruments;
  bool has_balances = false;
  UnknownSamples unknown = {};
  std::map<std::pair<Row, std::string>, std::size_t> known = {};             // where each stands among the results
  std::map<std::pair<std::string, std::string>, std::size_t> controls = {};  // the same of controls, by their names
};

class ResultRows {
 public:
  ResultRows(const TableFile& file, const BookInHand& hand, ResultNames& names)
      : file_(file), hand_(hand), names_(names), row_(hand.context(file, results_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    row_.start(scanner, line);
    if (row_.word(result_kind, other_kinds) == 0) return read_control({file_.number, line});
    LaboratoryResult next;
    next.place = {file_.number, line};
    next.sample = read_sample();
    next.analyte = row_.kept_text(result_analyte);
    read_amount(next);
    read_weights(next);
    read_uncertainty(next);
    next.laboratory = row_.kept_text(result_laboratory);
    read_balance(next);
    next.qualifier = row_.kept_text(result_qualifier);
    next.note = row_.note(result_note);
    read_day(next);
    next.problem = row_.problem();
    look_for_another(next);
    // A row that can't be understood stays, so that whatever leans on it is undecided.
    if (next.sample != no_row) hand_.book.results.push_back(std::move(next));
  }

 private:
  Row read_sample() {
    const std::string_view name = row_.kept_text(result_sample);
    if (name.empty()) return no_row;
    const Row found = names_.samples.find(name);
    if (found != no_row) return found;
    if (const ProblemNumber lost = hand_.lost["samples"]; lost != no_problem) return row_.lean_on(lost), no_row;
    const ProblemNumber problem =
        row_.fail(result_sample, "results/unknown-sample", "no sample is called " + in_quotes(name),
                  "name a sample or blank of the samples");
    if (problem != no_problem) names_.unknown.emplace_back(name, problem);
    hand_.lose("results", problem);  // it may be anybody's
    return no_row;
  }

  bool is_in_fibres(ResultField field) const {
    return file_.layout.has(field) &&
           file_.layout.unit_of_field[static_cast<std::size_t>(field)].dimension == D::fibres;
  }

  void read_amount(LaboratoryResult& next) {
    const std::string written(row_.text(result_amount));
    next.is_of_fibres = is_in_fibres(result_amount) || (!row_.has(result_amount) && is_in_fibres(result_limit));
    next.limit = row_.quantity(result_limit);
    if (next.limit == 0) no_such_limit(result_limit);
    if (row_.has(result_limit) && !row_.is_empty(result_limit) && is_in_fibres(result_limit) != next.is_of_fibres)
      other_kind(next, result_limit);
    if (is_not_found(written)) return heed_not_found(next, written);
    if (says_at_most(written)) return refuse_at_most(written);
    if (written.starts_with('<')) return heed_less_than(next, written);
    next.found = row_.quantity(result_amount);
    if (next.found < 0) {
      row_.fail(result_amount, "results/negative", "the amount " + in_quotes(written) + " is less than nothing",
                "write what was found; of a medium that lost weight write both weights, under 'before' and 'after'");
    }
  }

  // "≤0.03": the same, or that so much was found.
  static bool says_at_most(std::string_view written) {
    return written.starts_with("<=") || written.starts_with("=<") || written.starts_with("≤") ||
           written.starts_with("⩽");
  }

  void refuse_at_most(std::string_view written) {
    row_.fail(result_amount, "results/at-most", in_quotes(written) + " may be an amount, or a limit",
              "write '<' and the limit, as in '<0.03', where less than that was found; else the amount alone");
  }

  void no_such_limit(ResultField field) {
    row_.fail(field, "results/no-limit", "a limit of 0 says nothing: there is nothing less",
              "write the laboratory's limit; where it states none, leave the limit out and write what was found");
  }

  void other_kind(const LaboratoryResult& next, ResultField field) {
    row_.fail(field, "results/quantity",
              "the amount is " + std::string(next.is_of_fibres ? "a number of fibres" : "a mass") + ", and this is " +
                  (next.is_of_fibres ? "not" : "a number of fibres"),
              "give both the same unit; keep masses and fibres in files of their own, results/NAME.csv");
  }

  static bool is_not_found(std::string_view written) {
    return !written.empty() && std::ranges::find(not_found_words, bare_name(written)) != not_found_words.end();
  }

  void heed_not_found(const LaboratoryResult& next, const std::string& written) {
    if (is_missing(next.limit) && row_.is_empty(result_limit)) {
      row_.fail(result_amount, "results/no-limit",
                in_quotes(written) + " says that it was not found, and not what would have been",
                "write the laboratory's limit under 'limit', or '<' and the limit in this cell");
    }
  }

  static std::string amount_text(const LaboratoryResult& of, double amount) {
    return shortest(amount) + (of.is_of_fibres ? " fibres" : " mg");
  }

  // "<0.03": the limit that is written there. Where a smaller one has a column of its own, no more is known than this.
  void heed_less_than(LaboratoryResult& next, const std::string& written) {
    const std::size_t figure = written.find_first_not_of(" \t", 1);
    const double limit = row_.quantity_in(result_amount, std::string_view(written).substr(figure));
    if (limit < 0) {
      row_.fail(result_amount, "results/negative", "less than " + in_quotes(written) + " is less than nothing",
                "write the laboratory's limit behind '<'");
    }
    if (limit == 0) no_such_limit(result_amount);
    if (!is_missing(limit) && !is_missing(next.limit) && limit != next.limit) {
      row_.doubt(result_limit, "results/two-limits",
                 "the amount is written as " + in_quotes(written) + ", which is a limit of " +
                     amount_text(next, limit) + ", and its own limit as " + in_quotes(row_.text(result_limit)) +
                     ", which is " + amount_text(next, next.limit) + "; the larger of the two is taken",
                 "ask the laboratory which of them is meant");
    }
    next.limit = is_missing(next.limit) ? limit : std::max(limit, next.limit);
  }

  void read_weights(LaboratoryResult& next) {
    const bool has_amount = !row_.text(result_amount).empty();
    const bool has_before = !row_.text(result_before).empty();
    const bool has_after = !row_.text(result_after).empty();
    next.before_mg = row_.quantity(result_before);
    next.after_mg = row_.quantity(result_after);
    if (has_before != has_after) {
      row_.fail(has_before ? result_before : result_after, "results/half-weighed",
                "of the two weights only the one " + std::string(has_before ? "before" : "after") + " is there",
                "write both, or the amount that the laboratory makes of them");
    } else if (has_amount && has_before) {
      row_.fail(result_amount, "results/two-amounts", "the row has an amount and two weights, which make another",
                "leave the amount out, or the weights");
    } else if (!has_amount && !has_before) {
      row_.fail(result_amount, "results/nothing", "the row says nothing of what was found",
                "write an amount, '<' and the limit, or the weights before and after");
    } else if (has_before) {
      if (next.is_of_fibres) return other_kind(next, result_before);
      next.found = difference_of_weights(next.after_mg, next.before_mg);
    }
  }

  // Out of another unit a figure may miss, by its last bits, the decimal that it is.
  static double as_decimal(double figure) {
    constexpr int sure_digits = 15;
    return number_from(with_significant_digits(figure, sure_digits)).value_or(figure);
  }

  // As the figures stand in the file, in one unit; else as they came out of their units.
  double difference_of_weights(double after_mg, double before_mg) {
    const auto unit_of = [&](ResultField field) { return file_.layout.unit_of_field[static_cast<std::size_t>(field)]; };
    const Unit unit = unit_of(result_after);
    const bool are_read = !is_missing(after_mg) && !is_missing(before_mg);  // what can't be read is told once
    if (!are_read || unit.name != unit_of(result_before).name)
      return decimal_difference(as_decimal(after_mg), as_decimal(before_mg));
    const double after = row_.quantity_as_written(result_after).written;
    const double before = row_.quantity_as_written(result_before).written;
    return unit.to_inside(decimal_difference(after, before));
  }

  // One that instruments.csv does not have is a name for the eye, unless others are there.
  void read_balance(LaboratoryResult& next) {
    next.balance = row_.kept_text(result_balance);
    next.weighed_before = row_.date(result_weighed_before);
    next.weighed_after = row_.date(result_weighed_after);
    if (next.weighed_before != no_day && next.weighed_after != no_day && next.weighed_before > next.weighed_after) {
      row_.fail(result_weighed_before, "results/weighed-backwards",
                "the weight before is of " + date_text(next.weighed_before) + ", and the one after of " +
                    date_text(next.weighed_after) + ", which is earlier",
                "correct the day that is wrong");
    }
    const Row found = names_.instruments.find(next.balance);
    const bool is_one = found != no_row && hand_.book.instruments[found].kind == InstrumentKind::balance;
    if (is_one) {
      next.weighed_on = found;
      row_.lean_on(hand_.book.instruments[found].problem);
    } else if (names_.has_balances && !next.balance.empty()) {
      row_.doubt(
          result_balance, "results/unknown-balance",
          in_quotes(next.balance) + " is no balance of instruments.csv, so that no certificate of it is looked at",
          "correct the name, or add it to instruments.csv as a balance");
    }
  }

  void read_control(RowPlace place) {
    ControlFilter next;
    next.place = place;
    next.name = row_.kept_text(result_sample);
    next.analyte = row_.kept_text(result_analyte);
    next.batch = read_batch();
    next.change_mg = read_change();
    next.reported = row_.date(result_reported);
    hold_against_samples(next);
    next.problem = row_.problem();
    look_for_another_control(next);
    // One of no batch stands for nothing.
    if (next.batch != 0) hand_.book.controls.push_back(std::move(next));
  }

  TextId read_batch() {
    const std::string_view name = row_.kept_text(result_batch);
    const TextId batch = name.empty() ? TextId{0} : row_.interned(result_batch);
    if (name.empty())
      row_.fail(result_batch, "results/no-batch", "the control filter says not with which batch it was weighed",
                "write the batch of the samples under 'batch'");
    return batch;
  }

  double read_change() {
    if (!row_.text(result_amount).empty() || row_.text(result_before).empty() || row_.text(result_after).empty()) {
      row_.fail(result_amount, "results/control-not-weighed",
                "a control filter is weighed twice, and no more is said of it",
                "write both weights, under 'before' and 'after', and no amount");
      return missing;
    }
    return difference_of_weights(row_.quantity(result_after), row_.quantity(result_before));
  }

  void hold_against_samples(const ControlFilter& next) {
    if (names_.samples.find(next.name) != no_row) {
      row_.fail(result_sample, "results/control-is-sample",
                in_quotes(next.name) +
                    " is a sample or blank, and no control filter stays in the weighing room under its name",
                "leave 'control' out, or give the filter a name of its own");
    }
  }

  void look_for_another_control(ControlFilter& next) {
    if (next.batch == 0 || next.name.empty() || next.analyte.empty()) return;
    const auto [at, is_first] =
        names_.controls.try_emplace({next.name, bare_name(next.analyte)}, hand_.book.controls.size());
    if (!is_first)
      tell_twice(next, hand_.book.controls[at->second], result_sample, "control filter " + in_quotes(next.name));
  }

  void read_uncertainty(LaboratoryResult& next) {
    next.coverage_factor = row_.quantity(result_factor);
    if (!row_.has(result_expanded) || row_.text(result_expanded).empty()) return;
    next.expanded = row_.quantity(result_expanded);
    const D unit = file_.layout.unit_of_field[result_expanded].dimension;
    next.is_relative = unit == D::ratio;
    if (!next.is_relative && (unit == D::fibres) != next.is_of_fibres) other_kind(next, result_expanded);
  }

  void read_day(LaboratoryResult& next) {
    next.reported = row_.date(result_reported);
    if (next.reported == no_day || next.sample == no_row) return;
    const Moment stopped = hand_.book.samples.stopped[next.sample];
    if (stopped == no_moment || next.reported >= local_day(stopped, hand_.book.settings.zone)) return;
    row_.doubt(result_reported, "results/before-its-sample",
               "the result was reported on " + date_text(next.reported) + ", before its sample stopped on " +
                   date_text(local_day(stopped, hand_.book.settings.zone)),
               "correct the day that is wrong, or the sample that is named");
  }

  void look_for_another(LaboratoryResult& next) {
    if (next.sample == no_row || next.analyte.empty()) return;
    const auto [at, is_first] =
        names_.known.try_emplace({next.sample, bare_name(next.analyte)}, hand_.book.results.size());
    if (is_first) return;
    const std::string whose = "sample " + in_quotes(hand_.book.samples.name[next.sample]);
    tell_twice(next, hand_.book.results[at->second], result_analyte, whose);
  }

  // Which of the two is meant nobody can say, once both were reported.
  template <class Reported>
  void tell_twice(Reported& next, Reported& other, ResultField field, const std::string& whose) {
    next.twice = row_.fail(field, "results/twice",
                           in_quotes(next.analyte) + " of the " + whose + " stands already in " +
                               hand_.book.place_text(hand_.book.files.results, other.place),
                           "leave one of the two out: which is meant nobody else can say");
    if (other.twice == no_problem) other.twice = next.twice;
  }

  const TableFile& file_;
  const BookInHand& hand_;
  ResultNames& names_;
  RowReader row_;
};

// Names that stand twice were told by whoever reads the readings.
SampleIndex names_of_samples(const SampleTable& samples) {
  SampleIndex index(samples.size(), SampleNames{&samples});
  for (Row row = 0; row < samples.size(); ++row) index.enter(row);
  return index;
}

}  // namespace

const TableSpec results_spec{"results", result_fields};

void read_results(const std::vector<TableFile>& files, const BookInHand& hand) {
  if (files.empty()) return;
  ResultNames names{names_of_samples(hand.book.samples), index_of_instruments(hand.book.instruments)};
  names.has_balances = std::ranges::any_of(hand.book.instruments,
                                           [](const Instrument& it) { return it.kind == InstrumentKind::balance; });
  for (const TableFile& file : files) read_rows_in_order(file, ResultRows(file, hand, names));
  hint_at_samples(names.unknown, hand.book.samples, hand.problems);
}

}  // namespace driftwarden
