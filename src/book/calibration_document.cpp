// SPDX-License-Identifier: MIT
#include "book/calibration_document.hpp"

#include <algorithm>
#include <initializer_list>
#include <optional>

#include "book/plain_text.hpp"
#include "book/timestamp.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view signature_space = "http://www.w3.org/2000/09/xmldsig#";
constexpr std::string_view blanks = " \t\r\n";
constexpr std::size_t date_size = 10;  // "2026-02-03"; an offset may follow, which a day has no use for
constexpr const char* way_out = "ask for one after schema 3, or write its points to a CSV file of certificates";

std::optional<Diagnostic> fault_of_root(const XmlElement& root, const std::string& file) {
  const Place place{file, root.place.line, root.place.column};
  if (root.name != "digitalCalibrationCertificate") {
    return error("dcc/not-a-certificate", place,
                 "it is no digital calibration certificate but a " + in_quotes(root.name),
                 "take it out of the folder certificates");
  }
  if (root.space != dcc_space) {
    return error(
        "dcc/not-a-certificate", place,
        "its namespace is " + in_quotes(root.space) + ", not that of the DCC schema, " + std::string(dcc_space),
        way_out);
  }
  const std::string_view version = root.attribute("schemaVersion");
  if (version.starts_with("3.")) return std::nullopt;
  return error("dcc/version", place,
               "its schema version is " + in_quotes(version) + ", and only version 3 is understood", way_out);
}

// The serial numbers by their refType; without any such, what the manufacturer calls it.
std::vector<std::string> serials_of(const XmlElement& item) {
  std::vector<std::string> by_type;
  std::vector<std::string> by_issuer;
  const XmlElement* all = dcc_child(item, "identifications");
  if (all == nullptr) return {};
  for (const XmlElement* one : dcc_children(*all, "identification")) {
    const std::string value = plain_text(dcc_child(*one, "value"));
    if (value.empty()) continue;
    if (has_ref_type(*one, "basic_serialNumber")) by_type.push_back(value);
    if (plain_text(dcc_child(*one, "issuer")) == "manufacturer") by_issuer.push_back(value);
  }
  return by_type.empty() ? by_issuer : by_type;
}

std::string name_of(const XmlElement& element) {
  const XmlElement* name = dcc_child(element, "name");
  return name == nullptr ? "" : plain_text(dcc_child(*name, "content"));
}

bool bears_signature(const XmlElement& element) {
  return element.is(signature_space, "Signature") ||
         std::any_of(element.children.begin(), element.children.end(), bears_signature);
}

// Finds what must be there, step by step; the first that is not there is told.
class Finder {
 public:
  Finder(const XmlElement& root, const std::string& file) : root_(root), file_(file) {}

  const XmlElement* find(std::initializer_list<std::string_view> path) {
    const XmlElement* at = &root_;
    for (const std::string_view name : path) {
      const XmlElement* next = dcc_child(*at, name);
      if (next == nullptr && !fault_)
        fault_ = structure_fault(file_, *at, "there is no " + in_quotes(name) + " in " + in_quotes(at->name));
      if (next == nullptr) return nullptr;
      at = next;
    }
    return at;
  }
  std::string text(std::initializer_list<std::string_view> path) {
    const XmlElement* element = find(path);
    const std::string text = plain_text(element);
    if (element != nullptr && text.empty() && !fault_)
      fault_ = structure_fault(file_, *element, "nothing stands in " + in_quotes(element->name));
    return text;
  }
  Day day(std::initializer_list<std::string_view> path) {
    const std::string written = text(path);
    const TimeZone utc = TimeZone::utc();
    Day day = no_day;
    const bool is_date = StampReader(utc, DateOrder::iso).read_date(written.substr(0, date_size), day);
    if (!is_date && !fault_)
      fault_ = structure_fault(file_, *find(path), in_quotes(written) + " is no date", "an xs:date, as 2026-02-03");
    return day;
  }
  const std::optional<Diagnostic>& fault() const { return fault_; }

 private:
  const XmlElement& root_;
  const std::string& file_;
  std::optional<Diagnostic> fault_;
};

}  // namespace

const XmlElement* dcc_child(const XmlElement& element, std::string_view name) {
  for (const XmlElement& child : element.children) {
    if (child.is(dcc_space, name)) return &child;
  }
  return nullptr;
}

std::vector<const XmlElement*> dcc_children(const XmlElement& element, std::string_view name) {
  std::vector<const XmlElement*> found;
  for (const XmlElement& child : element.children) {
    if (child.is(dcc_space, name)) found.push_back(&child);
  }
  return found;
}

std::string plain_text(const XmlElement* element) {
  return element == nullptr ? "" : std::string(trimmed(element->text, blanks));
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  for (std::size_t at = text.find_first_not_of(blanks); at != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_of(blanks, at), text.size());
    words.push_back(text.substr(at, end - at));
    at = text.find_first_not_of(blanks, end);
  }
  return words;
}

bool has_ref_type(const XmlElement& element, std::string_view ref_type) {
  const std::vector<std::string_view> types = words_of(element.attribute("refType"));
  return std::find(types.begin(), types.end(), ref_type) != types.end();
}

std::string called(const XmlElement& element) {
  const std::string_view ref_type = element.attribute("refType");
  if (!ref_type.empty()) return std::string(ref_type);
  const std::string name = name_of(element);
  return name.empty() ? element.name : in_quotes(name);
}

Diagnostic structure_fault(const std::string& file, const XmlElement& at, const std::string& message,
                           const std::string& hint) {
  return error("dcc/structure", {file, at.place.line, at.place.column}, message,
               hint.empty() ? "write its points to a CSV file of certificates, and take it out of the folder" : hint);
}

Result<CalibrationDocument> calibration_document(const XmlElement& root, const std::string& file) {
  if (std::optional<Diagnostic> fault = fault_of_root(root, file)) return *std::move(fault);
  Finder finder(root, file);
  CalibrationDocument document;
  document.version = root.attribute("schemaVersion");
  document.number = finder.text({"administrativeData", "coreData", "uniqueIdentifier"});
  document.calibrated = finder.day({"administrativeData", "coreData", "endPerformanceDate"});
  document.laboratory = finder.text({"administrativeData", "calibrationLaboratory", "contact", "name", "content"});
  if (!finder.fault()) document.line = finder.find({"administrativeData", "coreData", "uniqueIdentifier"})->place.line;
  const XmlElement* items = finder.find({"administrativeData", "items"});
  document.results = finder.find({"measurementResults"});
  if (finder.fault()) return *finder.fault();
  for (const XmlElement* item : dcc_children(*items, "item"))
    document.items.push_back({std::string(item->attribute("id")), name_of(*item), serials_of(*item)});
  if (document.items.empty()) return structure_fault(file, *items, "no item is named that was calibrated");
  document.has_signature = bears_signature(root);
  return document;
}

}  // namespace driftwarden
