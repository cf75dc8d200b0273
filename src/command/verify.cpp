// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "command/packed_texts.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/evidence/bag_check.hpp"
#include "driftwarden/evidence/bag_layout.hpp"
#include "driftwarden/evidence/comparison.hpp"
#include "driftwarden/evidence/signature.hpp"
#include "driftwarden/quantity/rounding.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t differences_told_of_a_file = 10;
constexpr std::size_t differences_told = 100;

// Lines of what was found, each under what it is about.
void say(Surroundings& surroundings, std::string_view about, const std::string& text) {
  surroundings.out << about << std::string(about.size() < 12 ? 12 - about.size() : 1, ' ') << text << '\n';
}

// "1 fault", "2 faults".
std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

bool is_of_digests(const Diagnostic& fault) { return fault.id == "evidence/changed"; }

void tell_files(const BagCheck& bag, Surroundings& surroundings) {
  tell(surroundings.out, bag.faults);
  const auto changed = static_cast<std::size_t>(std::count_if(bag.faults.begin(), bag.faults.end(), is_of_digests));
  const std::size_t others = bag.faults.size() - changed;
  const std::string size = counted(bag.files.size(), "file", "files") + ", " + std::to_string(bag.bytes) + " bytes";
  say(surroundings, "structure", others == 0 ? "sound: a BagIt bag of " + size : counted(others, "fault", "faults"));
  if (!bag.is_safe) return;
  say(surroundings, "digests",
      changed == 0 ? "hold (SHA-512)" : counted(changed, "file was changed", "files were changed"));
}

struct KeyGiven {
  std::string file;
  Ed25519Key key;
};

Diagnostic bad_signature(const std::string& what, const std::string& hint) {
  return error("evidence/signature", {std::string(signature_file), 0, 0}, what, hint);
}

// The signature held against the key that somebody gave. What is amiss, or nothing.
Diagnostics checked_against(const KeyGiven& given, const BagCheck& bag, Surroundings& surroundings) {
  if (bag.signature.empty()) {
    return {bad_signature("the package has no signature, so the key can't be held against one",
                          "it was made without --sign, or the signature was taken away")};
  }
  if (!given.key.has_signed(bag.tag_manifest, bag.signature)) {
    return {
        bad_signature("does not fit the key of " + in_quotes(given.file),
                      "somebody else signed the package, or it was changed afterwards; its enclosed key is no proof")};
  }
  say(surroundings, "signature", "good: made with the private half of " + in_quotes(given.file));
  return {};
}

// The signature held against the key enclosed: that finds damage, and says nothing about who signed.
Diagnostics checked_by_itself(const BagCheck& bag, Surroundings& surroundings) {
  if (bag.signer.empty()) {
    say(surroundings, "signature",
        "none: the package is not signed, so whoever changed a file could change its digest");
    return {};
  }
  if (bag.signature.empty()) return {bad_signature("is not there, though the package says who signed it", "")};
  const Result<Ed25519Key> enclosed = Ed25519Key::public_key(bag.signer, std::string(signer_file));
  if (!enclosed) return enclosed.faults();
  if (!enclosed->has_signed(bag.tag_manifest, bag.signature))
    return {bad_signature("does not fit the key enclosed in the package", "one of the two was changed")};
  say(surroundings, "signature", "not checked: it fits the key enclosed, but anybody can enclose a key;");
  say(surroundings, "", "give --key with the signer's public key. SHA-256 of the one enclosed:");
  say(surroundings, "", enclosed->fingerprint());
  return {};
}

std::string packed_text(const fs::path& folder, const std::string& name) {
  const Result<MappedFile> text = MappedFile::open(folder / name, name);
  return text ? std::string(text->bytes()) : "";
}

// What judging anew came to.
struct Anew {
  std::size_t texts = 0;
  std::size_t texts_that_differ = 0;
  std::size_t differences = 0;
  std::size_t figures = 0;
  std::size_t told = 0;
};

class AnewComparer {
 public:
  AnewComparer(const fs::path& folder, const BagCheck& bag, Surroundings& surroundings)
      : folder_(folder), bag_(bag), surroundings_(surroundings) {
    for (const std::string& name : bag.files) {
      const bool is_input = name.starts_with(packed_book) || name.starts_with(packed_rules);
      if (is_payload(name) && !is_input && !is_drawn(name)) left_.insert(name);
    }
  }

  void operator()(const std::string& name, std::string_view now) {
    ++anew.texts;
    left_.erase(name);
    if (bag_.files.count(name) == 0) return missing(name, "is not in the package, and would be now");
    count(compared(name, packed_text(folder_, name), now,
                   std::min(differences_told_of_a_file, differences_told - anew.told)));
  }
  void tell_left_over() {
    for (const std::string& name : left_) missing(name, "is in the package, and would not be now");
  }

  Anew anew;

 private:
  void missing(const std::string& name, const std::string& what) {
    ++anew.texts_that_differ;
    ++anew.differences;
    surroundings_.out << name << ": " << what << '\n';
  }
  void count(const TextComparison& comparison) {
    if (comparison.count == 0) return;
    ++anew.texts_that_differ;
    anew.differences += comparison.count;
    anew.figures += comparison.figures;
    anew.told += comparison.differences.size();
    for (const TextDifference& difference : comparison.differences) surroundings_.out << to_text(difference) << '\n';
    const std::size_t more = comparison.count - comparison.differences.size();
    if (more > 0 && !comparison.differences.empty())
      surroundings_.out << comparison.differences.front().file << ": and " << more << " more\n";
  }

  const fs::path& folder_;
  const BagCheck& bag_;
  Surroundings& surroundings_;
  std::set<std::string> left_;
};

void tell_anew(const Anew& anew, const PackageNote& note, const PackedBook& packed, Surroundings& surroundings) {
  const std::string samples = counted(packed.totals.samples, "sample", "samples and blanks");
  if (anew.differences == 0) {
    return say(surroundings, "results",
               "the same, judged anew by driftwarden " + surroundings.version + " from the package alone: " + samples +
                   ", " + std::to_string(anew.texts) + " texts");
  }
  say(surroundings, "results",
      counted(anew.differences, "difference", "differences") + " in " + std::to_string(anew.texts_that_differ) +
          " of " + std::to_string(anew.texts) + " texts, " + std::to_string(anew.figures) +
          " of them of figures or verdicts,");
  say(surroundings, "", "judged anew by driftwarden " + surroundings.version + " from the package alone: " + samples);
  if (note.version != surroundings.version)
    say(surroundings, "", "the package was made by driftwarden " + note.version);
}

// What the differences mean, in the end.
void tell_meaning(bool files_are_sound, const Anew& anew, const PackageNote& note, Surroundings& surroundings) {
  std::ostream& out = surroundings.out;
  if (!files_are_sound) {
    out << "The package is not as it was made.\n";
  } else if (anew.differences == 0) {
    out << "Nothing found amiss.\n";
  } else if (note.version != surroundings.version) {
    out << "The files are as they were packed. Version " << note.version << " made the package and version "
        << surroundings.version << " works "
        << (anew.figures == 0
                ? "out the same figures and verdicts,\nand puts some of it in other words.\n"
                : "out something else: that is no tampering.\nLook under Results in the changes of the program; "
                  "judge anew with version ")
        << (anew.figures == 0 ? "" : note.version + " to have the same again.\n");
  } else {
    out << "The files have the digests that the package gives them, and the same version works out something else:\n"
           "either results were changed and the digests made anew, or the program was built otherwise, or its time\n"
           "zones' rules have changed since.\n";
  }
}

// Nothing (told) where the package can't be judged anew.
std::optional<Anew> judged_anew(const fs::path& folder, const BagCheck& bag, const PackageNote& note, unsigned threads,
                                Surroundings& surroundings) {
  Surroundings told_as_results{surroundings.out,   surroundings.out,    false, false, surroundings.now,
                               surroundings.share, surroundings.version};
  const std::optional<PackedBook> packed = open_packed(folder, note, threads, told_as_results);
  if (!packed) {
    say(surroundings, "results", "could not be worked out anew");
    return std::nullopt;
  }
  AnewComparer comparer(folder, bag, surroundings);
  make_texts(*packed, note, threads,
             [&comparer](const std::string& name, std::string_view text) { comparer(name, text); });
  comparer.tell_left_over();
  tell_anew(comparer.anew, note, *packed, surroundings);
  return comparer.anew;
}

int judge(const VerifyOptions& options, const BagCheck& bag, bool files_are_sound, Surroundings& surroundings) {
  const std::string text = packed_text(options.folder, std::string(package_note_file));
  const Result<PackageNote> note = parse_package_note(text);
  if (!note) {
    tell(surroundings.out, note.faults());
    return something_is_amiss;
  }
  const std::optional<Anew> anew = judged_anew(options.folder, bag, *note, options.threads, surroundings);
  if (!anew) return something_is_amiss;
  tell_meaning(files_are_sound, *anew, *note, surroundings);
  const bool is_reworded = note->version != surroundings.version && anew->figures == 0;
  return files_are_sound && (anew->differences == 0 || is_reworded) ? all_is_well : something_is_amiss;
}

}  // namespace

int run_verify(const VerifyOptions& options, Surroundings& surroundings) {
  std::optional<KeyGiven> given;
  if (!options.key.empty()) {
    const Result<MappedFile> pem = MappedFile::open(options.key, options.key);
    if (!pem) return refuse(pem.faults(), surroundings);
    Result<Ed25519Key> key = Ed25519Key::public_key(pem->bytes(), options.key);
    if (!key) return refuse(key.faults(), surroundings);
    given = KeyGiven{options.key, *std::move(key)};
  }
  const Result<BagCheck> bag = check_bag(options.folder);
  if (!bag) return refuse(bag.faults(), surroundings);
  tell_files(*bag, surroundings);
  if (!bag->is_safe) {
    surroundings.out << "Nothing of it was judged.\n";
    return something_is_amiss;
  }
  const Diagnostics signature =
      given ? checked_against(*given, *bag, surroundings) : checked_by_itself(*bag, surroundings);
  tell(surroundings.out, signature);
  return judge(options, *bag, bag->faults.empty() && signature.empty(), surroundings);
}

}  // namespace driftwarden
