// SPDX-License-Identifier: MIT
#include "book/settings.hpp"

#include <gtest/gtest.h>

namespace driftwarden::settings_test {
namespace {

// echo: what the settings say, and the conditions that hold where they say nothing.

constexpr const char* zone_line = "time_zone = \"MST7MDT,M3.2.0,M11.1.0\"\n";

Settings settings(const std::string& text) {
  auto settings = parse_settings(text, "book.toml");
  EXPECT_TRUE(settings) << (settings ? "" : to_text(settings.faults().front()));
  return settings ? *settings : Settings{};
}

// All faults of a text, each on a line.
std::string faults(const std::string& text) {
  const auto settings = parse_settings(text, "book.toml");
  EXPECT_FALSE(settings);
  std::string lines;
  if (settings) return lines;
  for (const auto& fault : settings.faults()) lines += to_text(fault) + "\n";
  return lines;
}

// The faults of lines that follow a sound time zone on line 1.
std::string faults_below(const std::string& text) { return faults(zone_line + text); }

TEST(Settings, HoldWhatABookSays) {
  const auto book = settings(R"(title = "Fold tunnel, week 40"
time_zone = "America/Denver"
decimal = ","
dates = "day first"
[reference]
temperature = "20 °C"
pressure = "1013 hPa"
[site]
altitude = "1500 m"
[rules]
packs = ["common-practice", "house.toml"]
[decision]
guard = 1
[headings.readings]
"Flow LPM" = "reading [L/min]"
When = "taken"
[headings.samples]
"Cassette No." = "sample"
[history]
baseline = 20
target = 2.0
ewma_lambda = 0.2
ewma_width = 3
cusum_k = 0.5
cusum_h = 5
run_rules = ["beyond", "nine"]
)");
  EXPECT_EQ(book.title, "Fold tunnel, week 40");
  EXPECT_EQ(book.zone_name, "America/Denver");
  EXPECT_EQ(book.zone.offset_at(0), -7 * 3600);
  EXPECT_EQ(book.decimal, ',');
  EXPECT_EQ(book.dates, DateOrder::day_first);
  EXPECT_DOUBLE_EQ(book.reference.temperature.kelvin, 293.15);
  EXPECT_DOUBLE_EQ(book.reference.pressure.value, 101.3);
  EXPECT_TRUE(book.reference_was_said);
  EXPECT_EQ(book.altitude_m, 1500.0);
  EXPECT_EQ(book.altitude_place, (Place{"book.toml", 9, 12}));
  EXPECT_EQ(book.packs, (std::vector<std::string>{"common-practice", "house.toml"}));
  EXPECT_EQ(book.pack_places, (std::vector<Place>{{"book.toml", 11, 10}, {"book.toml", 11, 29}}));
  EXPECT_EQ(book.guard, 1.0);
  ASSERT_EQ(book.headings.size(), 2U);
  EXPECT_EQ(book.headings.at("readings").at("Flow LPM"),
            (std::pair<std::string, Place>{"reading [L/min]", {"book.toml", 15, 14}}));
  EXPECT_EQ(book.headings.at("samples").at("Cassette No.").first, "sample");
  EXPECT_EQ(book.history.baseline, 20);
  EXPECT_EQ(book.history.target, 2.0);
  EXPECT_EQ(book.history.ewma_lambda, 0.2);
  EXPECT_EQ(book.history.ewma_width, 3.0);
  EXPECT_EQ(book.history.cusum_k, 0.5);
  EXPECT_EQ(book.history.cusum_h, 5.0);
  EXPECT_EQ(book.history.run_rules, (std::vector<std::string>{"beyond", "nine"}));
  EXPECT_EQ(book.history.place, (Place{"book.toml", 19, 1}));
}

TEST(Settings, NeedNoMoreThanATimeZone) {
  const auto book = settings(zone_line);
  EXPECT_EQ(book.reference, (Conditions{celsius(25), Pressure(101.325)}));
  EXPECT_FALSE(book.reference_was_said);
  EXPECT_FALSE(book.altitude_m);
  EXPECT_EQ(book.guard, 0.0);
  EXPECT_EQ(book.decimal, '.');
  EXPECT_EQ(book.dates, DateOrder::iso);
  EXPECT_TRUE(book.packs.empty());
  EXPECT_TRUE(book.headings.empty());
  EXPECT_FALSE(book.history.baseline);
  EXPECT_FALSE(book.history.run_rules);
  EXPECT_EQ(book.place.file, "book.toml");
}

TEST(Settings, LeaveRulesAndSamplersAlone) {
  settings(std::string(zone_line) + R"([[override]]
rule = "common-practice/drift"
anything = 1
[practice]
flow_for_volume = "mean"
[sampler.our-impactor]
nominal = "2.0 L/min"
)");
}

TEST(Settings, ReadOtherUnits) {
  EXPECT_NEAR(*settings(std::string(zone_line) + "[site]\naltitude = \"4921 ft\"\n").altitude_m, 4921 * 0.3048, 1e-9);
  const auto book = settings(std::string(zone_line) + "[reference]\ntemperature = \"77 °F\"\npressure = \"1 atm\"\n");
  EXPECT_DOUBLE_EQ(book.reference.temperature.kelvin, 298.15);
  EXPECT_DOUBLE_EQ(book.reference.pressure.value, 101.325);
}

TEST(Settings, ReadFilesFromOtherSystems) {
  EXPECT_EQ(settings(std::string("\xEF\xBB\xBF") + "title = \"a\"\r\ntime_zone = \"UTC\"\r\n").title, "a");
}

TEST(Settings, NeedATimeZone) {
  EXPECT_EQ(faults(""),
            "book.toml: error: 'time_zone' is missing; write the zone of the clocks that were read, as time_zone = "
            "\"America/Denver\" [settings/missing-key]\n");
  EXPECT_EQ(
      faults("time_zone = \"America/Denvr\""),
      "book.toml:1:13: error: unknown time zone 'America/Denvr'; did you mean 'America/Denver'? [time-zone/unknown]\n");
}

TEST(Settings, ReportAllFaultsFromTopToBottom) {
  EXPECT_EQ(faults(R"(titel = "a"
time_zone = 7
[reference]
temperature = 25
[decision]
guard = -1
[site]
altitude = "1500"
)"),
            "book.toml:1:1: error: 'titel' is no setting; did you mean 'title'? [settings/unknown-key]\n"
            "book.toml:2:13: error: 'time_zone' is a number; write text in quotes [settings/wrong-type]\n"
            "book.toml:3:1: error: 'reference.pressure' is missing; reference conditions are a pair: add pressure, as "
            "\"101.325 kPa\" [settings/missing-key]\n"
            "book.toml:4:15: error: 'reference.temperature' is a number; write it with its unit, as \"25 °C\" "
            "[settings/wrong-type]\n"
            "book.toml:6:9: error: 'decision.guard' is out of range; write 0 or more [settings/out-of-range]\n"
            "book.toml:8:12: error: 'site.altitude' can't be '1500'; write it with its unit, as \"1500 m\" "
            "[settings/not-an-amount]\n");
}

TEST(Settings, SayWhereAMisplacedKeyBelongs) {
  EXPECT_EQ(
      faults("[reference]\ntemperature = \"25 °C\"\npressure = \"101.325 kPa\"\ntime_zone = \"UTC\"\n"),
      "book.toml: error: 'time_zone' is missing; write the zone of the clocks that were read, as time_zone = "
      "\"America/Denver\" [settings/missing-key]\n"
      "book.toml:4:1: error: 'reference.time_zone' is no setting; it belongs at the top, above the first [heading] "
      "[settings/unknown-key]\n");
  EXPECT_EQ(faults_below("altitude = \"1500 m\"\n"),
            "book.toml:2:1: error: 'altitude' is no setting; it belongs under [site] [settings/unknown-key]\n");
}

TEST(Settings, KnowOnlyTheirWords) {
  EXPECT_EQ(
      faults_below("decimal = \";\"\ndates = \"month frist\"\n"),
      "book.toml:2:11: error: 'decimal' can't be ';'; write \".\" or \",\" [settings/unknown-word]\n"
      "book.toml:3:9: error: 'dates' can't be 'month frist'; did you mean 'month first'? [settings/unknown-word]\n");
}

TEST(Settings, KnowOnlyTheTablesOfABook) {
  EXPECT_EQ(
      faults_below("[headings.reading]\nA = \"taken\"\n"),
      "book.toml:2:11: error: 'headings.reading' is no setting; did you mean 'readings'? [settings/unknown-key]\n");
  EXPECT_EQ(
      faults_below("[headings.readings]\nA = 1\n\"\" = \"taken\"\nB = \" \"\n"),
      "book.toml:3:5: error: 'headings.readings.A' is a number; write text in quotes [settings/wrong-type]\n"
      "book.toml:4:1: error: a name in 'headings.readings' is empty; write the heading as it stands in the file "
      "[settings/empty]\n"
      "book.toml:5:5: error: 'headings.readings.B' is empty; write its text, or leave the line out [settings/empty]\n");
  EXPECT_EQ(faults_below("[headings]\nreadings = \"taken\"\n"),
            "book.toml:3:12: error: 'headings.readings' is text; write it as [headings.readings] and its keys below "
            "[settings/wrong-type]\n");
}

TEST(Settings, HoldWhoSendsSamplesToWhom) {
  const auto book = settings(std::string(zone_line) +
                             "[custody]\nsender = [\"Quarry\", \"Lane 1\"]\nreference = \"order 7\"\n"
                             "[custody.\"TF46*\"]\nlaboratory = [\"Laboratory B\"]\n");
  ASSERT_EQ(book.consignments.size(), 2U);
  EXPECT_EQ(book.consignments[0].batches, "");
  EXPECT_EQ(book.consignments[0].sender, (std::vector<std::string>{"Quarry", "Lane 1"}));
  EXPECT_EQ(book.consignments[0].reference, "order 7");
  EXPECT_EQ(book.consignments[1].batches, "TF46*");
  EXPECT_EQ(book.consignments[1].laboratory, std::vector<std::string>{"Laboratory B"});
  EXPECT_EQ(faults_below("[custody]\nsender = \"Quarry\"\nlabratory = [\"A\"]\n[custody.TF]\nsenders = [\"B\"]\n"),
            "book.toml:3:10: error: 'custody.sender' is text; write a list of texts, as [\"…\", \"…\"] "
            "[settings/wrong-type]\n"
            "book.toml:4:1: error: 'custody.labratory' is no setting; did you mean 'laboratory'? "
            "[settings/unknown-key]\n"
            "book.toml:6:1: error: 'custody.\"TF\".senders' is no setting; did you mean 'sender'? "
            "[settings/unknown-key]\n");
}

TEST(Settings, RefuseConditionsThatNobodyWorksIn) {
  EXPECT_EQ(
      faults_below("[reference]\ntemperature = \"25 K\"\npressure = \"101.325 Pa\"\n"),
      "book.toml:3:15: error: 'reference.temperature' is out of range; write -60 °C to 60 °C [settings/out-of-range]\n"
      "book.toml:4:12: error: 'reference.pressure' is out of range; write 20 kPa to 200 kPa, absolute "
      "[settings/out-of-range]\n");
  EXPECT_EQ(faults_below("[site]\naltitude = \"15000 m\"\n"),
            "book.toml:3:12: error: 'site.altitude' is out of range; write -500 m to 9000 m [settings/out-of-range]\n");
  EXPECT_EQ(faults_below("[site]\naltitude = \"1500 kPa\"\n"),
            "book.toml:3:12: error: 'site.altitude' can't be '1500 kPa'; write it with its unit, as \"1500 m\" "
            "[settings/not-an-amount]\n");
}

TEST(Settings, RefuseNumbersThatAreNone) {
  for (const auto* guard : {"nan", "inf"}) {
    EXPECT_EQ(
        faults_below("[decision]\nguard = " + std::string(guard) + "\n"),
        "book.toml:3:9: error: 'decision.guard' is no figure; write a number without quotes [settings/wrong-type]\n");
  }
  EXPECT_EQ(faults_below("[decision]\nguard = -0.1\n"),
            "book.toml:3:9: error: 'decision.guard' is out of range; write 0 or more [settings/out-of-range]\n");
  EXPECT_EQ(
      faults_below("[decision]\nguard = true\n"),
      "book.toml:3:9: error: 'decision.guard' is true or false; write a number without quotes [settings/wrong-type]\n");
}

TEST(Settings, HoldChartFiguresToTheirRanges) {
  EXPECT_EQ(faults_below(
                "[history]\nbaseline = 7\newma_lambda = 1.5\newma_width = 0\ncusum_k = \"a\"\nrun_rules = \"all\"\n"),
            "book.toml:3:12: error: 'history.baseline' is out of range; write 8 or more, for no limits come from fewer "
            "points, or "
            "\"all\" [settings/out-of-range]\n"
            "book.toml:4:15: error: 'history.ewma_lambda' is out of range; write more than 0 and at most 1 "
            "[settings/out-of-range]\n"
            "book.toml:5:14: error: 'history.ewma_width' is out of range; write more than 0 [settings/out-of-range]\n"
            "book.toml:6:11: error: 'history.cusum_k' is text; write a number without quotes [settings/wrong-type]\n"
            "book.toml:7:13: error: 'history.run_rules' is text; write a list of texts, as [\"…\", \"…\"] "
            "[settings/wrong-type]\n");
  EXPECT_EQ(
      faults_below("[history]\nbaseline = 20.0\n"),
      "book.toml:3:12: error: 'history.baseline' is a number; write a whole number of points, \"all\", or { from = "
      "\"2026-01-01\", to = \"2026-03-31\" } [settings/wrong-type]\n");
  EXPECT_EQ(settings(std::string(zone_line) + "[history]\newma_lambda = 1\nrun_rules = []\n").history.run_rules,
            std::vector<std::string>{});
}

TEST(Settings, TakeABaselineOfAllPointsOrOfChosenDays) {
  const auto said = [](const std::string& baseline) {
    return settings(std::string(zone_line) + "[history]\nbaseline = " + baseline + "\n").history;
  };
  EXPECT_EQ(said("\"all\"").baseline, Settings::History::every_point);
  const Settings::History days = said("{ from = \"2026-01-05\", to = \"2026-03-31\" }");
  EXPECT_FALSE(days.baseline);
  EXPECT_EQ(days.baseline_from, day_from({2026, 1, 5}));
  EXPECT_EQ(days.baseline_to, day_from({2026, 3, 31}));
}

TEST(Settings, SayHowToChooseTheDaysOfABaseline) {
  EXPECT_EQ(faults_below("[history]\nbaseline = \"most\"\n"),
            "book.toml:3:12: error: 'history.baseline' is text; write a whole number of points, \"all\", or { from = "
            "\"2026-01-01\", to = \"2026-03-31\" } [settings/wrong-type]\n");
  EXPECT_EQ(faults_below("[history]\nbaseline = { from = \"2026-01-05\" }\n"),
            "book.toml:3:12: error: 'history.baseline.to' is missing; write the day as \"2026-01-31\" "
            "[settings/missing-key]\n");
  EXPECT_EQ(
      faults_below("[history]\nbaseline = { from = \"2026-04-01\", to = \"2026-03-31\" }\n"),
      "book.toml:3:40: error: 'history.baseline.to' lies before 'from'; write the first day under from and the last "
      "under to [settings/out-of-range]\n");
  EXPECT_EQ(
      faults_below("[history]\nbaseline = { from = \"2026-02-30\", to = \"2026-03-31\", until = 1 }\n"),
      "book.toml:3:21: error: 'history.baseline.from' can't be read: '2026-02-30' names a day that no calendar has; "
      "days of 2026-02 run from 01 to 28 [settings/not-a-date]\n"
      "book.toml:3:54: error: 'history.baseline.until' is no setting; known are from, to [settings/unknown-key]\n");
}

TEST(Settings, NameEachPackOnce) {
  EXPECT_EQ(faults_below("[rules]\npacks = [\"a\", \"b\", \"a\", 3]\n"),
            "book.toml:3:20: error: the pack 'a' is named twice; name it once [settings/repeated]\n"
            "book.toml:3:25: error: 'rules.packs' is a number; write text in quotes [settings/wrong-type]\n");
}

TEST(Settings, RefuseRulesInTheWrongForm) {
  EXPECT_EQ(
      faults_below("practice = 1\nsampler = 2\n[override]\nrule = \"x\"\n"),
      "book.toml:2:12: error: 'practice' is a number; write it as [practice] and its keys below [settings/wrong-type]\n"
      "book.toml:3:11: error: 'sampler' is a number; write it as [sampler] and its keys below [settings/wrong-type]\n"
      "book.toml:4:1: error: 'override' is a table; write each as [[override]] and its keys below "
      "[settings/wrong-type]\n");
}

TEST(Settings, HoldHowFarAFlowStraysBetweenChecks) {
  const std::string zone = zone_line;
  EXPECT_EQ(settings(zone).uncertainty.flow_between, 0.01);
  EXPECT_FALSE(settings(zone).uncertainty.flow_between_was_said);
  const auto said = settings(zone + "[uncertainty]\nflow_between = \"0.4 %\"\n").uncertainty;
  EXPECT_DOUBLE_EQ(said.flow_between, 0.004);
  EXPECT_TRUE(said.flow_between_was_said);
  EXPECT_EQ(settings(zone + "[uncertainty]\nflow_between = \"0 %\"\n").uncertainty.flow_between, 0);
  EXPECT_EQ(
      faults_below("[uncertainty]\nflow_between = \"25 %\"\n"),
      "book.toml:3:16: error: 'uncertainty.flow_between' is out of range; write 0 % to 20 %, half the width of what "
      "is possible [settings/out-of-range]\n");
}

TEST(Settings, HoldWhatWasInTheAir) {
  const std::string zone = zone_line;
  EXPECT_FALSE(settings(zone).aerosol);
  EXPECT_EQ(settings(zone).small_mass_error, 0.05);
  const auto one = settings(zone + "[aerosol]\nmmad = \"5 µm\"\ngsd = 2\nsource = \"S\"\n").aerosol;
  ASSERT_TRUE(one);
  EXPECT_EQ(one->mmad_um, (std::pair{5.0, 5.0}));
  EXPECT_EQ(one->gsd, (std::pair{2.0, 2.0}));
  EXPECT_EQ(one->source, "S");
  EXPECT_EQ(one->place, (Place{"book.toml", 2, 1}));
  const auto many = settings(zone + "[aerosol]\nmmad = [\"3 um\", \"8 µm\"]\ngsd = [1.8, 2.5]\nsource = \"S\"\n");
  EXPECT_EQ(many.aerosol->mmad_um, (std::pair{3.0, 8.0}));
  EXPECT_EQ(many.aerosol->gsd, (std::pair{1.8, 2.5}));
  const auto small = settings(zone + "[aerosol]\nsmall_error = \"10 %\"\n");
  EXPECT_FALSE(small.aerosol);
  EXPECT_DOUBLE_EQ(small.small_mass_error, 0.1);
}

TEST(Settings, WantAnAerosolAsAWholeAndInItsOrder) {
  EXPECT_EQ(
      faults_below("[aerosol]\nmmad = \"5 µm\"\n"),
      "book.toml:2:1: error: 'aerosol.gsd' is missing; write the geometric standard deviation, as 2, or from where to "
      "where [settings/missing-key]\n"
      "book.toml:2:1: error: 'aerosol.source' is missing; say who measured the sizes, or where they are from "
      "[settings/missing-key]\n");
  const std::string rest = "gsd = 2\nsource = \"S\"\n";
  EXPECT_EQ(faults_below("[aerosol]\nmmad = 5\n" + rest),
            "book.toml:3:8: error: 'aerosol.mmad' is a number; write it as \"5 µm\" or [\"3 µm\", \"8 µm\"] "
            "[settings/wrong-type]\n");
  EXPECT_EQ(faults_below("[aerosol]\nmmad = \"5 mm\"\n" + rest),
            "book.toml:3:8: error: 'aerosol.mmad' can't be '5 mm'; write it as \"5 µm\" or [\"3 µm\", \"8 µm\"] "
            "[settings/not-an-amount]\n");
  EXPECT_EQ(faults_below("[aerosol]\nmmad = [\"8 µm\", \"3 µm\"]\n" + rest),
            "book.toml:3:8: error: 'aerosol.mmad' is out of range; write 0.01 µm to 200 µm, the smaller one first "
            "[settings/out-of-range]\n");
  EXPECT_EQ(faults_below("[aerosol]\nmmad = [\"3 µm\"]\n" + rest),
            "book.toml:3:8: error: 'aerosol.mmad' is a list; write it as \"5 µm\" or [\"3 µm\", \"8 µm\"] "
            "[settings/wrong-type]\n");
  EXPECT_EQ(faults_below("[aerosol]\nmmad = \"5 µm\"\ngsd = 0.5\nsource = \"S\"\n"),
            "book.toml:4:7: error: 'aerosol.gsd' is out of range; write 1 to 10, the smaller one first "
            "[settings/out-of-range]\n");
}

// Nothing compares with what is no number: it lies neither below the least nor above the greatest.
TEST(Settings, TakeNoFigureForWhatIsNone) {
  const auto of_gsd = [](const std::string& gsd) {
    return faults_below("[aerosol]\nmmad = \"5 µm\"\ngsd = " + gsd + "\nsource = \"S\"\n");
  };
  const std::string error = ": error: 'aerosol.gsd' is no figure; write it as 2 or [1.8, 2.5] [settings/wrong-type]\n";
  EXPECT_EQ(of_gsd("nan"), "book.toml:4:7" + error);
  EXPECT_EQ(of_gsd("[nan, 2]"), "book.toml:4:8" + error);
  EXPECT_EQ(of_gsd("[1.8, nan]"), "book.toml:4:13" + error);
  EXPECT_EQ(of_gsd("[1.8, inf]"), "book.toml:4:13" + error);
  EXPECT_EQ(faults_below("[aerosol]\nmmad = [\"3 µm\", \"nan µm\"]\ngsd = 2\nsource = \"S\"\n"),
            "book.toml:3:17: error: 'aerosol.mmad' can't be 'nan µm'; write it as \"5 µm\" or [\"3 µm\", \"8 µm\"] "
            "[settings/not-an-amount]\n");
}

}  // namespace
}  // namespace driftwarden::settings_test
