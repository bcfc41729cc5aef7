// The whole controller over many starts, and every way in which power can take its memory apart
// meanwhile. Whatever is left: the next controller goes on from the last record or the one before,
// with what was learned and with the rest that was owed, or climbs the settings' ladder, and says
// which.
//
// A start leaves up to three records: that a rest will be owed, what was learned, and that the rest
// is over.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <vector>

#include "bench_signals/drive_with_flash.hpp"
#include "firmware/learning/learned_payload.hpp"

namespace {

using namespace firmware;
using bench_signals::Drive;
using bench_signals::learning_with_short_rests;
using memory_test::Flash;

/// What a controller did to its store: after each command, and between which records that was.
struct Cut {
    Flash flash;
    StoreCommand command;  ///< the one just carried out
    std::size_t record;    ///< number, from 1, of the record that is being written
};

struct Life {
    /// Of each record, from 1; as 0 what is known without one.
    std::vector<Payload> records = {payload_of(Learned{})};
    std::vector<Cut> cuts;
    /// As it was when each of them was whole.
    std::vector<Flash> between = {Flash()};
};

bool ends_a_record(const StoreCommand& command) {
    return command.kind == StoreCommandKind::write_word &&
           command.index % record_words == record_words - 1;
}

/// Starts of a compressor that comes up ever later or sooner, so that there is much to learn. Power
/// is never cut here: this is what the cuts are held against.
Life life_of(int starts) {
    Life life;
    Flash flash;
    Drive drive(learning_with_short_rests());
    const auto run_for = [&](double seconds) {
        for (const double end_s = drive.motor.time_s() + seconds; drive.motor.time_s() < end_s;) {
            tick(drive, flash);
            const StoreCommand& command = drive.controller.store_command();
            if (command.kind != StoreCommandKind::none) {
                life.cuts.push_back({flash, command, life.records.size()});
            }
            if (ends_a_record(command)) {
                life.records.push_back(Journal(flash.pages()).payload());
                life.between.push_back(flash);
            }
        }
    };
    for (int start = 0; start < starts; ++start) {
        drive.motor.run_up_s = 0.3 + 0.1 * (start % 5);
        drive.motor.locked_rotor_A = start % 8 < 5 ? 80.0 : 60.0;
        drive.motor.call = true;
        run_for(2.5);
        drive.motor.call = false;
        run_for(1.5);
    }
    EXPECT_EQ(flash.broken_rule(), "");
    return life;
}

const Life& life() {
    static const Life one = life_of(12);
    return one;
}

std::int32_t level_of(const Payload& payload) {
    Learned learned;
    learned_from(without_rest_mark(payload), learned);
    return learned.level.count();
}

/// How old what a controller finds is: 0 the record itself, 1 the one before, ...; -1 none of them.
int age_found(const StorePages& pages, std::size_t record, int oldest) {
    const Keeper keeper(pages);
    for (int age = 0; age <= oldest && static_cast<std::size_t>(age) <= record; ++age) {
        const Payload& payload = life().records[record - static_cast<std::size_t>(age)];
        if (with_rest_mark(payload_of(keeper.learned()), keeper.rest_mark()) == payload) {
            return age;
        }
    }
    return -1;
}

void expect_told(const Controller& controller, const StorePages& pages) {
    const Journal journal(pages);
    const Recovery told = controller.telemetry().memory;
    ASSERT_EQ(journal.has_payload(),
              told == Recovery::recovered || told == Recovery::recovered_older);
    ASSERT_EQ(controller.telemetry().learned_level_permille,
              journal.has_payload() ? level_of(journal.payload()) : 1000);
}

TEST(MemoryCuts, TheLifeThatTheyAreHeldAgainstHasManyDifferentRecords) {
    EXPECT_GE(life().records.size(), 16U) << "two pages and more";
    std::size_t different = 0;
    for (std::size_t k = 1; k < life().records.size(); ++k) {
        different += life().records[k] != life().records[k - 1] ? 1 : 0;
    }
    EXPECT_EQ(different, life().records.size() - 1);
    const auto with = [](auto holds) {
        return std::count_if(life().records.begin(), life().records.end(), holds);
    };
    EXPECT_GE(with([](const Payload& payload) { return rest_mark_of(payload).owed; }), 12);
    EXPECT_GE(with([](const Payload& payload) { return !rest_mark_of(payload).owed; }), 6);
    EXPECT_GE(with([](const Payload& payload) { return level_of(payload) != 1000; }), 6);
    const auto erases = std::count_if(life().cuts.begin(), life().cuts.end(), [](const Cut& cut) {
        return cut.command.kind == StoreCommandKind::erase_page;
    });
    EXPECT_GE(erases, 3);
    EXPECT_GE(life().cuts.size(), 9 * (life().records.size() - 1));
}

TEST(MemoryCuts, AfterAnyCommandLeaveTheRecordOrTheOneBefore) {
    for (const Cut& cut : life().cuts) {
        const StorePages& pages = cut.flash.pages();
        ASSERT_EQ(age_found(pages, cut.record, 1), ends_a_record(cut.command) ? 0 : 1)
            << cut.record;
        const Controller controller(learning_with_short_rests(), pages);
        ASSERT_NO_FATAL_FAILURE(expect_told(controller, pages));
    }
}

TEST(MemoryCuts, TogetherWithAnyFlippedBitCostAtMostOneRecordMore) {
    std::size_t older = 0;
    for (const Cut& cut : life().cuts) {
        for (std::size_t bit = 0; bit < Flash::bits; ++bit) {
            Flash flipped = cut.flash;
            flipped.flip(bit);
            const int age = age_found(flipped.pages(), cut.record, 2);
            // One more where the erase of its page has just taken the others away.
            ASSERT_GE(age, 0) << "record " << cut.record << ", bit " << bit;
            older += age == 2 ? 1 : 0;
            if (bit % 97 == 0) {
                const Controller controller(learning_with_short_rests(), flipped.pages());
                ASSERT_NO_FATAL_FAILURE(expect_told(controller, flipped.pages()));
            }
        }
    }
    EXPECT_GT(older, 0U) << "else the flips hit nothing";
}

TEST(MemoryCuts, InsideAnEraseOrAWordLeaveTheRecordOrTheOneBefore) {
    std::mt19937 random(5);
    std::size_t torn = 0;
    const Flash* before = &life().between.front();
    for (const Cut& cut : life().cuts) {
        for (int k = 0; k < 30; ++k) {
            Flash flash = *before;
            if (cut.command.kind == StoreCommandKind::erase_page) {
                k % 3 == 0   ? flash.erase_in_part(cut.command.page, random)
                : k % 3 == 1 ? flash.erase_into_garbage(cut.command.page, random)
                             : flash.erase_in_appearance(cut.command.page);
            } else {
                StoreCommand part = cut.command;
                part.word |= static_cast<std::uint32_t>(random());
                if (part.word == erased_word) {
                    continue;
                }
                flash.carry_out(part);
            }
            ASSERT_GE(age_found(flash.pages(), cut.record, 1), 0) << cut.record;
            const Controller controller(learning_with_short_rests(), flash.pages());
            ASSERT_NO_FATAL_FAILURE(expect_told(controller, flash.pages()));
            ++torn;
        }
        before = &cut.flash;
    }
    EXPECT_GT(torn, 4000U);
}

/// State and firing angle from the call on, over a rest that is owed and half a second of the
/// start.
std::vector<std::int32_t> first_start(const StorePages& pages, const Settings& settings) {
    Drive drive(settings, 0.0, pages);
    drive.motor.run_up_s = 0.6;
    std::vector<std::int32_t> course;
    while (drive.motor.time_s() < 1.6) {
        drive.tick();
        course.push_back(static_cast<std::int32_t>(drive.controller.telemetry().state));
        course.push_back(drive.controller.telemetry().firing_angle_mdeg);
    }
    return course;
}

TEST(MemoryCuts, TheFirstStartAfterIsThatOfTheRecordFoundTickByTick) {
    // Every cut of the last record of a page, of the one that needs an erase, and of the next: of
    // each kind one.
    for (const Cut& cut : life().cuts) {
        if (cut.record < 7 || cut.record > 9) {
            continue;
        }
        const int age = age_found(cut.flash.pages(), cut.record, 1);
        ASSERT_GE(age, 0);
        const Flash& whole = life().between[cut.record - static_cast<std::size_t>(age)];
        ASSERT_EQ(first_start(cut.flash.pages(), learning_with_short_rests()),
                  first_start(whole.pages(), learning_with_short_rests()));
    }
}

StorePages filled_with(std::uint32_t word) {
    StorePages pages{};
    for (auto& page : pages.words) {
        std::fill(std::begin(page), std::end(page), word);
    }
    return pages;
}

StorePages of_another_version() {
    Flash flash;
    memory_test::put(flash, 0, 0, {record_format_version + 1, 5, life().records[3]});
    return flash.pages();
}

TEST(MemoryCuts, WhatIsNoMemoryGivesTheSettingsLadderTickByTickAndIsTold) {
    const std::vector<std::int32_t> factory =
        first_start(erased_store(), learning_with_short_rests());
    ASSERT_TRUE(std::any_of(life().between.begin(), life().between.end(), [&](const Flash& flash) {
        const Keeper keeper(flash.pages());
        return !keeper.rest_mark().owed &&
               first_start(flash.pages(), learning_with_short_rests()) != factory;
    })) << "else nothing is shown";
    std::mt19937 random(17);
    const auto expect_factory = [&](const StorePages& pages, Recovery told) {
        EXPECT_EQ(first_start(pages, learning_with_short_rests()), factory);
        EXPECT_EQ(Controller(learning_with_short_rests(), pages).telemetry().memory, told);
    };
    expect_factory(filled_with(0xFFFFFFFFU), Recovery::fresh);
    expect_factory(filled_with(0), Recovery::nothing_valid);
    expect_factory(of_another_version(), Recovery::wrong_version);
    for (int k = 0; k < 20; ++k) {
        expect_factory(memory_test::random_pages(random), Recovery::nothing_valid);
    }
}

struct Limits {
    double start_capacitor_in_s = 0.0;
    double fed_s = 0.0;
    int tries = 0;
};

/// Of a rotor that never moves, called for half a minute: the longest single times, and the tries.
Limits limits_kept(const StorePages& pages, const Settings& settings) {
    Drive drive(settings, 0.0, pages);
    drive.motor.rotor = bench_signals::Rotor::stuck;
    Limits most;
    double capacitor_s = 0.0;
    double fed_s = 0.0;
    while (drive.motor.time_s() < 12.0) {
        const ActuatorFrame frame = drive.tick();
        capacitor_s = frame.start_capacitor_contact != 0 ? capacitor_s + 1e-4 : 0.0;
        fed_s = feeds_motor(drive.state()) ? fed_s + 1e-4 : 0.0;
        most.start_capacitor_in_s = std::max(most.start_capacitor_in_s, capacitor_s);
        most.fed_s = std::max(most.fed_s, fed_s);
    }
    most.tries = drive.controller.telemetry().tries_made;
    EXPECT_EQ(drive.state(), State::locked_out);
    return most;
}

TEST(MemoryCuts, NoRecordHoweverFoolishMovesALimitOfTheSettings) {
    Settings settings = learning_with_short_rests();
    settings.start_capacitor_limit_ms = 900;
    settings.climb_limit_ms = 800;
    std::mt19937 random(23);
    std::uniform_int_distribution<std::uint32_t> level(0, 1000);
    int taken = 0;
    for (int k = 0; k < 60; ++k) {
        // Whole, and in the ranges that learned_payload.hpp lets pass; with every mark of a rest
        // that leaves a try.
        Payload payload{};
        for (std::size_t word = 0; word < 2; ++word) {
            payload[word] = level(random) | (level(random) << 16);
        }
        for (std::size_t word = 2; word < 5; ++word) {
            payload[word] = level(random) * 400;
        }
        payload[5] = static_cast<std::uint32_t>(random()) & 0x1FFFFU;
        payload = with_rest_mark(payload, {k % 2 == 0, static_cast<std::uint8_t>(k / 2 % 3)});
        Flash flash;
        memory_test::put(flash, 0, 0, {record_format_version, 1, payload});
        taken += Keeper(flash.pages()).learned().is_fresh() ? 0 : 1;
        const Limits kept = limits_kept(flash.pages(), settings);
        EXPECT_LE(kept.start_capacitor_in_s, 0.9 + 1e-3);
        EXPECT_LE(kept.fed_s, 0.8 + 0.2) << "climb and probing";
        EXPECT_EQ(kept.tries, settings.tries);
    }
    EXPECT_GT(taken, 30);
}

}  // namespace
