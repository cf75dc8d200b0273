// SPDX-License-Identifier: MIT
#include "rule/word_reader.hpp"

namespace driftwarden {
namespace {

DescribedWord read_word(Selector of, const TomlEntry& entry, TomlFile& file) {
  const std::string kind(to_text(of));
  DescribedWord word{of, std::string(entry.key->str()), {}, {}, file.place_of(*entry.key)};
  check_cell_text(word.word, word.place, file);
  TableReader reader(*entry.value->as_table(), file, kind + " " + in_quotes(word.word));
  word.title = reader.required_text("title", "say what it is, in a line");
  word.source = reader.text("source");
  reader.refuse_other_keys();
  return word;
}

void read_words_of(Selector of, TableReader& reader, TomlFile& file, std::vector<DescribedWord>& words) {
  const toml::table* table = reader.table(to_text(of));
  if (table == nullptr) return;
  for (const TomlEntry& entry : entries_of(*table)) {
    if (entry.value->is_table()) {
      words.push_back(read_word(of, entry, file));
      continue;
    }
    const std::string kind(to_text(of));
    reader.fault("toml/wrong-type", file.place_of(*entry.value),
                 kind + " " + in_quotes(entry.key->str()) + " is " + std::string(type_of(*entry.value)),
                 "write it as [" + kind + ".NAME]");
  }
}

}  // namespace

std::vector<DescribedWord> read_described_words(TableReader& reader, TomlFile& file) {
  std::vector<DescribedWord> words;
  read_words_of(Selector::method, reader, file, words);
  read_words_of(Selector::analysis, reader, file, words);
  return words;
}

}  // namespace driftwarden
