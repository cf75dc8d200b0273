// SPDX-License-Identifier: MIT
#include "rule/mass_facts.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::mass_facts_test {
namespace {

// input: masses made up for these tests.

MassFact fact(double value, std::uint32_t line = 1, const std::string& pack = "p") {
  return {value, "some mg", "A source", Standing::read, pack, {pack.empty() ? "book.toml" : pack + ".toml", line, 1}};
}

DescribedWord word(Selector of, const std::string& name,
                   std::initializer_list<std::pair<MassFactKind, MassFact>> facts) {
  DescribedWord made{of, name, "T", "S", {}, {}};
  for (const auto& [kind, stated] : facts) made.facts.of(kind) = stated;
  return made;
}

TEST(MassFacts, OfTheBookWinOneByOne) {
  const std::vector<DescribedWord> packs{
      word(Selector::method, "M", {{MassFactKind::quantification, fact(0.1)}, {MassFactKind::loading, fact(2)}})};
  const std::vector<DescribedWord> book{
      word(Selector::method, "M", {{MassFactKind::quantification, fact(0.05, 7, "")}})};
  const auto facts = combine_facts(packs, book);
  ASSERT_TRUE(facts);
  const MassFacts of = facts_of(*facts, "M", "");
  EXPECT_EQ(of.of(MassFactKind::quantification)->value, 0.05);
  EXPECT_EQ(of.of(MassFactKind::quantification)->pack, "");
  EXPECT_EQ(of.of(MassFactKind::loading)->value, 2);
  EXPECT_FALSE(of.of(MassFactKind::blanks));
  EXPECT_FALSE(facts_of(*facts, "N", "").of(MassFactKind::loading));
}

TEST(MassFacts, OfWhatIsAnalysedStandBeforeThoseOfTheMethod) {
  const std::vector<DescribedWord> packs{
      word(Selector::method, "M", {{MassFactKind::quantification, fact(0.1)}, {MassFactKind::loading, fact(2)}}),
      word(Selector::analysis, "quartz", {{MassFactKind::quantification, fact(0.02)}})};
  const auto facts = combine_facts(packs, {});
  EXPECT_EQ(facts_of(*facts, "M", "quartz").of(MassFactKind::quantification)->value, 0.02);
  EXPECT_EQ(facts_of(*facts, "M", "quartz").of(MassFactKind::loading)->value, 2);
  EXPECT_EQ(facts_of(*facts, "M", "dust").of(MassFactKind::quantification)->value, 0.1);
}

TEST(MassFacts, AreRefusedWhereTwoPacksStateThemDifferently) {
  const std::vector<DescribedWord> packs{
      word(Selector::method, "M", {{MassFactKind::loading, fact(2, 4, "a")}, {MassFactKind::blanks, fact(10, 6, "a")}}),
      word(Selector::method, "M",
           {{MassFactKind::loading, fact(1, 8, "b")}, {MassFactKind::blanks, fact(10, 9, "b")}})};
  EXPECT_EQ(lines_of(combine_facts(packs, {}).faults()),
            "b.toml:8:1: error: the loading of method 'M' is not the one at a.toml:4:1; state it in book.toml, which "
            "wins [method/disagreement]\n");
  const std::vector<DescribedWord> book{word(Selector::method, "M", {{MassFactKind::loading, fact(1.5, 2, "")}})};
  EXPECT_EQ(facts_of(*combine_facts(packs, book), "M", "").of(MassFactKind::loading)->value, 1.5);
}

}  // namespace
}  // namespace driftwarden::mass_facts_test
