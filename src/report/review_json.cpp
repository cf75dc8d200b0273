// SPDX-License-Identifier: MIT
#include "report/review_json.hpp"

#include "book/stamp_text.hpp"
#include "report/json_text.hpp"
#include "report/review_words.hpp"
#include "verdict/cautions.hpp"
#include "verdict/decision_risk.hpp"

namespace driftwarden {
namespace {

class ReviewWriter {
 public:
  ReviewWriter(const Screening& screening, const Review& review)
      : book_(screening.book()), review_(review), json_(out_), screening_(screening) {}

  std::string all(Day as_of, const std::string& version) {
    json_.begin_object()
        .key("tool")
        .begin_object()
        .member("name", "driftwarden")
        .member("version", version)
        .end_object();
    json_.key("book").begin_object().member("title", book_.settings.title).end_object();
    json_.member("as_of", date_text(as_of)).key("days").begin_object();
    json_.member("from", date_text(review_.period.from)).member("to", date_text(review_.period.to)).end_object();
    json_.member("decision_rule", decision_rule_text(screening_)).member("lead", how_much(review_));
    totals("totals", review_.recent);
    totals("earlier", review_.earlier);
    json_.key("chance").begin_object().member("questions", review_.load.questions);
    json_.member("expected_false_actions", review_.load.expected()).end_object();
    each("actions", review_.actions, [this](const ReviewAction& action) { this->action(action); });
    each("done", review_.done, [this](const NotedAction& action) { noted(action); });
    each("lapsed", review_.lapsed, [this](const NotedAction& action) { noted(action); });
    each("samples", review_.samples, [this](const ReviewedSample& of) { sample(of); });
    each("batches", review_.batches, [this](const ReviewedBatch& of) { batch(of); });
    each("instruments", review_.instruments, [this](const InstrumentStanding& of) { instrument(of); });
    each("unjudged", review_.unjudged, [this](const UnjudgedRule& of) { unjudged(of); });
    json_.member("cautions", cautions).end_object();
    return out_ + '\n';
  }

 private:
  template <class Member, class Write>
  void each(std::string_view name, const std::vector<Member>& members, Write write) {
    json_.key(name).begin_array();
    for (const Member& member : members) {
      out_ += '\n';
      json_.begin_object();
      write(member);
      json_.end_object();
    }
    json_.end_array();
  }

  void text(std::string_view name, std::string_view text) {
    json_.key(name);
    if (text.empty()) {
      json_.null();
    } else {
      json_.value(text);
    }
  }
  void day(std::string_view name, Day day) { text(name, day == no_day ? "" : date_text(day)); }

  void totals(std::string_view name, const Totals& of) {
    json_.key(name).begin_object().member("samples", of.samples).member("valid", of.valid);
    json_.member("qualified", of.qualified).member("undecided", of.undecided).member("void", of.void_);
    json_.member("open", of.open).end_object();
  }

  void about(const ActionKey& key) {
    json_.member("action", to_text(key.kind)).member("about", to_text(key.of)).member("name", key.name);
  }

  void assigned(const Assigned& of) {
    json_.key("assigned");
    if (of.last == nullptr) {
      json_.null();
      return;
    }
    json_.begin_object();
    text("who", of.who);
    day("due", of.due);
    day("done", of.done);
    text("note", of.note);
    json_.member("written_by", of.last->by)
        .member("at", book_.place_text(book_.files.actions, of.last->place))
        .end_object();
  }

  void reasons(const std::vector<Reason>& why) {
    json_.key("why").begin_array();
    for (const Reason& reason : why) {
      json_.begin_object().member("said", reason.said);
      text("rule", reason.rule);
      json_.end_object();
    }
    json_.end_array();
  }

  void action(const ReviewAction& of) {
    about(of.key());
    json_.member("what", of.what);
    reasons(of.why);
    json_.member("recent", of.is_recent);
    day("before", of.by);
    each("touched", of.touched, [this](const TouchedPart& part) {
      json_.member("action", to_text(part.kind)).member("what", part.what);
      reasons(part.why);
      each("members", part.members,
           [this](const Touched& member) { json_.member("about", to_text(member.of)).member("name", member.name); });
    });
    assigned(of.assigned);
  }

  void noted(const NotedAction& of) {
    about(of.key);
    assigned(of.assigned);
    json_.key("part_of");
    if (of.now == nullptr) {
      json_.null();
      return;
    }
    json_.begin_object();
    about(of.now->key());
    json_.end_object();
  }

  void sample(const ReviewedSample& of) {
    json_.member("sample", book_.samples.name[of.sample]).member("verdict", to_text(of.verdict));
    day("day", of.day);
    json_.member("recent", of.is_recent).member("settled", of.is_settled);
  }

  void batch(const ReviewedBatch& of) {
    text("batch", of.name);
    day("first", of.first);
    day("last", of.last);
    json_.member("recent", of.is_recent).member("blanks", of.blanks);
    totals("totals", of.totals);
  }

  void instrument(const InstrumentStanding& of) {
    const Instrument& it = book_.instruments[of.instrument];
    json_.member("instrument", it.name).member("kind", to_text(it.kind)).member("in_service", of.is_in_service);
    text("certificate", of.newest == nullptr ? std::string_view() : of.newest->name);
    day("due", of.due);
    day("last_used", of.use.last_used);
    json_.member("samples_of_these_days", of.use.recent_samples);
  }

  void unjudged(const UnjudgedRule& of) {
    json_.member("rule", screening_.rules().rules[of.rule].full_name()).member("undecided", of.undecided);
    json_.member("passed_over", of.passed_over);
  }

  const Book& book_;
  const Review& review_;
  std::string out_;
  JsonText json_;
  const Screening& screening_;
};

}  // namespace

std::string review_json(const Screening& screening, const Review& review, Day as_of, const std::string& version) {
  return ReviewWriter(screening, review).all(as_of, version);
}

}  // namespace driftwarden
