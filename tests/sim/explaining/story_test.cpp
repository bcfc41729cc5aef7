// Every sentence is held against the run, recomputed from its ticks by other means.
#include "sim/explaining/story.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <regex>
#include <sstream>

#include "bench/cases.hpp"
#include "explaining/explained_cases.hpp"
#include "plant_models/numeric/units.hpp"
#include "sim/bench/motor_curves.hpp"
#include "sim/bench/start_run.hpp"

namespace {

using sim_test::bundled;

/// Every tick of a run.
class AllTicks final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& view) override { ticks.push_back(view.plant); }
    std::vector<plant_models::PlantOutputs> ticks;
};

struct ToldRun {
    sim::Scenario scenario;
    sim::StartResult result;
    sim::Story story;
    std::vector<plant_models::PlantOutputs> ticks;
};

ToldRun told(const sim::Scenario& scenario) {
    sim::StartRecord record(scenario);
    ToldRun run{scenario, sim::run_start(scenario, &record), {}, {}};
    run.story = sim::tell_story(scenario, record, run.result);
    AllTicks all;
    sim::run_start(scenario, &all);
    run.ticks = std::move(all.ticks);
    return run;
}

/// The first sentence with this figure; the test fails without it.
const sim::Sentence& sentence_with(const sim::Story& story, const std::string& figure) {
    for (const sim::Sentence& one : story) {
        for (const sim::StoryFigure& its : one.figures) {
            if (its.name == figure) {
                return one;
            }
        }
    }
    throw std::logic_error("nobody tells " + figure);
}

double figure(const sim::Sentence& sentence, const std::string& name) {
    for (const sim::StoryFigure& one : sentence.figures) {
        if (one.name == name) {
            return one.value;
        }
    }
    throw std::logic_error("this sentence does not tell " + name);
}

bool tells(const sim::Story& story, const std::string& words) {
    return std::any_of(story.begin(), story.end(), [&words](const sim::Sentence& one) {
        return one.text.find(words) != std::string::npos;
    });
}

/// Whether this is how a figure is written: to its own number of digits, or as per cent.
bool is_written_as(const std::string& number, double value) {
    const std::size_t point = number.find('.');
    const auto decimals =
        point == std::string::npos ? 0 : static_cast<int>(number.size() - point - 1);
    const double half = 0.5001 * std::pow(10.0, -decimals);
    const double written = std::stod(number);
    return std::abs(written - value) <= half || std::abs(written - 100.0 * value) <= half;
}

TEST(Story, EveryNumberInEverySentenceIsOneOfItsFigures) {
    const std::regex number("-?[0-9]+(\\.[0-9]+)?");
    for (const std::string& name : sim_test::bundled_names()) {
        if (name == "shop_protector") {
            continue;  // for its hundred seconds; it tells nothing that the others do not
        }
        const sim::Scenario scenario = bundled(name);
        sim::StartRecord record(scenario);
        const sim::StartResult result = sim::run_start(scenario, &record);
        for (const sim::Sentence& one : sim::tell_story(scenario, record, result)) {
            for (std::sregex_iterator at(one.text.begin(), one.text.end(), number), end; at != end;
                 ++at) {
                EXPECT_TRUE(std::any_of(one.figures.begin(), one.figures.end(),
                                        [&](const sim::StoryFigure& its) {
                                            return is_written_as(at->str(), its.value);
                                        }))
                    << name << ": " << at->str() << " in: " << one.text;
            }
        }
    }
}

TEST(Story, IsToldInTheOrderOfTimeAndWithinTheRun) {
    for (const char* name : {"hut_inverter_direct", "hut_inverter", "clinic_power_cut"}) {
        const ToldRun run = told(bundled(name));
        EXPECT_TRUE(std::is_sorted(run.story.begin(), run.story.end(),
                                   [](const sim::Sentence& one, const sim::Sentence& other) {
                                       return one.time_s < other.time_s;
                                   }))
            << name;
        EXPECT_GE(run.story.front().time_s, 0.0) << name;
        EXPECT_LE(run.story.back().time_s, run.scenario.run.duration_s) << name;
    }
}

TEST(Story, TheStandingRotorsTorqueIsTheMeanOfTheTicks) {
    const ToldRun run = told(bundled("hut_inverter_direct"));
    const sim::Sentence& sentence = sentence_with(run.story, "needed_torque_Nm");
    // It stands from the beginning until the trip; two half cycles at both ends are left out.
    double sum = 0.0;
    int count = 0;
    for (const plant_models::PlantOutputs& tick : run.ticks) {
        if (tick.time_s >= 0.06 && tick.time_s < 4.99) {
            sum += tick.torque_Nm;
            ++count;
        }
    }
    EXPECT_NEAR(figure(sentence, "motor_torque_Nm"), sum / count, 0.005);
    EXPECT_NEAR(figure(sentence, "needed_torque_Nm"), 0.6, 1e-9);
    EXPECT_LT(figure(sentence, "motor_torque_Nm"), figure(sentence, "needed_torque_Nm"));
}

TEST(Story, TheSquareOfTheVoltageExplainsTheTorque) {
    for (const char* name : {"hut_inverter_direct", "bakery_short_rest"}) {
        const ToldRun run = told(bundled(name));
        const sim::Sentence& square = sentence_with(run.story, "torque_by_square_Nm");
        const double rated_V = run.scenario.motor.rated_voltage_V;
        const double voltage_V = figure(square, "line_voltage_rms_V");
        const double locked_Nm = sim::motor_curves(run.scenario, {}).locked_rotor.torque_Nm;
        EXPECT_NEAR(figure(square, "torque_by_square_Nm"),
                    locked_Nm * voltage_V * voltage_V / (rated_V * rated_V), 1e-9)
            << name;
        const double measured_Nm =
            figure(sentence_with(run.story, "needed_torque_Nm"), "motor_torque_Nm");
        // A clamped voltage is no sine: its harmonics make no torque.
        EXPECT_NEAR(measured_Nm, figure(square, "torque_by_square_Nm"), 0.15 * measured_Nm) << name;
    }
}

TEST(Story, TheVoltageUnderItIsThatOfTheTicks) {
    const ToldRun run = told(bundled("hut_inverter_direct"));
    double sum = 0.0;
    int count = 0;
    for (const plant_models::PlantOutputs& tick : run.ticks) {
        if (tick.time_s >= 0.06 && tick.time_s < 4.99) {
            sum += tick.line_voltage_V * tick.line_voltage_V;
            ++count;
        }
    }
    EXPECT_NEAR(figure(sentence_with(run.story, "torque_by_square_Nm"), "line_voltage_rms_V"),
                std::sqrt(sum / count), 0.5);
}

TEST(Story, TheLowestVoltageIsTheOneOfTheFigures) {
    for (const char* name : {"hut_inverter", "camp_generator", "reference_direct"}) {
        const ToldRun run = told(bundled(name));
        const sim::Sentence& lowest = sentence_with(run.story, "share_of_supply_voltage");
        EXPECT_DOUBLE_EQ(figure(lowest, "line_voltage_rms_V"),
                         *run.result.figures.line_voltage_half_cycle_rms_min_V)
            << name;
    }
}

TEST(Story, ATripIsToldAtItsTick) {
    for (const char* name : {"hut_inverter_direct", "cabin_battery_trip"}) {
        const ToldRun run = told(bundled(name));
        const auto trip = std::find_if(
            run.ticks.begin(), run.ticks.end(),
            [](const plant_models::PlantOutputs& tick) { return !tick.supply_trip.empty(); });
        ASSERT_NE(trip, run.ticks.end());
        EXPECT_DOUBLE_EQ(sentence_with(run.story, "since_switching_on_s").time_s, trip->time_s)
            << name;
    }
}

TEST(Story, TheCurrentLimitsShareIsThatOfTheTicks) {
    const sim::Scenario scenario = bundled("hut_inverter_direct");
    const ToldRun run = told(scenario);
    // The inverter's second channel; it comes first among the model's.
    constexpr std::size_t limit_active = 1;
    double sum = 0.0;
    int count = 0;
    for (const plant_models::PlantOutputs& tick : run.ticks) {
        if (tick.time_s < 5.0) {
            sum += tick.model_channels[limit_active];
            ++count;
        }
    }
    const sim::Sentence& limit = sentence_with(run.story, "limited_share");
    EXPECT_NEAR(figure(limit, "limited_share"), sum / count, 0.002);
    EXPECT_NEAR(figure(limit, "limits_until_s"), 5.0, 0.01);
}

TEST(Story, GasThatHoldsTheRotorIsThatOfTheTicks) {
    const ToldRun run = told(bundled("bakery_short_rest"));
    const sim::Sentence& sentence = sentence_with(run.story, "gas_torque_Nm");
    // Trembling, it hardly turns in the second half of the run.
    double sum = 0.0;
    int count = 0;
    for (const plant_models::PlantOutputs& tick : run.ticks) {
        if (tick.time_s > 0.2) {
            sum += tick.load_torque_Nm;
            ++count;
        }
    }
    EXPECT_NEAR(figure(sentence, "gas_torque_Nm"), sum / count, 0.1);
    EXPECT_NEAR(figure(sentence, "needed_torque_Nm"),
                figure(sentence, "gas_torque_Nm") + figure(sentence, "static_friction_Nm"), 1e-12);
    const sim::Sentence& rocking = sentence_with(run.story, "reversals");
    double furthest = 0.0;
    double turns = 0.0;
    for (const plant_models::PlantOutputs& tick : run.ticks) {
        turns += 1e-4 * tick.speed_rad_per_s / (2.0 * plant_models::pi);
        furthest = std::max(furthest, turns);
    }
    EXPECT_NEAR(figure(rocking, "turns"), furthest, 0.02);
}

TEST(Story, ARotorThatTurnsRoundIsToldAsTurningBackwards) {
    const ToldRun run = told(bundled("clinic_power_cut"));
    EXPECT_TRUE(tells(run.story, "turns backwards"));
    EXPECT_TRUE(tells(run.story, "the supply sags"));
    EXPECT_TRUE(tells(run.story, "apart from the sag, the line is at its lowest"));
    double lowest = 0.0;
    for (const plant_models::PlantOutputs& tick : run.ticks) {
        lowest = std::min(lowest, plant_models::rad_per_s_to_rpm(tick.speed_rad_per_s));
    }
    const sim::Sentence& backwards = sentence_with(run.story, "lowest_speed_rpm");
    EXPECT_DOUBLE_EQ(figure(backwards, "lowest_speed_rpm"), lowest);
    EXPECT_FALSE(tells(told(bundled("reference_direct")).story, "backwards"));
}

TEST(Story, OnlyWhatHappenedIsTold) {
    const sim::Story healthy = told(bundled("reference_direct")).story;
    for (const char* words : {"trips", "current limit", "rocks", "fault", "protection", "lets go",
                              "trembled", "battery", "thermistor", "controller"}) {
        EXPECT_FALSE(tells(healthy, words)) << words;
    }
    EXPECT_TRUE(tells(told(bundled("refrigerator_hot_restart")).story, "thermistor is still hot"));
    EXPECT_TRUE(tells(told(bundled("farm_contactor_chatter")).story, "contactor's coil"));
    EXPECT_TRUE(tells(told(bundled("hut_module_misjudges")).story, "own protection opens"));
    const sim::Story faulty = told(sim_test::milk_cooler_with_faults({"windings_swapped"})).story;
    EXPECT_TRUE(tells(faulty, "fault begins: windings swapped"));
    EXPECT_TRUE(tells(faulty, "they are exchanged"));
}

TEST(Story, AFaultThatWaitsForTheControllerIsToldWhenItComes) {
    sim::Scenario scenario = sim_test::milk_cooler_with_faults({"rotor_seized"});
    scenario.faults.front().timing.when = "climbing";
    scenario.faults.front().timing.after_s = 0.05;
    const ToldRun run = told(scenario);
    const auto climbing = std::find_if(
        run.result.controller_steps.begin(), run.result.controller_steps.end(),
        [](const sim::ControllerStep& step) { return step.state == firmware::State::climbing; });
    ASSERT_NE(climbing, run.result.controller_steps.end());
    const auto fault =
        std::find_if(run.story.begin(), run.story.end(),
                     [](const sim::Sentence& one) { return one.subject == "fault"; });
    ASSERT_NE(fault, run.story.end());
    EXPECT_NEAR(fault->time_s, climbing->time_s + 0.05, 1e-9);
}

}  // namespace
