// SPDX-License-Identifier: MIT
#include <algorithm>
#include <optional>
#include <ostream>
#include <set>

#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "command/given_text.hpp"
#include "command/reviewed.hpp"
#include "command/selection.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/rounding.hpp"
#include "report/action_list.hpp"
#include "report/review_words.hpp"
#include "report/terminal_text.hpp"
#include "workshop/grown_table.hpp"

namespace driftwarden {
namespace {

bool says_anything(const ActionsOptions& options) {
  return options.done || options.open || !options.who.empty() || !options.due.empty() || !options.note.empty();
}

// What is to be written down of every action, without the action; nothing (told) where it can't be.
class WrittenDown {
 public:
  WrittenDown(const ActionsOptions& options, const Refuse& refuse, Surroundings& surroundings)
      : options_(options), refuse_(refuse), surroundings_(surroundings) {}

  std::optional<Assignment> row(const Book& book) {
    Assignment row;
    row.written = surroundings_.now;
    row.by = text("--by", options_.by, "name who writes it down", book);
    if (!options_.who.empty()) row.who = text("--who", options_.who, "name who sees to it", book);
    if (!options_.note.empty()) row.note = text("--note", options_.note, "say what there is to say", book);
    if (options_.done || options_.open) row.done = options_.done ? YesNo::yes : YesNo::no;
    if (!options_.due.empty()) {
      const std::optional<Day> due = as_of_day(options_.due, book.settings.zone, surroundings_);
      is_refused_ = is_refused_ || !due;
      if (due) row.due = *due;
    }
    if (is_refused_) return std::nullopt;
    return row;
  }

 private:
  std::string text(const char* option, const std::string& said, const char* hint, const Book& book) {
    const std::optional<std::string> given = text_given({option, said, hint}, refuse_);
    if (given && !is_mark_for_nothing({option, *given, hint}, book, refuse_)) return *given;
    is_refused_ = true;
    return {};
  }

  const ActionsOptions& options_;
  const Refuse& refuse_;
  Surroundings& surroundings_;
  bool is_refused_ = false;
};

// All actions that a review knows of: to be done, done, and lapsed.
std::vector<ActionKey> keys_of(const Review& review) {
  std::vector<ActionKey> keys;
  for (const ReviewAction& action : review.actions) keys.push_back(action.key());
  for (const auto* noted : {&review.done, &review.lapsed}) {
    for (const NotedAction& action : *noted) keys.push_back(action.key);
  }
  return keys;
}

// Finds the actions that are meant.
class ActionsMeant {
 public:
  ActionsMeant(const Book& book, const Review& review, const ActionsOptions& options, const Refuse& refuse)
      : book_(book), review_(review), options_(options), refuse_(refuse), known_(keys_of(review)) {}

  // Nothing (refused) where a name is nobody's, or stands for several.
  std::optional<std::vector<ActionKey>> all(const std::set<TextId>& batches) {
    if (options_.names.empty() && batches.empty() && options_.what.empty()) {
      refuse_("no action is named", "name whom they are about, or a batch with --batch, or a kind with --what");
      return std::nullopt;
    }
    std::vector<ActionKey> meant;
    bool is_refused = !is_kind();
    for (const std::string& name : options_.names) is_refused = !add_named(meant, name) || is_refused;
    if (is_refused) return std::nullopt;
    const std::set<std::string_view> samples = samples_of(batches);
    for (const ActionKey& key : known_) {
      const bool is_of_batch = key.of == ActionSubject::batch && batches.count(book_.texts.find(key.name)) > 0;
      const bool is_of_sample = key.of == ActionSubject::sample && samples.count(key.name) > 0;
      const bool is_of_all = options_.names.empty() && batches.empty();
      if (is_of_kind(key) && (is_of_batch || is_of_sample || is_of_all)) add(meant, key);
    }
    if (!meant.empty()) return meant;
    refuse_("there is no such action", "'driftwarden actions BOOK' lists them");
    return std::nullopt;
  }

 private:
  static void add(std::vector<ActionKey>& meant, const ActionKey& key) {
    if (std::ranges::find(meant, key) == meant.end()) meant.push_back(key);
  }

  bool is_kind() {
    if (options_.what.empty()) return true;
    const auto is_it = [this](std::string_view word) { return heading_key(word) == heading_key(options_.what); };
    if (std::ranges::any_of(action_kind_words, is_it)) return true;
    refuse_("--what is " + in_quotes(options_.what) + ", which is no kind of action",
            did_you_mean(options_.what, std::span<const std::string_view>(action_kind_words)));
    return false;
  }
  bool is_of_kind(const ActionKey& key) const {
    return options_.what.empty() || heading_key(to_text(key.kind)) == heading_key(options_.what);
  }

  bool add_named(std::vector<ActionKey>& meant, const std::string& name) {
    std::vector<ActionKey> found;
    for (const ActionKey& key : known_) {
      if (key.name == name && is_of_kind(key)) add(found, key);
    }
    if (found.size() == 1) return add(meant, found.front()), true;
    if (found.empty()) return refuse_("there is no action about " + in_quotes(name), hint_for(name)), false;
    std::string kinds;
    for (const ActionKey& key : found) kinds += (kinds.empty() ? "" : ", ") + in_quotes(to_text(key.kind));
    refuse_("several actions are about " + in_quotes(name), "say which with --what: " + kinds);
    return false;
  }

  // It may be a part of another, or be spelt otherwise.
  std::string hint_for(const std::string& name) const {
    for (const ReviewAction& action : review_.actions) {
      for (const TouchedPart& part : action.touched) {
        if (std::ranges::any_of(part.members, [&](const Touched& member) { return member.name == name; }))
          return "it is part of " + std::string(to_text(action.kind)) + ": " + name_of(action.key());
      }
    }
    std::vector<std::string> names;
    for (const ActionKey& key : known_) names.push_back(key.name);
    const std::string near = nearest(name, names);
    return near.empty() ? "'driftwarden actions BOOK' lists them" : "did you mean " + in_quotes(near) + "?";
  }

  std::set<std::string_view> samples_of(const std::set<TextId>& batches) const {
    std::set<std::string_view> names;
    for (Row row = 0; !batches.empty() && row < book_.samples.size(); ++row) {
      if (batches.count(field(book_.samples.batch, row, TextId{0})) > 0) names.insert(book_.samples.name[row]);
    }
    return names;
  }

  const Book& book_;
  const Review& review_;
  const ActionsOptions& options_;
  const Refuse& refuse_;
  const std::vector<ActionKey> known_;
};

std::string said_of(const Assignment& row) {
  std::string text = std::string(to_text(row.action.kind)) + ": " + name_of(row.action);
  if (!row.who.empty()) text += "; " + row.who + " sees to it";
  if (row.due != no_day) text += "; by " + date_text(row.due);
  if (row.done != YesNo::unsaid) text += row.done == YesNo::yes ? "; done" : "; not done after all";
  if (!row.note.empty()) text += "; " + row.note;
  return text + '\n';
}

}  // namespace

int run_actions(const ActionsOptions& options, Surroundings& surroundings) {
  const Refuse refuse = [&surroundings](std::string message, std::string hint) {
    tell(surroundings.err, {error("actions/refused", {"command line", 0, 0}, std::move(message), std::move(hint))});
  };
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const Book& book = opened->book;
  tell_doubts(*opened, surroundings);
  const std::optional<WorkedReview> worked = worked_review(*opened, days_of_a_review, surroundings);
  if (!worked) return cannot_be_used;
  if (!says_anything(options)) {
    surroundings.out << safe_text(action_list(worked->review, opened->as_of), false);
    return opened->has_faults() ? cannot_be_used : all_is_well;
  }
  std::optional<Assignment> row = WrittenDown(options, refuse, surroundings).row(book);
  const std::optional<std::set<TextId>> batches = batches_named(book, options.batches, surroundings);
  if (!row || !batches) return cannot_be_used;
  const auto meant = ActionsMeant(book, worked->review, options, refuse).all(*batches);
  if (!meant) return cannot_be_used;
  std::vector<Assignment> written;
  NewRows rows{actions_spec, book.files.actions, {}};
  for (const ActionKey& key : *meant) {
    row->action = key;
    written.push_back(*row);
    rows.cells.push_back(cells_of(*row, book.settings.zone));
  }
  std::vector<std::string> where(written.size(), "would be written");
  if (!options.dry_run) {
    const Result<std::vector<Place>> places = append_rows(book, rows, tells_of_waiting(actions_spec, surroundings));
    if (!places) return driftwarden::refuse(places.faults(), surroundings);
    surroundings.is_done = true;
    for (std::size_t i = 0; i < where.size(); ++i) where[i] = to_text((*places)[i]);
  }
  for (std::size_t i = 0; i < where.size(); ++i)
    surroundings.out << where[i] << ": " << safe_text(said_of(written[i]), false);
  if (options.dry_run) surroundings.out << "nothing was written\n";
  return all_is_well;
}

}  // namespace driftwarden
