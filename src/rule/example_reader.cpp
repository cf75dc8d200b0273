// SPDX-License-Identifier: MIT
#include "rule/example_reader.hpp"

#include <algorithm>

namespace driftwarden {

namespace {

// An example whose outcome can't be read may be either; that is reported already.
bool may_pass(const Example& example) { return example.gives == "valid" || example.gives.empty(); }

bool may_be_refused(const Example& example) {
  return example.gives == "note" || example.gives == "qualified" || example.gives == "void" || example.gives.empty();
}

class ExampleReader {
 public:
  ExampleReader(const toml::table& table, TomlFile& file, const Rule& rule, bool measure_is_known)
      : reader_(table, file, "an example of rule " + in_quotes(rule.id)),
        file_(file),
        rule_(rule),
        measure_is_known_(measure_is_known) {}

  Example read() {
    example_.place = reader_.place();
    read_given();
    example_.gives = reader_.word_among("gives", example_outcomes(), true);
    example_.says = reader_.text("says");
    reader_.refuse_other_keys();
    return example_;
  }

 private:
  void read_given() {
    const toml::node* node = reader_.require("given", "a measure that is missing is written as given = {}");
    if (node == nullptr) return;
    if (!node->is_table()) {
      reader_.fault("toml/wrong-type", file_.place_of(*node), "'given' is " + std::string(type_of(*node)),
                    R"(write it as { drift = "5 %" })");
      return;
    }
    for (const TomlEntry& entry : entries_of(*node->as_table())) read_one(entry);
  }

  void read_one(const TomlEntry& entry) {
    const std::string name(entry.key->str());
    const auto text = plain_text_of(*entry.value);
    if (!text) return refuse_value(name, *entry.value);
    example_.given.emplace(name, *text);
    if (!measure_is_known_) return;
    auto fault = fault_of_given(rule_, name, *text, file_.place_of(*entry.key));
    if (fault) file_.faults.push_back(*std::move(fault));
  }

  void refuse_value(const std::string& name, const toml::node& node) {
    const std::string hint = node.is_table() ? R"(a name with a dot is quoted, as in { "pre.count" = 3 })" : "";
    reader_.fault("toml/wrong-type", file_.place_of(node),
                  in_quotes(name) + " of " + reader_.what() + " is " + std::string(type_of(node)), hint);
  }

  TableReader reader_;
  TomlFile& file_;
  const Rule& rule_;
  bool measure_is_known_;
  Example example_;
};

}  // namespace

void read_examples(TableReader& reader, TomlFile& file, Rule& rule, bool measure_is_known) {
  for (const toml::table* table : reader.tables("example")) {
    rule.examples.push_back(ExampleReader(*table, file, rule, measure_is_known).read());
  }
  if (std::ranges::none_of(rule.examples, may_pass)) {
    reader.fault("rule/no-example", reader.place(), reader.what() + " has no example that passes",
                 R"(add a [[rule.example]] with gives = "valid")");
  }
  if (std::ranges::none_of(rule.examples, may_be_refused)) {
    reader.fault("rule/no-example", reader.place(), reader.what() + " has no example that doesn't pass",
                 "add a [[rule.example]] just beyond the limit");
  }
}

}  // namespace driftwarden
