// SPDX-License-Identifier: MIT
#include "book/xml_tree.hpp"

namespace driftwarden {
namespace {

// Puts the tree together. The elements that are open lie in each other, each the last child of the one before.
class TreeBuilder : public XmlHandler {
 public:
  explicit TreeBuilder(std::string_view unkept) : unkept_(unkept) {}

  void start(std::string_view name, const XmlAttributes& attributes) override {
    if (++elements_ > most_xml_elements) is_too_large_ = true;
    XmlElement element;
    element.space = attributes.space();
    element.name = name;
    element.place = attributes.place();
    attributes.for_each([&](std::string_view called, std::string_view value, std::string_view) {
      element.attributes.emplace_back(called, value);
      count_text(called.size() + value.size());
    });
    count_text(name.size() + element.space.size());
    open_.push_back(std::move(element));
  }
  void end(std::string_view) override {
    XmlElement closed = std::move(open_.back());
    open_.pop_back();
    (open_.empty() ? root_ : open_.back().children.emplace_back()) = std::move(closed);
  }
  void text(std::string_view text) override {
    if (open_.empty() || open_.back().name == unkept_) return;
    count_text(text.size());
    open_.back().text += text;
  }
  bool is_done() const override { return is_too_large_; }

  bool is_too_large() const { return is_too_large_; }
  XmlElement root() { return std::move(root_); }

 private:
  void count_text(std::size_t bytes) {
    text_bytes_ += bytes;
    if (text_bytes_ > most_xml_text) is_too_large_ = true;
  }

  std::string_view unkept_;
  std::vector<XmlElement> open_;
  XmlElement root_;
  std::size_t elements_ = 0;
  std::size_t text_bytes_ = 0;
  bool is_too_large_ = false;
};

}  // namespace

std::string_view XmlElement::attribute(std::string_view called) const {
  for (const auto& [name_of_it, value] : attributes) {
    if (name_of_it == called) return value;
  }
  return {};
}

Result<XmlElement> xml_tree(std::string_view bytes, const std::string& file, std::string_view unkept) {
  TreeBuilder builder(unkept);
  if (const std::optional<XmlFault> fault = walk_text(bytes, builder)) {
    return error("xml/unreadable", {file, fault->place.line, fault->place.column},
                 "it can't be read as XML: " + fault->what, "ask whoever issued the document for a sound one");
  }
  if (builder.is_too_large()) {
    return error("xml/too-large", {file, 0, 0}, "it holds more than 200,000 elements, or 16 MB of text",
                 "take it out of the folder, and write what counts to a CSV file");
  }
  return builder.root();
}

}  // namespace driftwarden
