#include "plant_models/loads/scroll.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/equal_steps.hpp"
#include "plant_models/numeric/rest_integration.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/refrigerant/saturation.hpp"

namespace plant_models {

namespace {

constexpr double valve_response_s = 0.3e-3;
constexpr double resting_valve_response_s = 0.1;
constexpr double lift_off_response_s = 2e-3;
constexpr double flank_speed_rad_per_s = 100.0;
/// Within this overpressure a valve is only partly open.
constexpr double opening_kPa = 10.0;
/// Turning back, an event comes this much later than its counterpart turning forwards.
constexpr double angle_gap_rad = 1e-9;

/// Without a corner at 0, so that no step has to end there.
double one_way(double overpressure_kPa) {
    return overpressure_kPa > 0.0
               ? overpressure_kPa * overpressure_kPa / (overpressure_kPa + opening_kPa)
               : 0.0;
}

CompressorSize size_of(const ScrollParameters& scroll) {
    return {1e-6 * scroll.displacement_cm3 * scroll.reference_speed_rpm / 60.0, 0.0};
}

}  // namespace

Scroll::Scroll(const ScrollParameters& scroll, const RefrigerantParameters& refrigerant,
               const Conditions& conditions)
    : pockets_({1e-6 * scroll.displacement_cm3, scroll.volume_ratio, scroll.wrap_turns}),
      circuit_(refrigerant, conditions, size_of(scroll)),
      friction_({scroll.breakaway_torque_Nm, scroll.bearing_torque_Nm, scroll.oil_torque_Nm,
                 rpm_to_rad_per_s(scroll.reference_speed_rpm)}),
      plenum_m3_(scroll.plenum_m3()),
      check_valve_(scroll.check_valve != "none"),
      exponent_(circuit_.gas().isentropic_exponent),
      suction_density_per_kPa_(circuit_.suction_density_kg_per_m3(1.0)) {
    set_seals(scroll, refrigerant);
    set_initial(scroll.crank_angle_deg);
}

void Scroll::set_seals(const ScrollParameters& scroll, const RefrigerantParameters& refrigerant) {
    const double suction = saturation_pressure_kPa(circuit_.gas(), refrigerant.evaporating_C);
    const double discharge = saturation_pressure_kPa(circuit_.gas(), refrigerant.condensing_C);
    // Three seals share the pressure.
    seal_running_ = 0.01 * scroll.leakage_percent *
                    circuit_.mean_flow_kg_per_s(suction, discharge) * 3.0 / (discharge - suction);
    // Outer pair, inner pair and plenum drain through one, two and three seals: the slowest time
    // constant of such a ladder is below the sum of capacity x resistance, and after three of those
    // 5 % would be left.
    const double drained_m3 = pockets_.outer_m3(0.0) + 2.0 * pockets_.inner_m3(0.0) +
                              3.0 * (plenum_m3_ + 0.5 * pockets_.discharge_volume_m3());
    seal_resting_ = std::max(
        seal_running_, 3.0 / scroll.settling_s * suction_density_per_kPa_ / exponent_ * drained_m3);
}

void Scroll::set_initial(double crank_angle_deg) {
    const auto circuit = circuit_.initial_state();
    // The back-spin of the last stop and the seals have emptied pockets and plenum to the suction.
    initial_[suction_pressure] = circuit[RefrigerantCircuit::suction_pressure];
    initial_[discharge_pressure] = circuit[RefrigerantCircuit::discharge_pressure];
    if (!check_valve_) {
        const double c_s = circuit_.suction_capacitance_kg_per_kPa();
        const double c_d = circuit_.discharge_capacitance_kg_per_kPa();
        const double mean =
            (c_s * initial_[suction_pressure] + c_d * initial_[discharge_pressure]) / (c_s + c_d);
        initial_[suction_pressure] = mean;
        initial_[discharge_pressure] = mean;
    }
    double theta = std::fmod(degrees_to_radians(crank_angle_deg), ScrollPockets::turn_rad);
    theta += theta < 0.0 ? ScrollPockets::turn_rad : 0.0;
    inner_open_ = theta >= pockets_.opening_angle_rad();
    const double pressure = initial_[suction_pressure];
    const double density = suction_density_per_kPa_ * pressure;
    initial_[orbit_angle] = theta;
    initial_[outer_pressure] = pressure;
    initial_[outer_mass] = density * pockets_.outer_m3(theta);
    initial_[inner_pressure] = pressure;
    initial_[inner_mass] =
        density * (inner_open_ ? pockets_.discharge_volume_m3() : pockets_.inner_m3(theta));
    initial_[plenum_pressure] = pressure;
    initial_[plenum_mass] = density * plenum_volume_m3(theta);
}

double Scroll::seal_conductance(double speed_rad_per_s) const {
    // Force on the flanks goes with the square of the speed, and what it leaves open falls faster.
    const double ratio = speed_rad_per_s / flank_speed_rad_per_s;
    const double pressed = (1.0 + ratio * ratio) * (1.0 + ratio * ratio);
    return seal_running_ + (seal_resting_ - seal_running_) / (pressed * pressed);
}

void Scroll::derivatives(const double* x, double* dxdt, const LoadMotion<double>& motion) const {
    rates(x, dxdt, motion.speed_rad_per_s, valve_response_s);
}

void Scroll::rest(double* x, double duration_s) const {
    constexpr double drained_kPa = 2.0;
    constexpr double still_kPa_per_s = 1e-6;
    constexpr double last_s = 1.0;
    const auto drained = [](const double* at, const double* /*rate*/) {
        double most = 0.0;
        for (const std::size_t k : {outer_pressure, inner_pressure, plenum_pressure}) {
            most = std::max(most, std::abs(at[k] - at[suction_pressure]));
        }
        return most < drained_kPa;
    };
    const auto still = [](const double* /*at*/, const double* rate) {
        double fastest = 0.0;
        for (const std::size_t k : {suction_pressure, discharge_pressure, outer_pressure,
                                    inner_pressure, plenum_pressure}) {
            fastest = std::max(fastest, std::abs(rate[k]));
        }
        return fastest < still_kPa_per_s;
    };
    const double left_s = stand(x, duration_s, drained);
    rise_with_suction(x, left_s - last_s);
    stand(x, std::min(left_s, last_s), still);
}

/// Integrates with the rotor at rest until `done`; returns what is left of the time then.
template <class Done>
double Scroll::stand(double* x, double duration_s, Done done) const {
    using State = std::array<double, state_count>;
    constexpr RestAccuracy accuracy{1e-9, 1e-7};
    const double valve_s = check_valve_ ? valve_response_s : resting_valve_response_s;
    State state{};
    std::copy(x, x + state_count, state.begin());
    if (inner_open_) {
        state[inner_pressure] = state[suction_pressure];  // it means nothing now
    }
    const double left_s = integrate_rest(
        state, duration_s, accuracy,
        [&](const State& at, State& rate) { rates(at.data(), rate.data(), 0.0, valve_s); },
        [&](const State& at, const State& rate) { return done(at.data(), rate.data()); });
    std::copy(state.begin(), state.end(), x);
    return left_s;
}

void Scroll::rise_with_suction(double* x, double duration_s) const {
    constexpr double longest_step_s = 1.0;
    const EqualSteps steps = equal_steps(duration_s, longest_step_s);
    const auto gas_kg_per_kPa = [&](std::size_t pressure, std::size_t mass) {
        return x[mass] / (exponent_ * x[pressure]);
    };
    for (int n = 0; n < steps.count; ++n) {
        double with_suction = suction_density_per_kPa_ * pockets_.forming_m3(x[orbit_angle]) +
                              gas_kg_per_kPa(outer_pressure, outer_mass) +
                              gas_kg_per_kPa(plenum_pressure, plenum_mass);
        if (!inner_open_) {
            with_suction += gas_kg_per_kPa(inner_pressure, inner_mass);
        }
        circuit_.equalise(x, steps.length_s, with_suction);
        // Gas that mixes in at the temperature of where it goes to: m ~ p^(1/n).
        const auto follow = [&](std::size_t pressure, std::size_t mass) {
            x[mass] *= std::exp(std::log(x[suction_pressure] / x[pressure]) / exponent_);
            x[pressure] = x[suction_pressure];
        };
        follow(outer_pressure, outer_mass);
        follow(plenum_pressure, plenum_mass);
        if (!inner_open_) {
            follow(inner_pressure, inner_mass);
        }
    }
}

void Scroll::rates(const double* x, double* dxdt, double speed, double valve_s) const {
    const double theta = x[orbit_angle];
    const double suction = x[suction_pressure];
    const double seal = seal_conductance(speed);
    const double n = exponent_;
    // Mass that the suction loses: into the forming pair, past the wraps that lift off, and back
    // out of the outer pair.
    const double forming = suction_density_per_kPa_ * pockets_.forming_growth_m3_per_rad() * speed;
    double suction_loss = forming * suction;

    // `pressing` and `leak_in` act on the gas itself; `extra`, kPa/s, is what flows in besides.
    const auto gas = [&](std::size_t pressure, std::size_t mass, double volume, double pressing,
                         double leak_in, double extra) {
        const double lift_off = one_way(suction - x[pressure]) / lift_off_response_s;
        const double kg_per_kPa = x[mass] / (n * x[pressure]);
        dxdt[pressure] =
            leak_in / kg_per_kPa + n * x[pressure] * pressing * speed / volume + extra + lift_off;
        dxdt[mass] = leak_in + kg_per_kPa * (extra + lift_off);
        suction_loss += kg_per_kPa * lift_off;
        return kg_per_kPa;
    };

    const double closed_pressing = pockets_.closed_shrinking_m3_per_rad();
    const double out_of_outer = seal * (x[outer_pressure] - suction);
    double out_of_plenum = 0.0;
    double into_outer = 0.0;
    if (inner_open_) {
        out_of_plenum = seal * (x[plenum_pressure] - x[outer_pressure]);
        into_outer = out_of_plenum;
        dxdt[inner_pressure] = 0.0;
        dxdt[inner_mass] = 0.0;
    } else {
        out_of_plenum = seal * (x[plenum_pressure] - x[inner_pressure]);
        into_outer = seal * (x[inner_pressure] - x[outer_pressure]);
        gas(inner_pressure, inner_mass, pockets_.inner_m3(theta), closed_pressing,
            out_of_plenum - into_outer, 0.0);
    }
    gas(outer_pressure, outer_mass, pockets_.outer_m3(theta), closed_pressing,
        into_outer - out_of_outer, 0.0);
    suction_loss -= out_of_outer;

    // Relaxing the plenum's pressure, rather than dividing by a port's area, keeps the time
    // constant within the integrator's reach whatever the plenum's size.
    const double overpressure = x[plenum_pressure] - x[discharge_pressure];
    const double delivery = (check_valve_ ? one_way(overpressure) : overpressure) / valve_s;
    const double plenum_kg_per_kPa =
        gas(plenum_pressure, plenum_mass, plenum_volume_m3(theta),
            pockets_.central_shrinking_m3_per_rad(), -out_of_plenum, -delivery);

    // What enters and leaves the compressor differs from moment to moment, so the circuit is told
    // of neither, and both are added here. The forming pair is part of the suction's capacity.
    circuit_.derivatives(x, dxdt, 0.0, speed);
    const double c_s = circuit_.suction_capacitance_kg_per_kPa();
    dxdt[suction_pressure] = (c_s * dxdt[suction_pressure] - suction_loss) /
                             (c_s + suction_density_per_kPa_ * pockets_.forming_m3(theta));
    dxdt[discharge_pressure] +=
        plenum_kg_per_kPa * delivery / circuit_.discharge_capacitance_kg_per_kPa();
    dxdt[orbit_angle] = speed;
}

void Scroll::guards(const double* x, const LoadMotion<double>& motion, double* values) const {
    const double theta = x[orbit_angle];
    const double opening = pockets_.opening_angle_rad();
    values[inner_opening] = inner_open_ ? theta - opening + angle_gap_rad : opening - theta;
    // A turn ends only with the inner pair open and is taken back only with it closed, so that the
    // events keep their order where they come close together.
    values[turn_forwards] = inner_open_ ? ScrollPockets::turn_rad - theta : 1.0;
    values[turn_backwards] = inner_open_ ? 1.0 : theta + angle_gap_rad;
    values[device_running] = circuit_.running_guard(motion.speed_rad_per_s);
}

void Scroll::on_guard(std::size_t guard, double* x) {
    switch (guard) {
        case inner_opening:
            if (inner_open_) {
                close_inner(x);
            } else {
                open_inner(x);
            }
            break;
        case turn_forwards:
            begin_next_turn(x);
            break;
        case turn_backwards:
            return_to_last_turn(x);
            break;
        default:
            break;
    }
}

void Scroll::open_inner(double* x) {
    const double inner = pockets_.inner_m3(x[orbit_angle]);
    const double plenum = plenum_volume_m3(x[orbit_angle]);
    x[plenum_pressure] =
        (x[plenum_pressure] * plenum + x[inner_pressure] * inner) / (plenum + inner);
    x[plenum_mass] += x[inner_mass];
    // Energy p V / (n - 1) is kept, entropy is not: this is the loss of over- or undercompression.
    inner_open_ = true;
}

void Scroll::close_inner(double* x) {
    const double inner = pockets_.inner_m3(x[orbit_angle]);
    const double share = inner / plenum_volume_m3(x[orbit_angle]);
    x[inner_pressure] = x[plenum_pressure];
    x[inner_mass] = share * x[plenum_mass];
    x[plenum_mass] -= x[inner_mass];
    inner_open_ = false;
}

void Scroll::begin_next_turn(double* x) {
    // The forming pair closes. It was counted with the suction, whose pressure so stays as it is.
    x[orbit_angle] -= ScrollPockets::turn_rad;
    x[inner_pressure] = x[outer_pressure];
    x[inner_mass] = x[outer_mass];
    x[outer_pressure] = x[suction_pressure];
    x[outer_mass] = suction_density_per_kPa_ * x[suction_pressure] * pockets_.displacement_m3();
    inner_open_ = false;
}

void Scroll::return_to_last_turn(double* x) {
    // The outer pair empties into the suction, of which it now is the forming pair.
    const double shut_off = circuit_.suction_capacitance_kg_per_kPa() +
                            suction_density_per_kPa_ * pockets_.forming_m3(x[orbit_angle]);
    const double joined = shut_off + suction_density_per_kPa_ * pockets_.displacement_m3();
    x[suction_pressure] = (shut_off * x[suction_pressure] + x[outer_mass]) / joined;
    x[outer_pressure] = x[inner_pressure];
    x[outer_mass] = x[inner_mass];
    x[orbit_angle] += ScrollPockets::turn_rad;
    inner_open_ = true;
}

double Scroll::total_mass_kg(const double* x) const {
    const double forming = suction_density_per_kPa_ * pockets_.forming_m3(x[orbit_angle]);
    return (circuit_.suction_capacitance_kg_per_kPa() + forming) * x[suction_pressure] +
           circuit_.discharge_capacitance_kg_per_kPa() * x[discharge_pressure] + x[outer_mass] +
           (inner_open_ ? 0.0 : x[inner_mass]) + x[plenum_mass];
}

void Scroll::continue_from(const Scroll& before, double* x) {
    inner_open_ = before.inner_open_;
    const double ratio = circuit_.pressure_ratio_to(before.circuit_);
    for (std::size_t k = 0; k < state_count; ++k) {
        x[k] *= k == orbit_angle ? 1.0 : ratio;
    }
}

std::array<std::string_view, Scroll::channel_count> Scroll::channel_names() {
    return {"crank_angle_deg",     "suction_pressure_kPa",      "discharge_pressure_kPa",
            "plenum_pressure_kPa", "outer_pocket_pressure_kPa", "inner_pocket_pressure_kPa"};
}

std::array<double, Scroll::channel_count> Scroll::channels(const double* x) const {
    return {x[orbit_angle] * (180.0 / pi),
            x[suction_pressure],
            x[discharge_pressure],
            x[plenum_pressure],
            x[outer_pressure],
            inner_open_ ? x[plenum_pressure] : x[inner_pressure]};
}

}  // namespace plant_models
