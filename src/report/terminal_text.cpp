// SPDX-License-Identifier: MIT
#include "report/terminal_text.hpp"

#include <algorithm>
#include <iterator>

#include "diagnostic/characters.hpp"
#include "diagnostic/escaped.hpp"
#include "report/paint.hpp"

namespace driftwarden {
namespace {

bool is_line_end_or_tab(std::string_view character) {
  return character == "\n" || character == "\r" || character == "\t";
}

constexpr bool is_plain_on_a_terminal(char c) { return is_printable_ascii(c) || c == '\n' || c == '\t'; }

class SafeBuffer : public std::streambuf {
 public:
  SafeBuffer(std::ostream& behind, bool is_terminal) : behind_(behind), is_terminal_(is_terminal) {}

  std::ostream& behind() { return behind_; }
  bool is_terminal() const { return is_terminal_; }

 protected:
  int_type overflow(int_type character) override {
    if (traits_type::eq_int_type(character, traits_type::eof())) return traits_type::not_eof(character);
    const char c = traits_type::to_char_type(character);
    return xsputn(&c, 1) == 1 ? character : traits_type::eof();
  }
  std::streamsize xsputn(const char* text, std::streamsize count) override {
    waiting_.append(text, static_cast<std::size_t>(count));
    const std::size_t end = waiting_.rfind('\n');
    if (end != std::string::npos) hand_on(end + 1);
    return behind_ ? count : 0;
  }
  int sync() override {
    hand_on(waiting_.size());
    return behind_.flush() ? 0 : -1;
  }

 private:
  void hand_on(std::size_t count) {
    behind_ << safe_text(std::string_view(waiting_).substr(0, count), is_terminal_);
    waiting_.erase(0, count);
  }

  std::ostream& behind_;
  bool is_terminal_;
  std::string waiting_;
};

bool is_unit(std::string_view word) {
  word = word.substr(0, word.find_last_not_of(".,;:)") + 1);
  constexpr std::string_view units[] = {"%", "L/min", "L", "min", "h", "d", "days", "kPa", "K", "°C"};
  return std::find(std::begin(units), std::end(units), word) != std::end(units);
}

// Where the word ends that begins there. A figure and its unit are one.
std::size_t end_of_word(std::string_view text, std::size_t begin) {
  const std::size_t end = std::min(text.find(' ', begin), text.size());
  if (end == text.size() || end == begin || text[end - 1] < '0' || text[end - 1] > '9') return end;
  const std::size_t next = std::min(text.find(' ', end + 1), text.size());
  return is_unit(text.substr(end + 1, next - end - 1)) ? next : end;
}

// Breaks one line, which has no line end, between its words.
std::string folded_line(std::string_view line, std::size_t width) {
  const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
  std::string out(line.substr(0, indent));
  std::size_t column = indent;
  bool has_word = false;
  for (std::size_t at = indent; at < line.size();) {
    const std::size_t word_begin = std::min(line.find_first_not_of(' ', at), line.size());
    const std::size_t word_end = end_of_word(line, word_begin);
    const std::size_t length = word_begin - at + characters_in(line.substr(word_begin, word_end - word_begin));
    if (has_word && column + length > width) {
      out.append("\n").append(indent + 2, ' ').append(line.substr(word_begin, word_end - word_begin));
      column = indent + 2 + length - (word_begin - at);
    } else {
      out.append(line.substr(at, word_end - at));
      column += length;
    }
    has_word = true;
    at = word_end;
  }
  return out;
}

}  // namespace

std::string safe_text(std::string_view text, bool has_colour) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::string_view plain = front_of(text, is_plain_on_a_terminal);
    out += plain;
    text.remove_prefix(plain.size());
    if (text.empty()) break;
    const std::size_t painted = has_colour ? Paint::length_of_command(text) : 0;
    const std::size_t length = painted > 0 ? painted : character_length(text);
    const std::string_view character = text.substr(0, std::max<std::size_t>(length, 1));
    out += painted == 0 && (length == 0 || is_control(character)) ? escaped(character) : std::string(character);
    text.remove_prefix(character.size());
  }
  return out;
}

SafeText::SafeText(std::ostream& behind, bool is_terminal)
    : std::ostream(nullptr), buffer_(std::make_unique<SafeBuffer>(behind, is_terminal)) {
  rdbuf(buffer_.get());
}

SafeText::~SafeText() { flush(); }

std::ostream& exactly(std::ostream& out) {
  auto* safe = dynamic_cast<SafeBuffer*>(out.rdbuf());
  return safe == nullptr || safe->is_terminal() ? out : safe->behind();
}

std::string for_terminal(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::string_view plain = front_of(text, is_printable_ascii);
    out += plain;
    text.remove_prefix(plain.size());
    if (text.empty()) break;
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, length == 0 ? 1 : length);
    text.remove_prefix(character.size());
    if (is_line_end_or_tab(character)) {
      out += ' ';
    } else if (length == 0 || is_control(character)) {
      out += escaped(character);
    } else {
      out += character;
    }
  }
  return out;
}

std::string folded(std::string_view text, std::size_t width) {
  std::string out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    out += folded_line(text.substr(0, end), width);
    if (end < text.size()) out += '\n';
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

std::string wrapped(std::string_view text, std::size_t indent, std::size_t width) {
  std::string out(indent, ' ');
  std::size_t column = indent;
  bool is_empty = true;
  while (!text.empty()) {
    const std::size_t blank = end_of_word(text, 0);
    const std::string_view word = text.substr(0, blank);
    text.remove_prefix(std::min(blank + 1, text.size()));
    const std::size_t length = characters_in(word);
    if (!is_empty && column + 1 + length > width) {
      out.append("\n").append(indent, ' ');
      column = indent;
      is_empty = true;
    }
    if (!is_empty) out += ' ';
    column += length + (is_empty ? 0 : 1);
    out += word;
    is_empty = false;
  }
  out += '\n';
  return out;
}

}  // namespace driftwarden
