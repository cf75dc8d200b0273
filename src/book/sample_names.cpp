// SPDX-License-Identifier: MIT
#include "book/sample_names.hpp"

#include <map>
#include <set>

#include "diagnostic/suggestion.hpp"

namespace driftwarden {
SampleIndex index_of_samples(const BookInHand& hand) {
  Book& book = hand.book;
  SampleIndex index(book.samples.size(), SampleNames{&book.samples});
  constexpr Row ahead = 16;
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (row + ahead < book.samples.size()) index.expect(row + ahead);
    const Row first = index.enter(row);
    if (first == no_row) continue;
    const RowPlace place = book.samples.place[row];
    const ProblemNumber number =
        hand.problems.add(error("sample/twice", {book.files.samples[place.file], place.line, 0},
                                "the sample " + in_quotes(book.samples.name[row]) + " stands already in " +
                                    book.place_text(book.files.samples, book.samples.place[first]),
                                "give each sample a name of its own"));
    for (const Row both : {first, row}) {
      if (book.samples.problem[both] == no_problem) book.samples.problem[both] = number;
    }
  }
  return index;
}

void hint_at_samples(const UnknownSamples& unknown, const SampleTable& samples, ProblemList& problems) {
  std::set<std::string> names;
  for (const auto& [name, problem] : unknown) names.insert(name);
  const std::vector<std::string_view> known(samples.name.begin(), samples.name.end());
  const std::map<std::string, std::string> meant = nearest_to_each(names, known);
  for (const auto& [name, problem] : unknown) {
    const auto near = meant.find(name);
    if (near != meant.end() && !near->second.empty())
      problems.set_hint(problem, "did you mean " + in_quotes(near->second) + "?");
  }
}

}  // namespace driftwarden
