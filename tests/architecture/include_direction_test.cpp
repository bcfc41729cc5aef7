// firmware knows nothing; plant_models knows nothing of it; sim knows both; tests see all.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <string>

#include "source_tree.hpp"

namespace {

using architecture_test::Include;
using architecture_test::SourceFile;

bool begins(const std::string& text, const std::string& with) {
    return text.rfind(with, 0) == 0;
}

const std::set<std::string>& freestanding_headers() {
    static const std::set<std::string> headers = {"cstdint", "cstddef", "array", "type_traits",
                                                  "limits"};
    return headers;
}

TEST(IncludeDirection, FirmwareIncludesOnlyItselfAndFreestandingHeaders) {
    for (const SourceFile& file : architecture_test::sources_of("firmware")) {
        for (const Include& include : architecture_test::includes_of(file.text)) {
            const bool allowed = include.in_quotes
                                     ? begins(include.name, "firmware/")
                                     : freestanding_headers().count(include.name) == 1;
            EXPECT_TRUE(allowed) << file.path << " includes " << include.name;
        }
    }
}

TEST(IncludeDirection, PlantModelsIncludeOnlyThemselvesTheStandardLibraryAndBoost) {
    for (const SourceFile& file : architecture_test::sources_of("plant_models")) {
        for (const Include& include : architecture_test::includes_of(file.text)) {
            // A header of the standard library has neither a folder nor an ending.
            const bool standard = include.name.find_first_of("/.") == std::string::npos;
            const bool allowed = include.in_quotes ? begins(include.name, "plant_models/")
                                                   : standard || begins(include.name, "boost/");
            EXPECT_TRUE(allowed) << file.path << " includes " << include.name;
        }
    }
}

TEST(IncludeDirection, SimDoesNotIncludeTests) {
    for (const SourceFile& file : architecture_test::sources_of("sim")) {
        for (const Include& include : architecture_test::includes_of(file.text)) {
            const bool ours = begins(include.name, "sim/") || begins(include.name, "firmware/") ||
                              begins(include.name, "plant_models/");
            EXPECT_EQ(include.in_quotes, ours) << file.path << " includes " << include.name;
        }
    }
}

TEST(IncludeDirection, EveryIncludeOfOursIsWrittenFromTheRootAndExists) {
    for (const std::string part : {"firmware", "plant_models", "sim"}) {
        for (const SourceFile& file : architecture_test::sources_of(part)) {
            for (const Include& include : architecture_test::includes_of(file.text)) {
                if (include.in_quotes) {
                    EXPECT_TRUE(
                        std::filesystem::exists(architecture_test::source_folder() / include.name))
                        << file.path << " includes " << include.name;
                }
            }
        }
    }
}

TEST(IncludeDirection, ThePartsNameEachOthersNamespacesOnlyDownwards) {
    for (const SourceFile& file : architecture_test::sources_of("firmware")) {
        const auto words = architecture_test::words_of(architecture_test::code_only(file.text));
        EXPECT_EQ(words.count("sim") + words.count("plant_models") + words.count("std"),
                  words.count("std"))
            << file.path;
    }
    for (const SourceFile& file : architecture_test::sources_of("plant_models")) {
        const auto words = architecture_test::words_of(architecture_test::code_only(file.text));
        EXPECT_EQ(words.count("sim") + words.count("firmware"), 0U) << file.path;
    }
}

// Two types of one name in one namespace are one to the linker, and whichever it takes is wrong for
// the other. (That was so: two structs called Figure ended every run in a crash.)
TEST(Headers, DefineEachTypeOnce) {
    const std::regex type(R"(\n(?:struct|class) (\w+)(?: final)?(?: :[^:;]*)? \{)");
    for (const std::string part : {"firmware", "plant_models", "sim"}) {
        std::map<std::string, std::string> defined_in;
        for (const SourceFile& file : architecture_test::sources_of(part)) {
            if (file.path.size() < 4 || file.path.compare(file.path.size() - 4, 4, ".hpp") != 0) {
                continue;
            }
            for (auto found = std::sregex_iterator(file.text.begin(), file.text.end(), type);
                 found != std::sregex_iterator(); ++found) {
                const auto [other, is_new] = defined_in.emplace((*found)[1], file.path);
                EXPECT_TRUE(is_new)
                    << (*found)[1] << " is in " << other->second << " and in " << file.path;
            }
        }
        EXPECT_GT(defined_in.size(), 20U) << part;
    }
}

TEST(Headers, AreGuardedOnce) {
    for (const std::string part : {"firmware", "plant_models", "sim", "tests"}) {
        for (const SourceFile& file : architecture_test::sources_of(part)) {
            if (file.path.size() > 4 && file.path.compare(file.path.size() - 4, 4, ".hpp") == 0) {
                EXPECT_NE(file.text.find("#pragma once"), std::string::npos) << file.path;
            }
        }
    }
}

}  // namespace
