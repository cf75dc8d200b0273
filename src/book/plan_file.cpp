// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
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
  plan_day,
  plan_note
};
constexpr std::array<FieldSpec, 12> plan_fields{{
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
    {plan_day, "day", CellType::date},
    {plan_note, "note"},
}};
static_assert(are_complete(plan_fields, plan_note));

class PlanRows {
 public:
  PlanRows(const TableFile& file, const BookInHand& hand, const InstrumentIndex& instruments)
      : file_(file),
        hand_(hand),
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
    next.day = row_.date(plan_day);
    next.note = row_.note(plan_note);
    if (row_.problem() == no_problem && !is_planned_already(next)) hand_.book.plan.push_back(std::move(next));
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

  const TableFile& file_;
  const BookInHand& hand_;
  NamedInstrument pumps_;
  NamedInstrument calibrators_;
  RowReader row_;
};

}  // namespace

const TableSpec plan_spec{"plan", plan_fields};

void read_plan(const std::vector<TableFile>& files, const BookInHand& hand) {
  const InstrumentIndex instruments = index_of_instruments(hand.book.instruments);
  for (const TableFile& file : files) read_rows_in_order(file, PlanRows(file, hand, instruments));
}

}  // namespace driftwarden
