#include "sim/pages/packed_numbers.hpp"

#include <cmath>
#include <cstdint>

namespace sim {

namespace {

void append_varint(std::string& bytes, std::uint64_t value) {
    constexpr std::uint64_t seven_bits = 0x7f;
    while (value > seven_bits) {
        bytes += static_cast<char>(static_cast<unsigned char>((value & seven_bits) | 0x80U));
        value >>= 7U;
    }
    bytes += static_cast<char>(static_cast<unsigned char>(value));
}

std::uint64_t zigzag(std::int64_t value) {
    const auto magnitude = static_cast<std::uint64_t>(value < 0 ? -(value + 1) : value);
    return (magnitude << 1U) | (value < 0 ? 1U : 0U);
}

}  // namespace

std::string base64(std::string_view bytes) {
    static constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t k = 0; k < bytes.size(); k += 3) {
        const auto byte = [&](std::size_t at) {
            return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0U;
        };
        const std::uint32_t group = (byte(k) << 16U) | (byte(k + 1) << 8U) | byte(k + 2);
        text += letters[group >> 18U];
        text += letters[(group >> 12U) & 63U];
        text += k + 1 < bytes.size() ? letters[(group >> 6U) & 63U] : '=';
        text += k + 2 < bytes.size() ? letters[group & 63U] : '=';
    }
    return text;
}

std::string pack_numbers(const std::vector<double>& values, int decimals) {
    const double scale = std::pow(10.0, decimals);
    std::string bytes;
    std::int64_t before = 0;
    for (const double value : values) {
        const std::int64_t now = std::llround(value * scale);
        append_varint(bytes, zigzag(now - before));
        before = now;
    }
    return base64(bytes);
}

}  // namespace sim
