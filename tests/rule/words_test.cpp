// SPDX-License-Identifier: MIT
#include "rule/words.hpp"

#include <gtest/gtest.h>

#include "rule/judgement.hpp"
#include "rule/rule.hpp"

namespace driftwarden::words_test {
namespace {

template <class E>
void expect_words(std::initializer_list<std::pair<E, std::string_view>> expected) {
  ASSERT_EQ(words<E>().size(), expected.size());
  for (const auto& [value, word] : expected) {
    EXPECT_EQ(word_of(value), word);
    EXPECT_EQ(named<E>(word), value);
  }
}

TEST(Words, OfSubjectsAreThoseAPackWrites) {
  expect_words<Subject>({{Subject::sample, "sample"},
                         {Subject::set, "set"},
                         {Subject::reading, "reading"},
                         {Subject::calibrator, "calibrator"},
                         {Subject::pump, "pump"},
                         {Subject::batch, "batch"},
                         {Subject::result, "result"}});
}

TEST(Words, OfConsequencesAreThoseAPackWrites) {
  expect_words<Otherwise>({{Otherwise::note, "note"}, {Otherwise::qualify, "qualify"}, {Otherwise::void_, "void"}});
  expect_words<Absent>({{Absent::undecided, "undecided"},
                        {Absent::void_, "void"},
                        {Absent::qualify, "qualify"},
                        {Absent::skip, "skip"}});
}

TEST(Words, OfStandingsAndBasesAreThoseAPackWrites) {
  expect_words<Standing>({{Standing::read, "read"},
                          {Standing::common_practice, "common practice"},
                          {Standing::house, "house"},
                          {Standing::memory, "memory"}});
  expect_words<Base>({{Base::by_practice, "practice"},
                      {Base::pre, "pre"},
                      {Base::post, "post"},
                      {Base::mean, "mean"},
                      {Base::nominal, "nominal"}});
}

TEST(Words, OfOutcomesAreThoseOfAFinding) {
  expect_words<Outcome>({{Outcome::met, "met"},
                         {Outcome::note, "note"},
                         {Outcome::qualified, "qualified"},
                         {Outcome::undecided, "undecided"},
                         {Outcome::void_, "void"},
                         {Outcome::skipped, "skipped"}});
}

TEST(Words, UnknownOnesNameNothing) {
  EXPECT_FALSE(named<Otherwise>("Void"));
  EXPECT_FALSE(named<Otherwise>(""));
}

}  // namespace
}  // namespace driftwarden::words_test
