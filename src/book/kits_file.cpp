// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

enum KitField : int { kit_kind, kit_item, kit_instrument, kit_number, kit_note };
constexpr double most_of_an_item = 1000;
constexpr std::array<FieldSpec, 5> kit_fields{{
    {kit_kind, "kind of kit", CellType::text, Dimension::count, true},
    {kit_item, "item", CellType::text, Dimension::count, true},
    {kit_instrument, "kind of instrument", CellType::word},
    {kit_number, "number", CellType::number, Dimension::count, false, 1, most_of_an_item},
    {kit_note, "note"},
}};
static_assert(are_complete(kit_fields, kit_note));

class KitRows {
 public:
  KitRows(const TableFile& file, const BookInHand& hand)
      : file_(file), hand_(hand), row_(hand.context(file, kits_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    row_.start(scanner, line);
    KitItem next;
    next.place = {file_.number, line};
    next.kind = row_.kept_text(kit_kind);
    next.item = row_.kept_text(kit_item);
    const int what = row_.word(kit_instrument, instrument_kind_words);
    if (what >= 0) next.instrument = static_cast<InstrumentKind>(what);
    next.number = read_number();
    next.note = row_.note(kit_note);
    // A row that can't be understood is on nobody's list.
    if (row_.problem() == no_problem && !is_listed_already(next)) hand_.book.kit_items.push_back(std::move(next));
  }

 private:
  bool is_listed_already(const KitItem& next) {
    for (const KitItem& other : hand_.book.kit_items) {
      if (other.kind != next.kind || other.item != next.item) continue;
      row_.fail(kit_item, "kits/twice",
                in_quotes(next.item) + " belongs to a kit of the kind " + in_quotes(next.kind) + " already by " +
                    hand_.book.place_text(hand_.book.files.kits, other.place) + "; that row counts",
                "leave one of the two out, and write under 'number' how many belong to the kit");
      return true;
    }
    return false;
  }

  unsigned read_number() {
    const double number = row_.whole_number(kit_number, "kits/number", "write how many of it belong to the kit");
    return is_missing(number) ? 1 : static_cast<unsigned>(number);
  }

  const TableFile& file_;
  const BookInHand& hand_;
  RowReader row_;
};

}  // namespace

const TableSpec kits_spec{"kits", kit_fields};

void read_kits(const std::vector<TableFile>& files, const BookInHand& hand) {
  for (const TableFile& file : files) read_rows_in_order(file, KitRows(file, hand));
}

}  // namespace driftwarden
