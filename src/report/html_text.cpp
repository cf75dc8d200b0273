// SPDX-License-Identifier: MIT
#include "report/html_text.hpp"

#include <cassert>

#include "diagnostic/characters.hpp"
#include "diagnostic/hexadecimal.hpp"

namespace driftwarden {
namespace {

bool is_kept(std::string_view character) { return character == "\n" || character == "\t"; }

// The number of a character of one to four bytes.
unsigned number_of(std::string_view character) {
  constexpr unsigned bits_of_the_first[] = {0x7FU, 0x1FU, 0x0FU, 0x07U};
  unsigned number = static_cast<unsigned char>(character[0]) & bits_of_the_first[character.size() - 1];
  for (const char next : character.substr(1)) number = number << 6U | (static_cast<unsigned char>(next) & 0x3FU);
  return number;
}

void append_number(std::string& out, std::string_view character) {
  out += "[U+";
  append_hexadecimal(out, number_of(character), 4, capital_hexadecimal);
  out += ']';
}

// Written as it is, in a page and everywhere else.
constexpr bool is_plain_in_a_page(char c) {
  return is_printable_ascii(c) && c != '&' && c != '<' && c != '>' && c != '"' && c != '\'';
}

void append_character(std::string& out, std::string_view character) {
  if (character == "&") {
    out += "&amp;";
  } else if (character == "<") {
    out += "&lt;";
  } else if (character == ">") {
    out += "&gt;";
  } else if (character == "\"") {
    out += "&quot;";
  } else if (character == "'") {
    out += "&#39;";
  } else if (is_control(character) && !is_kept(character)) {
    append_number(out, character);
  } else {
    out += character;
  }
}

}  // namespace

void append_html(std::string& out, std::string_view text) {
  while (!text.empty()) {
    const std::string_view plain = front_of(text, is_plain_in_a_page);
    out += plain;
    text.remove_prefix(plain.size());
    if (text.empty()) break;
    const std::size_t length = character_length(text);
    if (length == 0) {
      out += "\xEF\xBF\xBD";
    } else {
      append_character(out, text.substr(0, length));
    }
    text.remove_prefix(length == 0 ? 1 : length);
  }
}

std::string html_of(std::string_view text) {
  std::string out;
  append_html(out, text);
  return out;
}

HtmlText& HtmlText::open(std::string_view tag, Attributes attributes) {
  out_ += '<';
  out_ += tag;
  for (const auto& [name, value] : attributes) {
    out_ += ' ';
    out_ += name;
    out_ += "=\"";
    append_html(out_, value);
    out_ += '"';
  }
  out_ += '>';
  open_.emplace_back(tag);
  return *this;
}

HtmlText& HtmlText::close() {
  assert(!open_.empty());
  out_ += "</" + open_.back() + '>';
  open_.pop_back();
  return *this;
}

HtmlText& HtmlText::text(std::string_view text) {
  append_html(out_, text);
  return *this;
}

HtmlText& HtmlText::from_book(std::string_view text) { return element("bdi", {}, text); }

HtmlText& HtmlText::element(std::string_view tag, Attributes attributes, std::string_view content) {
  return open(tag, attributes).text(content).close();
}

HtmlText& HtmlText::element_from_book(std::string_view tag, Attributes attributes, std::string_view content) {
  return open(tag, attributes).from_book(content).close();
}

HtmlText& HtmlText::line_end() {
  out_ += '\n';
  return *this;
}

HtmlText& HtmlText::markup(std::string_view html) {
  out_ += html;
  return *this;
}

}  // namespace driftwarden
