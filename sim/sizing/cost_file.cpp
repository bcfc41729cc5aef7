#include "sim/sizing/cost_file.hpp"

#include <vector>

#include "sim/files/bounded_input.hpp"
#include "sim/files/quoting.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/given_keys.hpp"
#include "sim/scenario/key_reference.hpp"
#include "sim/scenario/table_reading.hpp"
#include "sim/scenario/toml_root.hpp"

namespace sim {

namespace {

constexpr std::string_view costs_name = "costs";
constexpr std::string_view supply_name = "supply";

ScenarioTable costs_table(CostAssumptions& target) {
    return {costs_name,
            false,
            "prices and sun; every default is an example, not a quotation",
            {TableKind{"", [&target]() { return form_of(target); }}}};
}

struct SupplyPrice {
    std::string name;
    double price = 0.0;
};

TableForm supply_form(SupplyPrice& target) {
    WordRule names;
    for (const LibraryEntry& entry : library_supplies()) {
        names.words.push_back(entry.name);
    }
    TableForm form;
    form.keys.push_back(
        {"name", names, std::nullopt, "of the library",
         [&target](const KeyValue& value) { target.name = std::get<std::string>(value); }});
    form.keys.push_back(
        {"price", NumberRule{0, 1e6}, std::nullopt,
         "what this one costs, in the place of the price per kVA",
         [&target](const KeyValue& value) { target.price = std::get<double>(value); }});
    form.inconsistency = []() { return std::string(); };
    return form;
}

ScenarioTable supply_table(SupplyPrice& target) {
    return {supply_name,
            false,
            "a supply's own price",
            {TableKind{"", [&target]() { return supply_form(target); }}},
            true};
}

void read_supply_prices(const toml::node& value, int line, const std::string& file,
                        CostAssumptions& costs) {
    const toml::array* list = value.as_array();
    if (list == nullptr || list->empty() || !list->is_homogeneous<toml::table>()) {
        throw InputError(file, line, std::string(supply_name),
                         "this is not a list of tables; give [[supply]] with name and price below");
    }
    for (const toml::node& one : *list) {
        SupplyPrice supply;
        read_table(*one.as_table(), {file, static_cast<int>(one.source().begin.line)},
                   supply_table(supply));
        costs.supply_prices[supply.name] = supply.price;
    }
}

}  // namespace

CostAssumptions read_costs(const std::string& path) {
    return parse_costs(read_bounded_input(path, most_cost_bytes), input_name(path));
}

CostAssumptions parse_costs(std::string_view text, const std::string& file) {
    CostAssumptions costs = example_costs();
    const toml::table root = toml_root(text, file, "[costs]");
    const std::vector<GivenKey> given = keys_in_file_order(root, file);
    // [costs] sets its defaults when it begins, so what stands beside it is read after it.
    for (const GivenKey& one : given) {
        if (one.name == costs_name) {
            if (!one.value->is_table()) {
                throw InputError(file, one.line, std::string(costs_name),
                                 "this is not a table; give [costs] once, with its keys below");
            }
            read_table(*one.value->as_table(), {file, one.line}, costs_table(costs));
        } else if (one.name != supply_name) {
            const auto meant = closest_word(one.name, {costs_name, supply_name});
            throw InputError(file, one.line, shortened(one.name, 60),
                             meant ? "unknown table; did you mean " + std::string(*meant) + "?"
                                   : std::string("unknown table; a file of prices has [costs] and "
                                                 "[[supply]]"));
        }
    }
    for (const GivenKey& one : given) {
        if (one.name == supply_name) {
            read_supply_prices(*one.value, one.line, file, costs);
        }
    }
    return costs;
}

std::string describe_cost_keys() {
    CostAssumptions costs;
    SupplyPrice supply;
    return describe(costs_table(costs)) + "\n" + describe(supply_table(supply));
}

}  // namespace sim
