// SPDX-License-Identifier: MIT
#pragma once

#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include "command/command_line.hpp"
#include "support/book_text.hpp"
#include "support/project_folder.hpp"

namespace driftwarden {

// What a command answered.
struct Called {
  int status = -1;
  std::string out;
  std::string err;
};

// Runs a command as the program would, with the shipped packs of this checkout, at noon UTC of 2026-11-16.
inline Called call(const std::vector<std::string>& arguments, bool out_is_terminal = false) {
  std::ostringstream out;
  std::ostringstream err;
  constexpr Moment noon = 20773 * Moment{86400} + 12 * 3600;
  Surroundings surroundings{out, err, out_is_terminal, false, noon, project_folder(), "0.1.0"};
  const int status = run_command_line(arguments, surroundings);
  return {status, out.str(), err.str()};
}

// A book in a folder of its own, for commands.
class CalledBook {
 public:
  explicit CalledBook(const BookText& text = {}) { text.write(folder_.path()); }
  std::string path() const { return folder_.path().string(); }
  std::string file(const std::string& name) const { return (folder_.path() / name).string(); }

 private:
  ScratchFolder folder_;
};

inline std::string text_of_file(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// The default book judged by one rule of its own: drift within 2 %, which S1 (-2.5 %) doesn't keep.
inline BookText judged_text(const std::string& limit = "2 %") {
  BookText text;
  text.settings += "[rules]\npacks = [\"own.toml\"]\n";
  text.rules =
      "pack = \"own\"\ntitle = \"Own\"\nedition = \"1\"\n"
      "[[rule]]\nid = \"drift\"\nof = \"sample\"\nmeasure = \"drift\"\nwithin = \"" +
      limit +
      "\"\notherwise = \"void\"\n"
      "reason = \"A reason.\"\nsource = \"A source\"\nstanding = \"house\"\n"
      "[[rule.example]]\ngiven = { drift = \"" +
      limit +
      "\" }\ngives = \"valid\"\n"
      "[[rule.example]]\ngiven = { drift = \"-99 %\" }\ngives = \"void\"\n";
  return text;
}

// The same with two calibrations of V1, which make a chart; one point of P1 makes none.
inline BookText charted_text(const std::string& limit = "2 %") {
  BookText text = judged_text(limit);
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min]\n"
      "C0,V1,2025-01-05,2,2,2,2\nC1,V1,2026-01-05,2,2,2,2\nC2,V2,2026-01-05,2,2,,2\n";
  return text;
}

}  // namespace driftwarden
