// SPDX-License-Identifier: MIT
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace driftwarden {

// A text as it may stand in HTML, between tags as well as in a quoted attribute: nothing in it is taken for markup.
// Characters that act instead of showing themselves (controls, marks that turn the direction of the text) are written
// by their numbers, as in [U+202E]; bytes that are no UTF-8 become U+FFFD. Line ends and tabs stay.
void append_html(std::string& out, std::string_view text);
std::string html_of(std::string_view text);

// Writes HTML into a text, element by element. Texts and attributes' values are escaped; nothing else is to come from
// a book.
class HtmlText {
 public:
  using Attributes = std::initializer_list<std::pair<std::string_view, std::string_view>>;

  explicit HtmlText(std::string& out) : out_(out) {}

  HtmlText& open(std::string_view tag, Attributes attributes = {});
  HtmlText& close();  // the element opened last
  HtmlText& text(std::string_view text);
  // A text of the book's, set apart so that its direction doesn't reorder what stands around it.
  HtmlText& from_book(std::string_view text);
  HtmlText& element(std::string_view tag, std::string_view text) { return element(tag, {}, text); }
  HtmlText& element(std::string_view tag, Attributes attributes, std::string_view text);
  HtmlText& element_from_book(std::string_view tag, Attributes attributes, std::string_view text);
  HtmlText& line_end();
  HtmlText& markup(std::string_view html);  // as it is

 private:
  std::string& out_;
  std::vector<std::string> open_;
};

}  // namespace driftwarden
