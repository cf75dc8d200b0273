// SPDX-License-Identifier: MIT
#include "book/xml_walk.hpp"

#include <expat.h>

#include <algorithm>
#include <cstdint>
#include <memory>
#include <new>

namespace driftwarden {
namespace {

constexpr char space_end = '\n';  // between a namespace's address and the name
constexpr int most_depth = 64;
constexpr const char* never_ends = "a name or value in it never ends";
constexpr std::size_t fed_at_once = std::size_t{1} << 20;
constexpr XML_Index longest_token = 16 << 20;  // a text without any mark-up is given out long before

std::string_view local(std::string_view name) { return name.substr(name.find(space_end) + 1); }
std::string_view space_of(std::string_view name) {
  const std::size_t end = name.find(space_end);
  return end == std::string_view::npos ? std::string_view() : name.substr(0, end);
}

XmlPlace place_of(XML_Parser parser) {
  return {static_cast<std::uint32_t>(XML_GetCurrentLineNumber(parser)),
          static_cast<std::uint32_t>(XML_GetCurrentColumnNumber(parser)) + 1};
}

using Parser = std::unique_ptr<XML_ParserStruct, void (*)(XML_Parser)>;

// One document while it is read.
struct Walk {
  XmlHandler& handler;
  const char* document_type_refused;
  Parser parser{XML_ParserCreateNS(nullptr, space_end), XML_ParserFree};
  int depth = 0;
  const char* refused = nullptr;
  XML_Index fed = 0;
  std::string fault = {};

  Walk(XmlHandler& told, const char* why_no_document_type);
  bool feed(std::string_view piece, bool is_last);  // false: no more is wanted, or can be read

  void refuse(const char* why) {
    refused = why;
    XML_StopParser(parser.get(), XML_FALSE);
  }
  void stop_if_done() {
    if (handler.is_done()) XML_StopParser(parser.get(), XML_FALSE);
  }
};

void on_start(void* user, const char* name, const char** attributes) {
  Walk& walk = *static_cast<Walk*>(user);
  if (++walk.depth > most_depth) return walk.refuse("elements lie too deep in each other");
  walk.handler.start(local(name), XmlAttributes(attributes, space_of(name), walk.parser.get()));
  walk.stop_if_done();
}

void on_end(void* user, const char* name) {
  Walk& walk = *static_cast<Walk*>(user);
  --walk.depth;
  walk.handler.end(local(name));
  walk.stop_if_done();
}

void on_text(void* user, const char* text, int size) {
  static_cast<Walk*>(user)->handler.text({text, static_cast<std::size_t>(size)});
}

void on_document_type(void* user, const char*, const char*, const char*, int) {
  Walk& walk = *static_cast<Walk*>(user);
  walk.refuse(walk.document_type_refused);
}

// Why the document can't be read on; "" where it can, or where it need not.
std::string fault_after(const Walk& walk, bool is_fed) {
  if (walk.refused != nullptr) return walk.refused;
  if (walk.handler.is_done()) return {};
  if (!is_fed) return XML_ErrorString(XML_GetErrorCode(walk.parser.get()));
  return walk.fed - XML_GetCurrentByteIndex(walk.parser.get()) > longest_token ? never_ends : "";
}

Walk::Walk(XmlHandler& told, const char* why_no_document_type)
    : handler(told), document_type_refused(why_no_document_type) {
  if (parser == nullptr) throw std::bad_alloc();
  XML_SetUserData(parser.get(), this);
  XML_SetElementHandler(parser.get(), on_start, on_end);
  XML_SetCharacterDataHandler(parser.get(), on_text);
  XML_SetStartDoctypeDeclHandler(parser.get(), on_document_type);
}

bool Walk::feed(std::string_view piece, bool is_last) {
  fed += static_cast<XML_Index>(piece.size());
  const bool is_fed =
      XML_Parse(parser.get(), piece.data(), static_cast<int>(piece.size()), is_last ? 1 : 0) == XML_STATUS_OK;
  fault = fault_after(*this, is_fed);
  return fault.empty() && !handler.is_done();
}

}  // namespace

std::string_view XmlAttributes::operator()(std::string_view name, std::string_view space) const {
  for (const char** pair = pairs_; *pair != nullptr; pair += 2) {
    const std::string_view whole = pair[0];
    if (local(whole) != name) continue;
    if (space.empty() || whole.substr(0, whole.size() - name.size()).find(space) != std::string_view::npos)
      return pair[1];
  }
  return {};
}

std::string_view XmlAttributes::without_space(std::string_view name) { return local(name); }

XmlPlace XmlAttributes::place() const { return place_of(static_cast<XML_Parser>(parser_)); }

std::optional<Diagnostic> walk(const ZippedFile& file, const std::string& part, XmlHandler& handler) {
  Walk walk(handler, "it has a document type, which no workbook needs");
  std::optional<Diagnostic> damage = file.read(part, [&](std::string_view piece) { return walk.feed(piece, false); });
  if (!damage && walk.fault.empty() && !handler.is_done()) walk.feed({}, true);
  if (damage || walk.fault.empty()) return damage;
  const bool is_named_by_line = walk.refused == nullptr && walk.fault != never_ends;
  return unreadable_workbook(
      file.name(), "its part " + in_quotes(part) + ": " + walk.fault +
                       (is_named_by_line ? " in line " + std::to_string(place_of(walk.parser.get()).line) : ""));
}

std::optional<XmlFault> walk_text(std::string_view text, XmlHandler& handler) {
  Walk walk(handler, "it has a document type, which may define entities");
  bool goes_on = true;
  for (; goes_on && !text.empty(); text.remove_prefix(std::min(text.size(), fed_at_once)))
    goes_on = walk.feed(text.substr(0, fed_at_once), false);
  if (goes_on) walk.feed({}, true);
  if (walk.fault.empty()) return std::nullopt;
  return XmlFault{walk.fault, place_of(walk.parser.get())};
}

}  // namespace driftwarden
