// The non-volatile store as the bench keeps it: two pages of flash under the rules of
// firmware/contract/store.hpp. It outlives the controller, as on the board.
//
// A command takes its time: a word less than a tick (50 to 100 us, common practice), the erase of a
// page many (20 to 40 ms, common practice). Until it is finished the store is busy, and power that
// vanishes then leaves it torn.
//
// Whoever breaks a rule still changes the store as flash would (bits only go from 1 to 0), and it
// is counted. The same calls give the same content.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "firmware/contract/store.hpp"
#include "firmware/units/units.hpp"

namespace sim {

/// 30 ms: the middle of common practice.
inline constexpr firmware::Ticks usual_page_erase = firmware::ticks_from_ms(30);

/// Erases that a page of such a processor's flash is good for. (Common practice: data sheets
/// promise 10,000.)
inline constexpr double usual_page_endurance = 10000.0;

/// What vanishing power leaves of the command that is being carried out.
enum class Torn : std::uint8_t {
    untouched,     ///< as if it had not been begun
    in_part,       ///< any of the bits that were to change have
    garbage,       ///< of an erase: every bit is anything; of a word: as `in_part`
    reads_as_done  ///< of an erase: reads as erased and is not fit to be written; of a word: done
};
inline constexpr int torn_count = 4;

class FlashStore {
  public:
    explicit FlashStore(const firmware::StorePages& found = firmware::erased_store(),
                        firmware::Ticks page_erase = usual_page_erase);

    /// `outputs_on`: what the controller's frame of the same tick has on. A processor that stalls
    /// for its flash cannot switch them off meanwhile.
    void begin(const firmware::StoreCommand& command, bool outputs_on);
    /// Time passes; a command that is over has then been carried out.
    void pass(firmware::Ticks ticks);
    bool busy() const { return left_.count() > 0; }
    /// Without a command on its way nothing is torn.
    void lose_power(Torn torn, std::uint32_t seed);

    const firmware::StorePages& pages() const { return pages_; }

    /// What was carried out so far, for its wear; the torn ones, too.
    struct Wear {
        std::int64_t word_writes = 0;
        std::array<std::int64_t, firmware::store_page_count> erases{};
    };
    const Wear& wear() const { return wear_; }

    /// Broken rules so far.
    struct Faults {
        int out_of_range = 0;      ///< no such page or word, or no such command; not carried out
        int unfit_words = 0;       ///< written although not erased since it was last written
        int while_busy = 0;        ///< given before the one before it was over; not carried out
        int while_outputs_on = 0;  ///< given in a tick that had outputs on
    };
    const Faults& faults() const { return faults_; }

  private:
    void finish();

    firmware::StorePages pages_;
    std::array<std::array<bool, firmware::store_page_words>, firmware::store_page_count> used_{};
    firmware::Ticks page_erase_;
    firmware::StoreCommand command_;  ///< on its way
    firmware::Ticks left_{0U};
    Wear wear_;
    Faults faults_;
};

}  // namespace sim
