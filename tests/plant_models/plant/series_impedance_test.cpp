// Wiring between the supply and the unit: on the plant it is one with the supply's own impedance,
// and the unit sees what it leaves of the voltage.
#include "plant_models/wiring/series_impedance.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <string>
#include <vector>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/supplies/generator.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "plant_models/supplies/split_phase.hpp"
#include "plant_models/supplies/transformer_inverter.hpp"
#include "plant_models/wiring/wiring_parameters.hpp"
#include "support/acting_plant.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using namespace plant_models;
template <class Supply>
using Acting = support::ActingPlant<Supply, PolynomialLoad, BareUnit>;

const SeriesImpedance some_wiring{0.9, 1.4e-3};

template <class Supply>
Acting<Supply> plant_on(const Supply& supply, const MotorParameters& motor,
                        const SeriesImpedance& wiring) {
    return Acting<Supply>(
        typename Acting<Supply>::Plant(motor, support::table_defaults<LimiterParameters>(), supply,
                                       PolynomialLoad(support::fan()), BareUnit(), wiring));
}

/// A start with every kind of switching, so that the inductance acts in each circuit.
template <class Supply>
void start(Acting<Supply>& acting) {
    acting.start(true);
    acting.line(true);
    acting.gate(true);
    acting.run_until(0.08);
    acting.bypass(true);
    acting.gate(false);
    acting.run_until(0.2);
    acting.start(false);
    acting.run_until(0.3);
    acting.line(false);
    acting.run_until(0.35);
    acting.line(true);
    acting.run_until(0.45);
}

TEST(Wiring, InSeriesWithAGridIsAGridWithTheSumOfBoth) {
    const MotorParameters motor = support::lossy_motor();
    GridParameters sum = support::weak_grid();
    sum.resistance_ohm += some_wiring.resistance_ohm;
    sum.inductance_mH += 1e3 * some_wiring.inductance_H;
    auto wired = plant_on(Grid(support::weak_grid()), motor, some_wiring);
    auto weaker = plant_on(Grid(sum), motor, {});
    start(wired);
    start(weaker);
    ASSERT_GT(weaker.events.size(), 5U);
    ASSERT_EQ(wired.events.size(), weaker.events.size());
    for (std::size_t k = 0; k < wired.x.size(); ++k) {
        EXPECT_NEAR(wired.x[k], weaker.x[k], 1e-8 * (1.0 + std::abs(weaker.x[k]))) << k;
    }
    EXPECT_NEAR(wired.outputs().line_voltage_V, weaker.outputs().line_voltage_V, 1e-5);
    EXPECT_NEAR(wired.energy().wiring_J, weaker.energy().wiring_J, 1e-6);
    // It does matter: a stiff feeder would have brought the rotor further.
    auto direct = plant_on(Grid(support::weak_grid()), motor, {});
    start(direct);
    EXPECT_GT(direct.x[Acting<Grid>::Plant::speed], wired.x[Acting<Grid>::Plant::speed] + 1.0);
}

TEST(Wiring, LeavesTheUnitTheSupplysVoltageLessItsOwnDrop) {
    // Mid-transient, with a rate of the current taken from the trajectory and not from the model.
    auto acting =
        plant_on(Grid(support::ideal_grid(230.0, 50.0)), support::lossy_motor(), some_wiring);
    acting.bypass(true);
    acting.line(true);
    const double omega = 2.0 * pi * 50.0;
    for (int k = 1; k < 60; ++k) {
        acting.run_until(0.0031 * k);
        auto behind = acting;
        const double now_s = acting.time_s;
        const double h = 1e-6;
        auto ahead = acting;
        ahead.run_until(now_s + h, h);
        const double forward = (ahead.line_current_A() - behind.line_current_A()) / h;
        const double middle_A = 0.5 * (ahead.line_current_A() + behind.line_current_A());
        const double emf = std::sqrt(2.0) * 230.0 * std::sin(omega * (now_s + 0.5 * h));
        const double expected =
            emf - some_wiring.resistance_ohm * middle_A - some_wiring.inductance_H * forward;
        const double read =
            0.5 * (ahead.outputs().line_voltage_V + behind.outputs().line_voltage_V);
        EXPECT_NEAR(read, expected, 1e-3) << now_s;
    }
}

TEST(Wiring, DropsWhatItsPhasorImpedanceSaysOnceTheCurrentIsSteady) {
    MotorParameters motor = support::two_pole_motor();
    motor.inertia_kg_m2 = 10.0;  // as good as held
    auto acting = plant_on(Grid(support::ideal_grid(230.0, 60.0)), motor, some_wiring);
    acting.bypass(true);
    acting.line(true);
    acting.run_until(0.5);
    const double omega = 2.0 * pi * 60.0;
    const int samples = 200;
    std::complex<double> current_A;
    std::complex<double> voltage_V;
    for (int k = 0; k < samples; ++k) {
        const double t = 0.5 + k / (60.0 * samples);
        acting.run_until(t);
        const auto turn = std::polar(std::sqrt(2.0) / samples, -omega * t);
        current_A += turn * acting.line_current_A();
        voltage_V += turn * acting.outputs().line_voltage_V;
    }
    // The EMF is a sine: 230 V at -90 degrees of the cosine.
    const std::complex<double> emf(0.0, -230.0);
    const std::complex<double> impedance(some_wiring.resistance_ohm,
                                         omega * some_wiring.inductance_H);
    EXPECT_GT(std::abs(current_A), 50.0);
    EXPECT_NEAR(std::abs(emf - impedance * current_A - voltage_V), 0.0, 0.02);
    EXPECT_LT(std::abs(voltage_V), 190.0);
}

TEST(Wiring, HeatsWithTheSquareOfItsCurrentAlone) {
    // The iron's current is taken at the unit; its share in the drop is neglected (plant.hpp).
    auto acting =
        plant_on(Grid(support::ideal_grid(230.0, 50.0)), support::lossy_motor(), some_wiring);
    const double esr = support::lossy_motor().run_capacitor_esr_ohm;
    acting.bypass(true);
    acting.line(true);
    using P = Acting<Grid>::Plant;
    for (int k = 1; k < 40; ++k) {
        acting.run_until(0.0037 * k);
        const double line_A = acting.line_current_A();
        const double aux_A = acting.x[P::aux_current];
        const double expected_W =
            some_wiring.resistance_ohm * line_A * line_A + esr * aux_A * aux_A;
        EXPECT_NEAR(acting.rate[P::wiring_energy], expected_W, 1e-9 * (1.0 + expected_W));
    }
    EXPECT_GT(acting.energy().wiring_J, 30.0);
}

TEST(Wiring, LowersTheIronLossWithTheSquareOfTheUnitsVoltage) {
    // The iron feels what is left behind the wiring's inductance, too.
    const MotorParameters motor = support::lossy_motor();
    auto acting = plant_on(Grid(support::ideal_grid(230.0, 50.0)), motor, some_wiring);
    acting.bypass(true);
    acting.line(true);
    for (int k = 1; k < 40; ++k) {
        acting.run_until(0.0037 * k);
        const double share = acting.outputs().line_voltage_V / motor.rated_voltage_V;
        EXPECT_NEAR(acting.rate[Acting<Grid>::Plant::iron_energy],
                    motor.iron_loss_W * share * share, 1e-6 * motor.iron_loss_W);
    }
}

/// Runs a start on the supply through wiring and looks at the balance of powers all along it, and
/// at the audit at its end.
template <class Supply>
void expect_energy_to_close(const Supply& supply, const MotorParameters& motor,
                            const std::string& name) {
    SCOPED_TRACE(name);
    auto acting = plant_on(supply, motor, some_wiring);
    acting.start(true);
    acting.line(true);
    acting.bypass(true);
    double most_W = 0.0;
    for (int k = 1; k < 60; ++k) {
        acting.run_until(0.0041 * k);
        most_W = std::max(most_W, std::abs(support::missing_power_W(acting)));
    }
    // Of kilowatts; rounding in a central difference of some kilojoules.
    EXPECT_LT(most_W, 2e-2);
    EXPECT_GT(acting.energy().source_J, 100.0);
    EXPECT_GT(acting.energy().iron_J, 1.0);
    EXPECT_LT(acting.energy().closure(), 1e-5);
}

TEST(Wiring, ClosesTheEnergyAuditOnEverySupplyWithIronLossAndAll) {
    // A supply with an own output (an inverter's capacitor) is told of the iron's current, and what
    // its EMF gives beyond the unit's voltage has to turn up somewhere. Broken once: on an inverter
    // nobody booked it.
    const MotorParameters motor = support::lossy_motor();
    expect_energy_to_close(Grid(support::weak_grid()), motor, "grid");
    auto split = support::table_defaults<SplitPhaseParameters>();
    split.connection = "leg_to_leg";
    split.frequency_Hz = 50.0;
    expect_energy_to_close(SplitPhase(split), motor, "split phase");
    auto inverter = support::small_inverter();
    inverter.frequency_Hz = 50.0;
    expect_energy_to_close(Inverter(inverter), motor, "inverter");
    auto transformer = support::table_defaults<TransformerInverterParameters>();
    transformer.voltage_V = 230.0;
    transformer.frequency_Hz = 50.0;
    transformer.rated_power_W = 5000.0;
    expect_energy_to_close(TransformerInverter(transformer), motor, "transformer inverter");
    auto generator = support::table_defaults<GeneratorParameters>();
    generator.voltage_V = 230.0;
    generator.frequency_Hz = 50.0;
    generator.rated_power_VA = 7000.0;
    expect_energy_to_close(Generator(generator), motor, "generator");
}

TEST(Wiring, AddsItsTwoRunsAndCountsEachLengthThereAndBack) {
    WiringParameters wiring;
    wiring.service_size = "25 mm2";
    wiring.service_length_m = 40.0;
    const SeriesImpedance service = series_impedance(wiring);
    WiringParameters other;
    other.branch_size = "10 AWG";
    other.branch_length_m = 12.0;
    const SeriesImpedance branch = series_impedance(other);
    wiring.branch_size = other.branch_size;
    wiring.branch_length_m = other.branch_length_m;
    const SeriesImpedance both = series_impedance(wiring);
    EXPECT_DOUBLE_EQ(both.resistance_ohm, service.resistance_ohm + branch.resistance_ohm);
    EXPECT_DOUBLE_EQ(both.inductance_H, service.inductance_H + branch.inductance_H);
    // 10 AWG copper at 75 C: 3.97 ohm/km (NEC chapter 9 table 8, secondary), 24 m of it.
    EXPECT_NEAR(branch.resistance_ohm, 0.024 * 3.97, 0.01 * branch.resistance_ohm);
    wiring.service_length_m *= 2.0;
    EXPECT_NEAR(series_impedance(wiring).resistance_ohm - branch.resistance_ohm,
                2.0 * service.resistance_ohm, 1e-12);
}

}  // namespace
