// SPDX-License-Identifier: MIT
#include "command/field_commands.hpp"

#include "command/common_options.hpp"
#include "report/label_sheet.hpp"

namespace driftwarden {
namespace {

void add_air(CLI::App* command, AirOptions& air) {
  command->add_option("--temperature", air.temperature, "expected where the calibrator is read, as in '12 °C'");
  command->add_option("--pressure", air.pressure, "expected there, absolute, as in '84.5 kPa'");
  command->add_option("--humidity", air.humidity, "expected there, as in '40 %'");
}

void add_ahead(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  AheadOptions& ahead = options.ahead;
  CLI::App* command =
      app.add_subcommand("ahead", "how much air, how long and how many blanks a sample needs, before it is taken");
  add_book(command, ahead.book);
  add_as_of(command, ahead.book);
  CLI::Option* batch =
      command->add_option("--batch", ahead.batch, "all samples of this batch of plan.csv, a line each");
  command->add_option("--sample", ahead.sample, "this sample of plan.csv, with its working")->excludes(batch);
  command->add_option("--method", ahead.method, "the method, as a pack or book.toml names it; else as planned");
  command->add_option("--analysis", ahead.analysis, "what is analysed; else as planned");
  command->add_option("--sampler", ahead.sampler, "what it is taken with; else as planned");
  command->add_option("--flow", ahead.flow, "at which it is meant to run, as in '2.0 L/min'; else the sampler's");
  command->add_option("--target", ahead.target, "the concentration that has to be found, as in '0.05 mg/m3'");
  command->add_option("--expected", ahead.expected, "of all dust that the medium collects, as in '1 mg/m3'");
  command->add_option("--minutes", ahead.minutes, "how long it is to run, as in '8 h'; else the least that is enough");
  command->add_option("--pump", ahead.pump, "that it is taken with; its drift and the volume's U are foretold");
  command->add_option("--calibrator", ahead.calibrator, "that the pump is read with; else the one read with last");
  command->add_option("--samples", ahead.samples, "how many there are to be, for the blanks; else as planned")
      ->check(CLI::Range(1, 10000));
  add_air(command, ahead.air);
  command->add_option("--format", ahead.format, "table or json; else as --out is called")
      ->check(CLI::IsMember({"table", "json"}));
  command->add_option("--out", ahead.out, "file to write to; else standard output");
  command->footer(
      "Exit status: 1 where no volume fits, or the minutes that were said do not.\n\n"
      "Example:\n  driftwarden ahead docs/demo --sampler respirable-parallel-impactor --minutes '8 h' --pump PUMP-09");
  command->callback([&] {
    if (ahead.batch.empty() && ahead.sample.empty() && ahead.method.empty() && ahead.sampler.empty())
      throw CLI::RequiredError("--batch, --sample, --method or --sampler");
    run = [&] { return run_ahead(options.ahead, surroundings); };
  });
}

void add_sheet(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  SheetOptions& sheet = options.sheet;
  CLI::App* command =
      app.add_subcommand("sheet", "field sheets of a batch or a kit to write on, with what the calibrator should show");
  add_book(command, sheet.book);
  add_as_of(command, sheet.book);
  CLI::Option* batch =
      command->add_option("--batch", sheet.batch, "the batch, as it stands in plan.csv or in the samples");
  command->add_option("--kit", sheet.kit, "the samples of plan.csv with pumps of this kit, by issues.csv")
      ->excludes(batch);
  command->add_option("--calibrator", sheet.calibrators, "that the flow will be read with; else as planned");
  add_air(command, sheet.air);
  command->add_option("--out", sheet.out, "file to write the sheets to")->required();
  command
      ->add_option("--format", sheet.format, "html, or pdf, which needs the package chromium; else as --out is called")
      ->check(CLI::IsMember({"html", "pdf"}));
  add_paper(command, sheet.paper);
  command->footer("Example:\n  driftwarden sheet docs/demo --batch TF46A --out TF46A-sheets.html");
  command->callback([&] {
    if (sheet.batch.empty() && sheet.kit.empty()) throw CLI::RequiredError("--batch or --kit");
    run = [&] { return run_sheet(options.sheet, surroundings); };
  });
}

void add_labels(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  LabelsOptions& labels = options.labels;
  CLI::App* command = app.add_subcommand("labels", "sheets of labels for the samples and pumps of a batch");
  add_book(command, labels.book);
  add_as_of(command, labels.book);
  command->add_option("--batch", labels.batch, "the batch, as it stands in plan.csv or in the samples")->required();
  command->add_option("--of", labels.of, "samples, pumps or both")->check(CLI::IsMember({"samples", "pumps", "both"}));
  command->add_option("--size", labels.size, "width x height of a label, mm; the sheet is the one that has such labels")
      ->check(CLI::IsMember(label_size_names()));
  command->add_option("--skip", labels.skip, "labels of the first sheet that are used up")->check(CLI::Range(0, 64));
  command->add_option("--out", labels.out, "file to write the labels to")->required();
  command
      ->add_option("--format", labels.format, "html, or pdf, which needs the package chromium; else as --out is called")
      ->check(CLI::IsMember({"html", "pdf"}));
  command->footer("Example:\n  driftwarden labels docs/demo --batch TF46A --out TF46A-labels.pdf");
  command->callback([&] { run = [&] { return run_labels(options.labels, surroundings); }; });
}

void add_form(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  FormOptions& form = options.form;
  CLI::App* command =
      app.add_subcommand("form", "a page to type a batch in without a network; it gives the rows for 'receive'");
  add_book(command, form.book);
  add_as_of(command, form.book);
  command->add_option("--batch", form.batch, "the batch, as it stands in plan.csv or in the samples")->required();
  command->add_option("--calibrator", form.calibrators,
                      "that may be read with; else all in service with a certificate");
  add_air(command, form.air);
  command->add_option("--out", form.out, "file to write the form to")->required();
  command->footer("Example:\n  driftwarden form docs/demo --batch TF46A --out TF46A-form.html");
  command->callback([&] { run = [&] { return run_form(options.form, surroundings); }; });
}

void add_receive(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  ReceiveOptions& receive = options.receive;
  CLI::App* command =
      app.add_subcommand("receive", "take rows of samples and readings into the book, all of them or none");
  command->add_option("BOOK", receive.book.book, "folder of the book")->required();
  command->add_option("FILE", receive.files, "CSV files with the book's headings, as a form gives them")->required();
  add_threads(command, receive.book.threads);
  add_as_of(command, receive.book);
  command->add_option("--by", receive.by, "who takes them in")->required();
  command->add_flag("--dry-run", receive.dry_run, "show what would be added, and write nothing");
  command->footer("Example:\n  driftwarden receive BOOK samples.csv readings.csv --by 'instrument keeper' --dry-run");
  command->callback([&] { run = [&] { return run_receive(options.receive, surroundings); }; });
}

void add_kit(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  KitOptions& kit = options.kit;
  CLI::App* command =
      app.add_subcommand("kit", "which kits are out, overdue or not fit to go; the list of one to tick");
  add_book(command, kit.book);
  add_as_of(command, kit.book);
  command->add_option("--kit", kit.kit, "the list of this kit, or of a kind of kit, to be ticked out and back");
  command
      ->add_option(
          "--format", kit.format,
          "table or json; csv, without --kit; html (a page to print) or pdf, which needs the package chromium, "
          "with --kit; else as --out is called")
      ->check(CLI::IsMember({"table", "csv", "json", "html", "pdf"}));
  command->add_option("--out", kit.out, "file to write to; else standard output");
  add_paper(command, kit.paper);
  command->footer("Example:\n  driftwarden kit docs/demo\n  driftwarden kit docs/demo --kit K-2 --out K-2.pdf");
  command->callback([&] { run = [&] { return run_kit(options.kit, surroundings); }; });
}

}  // namespace

void add_field_commands(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run) {
  add_ahead(app, options, surroundings, run);
  add_sheet(app, options, surroundings, run);
  add_labels(app, options, surroundings, run);
  add_form(app, options, surroundings, run);
  add_receive(app, options, surroundings, run);
  add_kit(app, options, surroundings, run);
}

}  // namespace driftwarden
