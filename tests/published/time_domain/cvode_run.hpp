// A plant of ours integrated by SUNDIALS CVODE (A. C. Hindmarsh et al., "SUNDIALS: Suite of
// Nonlinear and Differential/Algebraic Equation Solvers", ACM TOMS 31, 2005; Debian package
// libsundials-dev): variable-order Adams formulas with their own error control, events by its own
// root finder. Only the right-hand side, the guards and what an event does are shared with our
// integrator. Used in tests only.
#pragma once

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <stdexcept>
#include <string>

#include "plant_models/plant.hpp"

namespace published {

/// Starts at t = 0 with the plant's initial state. Contacts and the gate are moved by `command`.
template <class Supply, class Load>
class CvodeRun {
  public:
    using Plant = plant_models::Plant<Supply, Load>;
    using State = typename Plant::State;

    CvodeRun(const Plant& plant, double initial_speed_rad_per_s, double relative_tolerance)
        : plant_(plant) {
        state() = plant_.initial_state(initial_speed_rad_per_s);
        require(CVodeInit(solver_, &right_hand_side, 0.0, vector_), "initialise");
        // Absolute: amperes, volts, rad/s and joules, all of order 1 to 1e4.
        require(CVodeSStolerances(solver_, relative_tolerance, relative_tolerance), "tolerances");
        require(CVodeSetUserData(solver_, this), "user data");
        require(CVodeSetLinearSolver(solver_, linear_solver_, matrix_), "linear solver");
        require(CVodeSetMaxNumSteps(solver_, 1000000), "step bound");
        require(CVodeRootInit(solver_, static_cast<int>(Plant::guard_count), &guard_functions),
                "root finding");
        std::array<int, Plant::guard_count> directions{};
        for (std::size_t k = 0; k < Plant::guard_count; ++k) {
            directions[k] = Plant::guard_is_kink(k) ? 0 : -1;
        }
        require(CVodeSetRootDirection(solver_, directions.data()), "root directions");
        require(CVodeSetNoInactiveRootWarn(solver_), "root warnings");
        refresh();
    }
    ~CvodeRun() {
        CVodeFree(&solver_);
        SUNLinSolFree(linear_solver_);
        SUNMatDestroy(matrix_);
        N_VDestroy(vector_);
        SUNContext_Free(&context_);
    }
    CvodeRun(const CvodeRun&) = delete;
    CvodeRun& operator=(const CvodeRun&) = delete;

    void advance_to(double end_s) {
        while (time_s_ < end_s) {
            require(CVodeSetStopTime(solver_, end_s), "stop time");
            const int flag = CVode(solver_, end_s, vector_, &time_s_, CV_NORMAL);
            require(flag, "integrate");
            refresh();
            if (flag == CV_ROOT_RETURN) {
                carry_out_event();
            }
        }
    }

    /// Moves a contact or the gate now: `move(plant, state, rate, time_s)`.
    template <class Move>
    void command(const Move& move) {
        move(plant_, state(), rate_, time_s_);
        restart();
    }

    plant_models::PlantOutputs outputs() const {
        plant_models::PlantOutputs out;
        plant_.read_outputs(state(), rate_, time_s_, out);
        return out;
    }
    plant_models::EnergyAudit energy() const { return plant_.energy(state(), time_s_); }
    int events() const { return events_; }

  private:
    static_assert(sizeof(State) == Plant::state_count * sizeof(realtype), "states are plain");

    static SUNContext new_context() {
        SUNContext context = nullptr;
        require(SUNContext_Create(nullptr, &context), "create a context");
        return context;
    }
    static void require(int flag, const char* what) {
        if (flag < 0) {
            throw std::runtime_error(std::string("CVODE cannot ") + what + ": flag " +
                                     std::to_string(flag));
        }
    }
    static State& state_of(N_Vector vector) {
        return *reinterpret_cast<State*>(N_VGetArrayPointer(vector));
    }
    State& state() { return state_of(vector_); }
    const State& state() const { return state_of(vector_); }

    static int right_hand_side(realtype time_s, N_Vector x, N_Vector dxdt, void* user) {
        Plant& plant = static_cast<CvodeRun*>(user)->plant_;
        plant.set_origin(time_s);
        plant.derivative(state_of(x), state_of(dxdt), time_s);
        return 0;
    }
    static int guard_functions(realtype time_s, N_Vector x, realtype* values, void* user) {
        Plant& plant = static_cast<CvodeRun*>(user)->plant_;
        plant.set_origin(time_s);
        State rate{};
        plant.derivative(state_of(x), rate, time_s);
        typename Plant::Guards guards{};
        plant.guards(state_of(x), rate, time_s, guards);
        std::copy(guards.begin(), guards.end(), values);
        return 0;
    }
    void refresh() {
        plant_.set_origin(time_s_);
        plant_.derivative(state(), rate_, time_s_);
    }
    void restart() {
        refresh();
        require(CVodeReInit(solver_, time_s_, vector_), "restart");
    }
    void carry_out_event() {
        std::array<int, Plant::guard_count> found{};
        require(CVodeGetRootInfo(solver_, found.data()), "tell the root");
        for (std::size_t k = 0; k < Plant::guard_count; ++k) {
            if (found[k] != 0) {
                plant_.on_guard(k, state(), rate_, time_s_);
                break;
            }
        }
        ++events_;
        restart();
    }

    Plant plant_;
    State rate_{};
    realtype time_s_ = 0.0;
    int events_ = 0;
    SUNContext context_ = new_context();
    N_Vector vector_ = N_VNew_Serial(Plant::state_count, context_);
    SUNMatrix matrix_ = SUNDenseMatrix(Plant::state_count, Plant::state_count, context_);
    SUNLinearSolver linear_solver_ = SUNLinSol_Dense(vector_, matrix_, context_);
    void* solver_ = CVodeCreate(CV_ADAMS, context_);
};

}  // namespace published
