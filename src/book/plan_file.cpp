// SPDX-License-Identifier: MIT
#include <array>
#include <map>

#include "book/planned_name.hpp"
#include "book/row_blocks.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

enum PlanField : int {
  plan_sample,
  plan_batch,
  plan_kind,
  plan_pump,
  plan_calibrator,
  plan_sampler,
  plan_nominal,
  plan_method,
  plan_analysis,
  plan_medium,
  plan_target,
  plan_expected,
  plan_day,
  plan_note
};
constexpr std::array<FieldSpec, 14> plan_fields{{
    {plan_sample, "sample", CellType::text, Dimension::count, true},
    {plan_batch, "batch", CellType::text, Dimension::count, true},
    {plan_kind, "kind", CellType::word},
    {plan_pump, "pump"},
    {plan_calibrator, "calibrator"},
    {plan_sampler, "sampler"},
    {plan_nominal, "nominal", CellType::quantity, Dimension::flow, false, 0, 1e5},
    {plan_method, "method"},
    {plan_analysis, "analysis"},
    {plan_medium, "medium"},
    {plan_target, "target", CellType::quantity, Dimension::concentration, false, 1e-9, 1e6},
    {plan_expected, "expected", CellType::quantity, Dimension::concentration, false, 1e-9, 1e6},
    {plan_day, "day", CellType::date},
    {plan_note, "note"},
}};
static_assert(are_complete(plan_fields, plan_note));

using RecordedNames = std::map<std::string_view, Row>;

class PlanRows {
 public:
  PlanRows(const TableFile& file, const BookInHand& hand, const InstrumentIndex& instruments,
           const RecordedNames& recorded)
      : file_(file),
        hand_(hand),
        recorded_(recorded),
        pumps_(instruments, hand, InstrumentKind::pump),
        calibrators_(instruments, hand, InstrumentKind::calibrator),
        row_(hand.context(file, plan_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    row_.start(scanner, line);
    PlannedSample next;
    next.place = {file_.number, line};
    next.name = row_.kept_text(plan_sample);
    next.batch = row_.kept_text(plan_batch);
    const int kind = row_.word(plan_kind, sample_kind_words);
    next.kind = kind < 0 ? SampleKind::sample : static_cast<SampleKind>(kind);
    next.pump = named(pumps_, plan_pump, "plan/unknown-pump");
    next.calibrator = named(calibrators_, plan_calibrator, "plan/unknown-calibrator");
    next.sampler = row_.kept_text(plan_sampler);
    next.nominal_l_min = row_.quantity(plan_nominal);
    next.method = row_.kept_text(plan_method);
    next.analysis = row_.kept_text(plan_analysis);
    next.medium = row_.kept_text(plan_medium);
    next.target_mg_m3 = row_.quantity(plan_target);
    next.expected_mg_m3 = row_.quantity(plan_expected);
    next.day = row_.date(plan_day);
    next.note = row_.note(plan_note);
    if (row_.problem() != no_problem) hand_.book.faulty_plan.emplace(next.name, next.place);
    if (row_.problem() != no_problem || is_planned_already(next)) return;
    look_among_recorded(next);
    if (next.recorded == no_row) {
      doubt_service(next, next.pump, plan_pump);
      doubt_service(next, next.calibrator, plan_calibrator);
    }
    hand_.book.plan.push_back(std::move(next));
  }

 private:
  Row named(NamedInstrument& index, PlanField field, const char* id) {
    const std::string_view name = row_.text(field);
    return name.empty() ? no_row : index.find(name, row_, field, id);
  }

  bool is_planned_already(const PlannedSample& next) {
    for (const PlannedSample& other : hand_.book.plan) {
      if (other.name != next.name) continue;
      row_.fail(plan_sample, "plan/twice",
                "the sample " + in_quotes(next.name) + " is planned already in " +
                    hand_.book.place_text(hand_.book.files.plan, other.place),
                "give each sample a name of its own");
      return true;
    }
    return false;
  }

  // One that is recorded in its batch is taken; in another, the name has gone to something else.
  void look_among_recorded(PlannedSample& next) {
    const auto found = recorded_.find(next.name);
    if (found == recorded_.end()) return;
    next.recorded = found->second;
    if (!is_name_taken(hand_.book, next)) return;
    row_.doubt(plan_sample, "plan/name-taken",
               "the sample " + in_quotes(next.name) + " is planned for the batch " + in_quotes(next.batch) +
                   ", and its name " + name_taken_text(hand_.book, next) + ": no sheet and no form has it",
               "give it another name; or correct the batch that is wrong");
  }

  void doubt_service(const PlannedSample& next, Row row, PlanField field) {
    if (row == no_row) return;
    const Instrument& it = hand_.book.instruments[row];
    const bool is_out = it.out_of_service != no_day && (next.day == no_day || it.out_of_service <= next.day);
    const bool is_yet_to_come = it.in_service != no_day && next.day != no_day && next.day < it.in_service;
    if (!is_out && !is_yet_to_come) return;
    row_.doubt(field, "plan/out-of-service",
               it.name +
                   (is_out ? " is out of service since " + date_text(it.out_of_service)
                           : " is in service from " + date_text(it.in_service)) +
                   ", and " + in_quotes(next.name) + " is still to be taken with it" +
                   (next.day == no_day ? "" : ", on " + date_text(next.day)),
               "plan another instrument, or correct the day that is wrong");
  }

  const TableFile& file_;
  const BookInHand& hand_;
  const RecordedNames& recorded_;
  NamedInstrument pumps_;
  NamedInstrument calibrators_;
  RowReader row_;
};

}  // namespace

const TableSpec plan_spec{"plan", plan_fields};

void read_plan(const std::vector<TableFile>& files, const BookInHand& hand) {
  const InstrumentIndex instruments = index_of_instruments(hand.book.instruments);
  RecordedNames recorded;
  for (Row row = 0; !files.empty() && row < hand.book.samples.size(); ++row)
    recorded.emplace(hand.book.samples.name[row], row);
  for (const TableFile& file : files) read_rows_in_order(file, PlanRows(file, hand, instruments, recorded));
}

}  // namespace driftwarden
