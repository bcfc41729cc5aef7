// What is learned from start to start, and what the memory keeps of it.
#include "firmware/controller.hpp"
#include "firmware/watch/watched_number.hpp"

namespace firmware {

WatchedPart Watch::learning() {
    static constexpr WatchedVariable list[] = {
        {"learning.level_permille", "of the next start's ladder; 1000: as set",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.level); }},
        {"learning.good_permille", "level that drew the least; 0: none yet",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.good); }},
        {"learning.weak_permille", "level below it that did no better; 0: none",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.weak); }},
        {"learning.strong_permille", "level above it that did no better; 0: none",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.strong); }},
        {"learning.inrush_at_good_mA", "over about 100 ms",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.inrush_at_good); }},
        {"learning.peak_at_good_mA", "largest sample",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.peak_at_good); }},
        {"learning.climb_at_good_ms", "time of the climb",
         [](const Controller& c) {
             return number(c.sequence_.learning_.learned_.climb_ms_at_good);
         }},
        {"learning.stage_at_good", "in which the climb ended",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.stage_at_good); }},
        {"learning.locked_rotor_mA", "of the motor that this was learned on; 0: nothing learned",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.locked_rotor); }},
        {"learning.starts", "since the search began, or since it settled",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.starts); }},
        {"learning.misses", "settled starts in a row that were slow",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.misses); }},
        {"learning.settled", "1 once the search is over",
         [](const Controller& c) { return number(c.sequence_.learning_.learned_.settled); }},
        {"learning.witness_sum_mA2", "of the squares of the last ten one-cycle readings",
         [](const Controller& c) { return number(c.sequence_.witness_.sum_); }},
        {"learning.witness_largest_sum_mA2", "the largest of this start",
         [](const Controller& c) { return number(c.sequence_.witness_.largest_sum_); }},
        {"learning.witness_newest_mA2", "square of the latest reading",
         [](const Controller& c) {
             return number(c.sequence_.witness_
                               .squares_[(c.sequence_.witness_.next_ + StartWitness::window - 1) %
                                         StartWitness::window]);
         }},
        {"learning.witness_next", "place of the next reading",
         [](const Controller& c) { return number(c.sequence_.witness_.next_); }},
        {"learning.witness_peak_mA", "largest sample of this start",
         [](const Controller& c) { return number(c.sequence_.witness_.peak_); }},
    };
    return part_of(list);
}

WatchedPart Watch::memory() {
    static constexpr WatchedVariable list[] = {
        {"memory.found", "how the memory was found at power-up (firmware/memory/journal.hpp)",
         [](const Controller& c) { return number(c.keeper_.journal_.recovery_); }},
        {"memory.is_usable", "1: what was found made sense",
         [](const Controller& c) { return number(c.keeper_.is_usable_); }},
        {"memory.level_found_permille", "ladder that was found at power-up; 1000: as set",
         [](const Controller& c) { return number(c.keeper_.learned_.level); }},
        {"memory.rest_owed_found", "1: a rest was owed at power-up",
         [](const Controller& c) { return number(c.keeper_.rest_mark_.owed); }},
        {"memory.payload_found_word_0", "of the record found",
         [](const Controller& c) { return number(c.keeper_.journal_.payload_[0]); }},
        {"memory.kept_word_0", "of what the memory holds, or will",
         [](const Controller& c) { return number(c.keeper_.kept_[0]); }},
        {"memory.kept_word_4", "the same: motor, and the rest owed",
         [](const Controller& c) { return number(c.keeper_.kept_[4]); }},
        {"memory.word_1", "of the record being written: its number",
         [](const Controller& c) { return number(c.keeper_.journal_.body_[1]); }},
        {"memory.sequence", "number of the newest record",
         [](const Controller& c) { return number(c.keeper_.journal_.sequence_); }},
        {"memory.page", "that is appended to",
         [](const Controller& c) { return number(c.keeper_.journal_.page_); }},
        {"memory.free_slot", "the next in it",
         [](const Controller& c) { return number(c.keeper_.journal_.free_slot_); }},
        {"memory.words_left", "of a record that is being written",
         [](const Controller& c) { return number(c.keeper_.journal_.words_left_); }},
        {"memory.command", "0 none, 1 write a word, 2 erase a page",
         [](const Controller& c) { return number(c.store_command_.kind); }},
        {"memory.command_page", "of the command",
         [](const Controller& c) { return number(c.store_command_.page); }},
        {"memory.command_index", "word of the command",
         [](const Controller& c) { return number(c.store_command_.index); }},
        {"memory.command_word", "what is written",
         [](const Controller& c) { return number(c.store_command_.word); }},
    };
    return part_of(list);
}

}  // namespace firmware
