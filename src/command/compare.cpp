// SPDX-License-Identifier: MIT
#include <numeric>
#include <ostream>

#include "command/opened_book.hpp"
#include "command/output.hpp"
#include "command/output_file.hpp"
#include "report/comparison_texts.hpp"

namespace driftwarden {
namespace {

// The rules to compare with: the packs named, or the book's own where only the guard is another.
Result<RuleSet> other_rules(const Book& book, const CompareOptions& options, const Surroundings& surroundings) {
  const std::filesystem::path shipped = surroundings.share / "rules";
  return options.packs.empty() ? read_rules(book, shipped) : read_other_rules(book, options.packs, shipped);
}

std::string text_as(const std::string& format, const ComparedRules& compared, Paint paint) {
  if (format == "csv") return comparison_csv(compared);
  if (format == "json") return comparison_json(compared);
  return comparison_table(compared, paint);
}

}  // namespace

int run_compare(const CompareOptions& options, Surroundings& surroundings) {
  if (options.packs.empty() && !options.guard) {
    tell(surroundings.err, {error("compare/nothing-to-compare", {"command line", 0, 0},
                                  "neither other rules nor another guard band are named",
                                  "name packs with --rules, or a guard band with --guard")});
    return cannot_be_used;
  }
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  if (tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  if (is_among({options.packs.begin(), options.packs.end()}, options.out))
    return refuse({over_an_input(options.out)}, surroundings);
  const std::optional<std::string> format =
      format_meant(options.format, options.out, {"table", "csv", "json"}, surroundings);
  if (!format) return cannot_be_used;
  const Result<RuleSet> others = other_rules(opened->book, options, surroundings);
  tell(surroundings.err, others ? others->remarks : others.faults());
  if (!others) return cannot_be_used;
  Screening after(opened->book, *others);
  if (options.guard) after.narrow_limits_by(*options.guard);
  std::vector<Row> samples(opened->book.samples.size());
  std::iota(samples.begin(), samples.end(), Row{0});
  const RuleComparison comparison = compare_rules(*opened->screening, after, samples);
  const ComparedRules compared{*opened->screening, after, comparison, surroundings.version, opened->as_of};
  const Paint paint(options.out.empty() && surroundings.out_is_terminal);
  if (!write_out(text_as(*format, compared, paint), *format, options.out, surroundings)) return cannot_be_used;
  if (opened->has_faults()) return cannot_be_used;
  return comparison.changed.empty() ? all_is_well : something_is_amiss;
}

}  // namespace driftwarden
