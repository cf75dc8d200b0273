// SPDX-License-Identifier: MIT
#include "book/xml_walk.hpp"

#include <gtest/gtest.h>

#include "book/written_workbook.hpp"

namespace driftwarden::xml_walk_test {
namespace {

class Told : public XmlHandler {
 public:
  void start(std::string_view name, const XmlAttributes& attributes) override {
    told += "<" + std::string(name) + " " + std::string(attributes("v", "of-ours")) + ">";
  }
  void end(std::string_view name) override { told += "</" + std::string(name) + ">"; }
  void text(std::string_view text) override { told += text; }
  bool is_done() const override { return told.ends_with("</last>"); }

  std::string told;
};

std::string told(const std::string& xml) {
  const std::string bytes = zipped({{"p", xml}});
  const Result<ZippedFile> file = ZippedFile::open(bytes, "f.xlsx");
  Told handler;
  const std::optional<Diagnostic> fault = walk(*file, "p", handler);
  return fault ? fault->message.substr(fault->message.find("'p'")) : handler.told;
}

TEST(XmlWalk, TellsElementsByTheirNamesWithoutPrefix) {
  EXPECT_EQ(told("<n:a xmlns:n='u:of-ours' xmlns:m='u:other' m:v='0' n:v='1'>t&lt;<n:b/></n:a>"),
            "<a 1>t<<b ></b></a>");
}

TEST(XmlWalk, EndsWhenNothingMoreIsWanted) { EXPECT_EQ(told("<a><last/></b>"), "<a ><last ></last>"); }

TEST(XmlWalk, RefusesWhatIsNotWellFormed) {
  EXPECT_EQ(told("<a>"), "'p': no element found in line 1");
  EXPECT_EQ(told("<a></b>"), "'p': mismatched tag in line 1");
  EXPECT_EQ(told("<a>\n\xFF</a>"), "'p': not well-formed (invalid token) in line 2");
}

TEST(XmlWalk, RefusesADocumentTypeAndSoEntities) {
  EXPECT_EQ(told("<!DOCTYPE a [<!ENTITY b 'cc'>]><a>&b;</a>"), "'p': it has a document type, which no workbook needs");
}

TEST(XmlWalk, RefusesWhatLiesTooDeep) {
  std::string open, close;
  for (int i = 0; i < 64; ++i) open += "<a>", close += "</a>";
  EXPECT_NE(told(open + close).find("<a >"), std::string::npos);
  EXPECT_EQ(told("<a>" + open + close + "</a>"), "'p': elements lie too deep in each other");
}

TEST(XmlWalk, RefusesAValueThatNeverEnds) {
  EXPECT_EQ(told("<a v='" + std::string(20000000, 'x') + "'/>"), "'p': a name or value in it never ends");
}

}  // namespace
}  // namespace driftwarden::xml_walk_test
