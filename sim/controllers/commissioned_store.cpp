#include "sim/controllers/commissioned_store.hpp"

#include "firmware/learning/learned_payload.hpp"
#include "firmware/memory/journal.hpp"
#include "sim/controllers/flash_store.hpp"

namespace sim {

firmware::StorePages commissioned_store() {
    FlashStore store;
    firmware::Journal journal(store.pages());
    journal.save(firmware::payload_of(firmware::Learned{}));
    while (journal.busy()) {
        store.begin(journal.next(), false);
        store.pass(usual_page_erase);
    }
    return store.pages();
}

}  // namespace sim
