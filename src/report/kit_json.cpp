// SPDX-License-Identifier: MIT
#include "report/kit_json.hpp"

#include "book/stamp_text.hpp"
#include "report/json_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

void begin(JsonText& json, const std::string& title, std::string_view version, const std::string& as_of) {
  json.begin_object().key("tool").begin_object().member("name", "driftwarden").member("version", version);
  json.end_object().key("book").begin_object().member("title", title).end_object();
  json.member("as_of", as_of);
}

std::string end(JsonText& json, std::string& out) {
  json.member("cautions", cautions).end_object();
  return std::move(out) + '\n';
}

class KitsWriter {
 public:
  KitsWriter(const Book& book, const KitsOut& kits, Day as_of) : book_(book), kits_(kits), as_of_(as_of) {}

  std::string all(std::string_view version) {
    begin(json_, book_.settings.title, version, date_text(as_of_));
    json_.key("kits").begin_object();
    each("being_put_together", kits_.being_packed, [this](const KitOut& kit) { add(kit); });
    each("out", kits_.out, [this](const KitOut& kit) { add(kit); });
    each("missing", kits_.missing, [this](const Issue* issue) { add_missing(*issue); });
    each("not_fit_to_go", kits_.unfit, [this](const UnfitInstrument& unfit) { add(unfit); });
    json_.text_or_null("not_known", kits_.not_known).end_object().key("kit").null();
    return end(json_, out_);
  }

 private:
  template <class Things, class Add>
  void each(std::string_view name, const Things& things, Add add) {
    json_.key(name).begin_array();
    for (const auto& thing : things) {
      out_ += '\n';
      json_.begin_object();
      add(thing);
      json_.end_object();
    }
    json_.end_array();
  }

  void day(std::string_view name, Day day) { json_.text_or_null(name, day == no_day ? "" : date_text(day)); }

  void instrument(Row row) {
    json_.text_or_null("instrument", row == no_row ? "" : book_.instruments[row].name);
    json_.text_or_null("serial", row == no_row ? "" : book_.instruments[row].serial);
  }

  void whole(const KitOut& kit) {
    json_.member("kit", kit.kit()).member("kind_of_kit", kit.kind);
    day("out", kit.out());
    json_.text_or_null("to", kit.to);
    day("due_back", kit.due_back);
  }

  void add(const KitOut& kit) {
    whole(kit);
    json_.member("days_overdue", static_cast<std::size_t>(kit.overdue_d(as_of_)));
    each("things", kit.things, [this](const Issue* issue) { add(*issue); });
  }

  void add(const Issue& issue) {
    instrument(issue.instrument);
    json_.text_or_null("item", issue.item).key("charged");
    if (issue.charged == YesNo::unsaid) {
      json_.null();
    } else {
      json_.value(issue.charged == YesNo::yes);
    }
    json_.text_or_null("not_fit_because", issue.instrument == no_row ? "" : kits_.why_unfit(issue.instrument));
    json_.member("at", book_.place_text(book_.files.issues, issue.place));
  }

  void add_missing(const Issue& issue) {
    whole(KitOut(issue));
    day("back", issue.back);
    instrument(issue.instrument);
    json_.text_or_null("item", issue.item);
    json_.member("at", book_.place_text(book_.files.issues, issue.place));
  }

  void add(const UnfitInstrument& unfit) {
    instrument(unfit.instrument);
    json_.texts("because", unfit.why).text_or_null("where", unfit.where);
    json_.member("at", book_.place_text(book_.files.instruments, book_.instruments[unfit.instrument].place));
  }

  const Book& book_;
  const KitsOut& kits_;
  Day as_of_;
  std::string out_;
  JsonText json_{out_};
};

void add(JsonText& json, const KitLine& line) {
  json.begin_object().member("item", line.item).member("number", static_cast<std::size_t>(line.number));
  json.member("is_instrument", line.is_instrument).text_or_null("instrument", line.instrument);
  json.text_or_null("serial", line.serial).text_or_null("note", line.note).member("charged", line.is_charged);
  json.text_or_null("came_back", line.came_back).member("missing", line.is_missing);
  json.text_or_null("not_fit_because", line.why_unfit).member("beyond_the_list", line.is_beyond_the_list);
  json.end_object();
}

}  // namespace

std::string kits_json(const Book& book, const KitsOut& kits, Day as_of, std::string_view version) {
  return KitsWriter(book, kits, as_of).all(version);
}

std::string kit_json(const KitSheet& sheet) {
  std::string out;
  JsonText json(out);
  begin(json, sheet.title, sheet.version, sheet.as_of);
  json.key("kits").null().key("kit").begin_object();
  json.text_or_null("kit", sheet.kit).member("kind_of_kit", sheet.kind).text_or_null("to", sheet.to);
  json.text_or_null("out", sheet.out).text_or_null("checked_out_by", sheet.checked_by);
  json.text_or_null("due_back", sheet.due_back).member("days_overdue", static_cast<std::size_t>(sheet.overdue_d));
  json.text_or_null("back", sheet.back).text_or_null("checked_back_by", sheet.checked_back_by);
  json.key("things").begin_array();
  for (const KitLine& line : sheet.lines) {
    out += '\n';
    add(json, line);
  }
  json.end_array().end_object();
  return end(json, out);
}

}  // namespace driftwarden
