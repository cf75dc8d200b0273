// SPDX-License-Identifier: MIT
#include "command/judged_anew.hpp"

#include <algorithm>
#include <ostream>

#include "command/packed_texts.hpp"
#include "command/reviewed.hpp"
#include "evidence/bag_info.hpp"
#include "evidence/bag_layout.hpp"
#include "evidence/comparison.hpp"
#include "evidence/inputs.hpp"
#include "evidence/shipped_texts.hpp"
#include "outside/scratch_place.hpp"
#include "plot/pictures.hpp"
#include "report/inline_svg.hpp"
#include "report/terminal_text.hpp"
#include "system/held_file.hpp"
#include "workshop/gnuplot_run.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t differences_told_of_a_file = 10;
constexpr std::size_t differences_told = 100;

// Holds what is made anew against what is packed.
class AnewComparer {
 public:
  AnewComparer(const fs::path& folder, const BagCheck& bag, const Version& made_by, Surroundings& surroundings)
      : folder_(folder),
        surroundings_(surroundings),
        results_(changes_after(made_by, "Results", change_log_text())),
        rewordings_(rewordings_after(made_by, change_log_text())),
        left_(bag.files) {}

  // A file that such a package has, whatever is in it; told where it hasn't.
  bool has(const std::string& name) {
    if (left_.erase(name) > 0) return true;
    differ(name, "is not in the package, and would be now");
    return false;
  }
  // A file that it may have.
  void may_have(std::string_view name) { left_.erase(std::string(name)); }
  void may_have_all_in(std::string_view place) {
    std::erase_if(left_, [place](const std::string& name) { return name.starts_with(place); });
  }

  void compare(const std::string& name, std::string_view now) {
    ++anew.texts;
    const std::optional<std::string> packed = has(name) ? packed_text(name) : std::nullopt;
    if (packed) compare(name, *packed, now);
  }
  void compare(const std::string& name, std::string_view packed, std::string_view now) {
    const std::size_t most = std::min(differences_told_of_a_file, differences_told - told_);
    count(compared(name, packed, now, most, rewordings_));
  }
  void tell_left_over() {
    for (const std::string& name : left_) differ(name, "is in the package, and would not be now");
  }
  void differ(const std::string& name, const std::string& what) {
    ++anew.texts_that_differ;
    ++anew.differences;
    tell(name + ": " + what);
  }
  std::optional<std::string> packed_text(const std::string& name) {
    const Result<HeldFile> text = HeldFile::open(folder_ / name, name);
    if (text) return std::string(text->bytes());
    differ(name, text.faults().front().message);
    return std::nullopt;
  }

  Anew anew;

 private:
  void tell(const std::string& line) { surroundings_.out << for_terminal(line) << '\n'; }

  void count(const TextComparison& comparison) {
    anew.last_digits += comparison.last_digits;
    anew.reworded += comparison.reworded;
    if (comparison.count == 0) return;
    ++anew.texts_that_differ;
    anew.differences += comparison.count;
    told_ += comparison.differences.size();
    for (const TextDifference& difference : comparison.differences)
      tell(to_text(difference) + changes_named(difference));
    const std::size_t more = comparison.count - comparison.differences.size();
    if (more > 0 && !comparison.differences.empty())
      tell(comparison.differences.front().file + ": and " + std::to_string(more) + " more");
  }

  // " (Results of 0.2.0, 3; 0.2.0, 7 may account for it)"
  std::string changes_named(const TextDifference& difference) {
    std::string names;
    for (const LoggedChange& change : may_account_for(difference, results_)) {
      names += (names.empty() ? "" : "; ") + name_of(change);
      if (std::find(anew.changes.begin(), anew.changes.end(), change) == anew.changes.end())
        anew.changes.push_back(change);
    }
    return names.empty() ? "" : " (Results of " + names + " may account for it)";
  }

  const fs::path& folder_;
  Surroundings& surroundings_;
  std::vector<LoggedChange> results_;
  std::vector<Rewording> rewordings_;
  std::set<std::string> left_;
  std::size_t told_ = 0;
};

// "GNUPLOT 5.4 patchlevel 4" of an SVG, or "".
std::string_view drawn_by(std::string_view svg) {
  constexpr std::string_view before = "Produced by ";
  const std::size_t begin = svg.find(before);
  if (begin == std::string_view::npos) return "";
  svg.remove_prefix(begin + before.size());
  return svg.substr(0, svg.find_first_of("<\n"));
}

// Draws the charts anew where the same gnuplot is at hand, and compares; whether all of them are the same. Where it is
// not, they are held to their digests, which is said.
class ChartComparer {
 public:
  ChartComparer(const PackedBook& packed, AnewComparer& comparer, Surroundings& surroundings)
      : packed_(packed), comparer_(comparer), surroundings_(surroundings) {}

  bool are_the_same() {
    const Result<Theme> theme = read_theme(surroundings_.share, "print");
    if (!theme) {
      comparer_.may_have_all_in(packed_charts);
      return only_digests(theme.faults().front().message);
    }
    const Pictures pictures =
        pictures_of(*packed_.opened->screening, packed_.histories, packed_.choices, *theme, PictureFormat::svg);
    std::vector<std::string> there;
    for (const std::string& picture : pictures.files) {
      if (comparer_.has(std::string(packed_charts) + picture)) there.push_back(picture);
    }
    const ScratchPlace place;
    if (place.path().empty()) return only_digests(place.fault().message);
    const Diagnostics faults = draw_pictures(pictures.script, pictures.files, place.path());
    if (!faults.empty()) return only_digests(faults.front().message);
    for (const std::string& picture : there) compare(picture, place.path());
    if (others_ > 0) return only_digests(std::to_string(others_) + " were drawn by another gnuplot or by the page");
    return differing_ == 0;
  }

 private:
  bool only_digests(const std::string& why) {
    comparer_.anew.has_unmade_charts = true;
    say(surroundings_, "charts", "held to their digests alone: " + for_terminal(why));
    return false;
  }
  void compare(const std::string& picture, const fs::path& drawn) {
    const std::string name = std::string(packed_charts) + picture;
    const std::optional<std::string> packed = comparer_.packed_text(name);
    const Result<HeldFile> now = HeldFile::open(drawn / picture, picture);
    if (!now) {
      ++differing_;
      return comparer_.differ(name, "can't be compared: " + now.faults().front().message);
    }
    if (!packed || now->bytes() == *packed) return;
    if (drawn_by(*packed) != drawn_by(now->bytes())) {
      ++others_;
    } else {
      ++differing_;
      comparer_.compare(name, *packed, now->bytes());
    }
  }

  const PackedBook& packed_;
  AnewComparer& comparer_;
  Surroundings& surroundings_;
  std::size_t others_ = 0;
  std::size_t differing_ = 0;
};

// The review page, with its charts where they can be the same; else all of it but them.
void compare_review(const PackedBook& packed, const PackageNote& note, bool with_charts, AnewComparer& comparer,
                    Surroundings& surroundings) {
  const std::string name(review_file);
  ++comparer.anew.texts;
  const std::optional<std::string> text = comparer.has(name) ? comparer.packed_text(name) : std::nullopt;
  const Result<Theme> theme = read_theme(surroundings.share, "light");
  if (!theme)
    return say(surroundings, "review", "held to its digest alone: " + for_terminal(theme.faults().front().message));
  ReviewChoices choices;
  choices.charts = review_charts(note, with_charts);
  Surroundings then{surroundings.out, surroundings.out,   false,       false,
                    surroundings.now, surroundings.share, note.version};
  const std::optional<Reviewed> now = reviewed(*packed.opened, choices, then);
  if (!now) return comparer.differ(name, "could not be made anew");
  if (!text) return;
  if (choices.charts == ReviewCharts::left_out) {
    comparer.compare(name, without_drawings(*text), without_drawings(now->html));
  } else {
    comparer.compare(name, *text, now->html);
  }
}

PayloadSize payload_of(const fs::path& folder, const BagCheck& bag) {
  PayloadSize size;
  std::error_code failure;
  for (const std::string& name : bag.files) {
    if (!is_payload(name)) continue;
    ++size.files;
    size.bytes += fs::file_size(folder / name, failure);
  }
  return size;
}

// Inputs are what everything is made from; of the files of a bag, the manifests hold each other.
void take_what_is_not_made_anew(const PackedBook& packed, const PackageNote& note, const fs::path& folder,
                                AnewComparer& comparer) {
  const Result<std::vector<PackedInput>> inputs = inputs_of(packed.opened->book, folder / packed_rules);
  if (inputs) {
    for (const PackedInput& input : *inputs) comparer.has(input.name);
  }
  for (const std::string_view name : {declaration_file, manifest_file, tag_manifest_file}) comparer.may_have(name);
  if (!note.is_signed) return;
  for (const std::string_view name : {signer_file, signature_file}) comparer.may_have(name);
}

}  // namespace

void say(Surroundings& surroundings, std::string_view about, const std::string& text) {
  surroundings.out << about << std::string(about.size() < 12 ? 12 - about.size() : 1, ' ') << text << '\n';
}

std::optional<Anew> judged_anew(const fs::path& folder, const BagCheck& bag, const PackageNote& note, unsigned threads,
                                Surroundings& surroundings) {
  Surroundings told_as_results{surroundings.out,   surroundings.out,    false, false, surroundings.now,
                               surroundings.share, surroundings.version};
  const std::optional<PackedBook> packed = open_packed(folder, note, threads, told_as_results);
  if (!packed) {
    say(surroundings, "results", "could not be worked out anew");
    return std::nullopt;
  }
  AnewComparer comparer(folder, bag, version_from(note.version).value_or(Version{}), surroundings);
  comparer.anew.samples = packed->totals.samples;
  comparer.anew.altered_packs = packed->altered.size();
  take_what_is_not_made_anew(*packed, note, folder, comparer);
  make_texts(*packed, note, threads,
             [&comparer](const std::string& name, std::string_view text) { comparer.compare(name, text); });
  comparer.compare(std::string(bag_info_file),
                   bag_info_text({note.version, packed->opened->book.settings.title, packed->opened->as_of},
                                 payload_of(folder, bag)));
  const bool same_charts = note.has_charts && ChartComparer(*packed, comparer, surroundings).are_the_same();
  compare_review(*packed, note, same_charts, comparer, surroundings);
  comparer.tell_left_over();
  for (const AlteredPack& pack : packed->altered) {
    say(surroundings, "rules", for_terminal(to_text(pack)) + ":");
    for (const std::string& difference : pack.differences) say(surroundings, "", for_terminal(difference));
  }
  return comparer.anew;
}

}  // namespace driftwarden
