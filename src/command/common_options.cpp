// SPDX-License-Identifier: MIT
#include "command/common_options.hpp"

namespace driftwarden {

void add_paper(CLI::App* command, std::string& paper) {
  command->add_option("--paper", paper, "of the PDF: A4 or letter")->check(CLI::IsMember({"A4", "letter"}));
}

void add_threads(CLI::App* command, unsigned& threads, const char* otherwise) {
  command->add_option("--threads", threads, std::string("threads to use; else ") + otherwise)
      ->check(CLI::Range(1, 256));
}

void add_book(CLI::App* command, BookOptions& options) {
  command->add_option("BOOK", options.book, "folder of the book; else the folder one stands in");
  add_threads(command, options.threads);
}

void add_as_of(CLI::App* command, BookOptions& options) {
  command->add_option("--as-of", options.as_of,
                      "day that stands for today, as in 2026-10-05; decisions made later do not count");
}

}  // namespace driftwarden
