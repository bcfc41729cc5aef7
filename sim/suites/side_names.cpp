#include "sim/suites/side_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "sim/campaigns/single_faults.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"

namespace sim {

namespace {

[[noreturn]] void refuse_unknown(const std::string& name, const std::vector<std::string>& known,
                                 const SidePlace& at) {
    const std::vector<std::string_view> words(known.begin(), known.end());
    const auto meant = closest_word(name, words);
    constexpr std::size_t most_shown = 25;
    std::string all;
    for (std::size_t k = 0; k < known.size() && k < most_shown; ++k) {
        all += (k == 0 ? "" : ", ") + known[k];
    }
    throw InputError(at.place.file, at.place.line, at.key,
                     fmt::format("{} is not known; {}", sim::quoted(name),
                                 meant           ? fmt::format("did you mean {}?", *meant)
                                 : known.empty() ? "this file has no such table; give one"
                                                 : "give one of " + all));
}

template <class Choices>
void refuse_doubles(const Choices& choices, const SidePlace& at) {
    std::set<std::string_view> seen;
    for (const auto& one : choices) {
        if (!seen.insert(one.name).second) {
            throw InputError(at.place.file, at.place.line, at.key,
                             sim::quoted(one.name) + " is there twice; give it once");
        }
    }
}

const SideEntry* entry_named(const std::deque<SideEntry>& own, const std::string& name) {
    const auto found = std::find_if(own.begin(), own.end(),
                                    [&name](const SideEntry& one) { return one.name == name; });
    return found == own.end() ? nullptr : &*found;
}

SideChoice choice_of(const SideEntry& entry) {
    SideChoice choice{entry.name, {entry.layer}, entry.library, entry.way};
    if (entry.library != nullptr) {
        choice.layers.push_back(layer_of(*entry.library));
    }
    return choice;
}

std::vector<std::string> names_of(const std::deque<SideEntry>& own) {
    std::vector<std::string> names;
    names.reserve(own.size());
    for (const SideEntry& one : own) {
        names.push_back(one.name);
    }
    return names;
}

/// A unit that has every part, to know the names of all single faults.
const std::vector<SingleFault>& every_single_fault() {
    static const std::vector<SingleFault> all = []() {
        Scenario scenario;
        const LibraryEntry& entry = library_compressors().front();
        read_layers({layer_of(parsed_file("[limiter]\nkind = \"builtin\"\n[source]\nkind = "
                                          "\"grid\"\nvoltage_V = 230\nfrequency_Hz = 50\n"
                                          "resistance_ohm = 0.1\ninductance_mH = 0.2\n"
                                          "phase_deg = 0\n",
                                          "a suite's stand-in", "its [table]")),
                     layer_of(entry)},
                    0, TablePlace{}, scenario);
        return single_faults(scenario);
    }();
    return all;
}

void add_single_faults(const std::string& name, const std::vector<double>& at_s,
                       std::vector<FaultChoice>& choices) {
    const bool is_every = name == single_faults_word;
    for (const SingleFault& single : every_single_fault()) {
        if (!is_every && single.name.compare(0, name.size(), name) != 0) {
            continue;
        }
        if (single.only_from_the_beginning) {
            choices.push_back({single.name, {}, single.name, 0.0, !is_every});
            continue;
        }
        for (const double one_s : at_s) {
            choices.push_back({fmt::format("{} at {:g} s", single.name, one_s),
                               {},
                               single.name,
                               one_s,
                               !is_every});
        }
    }
}

}  // namespace

std::vector<SideChoice> library_choices(const std::vector<std::string>& names,
                                        const std::deque<SideEntry>& own,
                                        const std::vector<LibraryEntry>& library,
                                        const SidePlace& at) {
    std::vector<SideChoice> choices;
    const auto add_bundled = [&choices](const LibraryEntry& entry) {
        choices.push_back({std::string(entry.name), {layer_of(entry)}, &entry, std::nullopt});
    };
    for (const std::string& name : names) {
        if (const SideEntry* entry = entry_named(own, name)) {
            choices.push_back(choice_of(*entry));
        } else if (const LibraryEntry* bundled = find_entry(library, name)) {
            add_bundled(*bundled);
        } else if (name == all_of_library) {
            std::for_each(library.begin(), library.end(), add_bundled);
        } else {
            std::vector<std::string> known = names_of(own);
            for (const LibraryEntry& one : library) {
                known.emplace_back(one.name);
            }
            refuse_unknown(name, known, at);
        }
    }
    refuse_doubles(choices, at);
    return choices.empty() ? std::vector<SideChoice>{SideChoice{}} : choices;
}

std::vector<SideChoice> own_choices(const std::vector<std::string>& names,
                                    const std::deque<SideEntry>& own, const SidePlace& at) {
    std::vector<SideChoice> choices;
    for (const std::string& name : names) {
        const SideEntry* entry = entry_named(own, name);
        if (entry == nullptr) {
            refuse_unknown(name, names_of(own), at);
        }
        choices.push_back(choice_of(*entry));
    }
    refuse_doubles(choices, at);
    return choices.empty() ? std::vector<SideChoice>{SideChoice{}} : choices;
}

std::vector<SideChoice> setting_choices(const std::vector<std::string>& names,
                                        const std::deque<SideEntry>& own, const SidePlace& at) {
    std::vector<SideChoice> choices;
    for (const std::string& name : names) {
        if (const SideEntry* entry = entry_named(own, name)) {
            choices.push_back(choice_of(*entry));
            continue;
        }
        const auto way = std::find_if(every_way.begin(), every_way.end(),
                                      [&name](Way one) { return word_of(one) == name; });
        if (way == every_way.end()) {
            std::vector<std::string> known = names_of(own);
            for (const Way one : every_way) {
                known.emplace_back(word_of(one));
            }
            refuse_unknown(name, known, at);
        }
        choices.push_back({name, {}, nullptr, *way});
    }
    refuse_doubles(choices, at);
    return choices.empty() ? std::vector<SideChoice>{SideChoice{}} : choices;
}

std::vector<FaultChoice> fault_choices(const std::vector<std::string>& names,
                                       const std::vector<double>& at_s,
                                       const std::deque<SideEntry>& own, const SidePlace& at) {
    std::vector<FaultChoice> choices;
    for (const std::string& name : names) {
        if (const SideEntry* entry = entry_named(own, name)) {
            choices.push_back({entry->name, {entry->layer}, "", 0.0, true});
            continue;
        }
        if (name == no_fault_word) {
            choices.emplace_back();
            continue;
        }
        const std::size_t before = choices.size();
        add_single_faults(name, at_s, choices);
        if (choices.size() == before) {
            std::vector<std::string> known = names_of(own);
            for (const SingleFault& one : every_single_fault()) {
                known.push_back(one.name);
            }
            refuse_unknown(name, known, at);
        }
    }
    refuse_doubles(choices, at);
    return choices;
}

}  // namespace sim
