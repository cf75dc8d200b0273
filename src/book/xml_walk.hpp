// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "book/zipped_file.hpp"

namespace driftwarden {

// The attributes of an element.
class XmlAttributes {
 public:
  explicit XmlAttributes(const char** pairs) : pairs_(pairs) {}
  // By its name without a prefix, in a namespace whose address has this in it; "" where there is none.
  std::string_view operator()(std::string_view name, std::string_view space = {}) const;

 private:
  const char** pairs_;
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

}  // namespace driftwarden
