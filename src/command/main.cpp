// SPDX-License-Identifier: MIT
#include <sys/ioctl.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <new>
#include <string>
#include <system_error>
#include <vector>

#include "command/command_line.hpp"
#include "command/shipped.hpp"
#include "outside/last_words.hpp"
#include "outside/output_stream.hpp"
#include "outside/unfinished.hpp"

namespace {

double steady_seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// As std::cout is, for as long as the stream lives.
class TiedToErrors {
 public:
  explicit TiedToErrors(std::ostream& out) { std::cerr.tie(&out); }
  TiedToErrors(const TiedToErrors&) = delete;
  TiedToErrors& operator=(const TiedToErrors&) = delete;
  ~TiedToErrors() { std::cerr.tie(nullptr); }
};

// The name of the machine's time zone, as it is usually said; "" where it is not.
std::string zone_of_machine() {
  if (const char* said = std::getenv("TZ"); said != nullptr) return said[0] == ':' ? said + 1 : said;
  std::string name;
  std::getline(std::ifstream("/etc/timezone"), name);
  return name;
}

constexpr std::size_t usual_columns = 80;

// As wide as the terminal says it is; where it says nothing, as they usually are.
std::size_t columns_of_terminal() {
  winsize size{};
  return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 ? size.ws_col : usual_columns;
}

// The one place that reads the clock and looks at the streams.
int run(int count, char** words) {
  driftwarden::end_tidily_on_signals();
  driftwarden::have_last_words(driftwarden::cannot_be_used);
  std::ios::sync_with_stdio(false);
  driftwarden::OutputStream out(STDOUT_FILENO);
  const TiedToErrors what_is_told_comes_after_what_was_written(out);
  const auto now =
      std::chrono::duration_cast<std::chrono::seconds>(std::chrono::system_clock::now().time_since_epoch());
  driftwarden::Surroundings surroundings{out,
                                         std::cerr,
                                         isatty(STDOUT_FILENO) != 0,
                                         isatty(STDERR_FILENO) != 0,
                                         now.count(),
                                         driftwarden::shipped_folder(),
                                         driftwarden::program_version(),
                                         steady_seconds,
                                         false,
                                         zone_of_machine(),
                                         columns_of_terminal()};
  return driftwarden::run_command_line({words + 1, words + count}, surroundings);
}

}  // namespace

// Whatever fails where nobody foresaw it ends with one line.
int main(int count, char** words) {
  try {
    return run(count, words);
  } catch (const std::bad_alloc&) {
    driftwarden::tell_no_memory();
  } catch (const std::system_error& failure) {
    if (failure.code() == std::errc::not_enough_memory) {
      driftwarden::tell_no_memory();
    } else {
      std::cerr << "driftwarden: " << failure.what() << '\n';
    }
  } catch (const std::exception& failure) {
    std::cerr << "driftwarden: " << failure.what() << '\n';
  }
  return driftwarden::cannot_be_used;
}
