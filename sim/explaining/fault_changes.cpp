// Each [[fault]] taken out, one at a time.
#include <string>

#include "sim/explaining/change_list.hpp"
#include "sim/results/spaced_word.hpp"

namespace sim {

Changes without_each_fault(const Scenario& scenario) {
    Changes changes;
    for (std::size_t k = 0; k < scenario.faults.size(); ++k) {
        const std::string kind(scenario.faults[k].kind());
        Change change;
        change.name = "no_fault_" + kind;
        change.what = "without the fault \"" + spaced(kind) + "\"";
        change.subject = "fault " + std::to_string(k);
        // Which one it is must not depend on what else has been taken out: it is known by its line.
        change.set = [line = scenario.faults[k].line](Scenario& changed, double /*done*/) {
            Faults left;
            for (const Fault& fault : changed.faults) {
                if (fault.line != line) {
                    left.push_back(fault);
                }
            }
            changed.faults = left;
        };
        changes.push_back(change);
    }
    return changes;
}

}  // namespace sim
