// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "command/judged_anew.hpp"
#include "command/opened_book.hpp"
#include "evidence/bag_check.hpp"
#include "evidence/bag_layout.hpp"
#include "quantity/rounding.hpp"
#include "report/terminal_text.hpp"
#include "system/held_file.hpp"
#include "verdict/cautions.hpp"
#include "workshop/signature.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

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
  if (!has_keys()) {
    say(surroundings, "signature", "not checked here: there is one, and only the installed program checks it");
    return {};
  }
  const Result<Ed25519Key> enclosed = Ed25519Key::public_key(bag.signer, std::string(signer_file));
  if (!enclosed) return enclosed.faults();
  if (!enclosed->has_signed(bag.tag_manifest, bag.signature))
    return {bad_signature("does not fit the key enclosed in the package", "one of the two was changed")};
  say(surroundings, "signature", "not checked: it fits the key enclosed, but anybody can enclose a key;");
  say(surroundings, "", "give --key with the signer's public key. SHA-256 of the one enclosed:");
  say(surroundings, "", enclosed->fingerprint());
  return {};
}

// A signature that the package speaks of, or doesn't.
Diagnostics held_to(const PackageNote& note, const BagCheck& bag) {
  if (note.is_signed == !bag.signature.empty()) return {};
  if (note.is_signed && !bag.signer.empty()) return {};  // told before
  return {bad_signature(note.is_signed ? "is not there, though the package was made with one"
                                       : "is there, though the package was made without one",
                        note.is_signed ? "it was taken away; ask the signer for the package" : "somebody added it")};
}

void tell_anew(const Anew& anew, const PackageNote& note, Surroundings& surroundings) {
  const std::string samples = counted(anew.samples, "sample", "samples and blanks");
  const std::string how = "judged anew by driftwarden " + surroundings.version + " from the package alone: " + samples;
  if (anew.differences == 0) {
    say(surroundings, "results", "the same, " + how + ", " + std::to_string(anew.texts) + " texts");
  } else {
    say(surroundings, "results",
        counted(anew.differences, "difference", "differences") + " in " + std::to_string(anew.texts_that_differ) +
            " of " + std::to_string(anew.texts) + " texts,");
    say(surroundings, "", how);
  }
  if (anew.last_digits > 0)
    say(surroundings, "",
        counted(anew.last_digits, "figure differs", "figures differ") + " in the last digits, within a relative 1e-12");
  if (anew.reworded > 0)
    say(surroundings, "",
        counted(anew.reworded, "place has", "places have") + " other words, which are known to have changed");
  if (note.version != surroundings.version)
    say(surroundings, "", "the package was made by driftwarden " + note.version);
}

// What has changed in the program, named beside the differences.
void tell_changes(const Anew& anew, const PackageNote& note, Surroundings& surroundings) {
  if (anew.changes.empty()) return;
  surroundings.out << "Under Results in the changes of the program since " << note.version << ":\n";
  for (const LoggedChange& change : anew.changes)
    surroundings.out << "  " << name_of(change) << ": " << for_terminal(change.text) << '\n';
}

// Of charts that nobody could draw anew, a signature still says that they are as they were made.
void tell_nothing_amiss(const Anew& anew, const PackageNote& note, std::ostream& out) {
  if (anew.has_unmade_charts && !note.is_signed) {
    out << "Nothing found amiss in what could be made anew. The charts could not, and in a package without a "
           "signature\n"
           "nobody can say that they are as they were drawn.\n";
  } else {
    out << "Nothing found amiss.\n";
  }
}

// What the differences mean, in the end.
void tell_meaning(bool files_are_sound, const Anew& anew, const PackageNote& note, Surroundings& surroundings) {
  std::ostream& out = surroundings.out;
  if (!files_are_sound) {
    out << "The package is not as it was made.\n";
  } else if (!anew.is_amiss()) {
    tell_nothing_amiss(anew, note, out);
  } else if (anew.differences == 0) {
    out << "The package was judged by rules that are not what their name says.\n";
  } else if (note.version != surroundings.version) {
    out << "The files have the digests that the package gives them. Version " << note.version
        << " made the package, and version\n"
        << surroundings.version
        << " works out something else. Either results were changed and the digests made anew, or the program has\n"
           "changed: what is named beside a difference may account for it, and excuses nothing. Judge anew "
           "with\nversion "
        << note.version << " to know.\n";
  } else {
    out << "The files have the digests that the package gives them, and the same version works out something else:\n"
           "either results were changed and the digests made anew, or the program was built otherwise, or its time\n"
           "zones' rules have changed since.\n";
  }
}

int judge(const VerifyOptions& options, const BagCheck& bag, bool files_are_sound, Surroundings& surroundings) {
  const std::string name(package_note_file);
  const Result<HeldFile> text = HeldFile::open(fs::path(options.folder) / name, name);
  const Result<PackageNote> note = text ? parse_package_note(text->bytes()) : Result<PackageNote>(text.faults());
  if (!note) {
    tell(surroundings.out, note.faults());
    surroundings.out << "The package is not as it was made.\n";
    return something_is_amiss;
  }
  const Diagnostics signature = held_to(*note, bag);
  tell(surroundings.out, signature);
  const std::optional<Anew> anew = judged_anew(options.folder, bag, *note, options.threads, surroundings);
  if (!anew) return something_is_amiss;
  const bool is_sound = files_are_sound && signature.empty();
  tell_anew(*anew, *note, surroundings);
  tell_changes(*anew, *note, surroundings);
  tell_meaning(is_sound, *anew, *note, surroundings);
  return is_sound && !anew->is_amiss() ? all_is_well : something_is_amiss;
}

}  // namespace

int run_verify(const VerifyOptions& options, Surroundings& surroundings) {
  std::optional<KeyGiven> given;
  if (!options.key.empty()) {
    const Result<HeldFile> pem = HeldFile::open(options.key, options.key);
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
  const int status = judge(options, *bag, bag->faults.empty() && signature.empty(), surroundings);
  surroundings.out << '\n' << wrapped(cautions, 0, table_width);
  return status;
}

}  // namespace driftwarden
