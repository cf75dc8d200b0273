// SPDX-License-Identifier: MIT
#include "driftwarden/report/pdf_print.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <vector>

#include "driftwarden/book/timestamp.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr int program_not_found = 127;

Diagnostic no_browser(const std::string& program) {
  return error("print/no-browser", {program, 0, 0}, "the page can't be printed: there is no program " + program,
               "install the package chromium (sudo apt-get install chromium), or leave out --format pdf and print the "
               "page from a browser");
}

Diagnostic failed(const std::string& program, const std::string& why) {
  return error("print/failed", {program, 0, 0}, "the page could not be printed: " + why,
               "install the package chromium-sandbox, which the browser needs where the system lets nobody make "
               "namespaces; or leave out --format pdf and print the page from a browser");
}

std::vector<std::string> words_of(const fs::path& html, const fs::path& pdf, const fs::path& scratch,
                                  const std::string& program) {
  std::vector<std::string> words{program,
                                 "--headless",
                                 "--disable-gpu",
                                 "--disable-quic",
                                 "--disable-sync",
                                 "--no-first-run",
                                 "--disable-background-networking",
                                 "--disable-component-update",
                                 "--hide-scrollbars",
                                 "--no-pdf-header-footer",
                                 "--user-data-dir=" + (scratch / "profile").string(),
                                 "--print-to-pdf=" + fs::absolute(pdf).string()};
  // The browser refuses to shut root in; the page has no script or file but its own.
  if (geteuid() == 0) words.emplace_back("--no-sandbox");
  words.push_back("file://" + fs::absolute(html).string());
  return words;
}

// The environment, but for the time zone: a PDF's dates are then written in UTC.
std::vector<std::string> environment_in_utc() {
  std::vector<std::string> kept{"TZ=UTC"};
  for (char** variable = environ; *variable != nullptr; ++variable) {
    if (!std::string_view(*variable).starts_with("TZ=")) kept.emplace_back(*variable);
  }
  return kept;
}

std::vector<char*> pointers_to(std::vector<std::string>& texts) {
  std::vector<char*> pointers;
  for (std::string& text : texts) pointers.push_back(text.data());
  pointers.push_back(nullptr);
  return pointers;
}

// The error of starting, or 0; then `status` is how the program ended.
int run(std::vector<std::string> words, int& status) {
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  // What it says is of no use: it complains about buses and displays that nobody needs here.
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  std::vector<std::string> environment = environment_in_utc();
  pid_t process = 0;
  const int failure = posix_spawnp(&process, words.front().c_str(), &actions, nullptr, pointers_to(words).data(),
                                   pointers_to(environment).data());
  posix_spawn_file_actions_destroy(&actions);
  if (failure != 0) return failure;
  while (waitpid(process, &status, 0) < 0 && errno == EINTR) {
  }
  return 0;
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

std::string with_dates_of(std::string pdf, Day day) {
  std::string digits = date_text(day);
  std::erase(digits, '-');
  digits += "000000";
  for (const std::string_view key : {"/CreationDate (D:", "/ModDate (D:"}) {
    const std::size_t at = pdf.find(key);
    if (at != std::string::npos && at + key.size() + digits.size() <= pdf.size())
      pdf.replace(at + key.size(), digits.size(), digits);
  }
  return pdf;
}

Diagnostics print_to_pdf(const fs::path& html, const fs::path& pdf, const fs::path& scratch, Day day,
                         const std::string& program) {
  const fs::path printed = scratch / "page.pdf";
  int status = 0;
  const int failure = run(words_of(html, printed, scratch, program), status);
  if (failure == ENOENT || (WIFEXITED(status) && WEXITSTATUS(status) == program_not_found))
    return {no_browser(program)};
  if (failure != 0) return {failed(program, std::strerror(failure))};
  const std::string text = text_of(printed);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0 || !text.starts_with("%PDF"))
    return {failed(program, WIFEXITED(status) ? "it ended with status " + std::to_string(WEXITSTATUS(status))
                                              : "it was ended by signal " + std::to_string(WTERMSIG(status)))};
  std::ofstream file(pdf, std::ios::binary);
  file << with_dates_of(text, day) << std::flush;
  if (file) return {};
  return {error("output/unwritable", {pdf.string(), 0, 0}, "the results could not be written",
                "check the folder, its rights and the room on the disk")};
}

}  // namespace driftwarden
