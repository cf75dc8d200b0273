// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "book/zipped_file.hpp"

namespace driftwarden {

// Where something stands in a document, both counted from 1; columns in bytes.
struct XmlPlace {
  std::uint32_t line = 0;
  std::uint32_t column = 0;
};

// An element as its start tag has it.
class XmlAttributes {
 public:
  XmlAttributes(const char** pairs, std::string_view space, void* parser)
      : pairs_(pairs), space_(space), parser_(parser) {}
  // By its name without a prefix, in a namespace whose address has this in it; "" where there is none.
  std::string_view operator()(std::string_view name, std::string_view space = {}) const;
  // Calls take(name, value, the address of the name's namespace) for each, names without prefix.
  template <class Take>
  void for_each(Take take) const {
    for (const char** pair = pairs_; *pair != nullptr; pair += 2) {
      const std::string_view whole = pair[0];
      const std::string_view name = without_space(whole);
      take(name, std::string_view(pair[1]), whole.substr(0, whole.size() - name.size()));
    }
  }
  std::string_view space() const { return space_; }  // the address of the element's own namespace
  XmlPlace place() const;

 private:
  static std::string_view without_space(std::string_view name);

  const char** pairs_;
  std::string_view space_;
  void* parser_;
};

// Is told what stands in an XML document, in order. Names come without prefix.
class XmlHandler {
 public:
  virtual ~XmlHandler() = default;
  virtual void start(std::string_view name, const XmlAttributes& attributes) = 0;
  virtual void end(std::string_view name) = 0;
  virtual void text(std::string_view text) = 0;
  // Nothing more is wanted.
  virtual bool is_done() const { return false; }
};

// Reads a part as XML, never holding more of it than a piece. A document type, which might define entities, is refused,
// and so are elements within elements beyond all use. Faults: as ZippedFile::read.
std::optional<Diagnostic> walk(const ZippedFile& file, const std::string& part, XmlHandler& handler);

// The same of a text that is a document of its own.
struct XmlFault {
  std::string what;
  XmlPlace place;
};
std::optional<XmlFault> walk_text(std::string_view text, XmlHandler& handler);

}  // namespace driftwarden
