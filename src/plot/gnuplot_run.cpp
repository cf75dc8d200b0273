// SPDX-License-Identifier: MIT
#include "driftwarden/plot/gnuplot_run.hpp"

#include <gnuplot-iostream.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <system_error>

#include "driftwarden/book/outside_program.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr const char* script_name = "charts.gp";

// A folder beside the pictures for as long as they are being drawn.
class Workshop {
 public:
  explicit Workshop(const fs::path& folder) : path_((fs::absolute(folder) / ".drawing-XXXXXX").string()) {
    if (mkdtemp(path_.data()) == nullptr) path_.clear();
  }
  ~Workshop() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
  }
  Workshop(const Workshop&) = delete;
  Workshop& operator=(const Workshop&) = delete;

  bool is_open() const { return !path_.empty(); }
  fs::path operator/(const std::string& name) const { return fs::path(path_) / name; }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

Diagnostic unwritable(const fs::path& where) {
  return error("plot/unwritable", {where.string(), 0, 0}, "the pictures could not be written",
               "check the folder, its rights and the room on the disk");
}

// In file mode (">" before the name) the library writes what gnuplot would have been sent.
bool is_written(const std::string& script, const fs::path& file) {
  try {
    Gnuplot gnuplot(">" + file.string());
    gnuplot << script << std::flush;
    return gnuplot.good();
  } catch (const std::exception&) {
    return false;
  }
}

Diagnostic no_gnuplot(const std::string& program) {
  return error("plot/no-gnuplot", {program, 0, 0}, "the pictures can't be drawn: there is no program gnuplot",
               "install the package gnuplot-nox (sudo apt-get install gnuplot-nox) and run this again");
}

Diagnostic failed(const std::string& program, const std::string& why, const ProgramEnd& end) {
  return error("plot/failed", {program, 0, 0},
               "gnuplot could not draw: " + why + (end.complaint.empty() ? "" : ": " + in_quotes(end.complaint)));
}

bool is_whole(const fs::path& picture) {
  std::error_code failure;
  const auto size = fs::file_size(picture, failure);
  return !failure && size > 0;
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
  const Workshop workshop(folder);
  if (!workshop.is_open() || !is_written(script, workshop / script_name)) return {unwritable(folder)};
  // -d: nobody's own settings are read, neither the user's nor the system's.
  const ProgramEnd end = run_apart({program, {"-d", script_name}, workshop.path()});
  if (!end.is_found) return {no_gnuplot(program)};
  if (!end.is_well()) return {failed(program, end.said(), end)};
  for (const std::string& picture : pictures) {
    if (!is_whole(workshop / picture)) return {failed(program, "it drew no picture " + in_quotes(picture), end)};
    if (picture.ends_with(".pdf")) forget_the_hour(workshop / picture);
    std::error_code moving;
    fs::rename(workshop / picture, folder / picture, moving);
    if (moving) return {unwritable(folder / picture)};
  }
  return {};
}

}  // namespace driftwarden
