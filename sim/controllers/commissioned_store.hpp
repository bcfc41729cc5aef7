// The store of a controller that has been through its first power-up on the test bench of its
// maker: one record, nothing learned, no rest owed. The very first record needs a page erased, for
// which the processor stalls; that is not to happen in the middle of the first call.
#pragma once

#include "firmware/contract/store.hpp"

namespace sim {

firmware::StorePages commissioned_store();

}  // namespace sim
