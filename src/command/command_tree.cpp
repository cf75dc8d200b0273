// SPDX-License-Identifier: MIT
#include "command/command_tree.hpp"

#include "command/common_options.hpp"
#include "command/completion.hpp"
#include "command/field_commands.hpp"
#include "command/manual_pages.hpp"
#include "evidence/package_note.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t help_width = 108;

constexpr const char* exit_statuses =
    "\nExit status: 0 every sample is valid or qualified; 1 something is void or undecided, and no decision says that\n"
    "it stands; 2 the command or an input could not be used.";

std::string help_foot() { return wrapped(cautions, 0, help_width) + exit_statuses; }

void add_new(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CLI::App* command = app.add_subcommand("new", "write a book to begin with");
  command->add_option("FOLDER", options.fresh.folder, "folder to make")->required();
  command->add_option("--from", options.fresh.from,
                      "files that you have: book.toml then says how they are kept; nothing is written into them");
  command->footer("Example:\n  driftwarden new tunnel-2026\n  driftwarden new . --from samples.csv readings/*.xlsx");
  command->callback([&] { run = [&] { return run_new(options.fresh, surroundings); }; });
}

void add_check(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CLI::App* command = app.add_subcommand("check", "read a book and report every fault; judge nothing");
  add_book(command, options.check.book);
  command->add_flag("--all", options.check.all, "tell every line; else faults with one cause are told once");
  command->footer("Example:\n  driftwarden check docs/demo");
  command->callback([&] { run = [&] { return run_check(options.check, surroundings); }; });
}

void add_screen(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  ScreenOptions& screen = options.screen;
  CLI::App* command = app.add_subcommand("screen", "judge the samples: a verdict for each, and totals");
  add_book(command, screen.book);
  add_as_of(command, screen.book);
  command->add_option("--batch", screen.batches, "only this batch; may be given again")->allow_extra_args(false);
  command->add_option("--sample", screen.samples, "only this sample; may be given again")->allow_extra_args(false);
  command->add_option("--since", screen.since, "only samples started on this day or later");
  command->add_option("--until", screen.until, "only samples started on this day or earlier");
  command
      ->add_option(
          "--format", screen.format,
          "table, csv, json, sarif, or results (CSV, one row for each result of the laboratory); else as --out is "
          "called")
      ->check(CLI::IsMember({"table", "csv", "json", "sarif", "results"}));
  command->add_option("--out", screen.out, "file to write to; else standard output");
  command->footer("Example:\n  driftwarden screen docs/demo --batch TF46B --format csv --out verdicts.csv");
  command->callback([&] { run = [&] { return run_screen(options.screen, surroundings); }; });
}

void add_explain(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CLI::App* command =
      app.add_subcommand("explain", "the whole working of one sample, from the readings to the verdict");
  command->add_option("BOOK", options.explain.book.book, "folder of the book")->required();
  command->add_option("SAMPLE", options.explain.sample, "the sample's name")->required();
  command->add_option("--charts", options.explain.charts,
                      "folder for two pictures of its sampler: cut, and what it does to the mass");
  command->add_option("--format", options.explain.format, "of the pictures: svg, png or pdf")
      ->check(CLI::IsMember({"svg", "png", "pdf"}));
  command->add_option("--theme", options.explain.theme, "of the pictures: light, dark or print")
      ->check(CLI::IsMember({"light", "dark", "print"}));
  add_threads(command, options.explain.book.threads);
  add_as_of(command, options.explain.book);
  command->footer("Example:\n  driftwarden explain docs/demo TF46B-1");
  command->callback([&] { run = [&] { return run_explain(options.explain, surroundings); }; });
}

void add_decide(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  DecideOptions& decide = options.decide;
  CLI::App* command =
      app.add_subcommand("decide", "write down what a responsible person rules about a finding on samples");
  command->add_option("BOOK", decide.book.book, "folder of the book")->required();
  command
      ->add_option("SAMPLE RULE RULING", decide.words,
                   "names of samples; the rule that raised the finding, as reports name it; then uphold (the finding "
                   "holds) or overrule (the sample stands all the same)")
      ->required()
      ->expected(-2);  // or more
  command->add_option("--batch", decide.batches, "besides, the samples of this batch with the finding")
      ->allow_extra_args(false);
  command->add_flag("--all", decide.all, "all samples with the finding");
  command->add_option("--by", decide.by, "who answers for it")->required();
  command->add_option("--reason", decide.reason, "why; it is shown beside the finding")->required();
  command->add_flag("--dry-run", decide.dry_run, "say what would be written, and write nothing");
  add_threads(command, decide.book.threads);
  command->footer(
      "Each decision is added to the book's decisions.csv as one row, with the time of now; no row is ever changed.\n"
      "All are written, or none. With --batch and --all, samples that somebody has ruled on are left as they are.\n"
      "Example:\n  driftwarden decide docs/demo TF46A-2 house/prompt-post-reading uphold --by \"site hygienist\"\n"
      "      --reason \"The pump was read the next morning.\"");
  command->callback([&] { run = [&] { return run_decide(options.decide, surroundings); }; });
}

void add_actions(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  ActionsOptions& actions = options.actions;
  CLI::App* command =
      app.add_subcommand("actions", "the actions of the weekly review, and who sees to them until they are done");
  command->add_option("BOOK", actions.book.book, "folder of the book")->required();
  command->add_option("ABOUT", actions.names, "whom an action is about, as the review names it: several may be given");
  command->add_option("--batch", actions.batches, "besides, the actions about this batch and its samples")
      ->allow_extra_args(false);
  command->add_option("--what", actions.what, "only actions of this kind, as \"Take out of use\"");
  command->add_option("--who", actions.who, "who sees to them");
  command->add_option("--due", actions.due, "by which day, as 2026-11-20");
  CLI::Option* done = command->add_flag("--done", actions.done, "they are done");
  command->add_flag("--open", actions.open, "they are not done after all")->excludes(done);
  command->add_option("--note", actions.note, "what there is to say of it");
  command->add_option("--by", actions.by, "who writes this down");
  command->add_flag("--dry-run", actions.dry_run, "say what would be written, and write nothing");
  add_threads(command, actions.book.threads);
  add_as_of(command, actions.book);
  command->footer(
      "Without anything to write down it lists the actions. What is written is added to the book's actions.csv, a row\n"
      "for each action, with the time of now; no row is ever changed. All are written, or none.\n"
      "Example:\n  driftwarden actions docs/demo PUMP-07 --who \"workshop\" --due 2026-11-20 --by \"site hygienist\"");
  command->callback([&] { run = [&] { return run_actions(options.actions, surroundings); }; });
}

void add_custody(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CustodyOptions& custody = options.custody;
  CLI::App* command = app.add_subcommand("custody", "what goes with a batch to the laboratory, to be signed for");
  add_book(command, custody.book);
  add_as_of(command, custody.book);
  command->add_option("--batch", custody.batch, "the batch")->required();
  command
      ->add_option("--format", custody.format,
                   "table, csv, json, html (a page to print and sign) or pdf, which needs the package chromium; else "
                   "as --out is called")
      ->check(CLI::IsMember({"table", "csv", "json", "html", "pdf"}));
  command->add_option("--out", custody.out, "file to write to; else standard output");
  add_paper(command, custody.paper);
  command->footer("Example:\n  driftwarden custody docs/demo --batch TF46B --format html --out TF46B.html");
  command->callback([&] { run = [&] { return run_custody(options.custody, surroundings); }; });
}

void add_letter(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  LetterOptions& letter = options.letter;
  CLI::App* command =
      app.add_subcommand("letter", "a page in plain words for the client: what stands, what is void and why");
  add_book(command, letter.book);
  add_as_of(command, letter.book);
  CLI::Option* batch = command->add_option("--batch", letter.batch, "the samples of this batch");
  command->add_option("--sample", letter.sample, "this sample alone")->excludes(batch);
  command->add_option("--out", letter.out, "file to write the page to")->required();
  command
      ->add_option("--format", letter.format, "html, or pdf, which needs the package chromium; else as --out is called")
      ->check(CLI::IsMember({"html", "pdf"}));
  add_paper(command, letter.paper);
  command->footer("Example:\n  driftwarden letter docs/demo --batch TF46B --out TF46B-letter.html");
  command->callback([&] {
    if (options.letter.batch.empty() && options.letter.sample.empty()) throw CLI::RequiredError("--batch or --sample");
    run = [&] { return run_letter(options.letter, surroundings); };
  });
}

void add_compare(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CompareOptions& compare = options.compare;
  CLI::App* command = app.add_subcommand("compare", "which verdicts would change under other rules, and by how much");
  command->add_option("BOOK", compare.book.book, "folder of the book")->required();
  command->add_option("--rules", compare.packs, "packs to compare with: shipped ones by name, files ending in .toml");
  command->add_option("--guard", compare.guard, "guard band to compare with, in multiples of U")
      ->check(CLI::Range(0.0, 100.0));
  command->add_option("--format", compare.format, "table, csv or json; else as --out is called")
      ->check(CLI::IsMember({"table", "csv", "json"}));
  command->add_option("--out", compare.out, "file to write to; else standard output");
  add_threads(command, compare.book.threads);
  add_as_of(command, compare.book);
  command->footer(
      "Exit status: 0 no verdict would change; 1 some would; 2 the command or an input could not be used.\n"
      "Example:\n  driftwarden compare docs/demo --guard 1");
  command->callback([&] { run = [&] { return run_compare(options.compare, surroundings); }; });
}

void add_risk(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  RiskOptions& risk = options.risk;
  CLI::App* command = app.add_subcommand(
      "risk", "how many bad samples pass in a year and how many good ones are void, with this fleet");
  add_book(command, risk.book);
  add_as_of(command, risk.book);
  command->add_option("--guard", risk.trial.guard, "guard band to try, in multiples of U; else 1")
      ->check(CLI::Range(0.0, 100.0));
  command->add_option("--more", risk.trial.more, "how many more readings in each set to try; else 2")
      ->check(CLI::Range(0, 100));
  command->add_option("--format", risk.format, "table or json; else as --out is called")
      ->check(CLI::IsMember({"table", "json"}));
  command->add_option("--out", risk.out, "file to write to; else standard output");
  command->footer("Example:\n  driftwarden risk docs/demo --guard 0.5 --more 3");
  command->callback([&] { run = [&] { return run_risk(options.risk, surroundings); }; });
}

void add_history(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  HistoryOptions& history = options.history;
  CLI::App* command =
      app.add_subcommand("history", "charts, trend, forecast and advised recalibration interval of instruments");
  command->add_option("BOOK", history.book.book, "folder of the book; else the folder one stands in");
  command->add_option("INSTRUMENT", history.instruments, "only these instruments; else all");
  command->add_option("--out", history.out, "folder to write to: history.csv, history.json and the pictures")
      ->required();
  command->add_option("--format", history.format, "of the pictures: svg, png or pdf")
      ->check(CLI::IsMember({"svg", "png", "pdf"}));
  command->add_option("--theme", history.theme, "of the pictures: light, dark or print")
      ->check(CLI::IsMember({"light", "dark", "print"}));
  add_threads(command, history.book.threads);
  add_as_of(command, history.book);
  command->footer("Example:\n  driftwarden history docs/demo PUMP-04 --as-of 2026-11-16 --out charts");
  command->callback([&] { run = [&] { return run_history(options.history, surroundings); }; });
}

void add_split(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  SplitOptions& split = options.split;
  CLI::App* command = app.add_subcommand("split", "share a large book out by pump into smaller ones, to screen apart");
  add_book(command, split.book);
  command->add_option("--parts", split.parts, "how many books")->check(CLI::Range(1, 1000))->required();
  command->add_option("--out", split.out, "folder to make for them")->required();
  command->footer("Example:\n  driftwarden split decade --parts 8 --out decade-parts");
  command->callback([&] { run = [&] { return run_split(options.split, surroundings); }; });
}

void add_join(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CLI::App* command = app.add_subcommand("join", "put the results of a split book's parts together again");
  command
      ->add_option("ORDER RESULT", options.join.files, "the file 'order' of the split, then the parts' results as CSV")
      ->required()
      ->expected(-2);  // or more
  command->add_option("--out", options.join.out, "file to write to; else standard output");
  command->footer("Example:\n  driftwarden join decade-parts/order part-1.csv part-2.csv --out decade.csv");
  command->callback([&] { run = [&] { return run_join(options.join, surroundings); }; });
}

void add_lookback(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  LookbackOptions& lookback = options.lookback;
  CLI::App* command = app.add_subcommand(
      "lookback", "a calibrator found out of tolerance: every sample since its last good certificate, judged again");
  command->add_option("BOOK", lookback.book.book, "folder of the book")->required();
  command->add_option("INSTRUMENT", lookback.instrument, "the calibrator's name")->required();
  command->add_option("--certificate", lookback.certificate,
                      "the certificate that found it; else the newest that found it beyond its tolerance");
  command
      ->add_option("--format", lookback.format,
                   "table, csv, json, html (a page to print or to send) or pdf, which needs the package chromium; "
                   "else as --out is called")
      ->check(CLI::IsMember({"table", "csv", "json", "html", "pdf"}));
  command->add_option("--out", lookback.out, "file to write to; else standard output");
  add_paper(command, lookback.paper);
  add_threads(command, lookback.book.threads);
  command->add_option("--as-of", lookback.book.as_of,
                      "only certificates and samples up to this day, as in 2026-11-16; else all in the book");
  command->footer("Example:\n  driftwarden lookback docs/demo ROT-2 --format html --out lookback-rot-2.html");
  command->callback([&] { run = [&] { return run_lookback(options.lookback, surroundings); }; });
}

void add_review(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  ReviewOptions& review = options.review;
  CLI::App* command = app.add_subcommand("review", "the page to go through every week: what needs action, and why");
  add_book(command, review.book);
  add_as_of(command, review.book);
  command->add_option("--days", review.days, "full days before that day to review")->check(CLI::Range(1, 3660));
  command->add_option("--out", review.out, "file to write to; text and json may do without");
  command
      ->add_option(
          "--format", review.format,
          "html; pdf, which needs the package chromium; text, ten lines to send as mail; ics, a calendar of what "
          "falls due; or json; else as --out is called")
      ->check(CLI::IsMember({"html", "pdf", "text", "ics", "json"}));
  add_paper(command, review.paper);
  command->footer("Example:\n  driftwarden review docs/demo --as-of 2026-11-16 --out review.html");
  command->callback([&] {
    const std::string& format = options.review.format;
    if (options.review.out.empty() && format != "text" && format != "json") throw CLI::RequiredError("--out");
    run = [&] { return run_review(options.review, surroundings); };
  });
}

void add_evidence(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  EvidenceOptions& evidence = options.evidence;
  CLI::App* command = app.add_subcommand(
      "evidence", "pack inputs, rules, results and workings into a BagIt folder that can be checked years later");
  add_book(command, evidence.book);
  add_as_of(command, evidence.book);
  command->add_option("--batch", evidence.batches, "only the samples of this batch; may be given again")
      ->allow_extra_args(false);
  command->add_option("--out", evidence.out, "folder to make; never one that is there")->required();
  command->add_option("--sign", evidence.sign, "file with an Ed25519 private key (PEM) to sign the package with");
  command
      ->add_option("--charts", evidence.charts_of,
                   "of which instruments: used (those that the results lean on; so without it), all or none")
      ->check(CLI::IsMember(std::vector<std::string>(std::begin(charts_of_words), std::end(charts_of_words))));
  command->footer(
      std::string("Example:\n  driftwarden evidence docs/demo --batch TF46B --out TF46B --sign signer.key\n\n") +
      help_foot());
  command->callback([&] { run = [&] { return run_evidence(options.evidence, surroundings); }; });
}

void add_verify(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  VerifyOptions& verify = options.verify;
  CLI::App* command = app.add_subcommand(
      "verify", "check every file of an evidence package and its signature, then judge its inputs anew and compare");
  command->add_option("DIR", verify.folder, "folder of the package")->required();
  command->add_option("--key", verify.key, "file with the signer's Ed25519 public key (PEM)");
  add_threads(command, verify.threads, "one");
  command->footer(
      "Example:\n  driftwarden verify TF46B --key signer.pem\n\n"
      "Exit status: 0 nothing is amiss; 1 something was changed or comes out differently; 2 it is no package, or the "
      "key\n"
      "could not be used.");
  command->callback([&] { run = [&] { return run_verify(options.verify, surroundings); }; });
}

void add_page(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CLI::App* command = app.add_subcommand("page", "this program in one file for a browser, for machines without it");
  command->add_option("--out", options.page.out, "file to write the page to")->required();
  command->footer(
      "The page reads and judges books on the machine it is opened on, from a disk, without a network; it sends "
      "nothing\n"
      "anywhere. With the file's name its SHA-256 is told, by which another can see that it is whole.\n"
      "Example:\n  driftwarden page --out driftwarden.html");
  command->callback([&] { run = [&] { return run_page(options.page, surroundings); }; });
}

void add_rules(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  RulesOptions& rules = options.rules;
  CLI::App* command = app.add_subcommand("rules", "rule packs: test, list, print; the measures they may use");
  command->require_subcommand(1);
  command->footer("Example:\n  driftwarden rules check house.toml");

  CLI::App* check =
      command->add_subcommand("check", "read packs and run their examples; without files, the shipped ones");
  check->add_option("PACK", rules.packs, "pack files")->check(CLI::ExistingFile);
  check->footer("Example:\n  driftwarden rules check house.toml");
  check->callback([&] { run = [&] { return run_rules_check(options.rules, surroundings); }; });

  CLI::App* list = command->add_subcommand("list", "the shipped packs");
  list->footer("Example:\n  driftwarden rules list");
  list->callback([&] { run = [&] { return run_rules_list(options.rules, surroundings); }; });

  CLI::App* show = command->add_subcommand("show", "a shipped pack or rule in words");
  show->add_option("NAME", rules.name, "a pack's name, or a rule's")->required();
  show->footer("Example:\n  driftwarden rules show common-practice/drift");
  show->callback([&] { run = [&] { return run_rules_show(options.rules, surroundings); }; });

  CLI::App* measures = command->add_subcommand("measures", "every measure a rule may use, with unit and definition");
  measures->add_option("SUBJECT", rules.subject, "only those of a sample, set, reading, calibrator, pump or batch")
      ->check(CLI::IsMember({"sample", "set", "reading", "calibrator", "pump", "batch", "result"}));
  measures->footer("Example:\n  driftwarden rules measures sample");
  measures->callback([&] { run = [&] { return run_rules_measures(options.rules, surroundings); }; });
}

// Called by the build and by shells, and not shown to people.
void add_hidden(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  CLI::App* manual = app.add_subcommand("manual", "write the manual pages of all commands")->group("");
  manual->add_option("FOLDER", options.manual.folder, "folder that is there")->required();
  manual->callback([&] { run = [&] { return run_manual(app, options.manual, surroundings); }; });

  CLI::App* complete = app.add_subcommand("complete", "how the last of some words may go on")->group("");
  complete->add_option("WORD", options.complete.words, "the words behind the program's name");
  complete->callback([&] { run = [&] { return run_complete(app, options.complete, surroundings); }; });
}

}  // namespace

void add_commands(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  app.footer(std::string("Example:\n  driftwarden screen docs/demo\n\n") + help_foot());
  app.require_subcommand(1);
  add_new(app, options, surroundings, run);
  add_check(app, options, surroundings, run);
  add_screen(app, options, surroundings, run);
  add_explain(app, options, surroundings, run);
  add_decide(app, options, surroundings, run);
  add_actions(app, options, surroundings, run);
  add_custody(app, options, surroundings, run);
  add_letter(app, options, surroundings, run);
  add_field_commands(app, options, surroundings, run);
  add_compare(app, options, surroundings, run);
  add_risk(app, options, surroundings, run);
  add_history(app, options, surroundings, run);
  add_split(app, options, surroundings, run);
  add_join(app, options, surroundings, run);
  add_lookback(app, options, surroundings, run);
  add_review(app, options, surroundings, run);
  add_evidence(app, options, surroundings, run);
  add_verify(app, options, surroundings, run);
  add_page(app, options, surroundings, run);
  add_rules(app, options, surroundings, run);
  add_hidden(app, options, surroundings, run);
}

std::vector<const CLI::App*> shown_commands(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App* command) { return !command->get_group().empty(); });
}

std::vector<std::string> option_words(const CLI::App& command) {
  std::vector<std::string> words;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) words.push_back("--" + name);
  }
  return words;
}

std::string choices_in(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  const auto begin = type.find('{');
  return begin == std::string::npos ? "" : type.substr(begin, type.find('}', begin) - begin + 1);
}

const CLI::App* deepest_command(const CLI::App& app, const std::vector<std::string>& words, std::size_t& used) {
  const CLI::App* here = &app;
  for (used = 0; used < words.size(); ++used) {
    const CLI::App* next = nullptr;
    for (const CLI::App* candidate : here->get_subcommands([](const CLI::App*) { return true; })) {
      if (candidate->get_name() == words[used]) next = candidate;
    }
    if (next == nullptr) break;
    here = next;
  }
  return here;
}

}  // namespace driftwarden
