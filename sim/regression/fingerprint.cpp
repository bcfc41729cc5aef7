#include "sim/regression/fingerprint.hpp"

#include <fmt/format.h>

#include <cstring>

namespace sim {

void Fingerprint::add_bytes(const void* bytes, std::size_t count) {
    constexpr std::uint64_t prime = 1099511628211U;
    const auto* byte = static_cast<const unsigned char*>(bytes);
    for (std::size_t k = 0; k < count; ++k) {
        hash_ = (hash_ ^ byte[k]) * prime;
    }
}

void Fingerprint::add(std::string_view bytes) {
    add_bytes(bytes.data(), bytes.size());
}

void Fingerprint::add(double number) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, &number, sizeof bits);
    add_bytes(&bits, sizeof bits);
}

void Fingerprint::add(std::int64_t number) {
    add_bytes(&number, sizeof number);
}

std::string Fingerprint::text() const {
    return fmt::format("{:016x}", hash_);
}

std::string fingerprint_of(std::string_view bytes) {
    Fingerprint fingerprint;
    fingerprint.add(bytes);
    return fingerprint.text();
}

}  // namespace sim
