#include "plant_models/motor/winding_inductances.hpp"

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace plant_models {

namespace {

using Column = std::array<double, 4>;
using Dense = std::vector<std::vector<double>>;

std::vector<Column> independent_currents(StatorConnection connection) {
    const Column main = {1, 0, 0, 0};
    const Column auxiliary = {0, 1, 0, 0};
    const Column rotor_main = {0, 0, 1, 0};
    const Column rotor_auxiliary = {0, 0, 0, 1};
    switch (connection) {
        case StatorConnection::both_on_line:
            return {main, auxiliary, rotor_main, rotor_auxiliary};
        case StatorConnection::main_on_line:
            return {main, rotor_main, rotor_auxiliary};
        case StatorConnection::auxiliary_on_line:
            return {auxiliary, rotor_main, rotor_auxiliary};
        case StatorConnection::loop:
            return {{1, -1, 0, 0}, rotor_main, rotor_auxiliary};
        case StatorConnection::open:
            break;
    }
    return {rotor_main, rotor_auxiliary};
}

/// Gauss-Jordan; the matrix is symmetric positive definite, so it needs no pivoting.
Dense inverted(Dense matrix) {
    const std::size_t size = matrix.size();
    Dense inverse(size, std::vector<double>(size, 0.0));
    for (std::size_t i = 0; i < size; ++i) {
        inverse[i][i] = 1.0;
    }
    for (std::size_t pivot = 0; pivot < size; ++pivot) {
        const double scale = 1.0 / matrix[pivot][pivot];
        for (std::size_t k = 0; k < size; ++k) {
            matrix[pivot][k] *= scale;
            inverse[pivot][k] *= scale;
        }
        for (std::size_t row = 0; row < size; ++row) {
            const double factor = row == pivot ? 0.0 : matrix[row][pivot];
            for (std::size_t k = 0; k < size; ++k) {
                matrix[row][k] -= factor * matrix[pivot][k];
                inverse[row][k] -= factor * inverse[pivot][k];
            }
        }
    }
    return inverse;
}

}  // namespace

WindingMatrix winding_inductances(const MotorParameters& motor, double series_inductance_H) {
    const double omega = motor.rated_angular_frequency_rad_per_s();
    const double magnetizing = motor.magnetizing_reactance_ohm / omega;
    const double n = motor.turns_ratio;
    const double rotor = motor.rotor_leakage_reactance_ohm / omega + magnetizing;
    const double main = motor.main_leakage_reactance_ohm / omega + magnetizing;
    const double auxiliary = motor.aux_leakage_reactance_ohm / omega + n * n * magnetizing;
    const double series = series_inductance_H;
    return {{{main + series, series, magnetizing, 0.0},
             {series, auxiliary + series, 0.0, n * magnetizing},
             {magnetizing, 0.0, rotor, 0.0},
             {0.0, n * magnetizing, 0.0, rotor}}};
}

WindingMatrix inverse_inductances(const WindingMatrix& inductances, StatorConnection connection) {
    const std::vector<Column> basis = independent_currents(connection);
    const std::size_t size = basis.size();
    Dense reduced(size, std::vector<double>(size, 0.0));
    for (std::size_t a = 0; a < size; ++a) {
        for (std::size_t b = 0; b < size; ++b) {
            for (std::size_t i = 0; i < 4; ++i) {
                for (std::size_t j = 0; j < 4; ++j) {
                    reduced[a][b] += basis[a][i] * inductances[i][j] * basis[b][j];
                }
            }
        }
    }
    const Dense inverse = inverted(std::move(reduced));
    WindingMatrix result{};
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t j = 0; j < 4; ++j) {
            for (std::size_t a = 0; a < size; ++a) {
                for (std::size_t b = 0; b < size; ++b) {
                    result[i][j] += basis[a][i] * inverse[a][b] * basis[b][j];
                }
            }
        }
    }
    return result;
}

}  // namespace plant_models
