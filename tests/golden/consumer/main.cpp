// SPDX-License-Identifier: MIT
#include <driftwarden/engine/screened_book.hpp>
#include <iostream>

int main(int, char** words) {
  driftwarden::ScreeningOptions options;
  options.as_of = words[2];
  const driftwarden::ScreenedBook book(words[1], options);
  for (const std::string& name : book.samples()) std::cout << name << ',' << book.judge(name).verdict << '\n';
}
