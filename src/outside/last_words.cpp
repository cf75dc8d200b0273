// SPDX-License-Identifier: MIT
#include "outside/last_words.hpp"

#include <unistd.h>

#include <array>
#include <atomic>
#include <csignal>
#include <new>
#include <string_view>

#include "outside/unfinished.hpp"

namespace driftwarden {
namespace {

std::atomic<int> status_without_memory{0};

void say(std::string_view words) {
  [[maybe_unused]] const ssize_t written = ::write(STDERR_FILENO, words.data(), words.size());
}

[[noreturn]] void end_without_memory() {
  tell_no_memory();
  remove_all_unfinished();
  ::_exit(status_without_memory);
}

struct FaultSignal {
  int number;
  std::string_view name;
};
constexpr std::array<FaultSignal, 5> fault_signals{
    {{SIGSEGV, "SIGSEGV"}, {SIGBUS, "SIGBUS"}, {SIGFPE, "SIGFPE"}, {SIGILL, "SIGILL"}, {SIGABRT, "SIGABRT"}}};

void end_by_fault(int signal) {
  say("driftwarden: ended by ");
  for (const FaultSignal& fault : fault_signals) {
    if (fault.number == signal) say(fault.name);
  }
  say(", a fault of the program; what it was writing may be left, named .unfinished- or .driftwarden-\n");
  ::signal(signal, SIG_DFL);
  ::raise(signal);  // comes when the handler has returned
}

}  // namespace

void tell_no_memory() {
  static std::atomic_flag is_told = ATOMIC_FLAG_INIT;
  while (is_told.test_and_set()) ::pause();
  say("driftwarden: there is not enough memory for this; use fewer --threads, or split the book\n");
}

void have_last_words(int status) {
  status_without_memory = status;
  std::set_new_handler(end_without_memory);
  struct sigaction action {};
  action.sa_handler = end_by_fault;
  for (const FaultSignal& fault : fault_signals) {
    struct sigaction before {};
    // A sanitizer, which looks for such faults, says more.
    if (::sigaction(fault.number, nullptr, &before) == 0 && before.sa_handler == SIG_DFL)
      ::sigaction(fault.number, &action, nullptr);
  }
}

}  // namespace driftwarden
