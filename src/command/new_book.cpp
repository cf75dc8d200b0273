// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>
#include <set>
#include <string>
#include <system_error>
#include <vector>

#include "book/book_table.hpp"
#include "book/time_zone.hpp"
#include "command/example_rows.hpp"
#include "command/new_from.hpp"
#include "command/opened_book.hpp"
#include "outside/scratch_place.hpp"
#include "outside/whole_file.hpp"
#include "outside/whole_folder.hpp"
#include "outside/write_fault.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

struct NewFile {
  std::string name;
  std::string text;
};

constexpr const char* settings_file = "book.toml";

constexpr std::string_view first_settings =
    R"(# A book of air-sampling records. Every file lies beside this one; docs/book.md describes them all.

title     = "A title for this book"
time_zone = "UTC"        # an IANA name such as "Europe/Oslo", or a POSIX TZ string

# Volumes are also given at these conditions.
[reference]
temperature = "25 °C"
pressure    = "101.325 kPa"

# Only where no pressure was read: the standard atmosphere at this altitude is taken, with a remark.
# [site]
# altitude = "350 m"

# How well temperatures and pressures are known: half the width of what is possible. Not said, not counted.
# [uncertainty]
# temperature = "0.5 °C"
# pressure    = "0.3 kPa"
# Between checks that agree the flow is known to 1 %, unless the pump's earlier uses tell, or you say otherwise.
# flow_between = "1 %"

# What samples are judged by: packs shipped with the program by name, your own by file name.
# 'driftwarden rules list' names them, 'driftwarden rules show NAME' prints one.
[rules]
packs = ["common-practice"]

# A rule may be changed for this book, with a reason that is shown wherever it matters.
# [[override]]
# rule   = "common-practice/drift"
# within = "4 %"
# reason = "the client's specification"

# Your own headings, if they differ.
# [headings.readings]
# "Flow LPM" = "reading [L/min]"
)";

// What a new book is made of: the settings, and a file for each table that the owner's own files do not hold; without
// such files, with an example in it.
std::vector<NewFile> first_files(const std::string& settings, const std::set<std::string>& tables_there) {
  std::vector<NewFile> files{{settings_file, settings}};
  for (const BookTable& table : book_tables()) {
    if (table.is_kept_by_few || tables_there.contains(table.name())) continue;
    const std::string rows = tables_there.empty() ? example_rows(*table.spec) : "";
    files.push_back({table.file(), heading_line(*table.spec) + rows});
  }
  return files;
}

int fail(Surroundings& surroundings, const std::string& where, std::string message, std::string hint) {
  return refuse({error("new/refused", {where, 0, 0}, std::move(message), std::move(hint))}, surroundings);
}

Diagnostics write_files(const fs::path& folder, const std::vector<NewFile>& files) {
  for (const NewFile& file : files) {
    const int reason = write_new(folder / file.name, file.text);
    if (reason != 0) return {unwritable(folder / file.name, reason)};
  }
  return {};
}

// Whether this lies there as it is written here: what a run that was killed had moved already.
bool is_ours(const fs::path& file, const std::vector<NewFile>& files) {
  if (file.filename().string().starts_with(ScratchPlace::beginning)) return true;
  return std::any_of(files.begin(), files.end(), [&file](const NewFile& ours) {
    if (ours.name != file.filename() || ours.name == settings_file) return false;
    const Result<HeldFile> text = HeldFile::open(file, ours.name);
    return text && text->bytes() == ours.text;
  });
}

bool holds_nothing_else(const fs::path& folder, const std::vector<NewFile>& files, std::error_code& failure) {
  fs::directory_iterator entry(folder, failure);
  for (; !failure && entry != fs::directory_iterator(); entry.increment(failure)) {
    if (!is_ours(entry->path(), files)) return false;
  }
  return true;
}

// A folder that is there keeps its rights and whoever stands in it: the files are made inside and then moved, the
// settings last, without which it is no book. Where one can't be moved, the others go again; where the run is killed in
// between, the next one finishes the book.
Diagnostics fill(const fs::path& folder, const std::vector<NewFile>& files) {
  const ScratchPlace place(folder);
  if (place.path().empty()) return {unwritable(folder, place.reason())};
  Diagnostics faults = write_files(place.path(), files);
  std::vector<Unfinished> moved;
  for (auto file = files.rbegin(); faults.empty() && file != files.rend(); ++file) {
    moved.emplace_back(folder / file->name);
    faults = move_whole(place.path() / file->name, folder / file->name);
  }
  if (!faults.empty()) return faults;
  for (Unfinished& file : moved) file.keep();
  return {};
}

Diagnostics make(const fs::path& folder, const std::vector<NewFile>& files) {
  Result<WholeFolder> whole = WholeFolder::beside(folder);
  if (!whole) return whole.faults();
  Diagnostics faults = write_files(whole->path(), files);
  return faults.empty() ? whole->put_in_place() : faults;
}

// The settings of a new book in this zone, "" for none known, with what the owner's files need.
std::string settings_for(const std::string& zone, const std::string& more) {
  std::string settings(first_settings);
  constexpr std::string_view usual = "time_zone = \"UTC\"";
  if (!zone.empty()) settings.replace(settings.find(usual), usual.size(), "time_zone = \"" + zone + '"');
  return settings + more;
}

// A zone that can be used, "" for any other.
std::string known_zone(const std::string& zone) {
  const bool is_plain = zone.find_first_of("\"\\") == std::string::npos;
  return !zone.empty() && is_plain && TimeZone::named(zone, {}) ? zone : "";
}

// Whether a book can be made in a folder that is there: one with nothing in it but what is made here, or, from the
// owner's files, one that is no book yet.
bool can_be_filled(const NewOptions& options, const std::vector<NewFile>& files, std::error_code& failure) {
  const fs::path folder = options.folder;
  if (!fs::is_directory(folder, failure)) return false;
  if (options.from.empty()) return holds_nothing_else(folder, files, failure);
  return std::none_of(files.begin(), files.end(), [&folder](const NewFile& file) {
    std::error_code ignored;
    return fs::exists(folder / file.name, ignored);
  });
}

void tell_next(const NewOptions& options, const NewFrom& from, const std::string& zone, std::ostream& out) {
  out << "A new book lies in " << options.folder << ".\n";
  for (const std::string& line : from.told) out << line << '\n';
  if (options.from.empty()) {
    out << "Its rows are an example: see what becomes of them, then write your own in their place.\n"
        << "Next: fill in instruments.csv, certificates.csv, samples.csv and readings.csv, then run\n";
  } else {
    out << "book.toml: times without an offset are read in " << (zone.empty() ? "UTC" : zone)
        << "; say time_zone = … if they are of another.\nNext: look through book.toml, then run\n";
  }
  out << "  driftwarden check " << options.folder << "\n  driftwarden screen " << options.folder << "\n";
}

}  // namespace

int run_new(const NewOptions& options, Surroundings& surroundings) {
  const fs::path folder = options.folder;
  std::error_code failure;
  if (folder.empty())
    return fail(surroundings, "command line", "the new folder has no name", "name the folder to make");
  const NewFrom from = new_from(folder, options.from);
  if (!from.faults.empty()) return refuse(from.faults, surroundings);
  const std::string zone = options.from.empty() ? "" : known_zone(surroundings.time_zone);
  const std::vector<NewFile> files = first_files(settings_for(zone, from.settings), from.tables);
  const bool is_there = fs::exists(folder, failure);
  if (is_there && !can_be_filled(options, files, failure)) {
    return fail(surroundings, options.folder, "something is there already",
                options.from.empty()
                    ? "name a folder that is new or empty"
                    : "name a folder that has no book.toml, and no file of a table that is none of these");
  }
  if (is_there && failure) return refuse({unwritable(folder, failure.value())}, surroundings);
  const Diagnostics faults = is_there ? fill(folder, files) : make(folder, files);
  if (!faults.empty()) return refuse(faults, surroundings);
  tell_next(options, from, zone, surroundings.out);
  return all_is_well;
}

}  // namespace driftwarden
