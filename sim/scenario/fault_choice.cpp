#include "sim/scenario/fault_choice.hpp"

#include <algorithm>
#include <string>
#include <type_traits>

#include "firmware/contract/sensor_scale.hpp"

namespace sim {

namespace {

template <class F, class = void>
struct HasKeys : std::false_type {};
template <class F>
struct HasKeys<F, std::void_t<decltype(F::table())>> : std::true_type {};

/// A motor is wired wrong once; everything else comes and perhaps goes.
template <class F>
constexpr bool has_times = !std::is_same_v<F, WindingsSwapped>;

template <class F>
TableForm form_of_fault(Fault& fault) {
    TableForm form;
    if constexpr (HasKeys<F>::value) {
        form = form_of(fault.what.emplace<F>());
    } else {
        fault.what.emplace<F>();
    }
    form.inconsistency = []() { return std::string(); };
    if constexpr (has_times<F>) {
        TableForm times = form_of(fault.timing);
        form.keys.insert(form.keys.end(), times.keys.begin(), times.keys.end());
        form.inconsistency = times.inconsistency;
    }
    return form;
}

template <class... F>
std::vector<TableKind> kinds_appended_to(Faults& target, const std::variant<F...>* /*list*/) {
    return {TableKind{F::kind, [&target]() { return form_of_fault<F>(target.emplace_back()); },
                      F::meaning}...};
}

template <class F>
FaultWords<F> polarity_word() {
    return {{"polarity",
             &F::polarity,
             {"positive", "negative", "both"},
             "positive",
             "which thyristor of the pair\n"
             "positive: the one that carries current from L1 to R\n"
             "negative: the other\n"
             "both: both of them"}};
}

template <class F>
FaultTable<F> counts_row() {
    return {{"counts", &F::counts, -1, static_cast<double>(firmware::adc_maximum), -1.0,
             "converter counts at which it stands; -1: those of the last sample before the fault"}};
}

}  // namespace

const plant_models::ParameterTable<FaultTiming>& FaultTiming::table() {
    using T = FaultTiming;
    static const plant_models::ParameterTable<T> rows = {
        {"at_s", &T::at_s, 0, 7200, 0.0, "when it begins, since the run began"},
        {"after_s", &T::after_s, 0, 7200, 0.0,
         "when it begins, since the controller entered the state that `when` names"},
        {"duration_s", &T::duration_s, 0, 7200, 0.0, "how long it lasts; 0: to the end"},
    };
    return rows;
}

const plant_models::WordTable<FaultTiming>& FaultTiming::word_table() {
    using T = FaultTiming;
    static const plant_models::WordTable<T> rows = {
        {"when",
         &T::when,
         {"clock", "resting", "listening", "probing", "climbing", "handing_over", "running",
          "backing_off", "locked_out"},
         "clock",
         "what its begin is counted from\n"
         "clock: the beginning of the run, with at_s\n"
         "a state of the controller: the first time that it is entered, with after_s"},
    };
    return rows;
}

std::string_view FaultTiming::inconsistency() const {
    if (waits_for_state() && at_s > 0.0) {
        return "at_s counts from the beginning of the run; with a state as `when`, give after_s";
    }
    if (!waits_for_state() && after_s > 0.0) {
        return "after_s counts from a state; give that state as `when`, or at_s";
    }
    return {};
}

const FaultTable<SupplyVoltage>& SupplyVoltage::table() {
    static const FaultTable<SupplyVoltage> rows = {
        {"to_percent", &SupplyVoltage::to_percent, 1, 150, {}, "of what it would be otherwise"}};
    return rows;
}
const FaultTable<SupplyFrequency>& SupplyFrequency::table() {
    static const FaultTable<SupplyFrequency> rows = {
        {"frequency_Hz",
         &SupplyFrequency::frequency_Hz,
         30,
         80,
         {},
         "frequency meanwhile (saturation, which a low one brings, is not modelled)"}};
    return rows;
}
const FaultTable<SupplyChatter>& SupplyChatter::table() {
    using C = SupplyChatter;
    static const FaultTable<C> rows = {
        {"period_ms", &C::period_ms, 2, 60000, 200.0, "from one interruption to the next"},
        {"open_percent", &C::open_percent, 1, 100, 50.0,
         "share of the period without supply, at its begin; 100: an outage"}};
    return rows;
}
const FaultTable<ExtraLoad>& ExtraLoad::table() {
    static const FaultTable<ExtraLoad> rows = {
        {"torque_Nm", &ExtraLoad::torque_Nm, 0, 1000, {}, "torque of the drag"}};
    return rows;
}
const FaultTable<BypassWelded>& BypassWelded::table() {
    static const FaultTable<BypassWelded> rows;
    return rows;
}
const FaultWords<BypassWelded>& BypassWelded::word_table() {
    static const FaultWords<BypassWelded> rows = {
        {"welds",
         &BypassWelded::welds,
         {"at_next_touch", "at_once"},
         "at_next_touch",
         "from when on it is closed\n"
         "at_next_touch: as soon as it touches, or already does\n"
         "at_once: from the beginning of the fault"}};
    return rows;
}
const FaultTable<ThyristorShorted>& ThyristorShorted::table() {
    static const FaultTable<ThyristorShorted> rows;
    return rows;
}
const FaultWords<ThyristorShorted>& ThyristorShorted::word_table() {
    static const FaultWords<ThyristorShorted> rows = polarity_word<ThyristorShorted>();
    return rows;
}
const FaultTable<ThyristorDead>& ThyristorDead::table() {
    static const FaultTable<ThyristorDead> rows;
    return rows;
}
const FaultWords<ThyristorDead>& ThyristorDead::word_table() {
    static const FaultWords<ThyristorDead> rows = polarity_word<ThyristorDead>();
    return rows;
}
const FaultTable<LineVoltageSensorStuck>& LineVoltageSensorStuck::table() {
    static const auto rows = counts_row<LineVoltageSensorStuck>();
    return rows;
}
const FaultTable<OutputCurrentSensorStuck>& OutputCurrentSensorStuck::table() {
    static const auto rows = counts_row<OutputCurrentSensorStuck>();
    return rows;
}
const FaultTable<StartTerminalSensorStuck>& StartTerminalSensorStuck::table() {
    static const auto rows = counts_row<StartTerminalSensorStuck>();
    return rows;
}

std::string_view Fault::kind() const {
    return std::visit([](const auto& one) { return std::string_view(one.kind); }, what);
}

FaultNeeds Fault::needs() const {
    return std::visit([](const auto& one) { return one.needs; }, what);
}

bool Fault::concerns_limiter() const {
    return timing.waits_for_state() || needs() == FaultNeeds::limiter ||
           needs() == FaultNeeds::start_capacitor;
}

std::vector<TableKind> fault_kinds(Faults& target) {
    return kinds_appended_to(target, static_cast<const AnyFault*>(nullptr));
}

bool windings_are_swapped(const Faults& faults) {
    return std::any_of(faults.begin(), faults.end(), [](const Fault& fault) {
        return std::holds_alternative<WindingsSwapped>(fault.what);
    });
}

}  // namespace sim
