// SPDX-License-Identifier: MIT
#include "book/xml_tree.hpp"

#include <gtest/gtest.h>

namespace driftwarden::xml_tree_test {
namespace {

std::string fault(const std::string& xml) {
  const Result<XmlElement> tree = xml_tree(xml, "c.xml", "unkept");
  return tree ? "" : to_text(tree.faults().front());
}

TEST(XmlTree, HasNamesResolvedTextsAndPlaces) {
  const XmlElement tree = *xml_tree(
      "<n:a xmlns:n='urn:x' k='1'>s&lt;\n  <b xmlns='urn:y'>t</b>u<n:unkept>long</n:unkept></n:a>", "c.xml", "unkept");
  EXPECT_TRUE(tree.is("urn:x", "a"));
  EXPECT_EQ(tree.attribute("k"), "1");
  EXPECT_EQ(tree.attribute("l"), "");
  EXPECT_EQ(tree.text, "s<\n  u");
  ASSERT_EQ(tree.children.size(), 2U);
  EXPECT_TRUE(tree.children[0].is("urn:y", "b"));
  EXPECT_EQ(tree.children[0].text, "t");
  EXPECT_EQ(tree.children[0].place.line, 2U);
  EXPECT_EQ(tree.children[0].place.column, 3U);
  EXPECT_EQ(tree.children[1].text, "");
}

TEST(XmlTree, IsReadInUtf16) {
  std::string wide = "\xFF\xFE";
  for (const char c : std::string("<a>b</a>")) wide += c, wide += '\0';
  EXPECT_EQ(xml_tree(wide, "c.xml", "")->text, "b");
}

TEST(XmlTree, IsNotMadeOfWhatIsNotSound) {
  const std::string hint = "; ask whoever issued the document for a sound one [xml/unreadable]";
  EXPECT_EQ(fault("<a>\n <b></a>"), "c.xml:2:7: error: it can't be read as XML: mismatched tag" + hint);
  EXPECT_EQ(fault("<a>"), "c.xml:1:4: error: it can't be read as XML: no element found" + hint);
  EXPECT_EQ(fault(""), "c.xml:1:1: error: it can't be read as XML: no element found" + hint);
  EXPECT_EQ(fault("<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>"),
            "c.xml:1:13: error: it can't be read as XML: it has a document type, which may define entities" + hint);
  EXPECT_EQ(fault("<!DOCTYPE a SYSTEM 'http://x.example/'><a/>").substr(0, 10), "c.xml:1:39");
}

TEST(XmlTree, IsOfModerateSize) {
  std::string many = "<a>";
  for (std::size_t i = 0; i + 1 < most_xml_elements; ++i) many += "<b/>";
  EXPECT_EQ(fault(many + "</a>"), "");
  EXPECT_EQ(fault(many + "<b/></a>"),
            "c.xml: error: it holds more than 200,000 elements, or 16 MB of text; take it out of the folder, and write "
            "what counts to a CSV file [xml/too-large]");
  const std::string long_text(most_xml_text, 'x');
  EXPECT_NE(fault("<a>" + long_text + "</a>"), "");
  EXPECT_EQ(fault("<unkept>" + long_text + "</unkept>"), "");
}

}  // namespace
}  // namespace driftwarden::xml_tree_test
