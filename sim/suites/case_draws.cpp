#include "sim/suites/case_draws.hpp"

#include <array>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/seed_seq.hpp>
#include <boost/random/uniform_01.hpp>
#include <string>

namespace sim {

namespace {

std::uint64_t fnv_1a(std::string_view text) {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const char letter : text) {
        hash ^= static_cast<unsigned char>(letter);
        hash *= 0x100000001b3U;
    }
    return hash;
}

std::uint32_t low(std::uint64_t words) {
    return static_cast<std::uint32_t>(words & 0xffffffffU);
}
std::uint32_t high(std::uint64_t words) {
    return static_cast<std::uint32_t>(words >> 32U);
}

}  // namespace

CaseLuck luck_of(std::uint32_t suite_seed, const CasePlace& place, std::uint32_t number) {
    std::string words;
    for (const std::string* side :
         {&place.block, &place.compressor, &place.supply, &place.condition, &place.fault}) {
        // No name holds a control character.
        words += *side + '\n';
    }
    return {suite_seed, fnv_1a(words), number};
}

std::uint32_t seed_of(const CaseLuck& luck) {
    const std::array<std::uint32_t, 4> words{luck.suite_seed, low(luck.place), high(luck.place),
                                             luck.number};
    boost::random::seed_seq sequence(words.begin(), words.end());
    std::array<std::uint32_t, 1> seed{};
    sequence.generate(seed.begin(), seed.end());
    return seed[0] & 0x7fffffffU;
}

double even_number(const CaseLuck& luck, std::string_view input, std::uint32_t spread) {
    const std::uint64_t name = fnv_1a(input);
    const std::array<std::uint32_t, 7> words{luck.suite_seed, low(luck.place), high(luck.place),
                                             luck.number,     low(name),       high(name),
                                             spread};
    boost::random::seed_seq sequence(words.begin(), words.end());
    boost::random::mt19937_64 generator(sequence);
    return boost::random::uniform_01<double>()(generator);
}

std::vector<DrawnInput> apply_draws(const CaseLuck& luck, const std::vector<const Spread*>& spreads,
                                    Scenario& scenario) {
    const plant_models::MotorParameters as_new = scenario.motor;
    std::vector<DrawnInput> drawn;
    for (const SpreadInput& input : spread_inputs()) {
        double value = 1.0;
        std::uint32_t count = 0;
        for (const Spread* spread : spreads) {
            if (spread->input == &input) {
                const double one =
                    drawn_value(spread->distribution, even_number(luck, input.name, count));
                value = input.is_factor ? value * one : one;
                ++count;
            }
        }
        if (count > 0 && input.apply(scenario, as_new, value)) {
            drawn.push_back({std::string(input.name), value});
        }
    }
    return drawn;
}

}  // namespace sim
