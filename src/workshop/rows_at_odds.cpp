// SPDX-License-Identifier: MIT
#include "workshop/rows_at_odds.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "book/stamp_text.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "verdict/rules_ahead.hpp"

namespace driftwarden {
namespace {

constexpr Day long_ago_days = 300;  // most slips of a year are found by it; records typed in late are told, too
constexpr Day long_days = 7;        // between a set and its sample, or from start to stop

class Odds {
 public:
  Odds(const BookWithRows& with, const RuleSet& rules, Day as_of)
      : book_(with.book),
        rules_(rules),
        as_of_(as_of),
        came_samples_(with.came_in(book_.files.samples)),
        came_readings_(with.came_in(book_.files.readings)),
        faulty_(with.faulty_rows()) {
    for (const PlannedSample& planned : book_.plan) {
      plan_.emplace(planned.name, &planned);
      if (planned.medium.empty()) continue;
      const auto [known, is_first] = by_medium_.emplace(planned.medium, &planned);
      if (!is_first) known->second = nullptr;  // a kind of filter, and no filter's number
    }
  }

  Diagnostics look() {
    for (Row row = 0; row < book_.samples.size(); ++row) {
      const RowPlace place = book_.samples.place[row];
      if (came_samples_[place.file] != nullptr && !faulty_.contains({book_.files.samples[place.file], place.line}))
        look_at_sample(row, *came_samples_[place.file], place.line);
    }
    for (Row row = 0; row < book_.readings.size(); ++row) {
      const RowPlace place = book_.readings.place[row];
      if (came_readings_[place.file] != nullptr) look_at_reading(row, *came_readings_[place.file], place.line);
    }
    return std::move(odds_);
  }

 private:
  // A row that came, where it stands in the text that would be written.
  struct Here {
    const RowsReceived& rows;
    std::uint32_t line;
    Place at(std::string_view field) const { return rows.cell(line, field); }
  };
  void tell(const char* id, Place place, std::string message, std::string hint) {
    odds_.push_back(remark(id, std::move(place), std::move(message), std::move(hint)));
  }
  void refuse(Place place, std::string message, std::string hint) {
    odds_.push_back(error("receive/refused", std::move(place), std::move(message), std::move(hint)));
  }
  std::string text(const Column<TextId>& column, Row row) const {
    return book_.texts.text(field(column, row, TextId{0}));
  }
  std::string name_of(Row instrument) const { return instrument == no_row ? "" : book_.instruments[instrument].name; }
  std::string shown(Moment at) const { return local_text(at, book_.settings.zone); }
  Day day_of(Moment at) const { return local_day(at, book_.settings.zone); }

  void look_at_sample(Row row, const RowsReceived& rows, std::uint32_t line) {
    const Here here{rows, line};
    look_at_times(row, here);
    if (book_.plan.empty() && book_.faulty_plan.empty()) return;
    const std::string name(book_.samples.name[row]);
    if (const auto planned = plan_.find(name); planned != plan_.end()) {
      hold_against(*planned->second, row, here);
    } else if (const auto faulty = book_.faulty_plan.find(name); faulty != book_.faulty_plan.end()) {
      refuse(here.at("sample"),
             "the sample " + in_quotes(name) + " is planned in " + book_.place_text(book_.files.plan, faulty->second) +
                 ", and that row can't be used",
             "mend the plan first, so that the two can be compared");
    } else {
      not_planned(name, text(book_.samples.batch, row), here);
    }
  }

  // --- the plan ---
  std::string unlike(std::string_view what, const PlannedSample& planned, const std::string& written,
                     const std::string& as_planned) const {
    return "the " + std::string(what) + " of " + in_quotes(planned.name) + " is " +
           (written.empty() ? "not said" : in_quotes(written)) + ", and in " +
           book_.place_text(book_.files.plan, planned.place) + " it is " + in_quotes(as_planned);
  }

  void hold_against(const PlannedSample& planned, Row row, const Here& here) {
    const auto differs = [&](std::string_view what, const std::string& written, const std::string& as_planned) {
      if (!as_planned.empty() && written != as_planned)
        refuse(here.at(what), unlike(what, planned, written, as_planned), "correct the one that is wrong");
    };
    const auto is_unlike = [&](std::string_view what, const std::string& written, const std::string& as_planned,
                               std::string_view column = {}) {
      if (!as_planned.empty() && written != as_planned)
        tell("receive/unlike-plan", here.at(column.empty() ? what : column), unlike(what, planned, written, as_planned),
             "see which of the two is so");
    };
    differs("batch", text(book_.samples.batch, row), planned.batch);
    differs("kind", std::string(to_text(book_.samples.kind[row])), std::string(to_text(planned.kind)));
    differs("pump", name_of(book_.samples.pump[row]), name_of(planned.pump));
    differs("sampler", text(book_.samples.sampler, row), planned.sampler);
    const std::string medium = text(book_.samples.medium, row);
    if (const auto other = by_medium_.find(medium); other != by_medium_.end() && other->second != nullptr &&
                                                    other->second->name != planned.name && medium != planned.medium) {
      refuse(here.at("medium"),
             "the medium of " + in_quotes(planned.name) + " is " + in_quotes(medium) + ", and that is planned for " +
                 in_quotes(other->second->name) + ", " + book_.place_text(book_.files.plan, other->second->place),
             "see which was on which pump, and correct the one that is wrong");
    } else {
      is_unlike("medium", medium, planned.medium);
    }
    const double nominal =
        nominal_flow(rules_, field(book_.samples.nominal_l_min, row), text(book_.samples.sampler, row));
    is_unlike("nominal", flow(nominal), flow(nominal_flow(rules_, planned.nominal_l_min, planned.sampler)));
    is_unlike("method", text(book_.samples.method, row), planned.method);
    is_unlike("analysis", text(book_.samples.analysis, row), planned.analysis);
    const Moment started = book_.samples.started[row];
    if (started != no_moment) is_unlike("day", date_text(day_of(started)), date_text(planned.day), "started");
  }

  static std::string flow(double l_min) { return is_missing(l_min) ? "" : shortest(l_min) + " L/min"; }

  // Of a batch that is planned it may be another sample; a batch that is not planned is told once.
  void not_planned(const std::string& name, const std::string& batch, const Here& here) {
    std::vector<std::string> of_batch;
    for (const PlannedSample& planned : book_.plan) {
      if (planned.batch == batch) of_batch.push_back(planned.name);
    }
    if (!of_batch.empty()) {
      refuse(here.at("sample"),
             "the sample " + in_quotes(name) + " is not among those planned for the batch " + in_quotes(batch),
             did_you_mean(name, of_batch));
    } else if (unplanned_.insert(batch).second) {
      tell("receive/not-planned", here.at(batch.empty() ? "sample" : "batch"),
           batch.empty() ? "the sample " + in_quotes(name) + " is of no batch, and not in the plan"
                         : "the batch " + in_quotes(batch) + " is not in the plan",
           "see that the batch is not spelt wrong; nothing of it was compared with the plan");
    }
  }

  // --- times ---
  void look_at_day(Moment at, const Here& here, std::string_view field) {
    if (at == no_moment) return;
    const Day day = day_of(at);
    if (day > as_of_)
      tell("receive/ahead", here.at(field),
           shown(at) + " lies ahead of " + date_text(as_of_) + ", which stands for today", "look at the date");
    if (as_of_ - day >= long_ago_days)
      tell("receive/long-ago", here.at(field),
           shown(at) + " is " + std::to_string(as_of_ - day) + " days before " + date_text(as_of_), "look at the year");
  }

  void look_at_times(Row row, const Here& here) {
    const Moment started = book_.samples.started[row];
    const Moment stopped = book_.samples.stopped[row];
    look_at_day(started, here, "started");
    if (started == no_moment || stopped == no_moment || stopped <= started) return;
    if (day_of(stopped) > as_of_ && day_of(started) <= as_of_) look_at_day(stopped, here, "stopped");
    if (day_of(stopped) - day_of(started) >= long_days)
      tell("receive/out-of-order", here.at("stopped"),
           "the sample " + in_quotes(book_.samples.name[row]) + " ran for " +
               counted(static_cast<std::size_t>(day_of(stopped) - day_of(started)), "day", "days"),
           "look at the two dates");
  }

  void look_at_reading(Row row, const RowsReceived& rows, std::uint32_t line) {
    const Here here{rows, line};
    const ReadingTable& all = book_.readings;
    const Row sample = field(all.sample, row, no_row);
    if (all.is_void(row) || all.is_rejected(row) || all.taken[row] == no_moment) return;
    if (!looked_at_.emplace(sample, field(all.pump, row, no_row), all.stage[row], all.taken[row], all.calibrator[row])
             .second)
      return;
    if (sample == no_row) return look_at_day(all.taken[row], here, "taken");
    look_at_order(row, sample, here);
    const auto planned = plan_.find(book_.samples.name[sample]);
    if (planned == plan_.end() || planned->second->calibrator == no_row) return;
    if (planned->second->calibrator != all.calibrator[row])
      tell("receive/unlike-plan", here.at("calibrator"),
           unlike("calibrator", *planned->second, name_of(all.calibrator[row]), name_of(planned->second->calibrator)),
           "see which of the two is so");
  }

  // Where a set lies beside its sample, as far as that is no fault of the row. One that lies as far away as its sample
  // is told of that.
  void look_at_order(Row row, Row sample, const Here& here) {
    const Moment taken = book_.readings.taken[row];
    const Moment started = book_.samples.started[sample];
    const Moment stopped = book_.samples.stopped[sample];
    if (started == no_moment || stopped == no_moment) return look_at_day(taken, here, "taken");
    const std::string of = " of " + in_quotes(book_.samples.name[sample]);
    const Stage stage = book_.readings.stage[row];
    std::string why;
    if (stage == Stage::pre && taken > started) why = "after its start, " + shown(started);
    if (stage == Stage::pre && day_of(started) - day_of(taken) >= long_days)
      why = "long before its start, " + shown(started);
    if (stage == Stage::post && taken < stopped) why = "before its stop, " + shown(stopped);
    if (stage == Stage::post && day_of(taken) - day_of(stopped) >= long_days)
      why = "long after its stop, " + shown(stopped);
    if (!why.empty())
      tell("receive/out-of-order", here.at("taken"),
           "the " + std::string(to_text(stage)) + " reading" + of + " was taken " + shown(taken) + ", " + why,
           "look at the three times, and at the dates");
  }

  const Book& book_;
  const RuleSet& rules_;
  Day as_of_;
  std::vector<const RowsReceived*> came_samples_;
  std::vector<const RowsReceived*> came_readings_;
  std::set<std::pair<std::string, std::uint32_t>> faulty_;  // whose faults are told
  std::map<std::string_view, const PlannedSample*> plan_;
  std::map<std::string_view, const PlannedSample*> by_medium_;
  std::set<std::string> unplanned_;
  std::set<std::tuple<Row, Row, Stage, Moment, Row>> looked_at_;  // one reading of a set speaks for all
  Diagnostics odds_;
};

}  // namespace

Diagnostics rows_at_odds(const BookWithRows& with, const RuleSet& rules, Day as_of) {
  return Odds(with, rules, as_of).look();
}

}  // namespace driftwarden
