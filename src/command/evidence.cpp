// SPDX-License-Identifier: MIT
#include <filesystem>
#include <ostream>
#include <sstream>
#include <system_error>

#include "command/packed_texts.hpp"
#include "command/reviewed.hpp"
#include "command/selection.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/evidence/bag_layout.hpp"
#include "driftwarden/evidence/bag_writer.hpp"
#include "driftwarden/evidence/inputs.hpp"
#include "driftwarden/plot/gnuplot_run.hpp"
#include "driftwarden/plot/pictures.hpp"
#include "driftwarden/quantity/rounding.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

Result<Ed25519Key> read_private_key(const std::string& file) {
  const Result<MappedFile> pem = MappedFile::open(file, file);
  if (!pem) return pem.faults();
  return Ed25519Key::private_key(pem->bytes(), file);
}

// Draws the charts into the package. False, and nothing is amiss, where there is no program to draw them.
bool draw_charts(const PackedBook& packed, BagWriter& bag, Surroundings& surroundings, Diagnostics& faults) {
  const Result<Theme> theme = read_theme(surroundings.share, "print");
  if (!theme) {
    faults = theme.faults();
    return false;
  }
  const Pictures pictures =
      pictures_of(*packed.opened->screening, packed.histories, packed.choices, *theme, PictureFormat::svg);
  if (pictures.files.empty()) return false;
  std::error_code failure;
  fs::create_directories(bag.folder() / packed_charts, failure);
  faults = draw_pictures(pictures.script, pictures.files, bag.folder() / packed_charts);
  if (!faults.empty()) {
    fs::remove_all(bag.folder() / packed_charts, failure);
    if (faults.front().id == "plot/no-gnuplot") {
      faults = {
          remark("evidence/no-charts", {"charts", 0, 0}, "the package has no charts: there is no program gnuplot",
                 "install the package gnuplot-nox and make it again; READ-ME-FIRST.txt says that they are missing")};
    }
    return false;
  }
  for (const std::string& picture : pictures.files) bag.adopt(std::string(packed_charts) + picture);
  return true;
}

// The review page of that day. Its charts are gnuplot's, so that like them it is held to its digest and not made anew.
bool add_review(const PackedBook& packed, BagWriter& bag, const Surroundings& surroundings) {
  std::ostringstream told;  // that charts are missing has been told
  Surroundings inside{told, told, false, false, surroundings.now, surroundings.share, surroundings.version};
  const std::optional<Reviewed> review = reviewed(*packed.opened, {}, inside);
  if (review) bag.add(std::string(review_file), review->html);
  return review.has_value();
}

bool are_errors(const Diagnostics& diagnostics) {
  return !diagnostics.empty() && diagnostics.front().severity == Severity::error;
}

// Copies the inputs, judges them where they now lie, and writes everything else. Nothing where it can't be done (told).
std::optional<PackedBook> fill(BagWriter& bag, const std::vector<PackedInput>& inputs, PackageNote& note,
                               unsigned threads, Surroundings& surroundings) {
  for (const PackedInput& input : inputs) bag.copy(input.name, input.file);
  if (!bag.failure().empty()) return std::nullopt;
  std::optional<PackedBook> packed = open_packed(bag.folder(), note, threads, surroundings);
  if (!packed) return std::nullopt;
  Diagnostics said;
  note.has_charts = draw_charts(*packed, bag, surroundings, said);
  tell(surroundings.err, said);
  if (are_errors(said) || !add_review(*packed, bag, surroundings)) return std::nullopt;
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
  Result<BagWriter> bag = BagWriter::begin(options.out);
  if (!bag) return refuse(bag.faults(), surroundings);
  PackageNote note{surroundings.version, date_text(opened->as_of), options.batches, false, key.has_value()};
  const std::optional<PackedBook> packed = fill(*bag, *inputs, note, threads_of(options.book), surroundings);
  if (!packed) return refuse(bag->failure(), surroundings);
  const Ed25519Key* signer = key ? &*key : nullptr;
  const Diagnostics faults = bag->finish({surroundings.version, opened->book.settings.title, opened->as_of}, signer);
  if (!faults.empty()) return refuse(faults, surroundings);
  tell_result(options.out, *packed, signer, surroundings);
  if (packed->opened->has_faults()) return cannot_be_used;
  return packed->totals.open > 0 ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
