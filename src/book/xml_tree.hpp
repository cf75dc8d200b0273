// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/xml_walk.hpp"
#include "diagnostic/result.hpp"

namespace driftwarden {

// An element of a document and all that stands in it. Names are resolved: the namespace's address, and the name without
// a prefix.
struct XmlElement {
  std::string space;
  std::string name;
  std::vector<std::pair<std::string, std::string>> attributes;  // names without prefix
  std::string text;                                             // its own, in one
  std::vector<XmlElement> children;
  XmlPlace place;

  bool is(std::string_view in_space, std::string_view called) const { return name == called && space == in_space; }
  std::string_view attribute(std::string_view called) const;  // "": it has none
};

// A document of moderate size as a tree; of `unkept` elements the text is left out. Faults, at `file` with line and
// column: xml/unreadable (not well-formed, a document type, too deep), xml/too-large (beyond most_xml_elements elements
// or most_xml_text bytes of text).
inline constexpr std::size_t most_xml_elements = 200000;
inline constexpr std::size_t most_xml_text = std::size_t{16} << 20;
Result<XmlElement> xml_tree(std::string_view bytes, const std::string& file, std::string_view unkept);

}  // namespace driftwarden
