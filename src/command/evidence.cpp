// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <ostream>
#include <system_error>

#include "book/stamp_text.hpp"
#include "command/packed_texts.hpp"
#include "command/reviewed.hpp"
#include "command/selection.hpp"
#include "evidence/bag_layout.hpp"
#include "evidence/inputs.hpp"
#include "outside/write_fault.hpp"
#include "plot/pictures.hpp"
#include "quantity/rounding.hpp"
#include "system/held_file.hpp"
#include "workshop/bag_writer.hpp"
#include "workshop/gnuplot_run.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

Result<Ed25519Key> read_private_key(const std::string& file) {
  const Result<HeldFile> pem = HeldFile::open(file, file);
  if (!pem) return pem.faults();
  return Ed25519Key::private_key(pem->bytes(), file);
}

Diagnostic no_charts() {
  return remark("evidence/no-charts", {"charts", 0, 0}, "the package has no charts: there is no program gnuplot",
                "install the package gnuplot-nox and make it again; READ-ME-FIRST.txt says that they are missing");
}

// Draws the charts into the package. Without a program to draw them it has none, and that is told; whatever else goes
// wrong is a failure.
Diagnostics draw_charts(const PackedBook& packed, BagWriter& bag, PackageNote& note, Surroundings& surroundings) {
  if (note.charts_of == ChartsOf::none) return {};
  const Result<Theme> theme = read_theme(surroundings.share, "print");
  if (!theme) return theme.faults();
  const Pictures pictures =
      pictures_of(*packed.opened->screening, packed.histories, packed.choices, *theme, PictureFormat::svg);
  note.has_charts = true;
  if (pictures.files.empty()) return {};
  const fs::path folder = bag.folder() / packed_charts;
  std::error_code failure;
  fs::create_directories(folder, failure);
  if (failure) return {unwritable(folder, failure.value())};
  Diagnostics faults = draw_pictures(pictures.script, pictures.files, folder);
  note.has_charts = faults.empty();
  if (note.has_charts) {
    for (const std::string& picture : pictures.files) bag.adopt(std::string(packed_charts) + picture);
    return {};
  }
  fs::remove_all(folder, failure);
  if (!is_no_gnuplot(faults)) return faults;
  tell(surroundings.err, {no_charts()});
  return {};
}

// The review page of that day, with charts where the package has them. False where there is none (told).
bool add_review(const PackedBook& packed, PackageNote& note, BagWriter& bag, Surroundings& surroundings) {
  ReviewChoices choices;
  choices.charts = review_charts(note, true);
  const std::optional<Reviewed> review = reviewed(*packed.opened, choices, surroundings);
  if (!review) return false;
  if (note.has_charts && !review->why_no_charts.empty()) {  // and no instrument used had a chart to draw
    note.has_charts = false;
    tell(surroundings.err, {no_charts()});
  }
  bag.add(std::string(review_file), review->html);
  return true;
}

// Whether the bytes that were read of the copy are those that were read of the book; else why not is told.
bool is_as_it_was(const Book& book, const Book& packed, Surroundings& surroundings) {
  const auto is_same = [](const FileAsRead& a, const FileAsRead& b) {
    return a.name == b.name && a.stamp.size == b.stamp.size && a.print == b.print;
  };
  if (std::equal(book.seen.begin(), book.seen.end(), packed.seen.begin(), packed.seen.end(), is_same)) return true;
  tell(surroundings.err,
       {error("evidence/book-changed", {book.folder.string(), 0, 0}, "the book was changed while it was packed",
              "run this again when nobody writes to it")});
  return false;
}

// Copies the inputs, judges them where they now lie, and writes everything else. Nothing where it can't be done (told).
std::optional<PackedBook> fill(BagWriter& bag, const Book& book, const std::vector<PackedInput>& inputs,
                               PackageNote& note, unsigned threads, Surroundings& surroundings) {
  for (const PackedInput& input : inputs) bag.add(input.name, packed_bytes(book, input));
  if (!bag.failure().empty()) return std::nullopt;
  std::optional<PackedBook> packed = open_packed(bag.folder(), note, threads, surroundings);
  if (!packed || !is_as_it_was(book, packed->opened->book, surroundings)) return std::nullopt;
  const Diagnostics faults = draw_charts(*packed, bag, note, surroundings);
  tell(surroundings.err, faults);
  if (!faults.empty() || !add_review(*packed, note, bag, surroundings)) return std::nullopt;
  make_texts(*packed, note, threads, [&bag](const std::string& name, std::string_view text) { bag.add(name, text); });
  return packed;
}

void tell_result(const std::string& out, const PackedBook& packed, const Ed25519Key* key, Surroundings& surroundings) {
  const Totals& totals = packed.totals;
  surroundings.out << out << ": " << counted(totals.samples, "sample", "samples and blanks") << ": " << totals.valid
                   << " valid, " << totals.qualified << " qualified, " << totals.undecided << " undecided, "
                   << totals.void_ << " void\n";
  if (key == nullptr) {
    surroundings.out << "not signed\n";
  } else {
    surroundings.out << "signed by the key with the fingerprint (SHA-256)\n  " << key->fingerprint() << '\n';
  }
}

}  // namespace

int run_evidence(const EvidenceOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  ScreenOptions selection;
  selection.batches = options.batches;
  if (!selected_samples(*opened, selection, surroundings)) return cannot_be_used;
  std::optional<Ed25519Key> key;
  if (!options.sign.empty()) {
    Result<Ed25519Key> read = read_private_key(options.sign);
    if (!read) return refuse(read.faults(), surroundings);
    key = *std::move(read);
  }
  const Result<std::vector<PackedInput>> inputs = inputs_of(opened->book, surroundings.share / "rules");
  if (!inputs) return refuse(inputs.faults(), surroundings);
  if (tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  Result<BagWriter> bag = BagWriter::begin(options.out);
  if (!bag) return refuse(bag.faults(), surroundings);
  PackageNote note{surroundings.version, date_text(opened->as_of),
                   options.batches,      false,
                   key.has_value(),      charts_of(options.charts_of).value_or(ChartsOf::used)};
  const std::optional<PackedBook> packed =
      fill(*bag, opened->book, *inputs, note, threads_of(options.book), surroundings);
  if (!packed) return refuse(bag->failure(), surroundings);
  const Ed25519Key* signer = key ? &*key : nullptr;
  const Diagnostics faults = bag->finish({surroundings.version, opened->book.settings.title, opened->as_of}, signer);
  if (!faults.empty()) return refuse(faults, surroundings);
  tell_result(options.out, *packed, signer, surroundings);
  if (packed->opened->has_faults()) return cannot_be_used;
  return packed->totals.open > 0 ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
