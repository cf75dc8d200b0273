// SPDX-License-Identifier: MIT
#include "book/toml_guard.hpp"

#include <algorithm>
#include <cstdint>

namespace driftwarden {

namespace {

// Steps through a TOML text far enough to tell brackets and dots from those in strings and comments. It has to be right
// up to the first syntax error only: the library stops there.
class DepthScan {
 public:
  explicit DepthScan(std::string_view text) : text_(text) {}

  // Where the text is nested too deep; npos: nowhere.
  std::size_t too_deep_at() {
    while (at_ < text_.size()) {
      const std::size_t here = at_;
      step();
      if (depth_ > deepest_toml_nesting || dots_ >= most_toml_key_parts) return here;
    }
    return std::string_view::npos;
  }

 private:
  void step() {
    const char c = text_[at_++];
    if (c == '#') return skip_comment();
    if (c == '"' || c == '\'') return skip_string(c);
    if (c == '[' || c == '{') ++depth_;
    if ((c == ']' || c == '}') && depth_ > 0) --depth_;
    if (c == '.') ++dots_;
    if (std::string_view("[{}],=\n").find(c) != std::string_view::npos) dots_ = 0;
  }

  void skip_comment() { at_ = std::min(text_.find('\n', at_), text_.size()); }

  void skip_string(char quote) {
    const std::string three(3, quote);
    if (!text_.substr(at_ - 1).starts_with(three)) return skip_to_end_of_line_or(std::string(1, quote));
    at_ += 2;
    skip_to(three);
    // Up to two quotes more belong to the text of the string: """a""""" ends with the last.
    for (int more = 0; more < 2 && at_ < text_.size() && text_[at_] == quote; ++more) ++at_;
  }

  void skip_to_end_of_line_or(const std::string& end) {
    const std::string_view whole = text_;
    text_ = whole.substr(0, std::min(whole.find('\n', at_), whole.size()));
    skip_to(end);
    text_ = whole;
  }

  // Behind the next `end`; in strings of double quotes a backslash takes the sign after it along.
  void skip_to(const std::string& end) {
    const bool has_escapes = end[0] == '"';
    while (at_ < text_.size() && !text_.substr(at_).starts_with(end)) {
      at_ += has_escapes && text_[at_] == '\\' ? std::size_t{2} : std::size_t{1};
    }
    at_ = std::min(at_ + end.size(), text_.size());
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t depth_ = 0;
  std::size_t dots_ = 0;  // in the key at hand
};

bool starts_a_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }

Place place_of(std::string_view text, std::size_t at, const std::string& file) {
  const std::string_view before = text.substr(0, at);
  const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  const auto line = std::ranges::count(before, '\n') + 1;
  const auto column = std::ranges::count_if(before.substr(line_start), starts_a_character) + 1;
  return {file, static_cast<std::uint32_t>(line), static_cast<std::uint32_t>(column)};
}

}  // namespace

std::optional<Diagnostic> fault_of_size_or_depth(std::string_view text, const std::string& file) {
  if (text.size() > most_toml_bytes) {
    return error("toml/too-large", {file, 0, 0}, "the file has " + std::to_string(text.size()) + " bytes",
                 "at most " + std::to_string(most_toml_bytes) + " are read");
  }
  const std::size_t at = DepthScan(text).too_deep_at();
  if (at == std::string_view::npos) return std::nullopt;
  return error("toml/too-deep", place_of(text, at, file), "brackets or dotted keys are nested too deep",
               "at most " + std::to_string(deepest_toml_nesting) + " brackets and " +
                   std::to_string(most_toml_key_parts) + " parts of a key are read");
}

}  // namespace driftwarden
