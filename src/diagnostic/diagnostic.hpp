// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/place.hpp"

namespace driftwarden {

// error: input that can't be understood; what it touches is not judged.  remark: doubtful input; work goes on.
enum class Severity { error, remark };

std::string_view to_text(Severity severity);

// One thing to tell about the input. `id` is stable and has a paragraph in docs/diagnostics.md.
struct Diagnostic {
  std::string id;  // "room/what", for instance "cell/not-a-number"
  Severity severity = Severity::error;
  Place place;
  std::string message;  // what is wrong with 'the text'
  std::string hint;     // what would be right; may be empty
};

inline bool is_error(const Diagnostic& diagnostic) { return diagnostic.severity == Severity::error; }

using Diagnostics = std::vector<Diagnostic>;

// "file:line:column: error: message; hint [id]"
std::string to_text(const Diagnostic& diagnostic);

Diagnostic error(std::string id, Place place, std::string message, std::string hint = {});
Diagnostic remark(std::string id, Place place, std::string message, std::string hint = {});

// Text of the input as it may stand in a message: control characters as \x.., at most 60 characters, in single quotes.
// Bytes that are no UTF-8, and marks that turn the order of the text round, count as control characters.
// Where <iomanip> is included, a std::string finds std::quoted first, which does not compile as a text.
std::string in_quotes(std::string_view text);

}  // namespace driftwarden
