// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "book/xml_tree.hpp"
#include "record/moment.hpp"

// A digital calibration certificate after the open DCC schema: the parts that are looked for, and its head.
namespace driftwarden {

inline constexpr std::string_view dcc_space = "https://ptb.de/dcc";
inline constexpr std::string_view dsi_space = "https://ptb.de/si";

// The first child, or all, of a name in the DCC's namespace.
const XmlElement* dcc_child(const XmlElement& element, std::string_view name);
std::vector<const XmlElement*> dcc_children(const XmlElement& element, std::string_view name);
// An element's own text without the blanks around it; of "" where there is no element.
std::string plain_text(const XmlElement* element);
// The words of a text, or of an attribute, that blanks part.
std::vector<std::string_view> words_of(std::string_view text);
bool has_ref_type(const XmlElement& element, std::string_view ref_type);
// What a part is called: by its refType, else its name, else its element.
std::string called(const XmlElement& element);

// "dcc/structure": a part of the document is not as it can be understood.
Diagnostic structure_fault(const std::string& file, const XmlElement& at, const std::string& message,
                           const std::string& hint = {});

// What was calibrated.
struct CalibratedItem {
  std::string id;  // by which results may refer to it
  std::string name;
  std::vector<std::string> serials;
};

struct CalibrationDocument {
  std::string version;
  std::string number;
  std::uint32_t line = 0;  // of the number
  std::string laboratory;
  Day calibrated = no_day;
  std::vector<CalibratedItem> items;
  bool has_signature = false;
  const XmlElement* results = nullptr;  // in the document's tree
};

// The head of a certificate of version 3. Faults: dcc/not-a-certificate, dcc/version, dcc/structure.
Result<CalibrationDocument> calibration_document(const XmlElement& root, const std::string& file);

}  // namespace driftwarden
