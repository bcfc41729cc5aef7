// The memory functions that a compiler may call of its own accord, with nothing behind them: small
// rather than fast. By words where both ends allow it.
#include <cstddef>
#include <cstdint>

extern "C" {

void* memcpy(void* to, const void* from, std::size_t count) {
    auto* t = static_cast<unsigned char*>(to);
    const auto* f = static_cast<const unsigned char*>(from);
    if (((reinterpret_cast<std::uintptr_t>(t) | reinterpret_cast<std::uintptr_t>(f)) & 3U) == 0) {
        for (; count >= 4; count -= 4, t += 4, f += 4) {
            *reinterpret_cast<std::uint32_t*>(t) = *reinterpret_cast<const std::uint32_t*>(f);
        }
    }
    for (; count > 0; --count) {
        *t++ = *f++;
    }
    return to;
}

void* memmove(void* to, const void* from, std::size_t count) {
    auto* t = static_cast<unsigned char*>(to);
    const auto* f = static_cast<const unsigned char*>(from);
    if (t <= f) {
        return memcpy(to, from, count);
    }
    while (count > 0) {
        --count;
        t[count] = f[count];
    }
    return to;
}

void* memset(void* to, int value, std::size_t count) {
    auto* t = static_cast<unsigned char*>(to);
    const auto byte = static_cast<unsigned char>(value);
    if ((reinterpret_cast<std::uintptr_t>(t) & 3U) == 0) {
        const std::uint32_t word = byte * 0x01010101U;
        for (; count >= 4; count -= 4, t += 4) {
            *reinterpret_cast<std::uint32_t*>(t) = word;
        }
    }
    for (; count > 0; --count) {
        *t++ = byte;
    }
    return to;
}

int memcmp(const void* one, const void* other, std::size_t count) {
    const auto* a = static_cast<const unsigned char*>(one);
    const auto* b = static_cast<const unsigned char*>(other);
    for (; count > 0; --count, ++a, ++b) {
        if (*a != *b) {
            return *a - *b;
        }
    }
    return 0;
}

// NOLINTBEGIN(bugprone-reserved-identifier)
// What ARM's run-time ABI calls them by; the order of memset's arguments differs there.
void* __aeabi_memcpy(void* to, const void* from, std::size_t n) {
    return memcpy(to, from, n);
}
void* __aeabi_memcpy4(void* to, const void* from, std::size_t n) {
    return memcpy(to, from, n);
}
void* __aeabi_memcpy8(void* to, const void* from, std::size_t n) {
    return memcpy(to, from, n);
}
void* __aeabi_memmove(void* to, const void* from, std::size_t n) {
    return memmove(to, from, n);
}
void __aeabi_memclr(void* to, std::size_t n) {
    memset(to, 0, n);
}
void __aeabi_memclr4(void* to, std::size_t n) {
    memset(to, 0, n);
}
void __aeabi_memclr8(void* to, std::size_t n) {
    memset(to, 0, n);
}
void __aeabi_memset(void* to, std::size_t n, int value) {
    memset(to, value, n);
}
// NOLINTEND(bugprone-reserved-identifier)
}
