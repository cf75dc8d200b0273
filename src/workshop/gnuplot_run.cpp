// SPDX-License-Identifier: MIT
#include "workshop/gnuplot_run.hpp"

#include <gnuplot-iostream.h>

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <iterator>
#include <system_error>

#include "outside/output_stream.hpp"
#include "outside/outside_program.hpp"
#include "outside/scratch_place.hpp"
#include "outside/whole_file.hpp"
#include "outside/write_fault.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr const char* script_name = "charts.gp";

// The reason for which no more can be written into a folder, or 0. Neither the library nor gnuplot tells of a full
// disk.
int no_room_in(const fs::path& folder) {
  constexpr std::size_t a_little = std::size_t{64} * 1024;
  const Unfinished probe(folder / "room");
  return write_new(probe.path(), std::string(a_little, ' '));
}

// In file mode (">" before the name) the library writes what gnuplot would have been sent. The reason for which not, or
// 0; the library itself tells none, so it is asked for before anything else is done. Where some of it was written and
// then no more, the library goes on.
int write_script(const std::string& script, const fs::path& file) {
  errno = 0;
  int reason = 0;
  try {
    Gnuplot gnuplot(">" + file.string());
    gnuplot << script << std::flush;
    if (!gnuplot) reason = errno;
  } catch (const std::exception&) {
    reason = errno;
  }
  std::error_code failure;
  if (reason != 0 || fs::file_size(file, failure) == script.size()) return reason;
  reason = no_room_in(file.parent_path());
  return reason != 0 ? reason : EIO;
}

Diagnostic failed(const std::string& program, const std::string& why, const ProgramEnd& end, const fs::path& workshop) {
  if (const int reason = no_room_in(workshop); reason != 0) return unwritable(workshop.parent_path(), reason);
  return error("plot/failed", {program, 0, 0},
               "gnuplot could not draw: " + why + (end.complaint.empty() ? "" : ": " + in_quotes(end.complaint)));
}

// Why a picture can't be used, or "". Every format ends with a word of its own.
std::string why_not_whole(const fs::path& picture) {
  constexpr std::size_t room_for_the_end = 16;
  const std::string name = in_quotes(picture.filename().string());
  std::error_code failure;
  if (!fs::exists(picture, failure) && !failure) return "it drew no picture " + name;
  const Result<HeldFile> text = HeldFile::open(picture, name);
  if (!text) return "the picture " + name + " " + text.faults().front().message;
  const std::string_view bytes = text->bytes();
  const fs::path format = picture.extension();
  const std::string_view last = format == ".svg" ? "</svg>" : format == ".pdf" ? "%%EOF" : "IEND";
  const bool is_whole = bytes.find(last, bytes.size() - std::min(bytes.size(), room_for_the_end)) != bytes.npos;
  return is_whole ? "" : "the picture " + name + " is not whole";
}

// A PDF says when it was made; that is the one thing in which two drawings of the same figures differ.
void forget_the_hour(const fs::path& picture) {
  std::fstream file(picture, std::ios::binary | std::ios::in | std::ios::out);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const std::string key = "/CreationDate (D:";
  const std::size_t at = text.find(key);
  if (at == std::string::npos) return;
  file.clear();
  file.seekp(static_cast<std::streamoff>(at + key.size()));
  file << "19700101000000";
}

}  // namespace

Diagnostics draw_pictures(const std::string& script, const std::vector<std::string>& pictures, const fs::path& folder,
                          const std::string& program) {
  if (pictures.empty()) return {};
  const ScratchPlace place(folder);
  if (place.path().empty()) return {unwritable(folder, place.reason())};
  const fs::path& workshop = place.path();
  if (const int reason = write_script(script, workshop / script_name); reason != 0) return {unwritable(folder, reason)};
  // -d: nobody's own settings are read, neither the user's nor the system's.
  const ProgramEnd end = run_apart({program, {"-d", script_name}, workshop});
  if (!end.is_found) return {no_gnuplot(program)};
  if (!end.is_well()) return {failed(program, end.said(), end, workshop)};
  for (const std::string& picture : pictures) {
    const std::string why = why_not_whole(workshop / picture);
    if (!why.empty()) return {failed(program, why, end, workshop)};
  }
  for (const std::string& picture : pictures) {
    if (picture.ends_with(".pdf")) forget_the_hour(workshop / picture);
    Diagnostics unwritten = move_whole(workshop / picture, folder / picture);
    if (!unwritten.empty()) return unwritten;
  }
  return {};
}

}  // namespace driftwarden
