// SPDX-License-Identifier: MIT
#pragma once

#include <zip.h>

#include <map>
#include <stdexcept>
#include <string>

#include "book/workbook.hpp"
#include "diagnostic/place.hpp"
#include "quantity/number.hpp"

namespace driftwarden {

using Parts = std::map<std::string, std::string>;

// A ZIP file with these parts.
inline std::string zipped(const Parts& parts) {
  zip_source_t* bytes = zip_source_buffer_create(nullptr, 0, 0, nullptr);
  zip_source_keep(bytes);
  zip_t* zip = zip_open_from_source(bytes, ZIP_TRUNCATE, nullptr);
  if (zip == nullptr) throw std::runtime_error("no ZIP file for the test");
  for (const auto& [name, text] : parts)
    zip_file_add(zip, name.c_str(), zip_source_buffer(zip, text.data(), text.size(), 0), ZIP_FL_ENC_UTF_8);
  if (zip_close(zip) != 0) throw std::runtime_error("no ZIP file for the test");
  zip_stat_t about;
  zip_source_stat(bytes, &about);
  std::string file(about.size, '\0');
  zip_source_open(bytes);
  zip_source_read(bytes, file.data(), file.size());
  zip_source_close(bytes);
  zip_source_free(bytes);
  return file;
}

// The parts of an .xlsx file of one sheet, "week 46", by what is in that. Number formats are 1: 0.00 %, 2: a date and
// time, 3: 000, 4: hours and minutes, 5: a duration. Shared texts are 0: a name, 1: two pieces and how they are spoken.
inline Parts xlsx_parts(const std::string& sheet, const std::string& in_book = {}) {
  const std::string of = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const std::string main = " xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";
  const std::string list = "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">";
  const auto relation = [&](const char* id, const char* kind, const char* target) {
    return std::string("<Relationship Id=\"") + id + "\" Type=\"" + of + "/" + kind + "\" Target=\"" + target + "\"/>";
  };
  return {{"_rels/.rels", list + relation("r1", "officeDocument", "xl/workbook.xml") + "</Relationships>"},
          {"xl/_rels/workbook.xml.rels", list + relation("r1", "worksheet", "/xl/worksheets/sheet1.xml") +
                                             relation("r2", "styles", "styles.xml") +
                                             relation("r3", "sharedStrings", "sharedStrings.xml") + "</Relationships>"},
          {"xl/workbook.xml", "<workbook" + main + " xmlns:r=\"" + of + "\">" + in_book +
                                  "<sheets><sheet name=\"week 46\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>"},
          {"xl/styles.xml", "<styleSheet" + main +
                                "><numFmts><numFmt numFmtId=\"164\" formatCode=\"000\"/>"
                                "<numFmt numFmtId=\"165\" formatCode=\"hh:mm\"/></numFmts>"
                                "<cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs><cellXfs><xf numFmtId=\"0\"/>"
                                "<xf numFmtId=\"10\"/><xf numFmtId=\"22\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/>"
                                "<xf numFmtId=\"46\"/></cellXfs></styleSheet>"},
          {"xl/sharedStrings.xml", "<sst" + main +
                                       "><si><t>PUMP-1</t></si><si><r><t>two </t></r><r><t>pieces</t></r>"
                                       "<rPh><t>spoken</t></rPh></si></sst>"},
          {"xl/worksheets/sheet1.xml", "<worksheet" + main + ">" + sheet + "</worksheet>"}};
}

inline std::string xlsx(const std::string& rows, const std::string& in_book = {}) {
  return zipped(xlsx_parts("<sheetData>" + rows + "</sheetData>", in_book));
}

// An .ods file, by what is in its spreadsheet and what stands before that.
inline Parts ods_parts(const std::string& tables, const std::string& styles = {}) {
  const std::string oasis = "urn:oasis:names:tc:opendocument:xmlns:";
  std::string spaces;
  for (const char* name : {"office", "table", "text", "style"})
    spaces += std::string(" xmlns:") + name + "=\"" + oasis + name + ":1.0\"";
  spaces += " xmlns:calcext=\"urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0\"";
  return {{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
          {"content.xml", "<office:document-content" + spaces + "><office:automatic-styles>" + styles +
                              "</office:automatic-styles><office:body><office:spreadsheet>" + tables +
                              "</office:spreadsheet></office:body></office:document-content>"}};
}

inline std::string ods(const std::string& tables, const std::string& styles = {}) {
  return zipped(ods_parts(tables, styles));
}

// Everything that a sheet tells, a line each.
class SeenRows : public SheetRows {
 public:
  bool row(std::uint32_t number, std::span<const SheetCell> cells, bool is_hidden) override {
    text += std::to_string(number) + (is_hidden ? " hidden:" : ":");
    for (const SheetCell& cell : cells) text += ' ' + in_words(cell);
    text += '\n';
    return true;
  }
  void hidden_columns(std::uint32_t first, std::uint32_t last) override {
    text += "columns " + column_letters(first) + " to " + column_letters(last) + " hidden\n";
  }
  void merged(std::string_view range) override { text += "merged " + std::string(range) + '\n'; }

  std::string text;

 private:
  static std::string in_words(const SheetCell& cell) {
    using Kind = SheetCell::Kind;
    const std::string at = column_letters(cell.column) + '=';
    const std::string look =
        "/" + std::to_string(static_cast<int>(cell.look.kind)) + "/" + std::to_string(cell.look.digits);
    switch (cell.kind) {
      case Kind::text:
        return at + '\'' + cell.text + '\'';
      case Kind::number:
        return at + shortest(cell.number) + look;
      case Kind::boolean:
        return at + (cell.number != 0 ? "true" : "false");
      case Kind::moment:
        return at + "moment " + cell.text;
      case Kind::duration:
        return at + "duration " + shortest(cell.number);
      case Kind::error:
        return at + "error " + cell.text;
      case Kind::not_worked_out:
        return at + "not worked out";
    }
    return at;
  }
};

// What the first sheet of a workbook tells, or what is wrong with the workbook.
inline std::string first_sheet(const std::string& bytes) {
  const Result<std::unique_ptr<Workbook>> workbook = open_workbook(bytes, "f.xlsx");
  if (!workbook) return to_text(workbook.faults().front());
  SeenRows rows;
  const std::optional<Diagnostic> fault = (*workbook)->read((*workbook)->sheets().front(), rows);
  return fault ? to_text(*fault) : rows.text;
}

}  // namespace driftwarden
