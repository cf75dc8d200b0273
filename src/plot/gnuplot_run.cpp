// SPDX-License-Identifier: MIT
#include "driftwarden/plot/gnuplot_run.hpp"

#include <fcntl.h>
#include <gnuplot-iostream.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>
#include <system_error>

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr const char* script_name = "charts.gp";
constexpr const char* complaints_name = "complaints.txt";
constexpr int program_not_found = 127;

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

// What the process is to find: no input, its words in a file, the drawing folder, plain UTF-8 and the time zone of the
// figures, so that the same script draws the same bytes anywhere.
class SpawnPlan {
 public:
  explicit SpawnPlan(const Workshop& workshop) : complaints_((workshop / complaints_name).string()) {
    posix_spawn_file_actions_init(&actions_);
    posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions_, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions_, STDERR_FILENO, complaints_.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addchdir_np(&actions_, workshop.path().c_str());
    for (char** variable = environ; *variable != nullptr; ++variable) keep(*variable);
    for (const char* set : {"LC_ALL=C.UTF-8", "TZ=UTC"}) kept_.emplace_back(set);
    for (std::string& variable : kept_) environment_.push_back(variable.data());
    environment_.push_back(nullptr);
  }
  ~SpawnPlan() { posix_spawn_file_actions_destroy(&actions_); }
  SpawnPlan(const SpawnPlan&) = delete;
  SpawnPlan& operator=(const SpawnPlan&) = delete;

  // The error of starting, or 0.
  int start(const std::string& program, pid_t& process) {
    std::string name = program;
    std::string script = script_name;
    std::array<char*, 3> words{name.data(), script.data(), nullptr};
    return posix_spawnp(&process, name.c_str(), &actions_, nullptr, words.data(), environment_.data());
  }

 private:
  void keep(std::string_view variable) {
    for (const std::string_view left_out : {"LC_", "LANG", "TZ=", "GNUPLOT", "GNUTERM", "GDFONTPATH"}) {
      if (variable.starts_with(left_out)) return;
    }
    kept_.emplace_back(variable);
  }

  std::string complaints_;
  posix_spawn_file_actions_t actions_{};
  std::vector<std::string> kept_;
  std::vector<char*> environment_;
};

Diagnostic no_gnuplot(const std::string& program) {
  return error("plot/no-gnuplot", {program, 0, 0}, "the pictures can't be drawn: there is no program gnuplot",
               "install the package gnuplot-nox (sudo apt-get install gnuplot-nox) and run this again");
}

// The last line that gnuplot said, for the message.
std::string complaint(const Workshop& workshop) {
  std::ifstream file(workshop / complaints_name);
  std::string last;
  for (std::string line; std::getline(file, line);) {
    if (line.find_first_not_of(" \t^") != std::string::npos) last = line;
  }
  return last;
}

int finished(pid_t process) {
  int status = 0;
  while (waitpid(process, &status, 0) < 0 && errno == EINTR) {
  }
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
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
  pid_t process = 0;
  const int failure = SpawnPlan(workshop).start(program, process);
  if (failure == ENOENT) return {no_gnuplot(program)};
  if (failure != 0)
    return {
        error("plot/failed", {program, 0, 0}, "gnuplot could not be started: " + std::string(std::strerror(failure)))};
  const int status = finished(process);
  if (status == program_not_found) return {no_gnuplot(program)};
  if (status != 0)
    return {error("plot/failed", {program, 0, 0},
                  "gnuplot ended with status " + std::to_string(status) + ": " + in_quotes(complaint(workshop)))};
  for (const std::string& picture : pictures) {
    if (!is_whole(workshop / picture))
      return {error("plot/failed", {program, 0, 0},
                    "gnuplot drew no picture " + in_quotes(picture) + ": " + in_quotes(complaint(workshop)))};
    if (picture.ends_with(".pdf")) forget_the_hour(workshop / picture);
    std::error_code moving;
    fs::rename(workshop / picture, folder / picture, moving);
    if (moving) return {unwritable(folder / picture)};
  }
  return {};
}

}  // namespace driftwarden
