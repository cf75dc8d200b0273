// SPDX-License-Identifier: MIT
#include "report/inline_svg.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <new>
#include <pugixml.hpp>

#include "report/html_text.hpp"

namespace driftwarden {
namespace {

constexpr std::array<std::string_view, 9> drawing_elements{"g",      "path",    "use",      "text", "rect",
                                                           "circle", "polygon", "polyline", "tspan"};
constexpr std::array<std::string_view, 15> drawing_attributes{"d",
                                                              "x",
                                                              "y",
                                                              "width",
                                                              "height",
                                                              "cx",
                                                              "cy",
                                                              "r",
                                                              "points",
                                                              "transform",
                                                              "stroke-width",
                                                              "stroke-dasharray",
                                                              "stroke-linejoin",
                                                              "text-anchor",
                                                              "font-size"};
constexpr std::string_view symbol = "gpPt";

template <std::size_t N>
bool is_among(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// The number of a colour like rgb(3, 3, 3); 0: it is no number.
int colour_number(std::string_view colour) {
  if (!colour.starts_with("rgb(")) return 0;
  std::array<int, 3> parts{};
  const char* at = colour.data() + 4;
  const char* end = colour.data() + colour.size();
  for (int& part : parts) {
    while (at < end && (*at == ' ' || *at == ',')) ++at;
    at = std::from_chars(at, end, part).ptr;
  }
  return parts[0] == parts[1] && parts[1] == parts[2] ? parts[0] : 0;
}

class Rewriter {
 public:
  explicit Rewriter(std::string& out) : out_(out) {}

  void children(const pugi::xml_node& node) {
    for (const pugi::xml_node& child : node.children()) {
      if (child.type() == pugi::node_pcdata && is_text(node)) append_html(out_, child.value());
      if (child.type() == pugi::node_element) element(child);
    }
  }

 private:
  static bool is_text(const pugi::xml_node& node) {
    return std::string_view(node.name()) == "text" || std::string_view(node.name()) == "tspan";
  }

  // The ground, in a colour that is no number of the page.
  static bool is_ground(const pugi::xml_node& node) {
    return std::string_view(node.name()) == "rect" && node.attribute("fill") != nullptr &&
           node.attribute("fill").value() != std::string_view("currentColor") &&
           colour_number(node.attribute("fill").value()) == 0;
  }

  // Bars of uncertainty come with a mark in black, which is no colour of the page; the point itself is drawn later.
  static bool is_colourless_mark(const pugi::xml_node& node) {
    return std::string_view(node.name()) == "use" && node.attribute("id") == nullptr &&
           colour_number(node.attribute("color").value()) == 0;
  }

  void element(const pugi::xml_node& node) {
    if (!is_among(drawing_elements, node.name()) || is_ground(node) || is_colourless_mark(node)) return;
    const std::size_t before = out_.size();
    out_ += std::string("<") + node.name();
    std::string classes;
    for (const pugi::xml_attribute& attribute : node.attributes()) take(attribute, classes);
    if (!classes.empty()) out_ += " class=\"" + classes + "\"";
    out_ += '>';
    const std::size_t content = out_.size();
    children(node);
    const bool holds = std::string_view(node.name()) == "g" || is_text(node);
    if (holds && out_.size() == content) {
      out_.resize(before);  // nothing in it
      return;
    }
    out_ += std::string("</") + node.name() + ">";
  }

  void take(const pugi::xml_attribute& attribute, std::string& classes) {
    const std::string_view name = attribute.name();
    const std::string_view value = attribute.value();
    if (name == "stroke" || name == "fill" || name == "color") {
      colour(name, value, classes);
    } else if (name == "xlink:href" && value.starts_with("#" + std::string(symbol))) {
      write("href", value);
    } else if (name == "id" && value.starts_with(symbol)) {
      write("id", value);
    } else if (is_among(drawing_attributes, name)) {
      write(name, value);
    }
  }

  void colour(std::string_view name, std::string_view value, std::string& classes) {
    if (value == "none" || value == "currentColor") return write(name, value);
    const int number = colour_number(value);
    if (number <= 0) return;
    classes += (classes.empty() ? "" : " ") +
               std::string(name == "stroke" ? "s"
                           : name == "fill" ? "f"
                                            : "k") +
               std::to_string(number);
  }

  void write(std::string_view name, std::string_view value) {
    out_ += " " + std::string(name) + "=\"";
    append_html(out_, value);
    out_ += '"';
  }

  std::string& out_;
};

}  // namespace

std::optional<InlineSvg> inline_svg(std::string_view svg, std::string_view label) {
  pugi::xml_document document;
  const pugi::xml_parse_result read = document.load_buffer(svg.data(), svg.size());
  if (read.status == pugi::status_out_of_memory) throw std::bad_alloc();
  if (!read) return std::nullopt;
  const pugi::xml_node root = document.child("svg");
  if (root == nullptr) return std::nullopt;
  InlineSvg made;
  made.symbols = "<svg class=\"symbols\" aria-hidden=\"true\" focusable=\"false\"><defs>";
  Rewriter(made.symbols).children(root.find_node([](const pugi::xml_node& node) {
    return std::string_view(node.name()) == "defs";
  }));
  made.symbols += "</defs></svg>\n";
  made.picture = "<svg role=\"img\" aria-label=\"" + html_of(label) + "\" viewBox=\"" +
                 html_of(root.attribute("viewBox").value()) + "\">";
  Rewriter(made.picture).children(root);
  made.picture += "</svg>";
  return made;
}

std::string without_drawings(std::string_view html) {
  constexpr std::string_view end_of_drawing = "</svg>";
  std::string text;
  for (;;) {
    const std::size_t begin = html.find("<svg");
    const std::size_t end = begin == std::string_view::npos ? begin : html.find(end_of_drawing, begin);
    if (end == std::string_view::npos) return text += html;
    text += html.substr(0, begin);
    text += no_drawing;
    html.remove_prefix(end + end_of_drawing.size());
  }
}

}  // namespace driftwarden
