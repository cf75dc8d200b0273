// SPDX-License-Identifier: MIT
#include "quantity/units.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <initializer_list>
#include <string>

#include "quantity/quantity.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden::units_test {
namespace {

// derived: 101.325 kPa are 1013.25 mbar and so on, by powers of ten.

constexpr std::initializer_list<Dimension> dimensions = {
    Dimension::flow,         Dimension::temperature, Dimension::temperature_difference,
    Dimension::pressure,     Dimension::time,        Dimension::length,
    Dimension::ratio,        Dimension::volume,      Dimension::count,
    Dimension::diameter,     Dimension::mass,        Dimension::fibres,
    Dimension::concentration};

double inside(double written, std::string_view unit, Dimension dimension) {
  return unit_named(unit, dimension).value().to_inside(written);
}
double flow(double written, std::string_view unit) { return inside(written, unit, Dimension::flow); }
double kelvin(double written, std::string_view unit) { return inside(written, unit, Dimension::temperature); }
double pressure(double written, std::string_view unit) { return inside(written, unit, Dimension::pressure); }

void expect_spellings(Dimension dimension, std::string_view name, std::initializer_list<std::string_view> spellings) {
  for (const std::string_view spelling : spellings) {
    const std::optional<Unit> unit = unit_named(spelling, dimension);
    ASSERT_TRUE(unit) << spelling;
    EXPECT_EQ(unit->name, name) << spelling;
    EXPECT_EQ(unit->dimension, dimension) << spelling;
  }
}

TEST(Units, OfADiameterIsTheMicrometreWithItsSignOfTwoKinds) {
  expect_spellings(Dimension::diameter, "µm", {"µm", "\u03BCm", "um", "µm ", "micrometre", "micrometers"});
  EXPECT_EQ(amount_of("4.25 µm", Dimension::diameter)->value, 4.25);
  EXPECT_FALSE(amount_of("4 mm", Dimension::diameter));
}

// derived: a kilogram is a million milligrams.
TEST(Units, OfAMassAreMilligramsInsideAndNeverATonne) {
  expect_spellings(Dimension::mass, "µg", {"µg", "\u03BCg", "ug", "mcg", "UG", "micrograms"});
  expect_spellings(Dimension::mass, "mg", {"mg", "MG", " mg", "milligram"});
  expect_spellings(Dimension::fibres, "fibres", {"fibres", "fibers", "Fibre", "FIBERS"});
  expect_spellings(Dimension::concentration, "mg/m3", {"mg/m3", "mg/m³", "mg / m^3", "MG/M3"});
  EXPECT_FALSE(unit_named("Mg", Dimension::mass));
  EXPECT_FALSE(unit_named("Mg/m3", Dimension::concentration));
  EXPECT_EQ(inside(1, "kg", Dimension::mass), 1e6);
  EXPECT_EQ(inside(1, "g", Dimension::mass), 1000);
  EXPECT_EQ(inside(30, "µg", Dimension::mass), 0.03);
  EXPECT_DOUBLE_EQ(inside(1, "ng", Dimension::mass), 1e-6);
  EXPECT_DOUBLE_EQ(inside(50, "µg/m3", Dimension::concentration), 0.05);
  EXPECT_EQ(amount_of("0.03 mg", Dimension::mass)->value, 0.03);
}

// --- exact definitions

// printed: the foot is 0.3048 m exactly, NIST Special Publication 811 (2008), appendix B.6, after the international
// yard and pound agreement of 1959.
TEST(Units, TheFootIsThatOf1959) {
  EXPECT_EQ(inside(1, "ft", Dimension::length), 0.3048);
  EXPECT_DOUBLE_EQ(inside(1, "ft3", Dimension::volume), 0.3048 * 0.3048 * 0.3048 * 1000);
  EXPECT_DOUBLE_EQ(inside(5000, "ft", Dimension::length), 1524.0);
}

// derived: the pound is 0.45359237 kg (1959), the standard acceleration 9.80665 m/s² (3rd CGPM 1901), the inch 0.0254 m
// (1959).
TEST(Units, ThePoundPerSquareInchFollowsFromPoundInchAndGravity) {
  EXPECT_DOUBLE_EQ(pressure(1, "psi"), 0.45359237 * 9.80665 / (0.0254 * 0.0254) / 1000);
  EXPECT_DOUBLE_EQ(pressure(1, "psi"), 6.894757293168361);
}

// printed: 1 atm = 101 325 Pa exactly, 10th CGPM 1954, resolution 4; 1 Torr = 1/760 atm, NIST Special Publication 811
// (2008), appendix B.8.
TEST(Units, AnAtmosphereIs760MillimetresOfMercury) {
  EXPECT_EQ(pressure(1, "atm"), 101.325);
  EXPECT_EQ(pressure(760, "mmHg"), 101.325);
  EXPECT_EQ(pressure(760, "torr"), 101.325);
}

// derived: a column of mercury of 13595.1 kg/m³ at 9.80665 m/s², 25.4 mm high (conventional inch of mercury).
TEST(Units, AnInchOfMercuryIsTheConventionalOneAtZeroDegrees) {
  EXPECT_DOUBLE_EQ(pressure(1, "inHg"), 13595.1 * 9.80665 * 0.0254 / 1000);
}

TEST(Units, DecimalPressuresAreExact) {
  EXPECT_EQ(pressure(1013.25, "hPa"), 101.325);
  EXPECT_EQ(pressure(1013.25, "mbar"), 101.325);
  EXPECT_EQ(pressure(101325, "Pa"), 101.325);
  EXPECT_DOUBLE_EQ(pressure(1.01325, "bar"), 101.325);
  EXPECT_EQ(pressure(101.325, "kPa"), 101.325);
}

TEST(Units, DecimalFlowsAreExact) {
  EXPECT_EQ(flow(1900, "mL/min"), 1.9);
  EXPECT_EQ(flow(2041, "cc/min"), 2.041);
  EXPECT_EQ(flow(1, "m3/min"), 1000.0);
  EXPECT_EQ(flow(0.12, "m3/h"), 2.0);
}

// --- published values

// 39 and 60 ft³/min are 1.1 and 1.7 m³/min: 40 CFR 50 App. B §8.8, printed to two digits.
TEST(Units, CubicFeetAMinuteAgreeWithTheHighVolumeMethod) {
  EXPECT_EQ(with_decimals(flow(39, "ft3/min") / 1000, 1), "1.1");
  EXPECT_EQ(with_decimals(flow(60, "ft3/min") / 1000, 1), "1.7");
}

// 16.67 L/min is 1.000 m³/h: 40 CFR 50 App. L §7.4.1.
TEST(Units, CubicMetresAnHourAgreeWithTheFineParticleMethod) {
  EXPECT_EQ(with_decimals(unit_named("m3/h", Dimension::flow)->from_inside(16.67), 3), "1.000");
}

// 20 °C is 68 °F and 101.3 kPa is 29.92 inHg: 40 CFR 60.2, standard conditions.
TEST(Units, StandardConditionsOfStackSamplingAgree) {
  EXPECT_EQ(kelvin(68, "°F"), celsius(20).kelvin);
  EXPECT_EQ(with_decimals(pressure(29.92, "inHg"), 1), "101.3");
}

// printed: 760 mmHg is 101.3 kPa (40 CFR 50 Appendix J, section 11.1, 2015 edition) and 1013.2 mb (40 CFR 50.3).
TEST(Units, ReferencePressureOfAmbientSamplingAgrees) {
  EXPECT_EQ(with_decimals(pressure(760, "mmHg"), 1), "101.3");
  EXPECT_NEAR(unit_named("mbar", Dimension::pressure)->from_inside(pressure(760, "mmHg")), 1013.2, 0.0501);
}

// common practice: 14.696 psi to the atmosphere, as handbook tables print it.
TEST(Units, PoundsPerSquareInchInAnAtmosphereAgree) {
  EXPECT_EQ(with_decimals(unit_named("psi", Dimension::pressure)->from_inside(101.325), 3), "14.696");
}

// 32 °F and 212 °F are the ice and the steam point, 0 °C and 100 °C; the scales cross at -40.
TEST(Units, FahrenheitMeetsCelsiusAtTheFixedPoints) {
  EXPECT_EQ(kelvin(32, "°F"), 273.15);
  EXPECT_EQ(kelvin(212, "°F"), 373.15);
  EXPECT_EQ(kelvin(77, "°F"), 298.15);
  EXPECT_EQ(kelvin(-40, "°F"), kelvin(-40, "°C"));
  EXPECT_NEAR(kelvin(-459.67, "°F"), 0, 1e-12) << "absolute zero";
}

TEST(Units, ATemperatureDifferenceHasNoOffset) {
  EXPECT_EQ(inside(10, "K", Dimension::temperature_difference), 10.0);
  EXPECT_EQ(inside(10, "°C", Dimension::temperature_difference), 10.0);
  EXPECT_EQ(inside(9, "°F", Dimension::temperature_difference), 5.0);
}

TEST(Units, TimesAreMinutesInside) {
  EXPECT_EQ(inside(90, "s", Dimension::time), 1.5);
  EXPECT_EQ(inside(8, "h", Dimension::time), 480.0);
  EXPECT_EQ(inside(1, "d", Dimension::time), 1440.0);
}

TEST(Units, APercentageIsARatioInside) {
  EXPECT_EQ(inside(5, "%", Dimension::ratio), 0.05);
  EXPECT_EQ(inside(0.05, "", Dimension::ratio), 0.05);
  EXPECT_EQ(inside(0.05, "1", Dimension::ratio), 0.05);
}

TEST(Units, VolumesAreLitresInside) {
  EXPECT_EQ(inside(500, "mL", Dimension::volume), 0.5);
  EXPECT_EQ(inside(24, "m3", Dimension::volume), 24'000.0);
}

// --- spellings

TEST(Units, FlowsAreReadInTheSpellingsOfTheTrade) {
  expect_spellings(Dimension::flow, "L/min", {"L/min", "l/min", "LPM", "lpm", " L / min ", "L/MIN"});
  expect_spellings(Dimension::flow, "mL/min", {"mL/min", "ml/min", "ML/MIN", "mlpm"});
  expect_spellings(Dimension::flow, "cm3/min", {"cm3/min", "cm³/min", "cc/min", "ccm", "cm^3/min", "CC/MIN"});
  expect_spellings(Dimension::flow, "m3/h", {"m3/h", "m³/h", "m3/hr", "m^3/h"});
  expect_spellings(Dimension::flow, "m3/min", {"m3/min", "m³/min"});
  expect_spellings(Dimension::flow, "ft3/min", {"ft3/min", "ft³/min", "CFM", "cfm"});
}

TEST(Units, TemperaturesAreReadWithAndWithoutADegreeSign) {
  for (const Dimension dimension : {Dimension::temperature, Dimension::temperature_difference}) {
    expect_spellings(dimension, "°C", {"°C", "° C", "C", "c", "degC", "deg C", "DEG C", "℃", "ºC"});
    expect_spellings(dimension, "°F", {"°F", "° F", "F", "degF", "deg F", "℉"});
    expect_spellings(dimension, "K", {"K", "k", "kelvin"});
  }
}

TEST(Units, PressuresAreReadInAnyCaseAndSpacing) {
  expect_spellings(Dimension::pressure, "mmHg", {"mmHg", "mm Hg", "MMHG", "mm\u00A0Hg"});
  expect_spellings(Dimension::pressure, "inHg", {"inHg", "in Hg", "in. Hg", "IN HG"});
  expect_spellings(Dimension::pressure, "Torr", {"Torr", "torr"});
  expect_spellings(Dimension::pressure, "mbar", {"mbar", "mb", "MBAR"});
  expect_spellings(Dimension::pressure, "psi", {"psi", "PSI", "psia"});
}

TEST(Units, TimesAreReadAsWords) {
  expect_spellings(Dimension::time, "s", {"s", "sec", "seconds"});
  expect_spellings(Dimension::time, "min", {"min", "minutes", "Minute"});
  expect_spellings(Dimension::time, "h", {"h", "hr", "hours"});
  expect_spellings(Dimension::time, "d", {"d", "day", "days"});
}

TEST(Units, AMegalitreIsNotAMillilitre) {
  EXPECT_FALSE(unit_named("ML/min", Dimension::flow));
  EXPECT_FALSE(unit_named("Ml/min", Dimension::flow));
  EXPECT_FALSE(unit_named("ML", Dimension::volume));
  EXPECT_TRUE(unit_named("mL", Dimension::volume));
}

TEST(Units, FlowsAtSomebodysStandardConditionsAreNotTakenForActualOnes) {
  for (const char* name : {"SLPM", "slpm", "sccm", "SCFM", "Nm3/h", "NL/min"}) {
    EXPECT_FALSE(unit_named(name, Dimension::flow)) << name;
  }
}

TEST(Units, GaugePressureIsNotTakenForAbsolute) { EXPECT_FALSE(unit_named("psig", Dimension::pressure)); }

TEST(Units, MonthsAreNotAUnit) {
  for (const char* name : {"months", "month", "m", "y", "weeks"})
    EXPECT_FALSE(unit_named(name, Dimension::time)) << name;
}

TEST(Units, BelongToOneDimension) {
  EXPECT_FALSE(unit_named("L/min", Dimension::pressure));
  EXPECT_FALSE(unit_named("%", Dimension::flow));
  EXPECT_FALSE(unit_named("", Dimension::flow));
  EXPECT_FALSE(unit_named("", Dimension::temperature));
  EXPECT_FALSE(unit_named("K", Dimension::pressure));
}

// --- the lists

TEST(Units, AreFoundByTheNamesListedForMessages) {
  for (const Dimension dimension : dimensions) {
    EXPECT_FALSE(unit_names(dimension).empty());
    for (const std::string_view name : unit_names(dimension)) {
      const std::optional<Unit> unit = unit_named(name, dimension);
      ASSERT_TRUE(unit) << name;
      EXPECT_EQ(unit->name, name == "1" ? "" : name);
    }
  }
}

TEST(Units, ReadBackToTheFigureAsWritten) {
  for (const Dimension dimension : dimensions) {
    for (const std::string_view name : unit_names(dimension)) {
      const Unit unit = unit_named(name, dimension).value();
      for (const double written : {-40.0, 0.0, 0.25, 1.0, 23.7, 101.325, 1013.25}) {
        EXPECT_NEAR(unit.from_inside(unit.to_inside(written)), written, 1e-12 * (std::fabs(written) + 500)) << name;
      }
    }
  }
}

TEST(Units, TheInsideUnitChangesNothing) {
  for (const Dimension dimension : dimensions) {
    EXPECT_EQ(inside_unit(dimension).dimension, dimension);
    EXPECT_EQ(inside_unit(dimension).to_inside(1.9), 1.9) << to_text(dimension);
  }
  EXPECT_EQ(inside_unit(Dimension::flow).name, "L/min");
  EXPECT_EQ(inside_unit(Dimension::temperature).name, "K");
  EXPECT_EQ(inside_unit(Dimension::pressure).name, "kPa");
}

TEST(Units, TheCustomaryUnitIsTheOnePeopleWrite) {
  EXPECT_EQ(customary_unit(Dimension::flow).name, "L/min");
  EXPECT_EQ(customary_unit(Dimension::temperature).name, "°C");
  EXPECT_EQ(customary_unit(Dimension::pressure).name, "kPa");
  EXPECT_EQ(customary_unit(Dimension::time).name, "min");
  EXPECT_EQ(customary_unit(Dimension::ratio).name, "%");
  for (const Dimension dimension : dimensions) EXPECT_EQ(customary_unit(dimension).dimension, dimension);
}

TEST(Units, DimensionsHaveNamesOfTheirOwn) {
  for (const Dimension a : dimensions) {
    EXPECT_FALSE(to_text(a).empty());
    for (const Dimension b : dimensions) EXPECT_EQ(to_text(a) == to_text(b), a == b);
  }
}

// --- amounts

TEST(Amount, IsANumberAndAUnit) {
  EXPECT_EQ(amount_of("25 °C", Dimension::temperature)->value, 298.15);
  EXPECT_EQ(amount_of("101.325 kPa", Dimension::pressure)->value, 101.325);
  EXPECT_EQ(amount_of("5 %", Dimension::ratio)->value, 0.05);
  EXPECT_EQ(amount_of("0.1 L/min", Dimension::flow)->value, 0.1);
  EXPECT_EQ(amount_of("1500 m", Dimension::length)->value, 1500.0);
}

TEST(Amount, RemembersHowItWasWritten) {
  const Amount amount = amount_of("77 deg F", Dimension::temperature).value();
  EXPECT_EQ(amount.written, 77.0);
  EXPECT_EQ(amount.written_unit.name, "°F");
  EXPECT_EQ(amount.dimension, Dimension::temperature);
}

TEST(Amount, NeedsNoBlank) {
  EXPECT_EQ(amount_of("5%", Dimension::ratio)->value, 0.05);
  EXPECT_EQ(amount_of("  -40°F ", Dimension::temperature)->value, celsius(-40).kelvin);
  EXPECT_EQ(amount_of("+1e2Pa", Dimension::pressure)->value, 0.1);
}

TEST(Amount, WithoutAUnitIsACountOrAPlainRatio) {
  EXPECT_EQ(amount_of("3", Dimension::count)->value, 3.0);
  EXPECT_EQ(amount_of("0.05", Dimension::ratio)->value, 0.05);
  EXPECT_FALSE(amount_of("3", Dimension::flow));
  EXPECT_FALSE(amount_of("3", Dimension::time));
}

TEST(Amount, IsRefusedWhereNumberOrUnitIsNone) {
  for (const char* text :
       {"", " ", "%", "five %", "5 %%", "5 1", "5 5 %", "5,0 %", "inf %", "nan %", "5 L/min", "- 5 %", "0x5 %"}) {
    EXPECT_FALSE(amount_of(text, Dimension::ratio)) << text;
  }
  EXPECT_FALSE(amount_of("12 months", Dimension::time));
  EXPECT_FALSE(amount_of("5 %", Dimension::count));
  EXPECT_FALSE(amount_of("1e400 kPa", Dimension::pressure));
}

}  // namespace
}  // namespace driftwarden::units_test
