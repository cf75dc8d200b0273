// SPDX-License-Identifier: MIT
#include "book/xlsx_parts.hpp"

#include <algorithm>
#include <charconv>

namespace driftwarden {
namespace {

constexpr std::size_t most_strings = 5000000;

bool is_yes(std::string_view value) { return value == "1" || value == "true"; }

int style_number(std::string_view digits) {
  int number = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return number;
}

// Which parts a part leads to.
class Relations : public XmlHandler {
 public:
  explicit Relations(std::string_view folder) : folder_(folder) {}
  void start(std::string_view name, const XmlAttributes& attributes) override {
    if (name != "Relationship") return;
    const std::string target(attributes("Target"));
    const std::string part = target.starts_with('/') ? target.substr(1) : std::string(folder_) + target;
    by_id.emplace(attributes("Id"), part);
    const std::string_view type = attributes("Type");
    by_kind.emplace(type.substr(type.rfind('/') + 1), part);
  }
  void end(std::string_view) override {}
  void text(std::string_view) override {}

  std::string of_kind(const std::string& kind) const {
    const auto found = by_kind.find(kind);
    return found == by_kind.end() ? "" : found->second;
  }

  std::map<std::string, std::string> by_id;
  std::map<std::string, std::string> by_kind;

 private:
  std::string_view folder_;
};

class SheetList : public XmlHandler {
 public:
  SheetList(XlsxParts& parts, const Relations& relations) : parts_(parts), relations_(relations) {}
  void start(std::string_view name, const XmlAttributes& attributes) override {
    if (name == "workbookPr") parts_.is_1904 = is_yes(attributes("date1904"));
    if (name == "calcPr") parts_.is_not_worked_out = is_yes(attributes("fullCalcOnLoad"));
    if (name != "sheet") return;
    const std::string_view state = attributes("state");
    const auto part = relations_.by_id.find(std::string(attributes("id", "elationships")));
    if (part == relations_.by_id.end()) return;
    parts_.sheets.push_back({std::string(attributes("name")), !state.empty() && state != "visible", part->second});
  }
  void end(std::string_view) override {}
  void text(std::string_view) override {}

 private:
  XlsxParts& parts_;
  const Relations& relations_;
};

class Styles : public XmlHandler {
 public:
  explicit Styles(std::vector<NumberLook>& looks) : looks_(looks) {}
  void start(std::string_view name, const XmlAttributes& attributes) override {
    if (name == "numFmt") codes_[style_number(attributes("numFmtId"))] = look_of(attributes("formatCode"));
    if (name == "cellXfs") is_of_cells_ = true;
    if (name != "xf" || !is_of_cells_) return;
    const int number = style_number(attributes("numFmtId"));
    const auto own = codes_.find(number);
    looks_.push_back(own == codes_.end() ? built_in_look(number) : own->second);
  }
  void end(std::string_view name) override {
    if (name == "cellXfs") is_of_cells_ = false;
  }
  void text(std::string_view) override {}

 private:
  std::vector<NumberLook>& looks_;
  std::map<int, NumberLook> codes_;
  bool is_of_cells_ = false;
};

class Strings : public XmlHandler {
 public:
  explicit Strings(SharedStrings& strings) : strings_(strings) {}
  void start(std::string_view name, const XmlAttributes&) override {
    if (name == "rPh") ++in_phonetic_;
    is_text_ = name == "t" && in_phonetic_ == 0;
  }
  void end(std::string_view name) override {
    if (name == "rPh") --in_phonetic_;
    if (name == "si") {
      strings_.append(unescaped_xlsx(text_));
      strings_.finish_one();
      text_.clear();
    }
    is_text_ = false;
  }
  void text(std::string_view text) override {
    if (is_text_) text_ += text;
  }
  bool is_done() const override { return strings_.size() > most_strings; }

 private:
  SharedStrings& strings_;
  std::string text_;
  bool is_text_ = false;
  int in_phonetic_ = 0;
};

std::string folder_of(const std::string& part) { return part.substr(0, part.rfind('/') + 1); }

std::string relations_part(const std::string& part) {
  const std::string folder = folder_of(part);
  return folder + "_rels/" + part.substr(folder.size()) + ".rels";
}

std::optional<int> hexadecimal(std::string_view digits) {
  int value = 0;
  const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), value, 16);
  return fault == std::errc{} && end == digits.data() + digits.size() ? std::optional(value) : std::nullopt;
}

void append_utf8(std::string& text, int code) {
  const auto byte = [&text](int value) { text += static_cast<char>(value); };
  if (code < 0x80) return byte(code);
  if (code < 0x800) return byte(0xC0 | (code >> 6)), byte(0x80 | (code & 0x3F));
  byte(0xE0 | (code >> 12)), byte(0x80 | ((code >> 6) & 0x3F)), byte(0x80 | (code & 0x3F));
}

}  // namespace

std::string unescaped_xlsx(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool may_be_one = text[i] == '_' && i + 6 < text.size() && text[i + 1] == 'x' && text[i + 6] == '_';
    const std::optional<int> code = may_be_one ? hexadecimal(text.substr(i + 2, 4)) : std::nullopt;
    const bool is_surrogate = code && *code >= 0xD800 && *code < 0xE000;
    if (!code || is_surrogate) {
      plain += text[i];
      continue;
    }
    if (*code >= 0x20 || *code == '\n' || *code == '\t') append_utf8(plain, *code);
    i += 6;
  }
  return plain;
}

Result<XlsxParts> read_xlsx_parts(const ZippedFile& file) {
  XlsxParts parts;
  Relations roots("");
  if (auto fault = walk(file, "_rels/.rels", roots)) return *std::move(fault);
  const std::string book = roots.of_kind("officeDocument");
  const std::string folder = folder_of(book);
  Relations relations(folder);
  if (auto fault = walk(file, relations_part(book), relations)) return *std::move(fault);
  SheetList list(parts, relations);
  if (auto fault = walk(file, book, list)) return *std::move(fault);
  Styles styles(parts.looks);
  const std::string styles_part = relations.of_kind("styles");
  if (!styles_part.empty()) {
    if (auto fault = walk(file, styles_part, styles)) return *std::move(fault);
  }
  Strings strings(parts.strings);
  const std::string strings_part = relations.of_kind("sharedStrings");
  if (!strings_part.empty()) {
    if (auto fault = walk(file, strings_part, strings)) return *std::move(fault);
  }
  if (strings.is_done()) return too_large_workbook(file.name(), "more than 5,000,000 texts");
  return parts;
}

}  // namespace driftwarden
