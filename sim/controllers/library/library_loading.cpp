#include "sim/controllers/library/library_loading.hpp"

#include <elf.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "firmware/contract/controller_abi.h"
#include "sim/controllers/commissioned_store.hpp"
#include "sim/files/quoting.hpp"

namespace sim {

namespace {

constexpr std::size_t most_words_bytes = 200;

template <std::size_t size>
void put(char (&place)[size], const std::string& text) {
    const std::size_t length = std::min(text.size(), size - 1);
    std::memcpy(place, text.data(), length);
    place[length] = '\0';
}

/// The library could have left anything there.
std::string words_of(const Exchange& exchange) {
    const std::string_view all(exchange.words, sizeof exchange.words);
    return shortened(all.substr(0, all.find('\0')), most_words_bytes);
}

std::optional<ControllerFailure> named(const LibraryLimiter& limiter,
                                       std::optional<ControllerFailure> failure) {
    if (failure) {
        failure->words = library_name(limiter) + " " + failure->words;
    }
    return failure;
}

/// What the loader would say in less clear words; empty if the file looks like a shared library for
/// this processor.
std::string problem_of_file(const std::string& path) {
    std::error_code ignored;
    if (!std::filesystem::exists(path, ignored)) {
        return "there is no file " + sim::quoted(path);
    }
    if (std::filesystem::is_directory(path, ignored)) {
        return sim::quoted(path) + " is a folder";
    }
    Elf64_Ehdr own{};
    Elf64_Ehdr other{};
    std::ifstream("/proc/self/exe", std::ios::binary)
        .read(reinterpret_cast<char*>(&own), sizeof own);
    std::ifstream file(path, std::ios::binary);
    file.read(reinterpret_cast<char*>(&other), sizeof other);
    if (!file || std::memcmp(other.e_ident, ELFMAG, SELFMAG) != 0) {
        return sim::quoted(path) + " is not a shared library";
    }
    if (other.e_ident[EI_CLASS] != own.e_ident[EI_CLASS] ||
        other.e_ident[EI_DATA] != own.e_ident[EI_DATA] || other.e_machine != own.e_machine) {
        return sim::quoted(path) + " is built for another processor than this program";
    }
    return {};
}

}  // namespace

std::optional<ControllerFailure> failure_of_reply(const Exchange& exchange,
                                                  const std::string& during) {
    const std::string words = words_of(exchange);
    switch (exchange.reply) {
        case HostReply::done:
            return std::nullopt;
        case HostReply::cannot_load:
            return ControllerFailure{"not_loaded", "cannot be loaded: " + words};
        case HostReply::symbol_missing:
            return ControllerFailure{"symbol_missing", "lacks the function " + words};
        case HostReply::wrong_version:
            return ControllerFailure{
                "wrong_version",
                fmt::format("is built for version {} of the controller's interface, and this "
                            "program speaks version {}",
                            exchange.version, RUNUP_ABI_VERSION)};
        case HostReply::refused:
            return ControllerFailure{"refused",
                                     words.empty() ? "refuses to be created" : "refuses: " + words};
        case HostReply::threw:
            return ControllerFailure{
                "threw", fmt::format("threw an exception{} {}",
                                     words.empty() ? "" : fmt::format(" (\"{}\")", words), during)};
    }
    return ControllerFailure{"nonsense", "wrote over the memory that it shares with the bench"};
}

std::string library_name(const LibraryLimiter& limiter) {
    return escaped(std::filesystem::path(limiter.path).filename().string());
}

std::optional<ControllerFailure> power_up_library(LibraryProcess& process,
                                                  const LibraryLimiter& limiter,
                                                  const plant_models::MotorParameters& motor,
                                                  const firmware::StorePages& store) {
    Exchange& exchange = process.exchange();
    // A path without a folder would be looked for among the system's libraries.
    put(exchange.path,
        std::filesystem::path(limiter.path).has_parent_path() ? limiter.path : "./" + limiter.path);
    put(exchange.options, limiter.options);
    exchange.store = store;
    exchange.rated_voltage_V = static_cast<std::int32_t>(std::lround(motor.rated_voltage_V));
    exchange.run_capacitor_fitted = motor.run_capacitor_uF > 0.0 ? 1 : 0;
    for (const HostRequest request : {HostRequest::load, HostRequest::create}) {
        const std::string during =
            request == HostRequest::load ? "while it was loaded" : "in runup_create";
        std::optional<ControllerFailure> failure =
            process.ask(request, [&during] { return std::string(during); });
        if (!failure) {
            failure = failure_of_reply(exchange, during);
        }
        if (failure) {
            return named(limiter, failure);
        }
    }
    return std::nullopt;
}

LibraryAnswer try_library(const LibraryLimiter& limiter,
                          const plant_models::MotorParameters& motor) {
    const std::string wanted =
        "; give a shared library that offers what firmware/contract/controller_abi.h says";
    const std::string problem = problem_of_file(limiter.path);
    if (!problem.empty()) {
        return {{{"path", problem + wanted}}, false};
    }
    LibraryProcess process;
    const std::optional<ControllerFailure> failure =
        power_up_library(process, limiter, motor, commissioned_store());
    const bool tells_states = process.exchange().tells_states == 1;
    if (!failure) {
        return {std::nullopt, tells_states};
    }
    if (failure->cause == "refused") {
        return {{{"options", failure->words + "; give options that it accepts"}}, tells_states};
    }
    // Once it is loaded, whatever happens is its own doing.
    const bool is_loaded = process.exchange().request == HostRequest::create;
    if (is_loaded) {
        return {std::nullopt, tells_states};
    }
    return {{{"path", failure->words + wanted}}, tells_states};
}

}  // namespace sim
