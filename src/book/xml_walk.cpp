// SPDX-License-Identifier: MIT
#include "book/xml_walk.hpp"

#include <expat.h>

#include <memory>

namespace driftwarden {
namespace {

constexpr char space_end = '\n';  // between a namespace's address and the name
constexpr int most_depth = 64;
constexpr XML_Index longest_token = 16 << 20;  // a text without any mark-up is given out long before

std::string_view local(std::string_view name) { return name.substr(name.find(space_end) + 1); }

struct Walk {
  XML_Parser parser;
  XmlHandler& handler;
  int depth = 0;
  const char* refused = nullptr;

  void refuse(const char* why) {
    refused = why;
    XML_StopParser(parser, XML_FALSE);
  }
  void stop_if_done() {
    if (handler.is_done()) XML_StopParser(parser, XML_FALSE);
  }
};

void on_start(void* user, const char* name, const char** attributes) {
  Walk& walk = *static_cast<Walk*>(user);
  if (++walk.depth > most_depth) return walk.refuse("elements lie too deep in each other");
  walk.handler.start(local(name), XmlAttributes(attributes));
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
  static_cast<Walk*>(user)->refuse("it has a document type, which no workbook needs");
}

// Why the document can't be read on; "" where it can, or where it need not.
std::string fault_after(Walk& walk, bool is_fed, XML_Index fed) {
  if (walk.refused != nullptr) return walk.refused;
  if (walk.handler.is_done()) return {};
  if (!is_fed) {
    return std::string(XML_ErrorString(XML_GetErrorCode(walk.parser))) + " in line " +
           std::to_string(XML_GetCurrentLineNumber(walk.parser));
  }
  return fed - XML_GetCurrentByteIndex(walk.parser) > longest_token ? "a name or value in it never ends" : "";
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

std::optional<Diagnostic> walk(const ZippedFile& file, const std::string& part, XmlHandler& handler) {
  const std::unique_ptr<XML_ParserStruct, void (*)(XML_Parser)> parser(XML_ParserCreateNS(nullptr, space_end),
                                                                       XML_ParserFree);
  if (parser == nullptr) throw std::bad_alloc();
  Walk state{parser.get(), handler};
  XML_SetUserData(parser.get(), &state);
  XML_SetElementHandler(parser.get(), on_start, on_end);
  XML_SetCharacterDataHandler(parser.get(), on_text);
  XML_SetStartDoctypeDeclHandler(parser.get(), on_document_type);
  std::string fault;
  XML_Index fed = 0;
  const auto feed = [&](std::string_view piece, bool is_last) {
    fed += static_cast<XML_Index>(piece.size());
    const bool is_fed =
        XML_Parse(parser.get(), piece.data(), static_cast<int>(piece.size()), is_last ? 1 : 0) == XML_STATUS_OK;
    fault = fault_after(state, is_fed, fed);
    return fault.empty() && !handler.is_done();
  };
  std::optional<Diagnostic> damage = file.read(part, [&](std::string_view piece) { return feed(piece, false); });
  if (!damage && fault.empty() && !handler.is_done()) feed({}, true);
  if (!damage && !fault.empty())
    damage = unreadable_workbook(file.name(), "its part " + in_quotes(part) + ": " + fault);
  return damage;
}

}  // namespace driftwarden
