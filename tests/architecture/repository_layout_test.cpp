// What may stand where, and what may stand nowhere.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "source_tree.hpp"

namespace {

using architecture_test::SourceFile;

TEST(TopLevel, HoldsOnlyTheAllowedEntries) {
    const std::set<std::string> allowed = {"CMakeLists.txt", "README.md", "DEVELOPERS.md",
                                           "firmware",       "sim",       "plant_models",
                                           "tests",          "scripts"};
    for (const auto& entry :
         std::filesystem::directory_iterator(architecture_test::source_folder())) {
        const std::string name = entry.path().filename().string();
        const bool is_build = name.rfind("build", 0) == 0 && entry.is_directory();
        EXPECT_TRUE(allowed.count(name) == 1 || name.front() == '.' || is_build) << name;
    }
    for (const std::string& name : allowed) {
        EXPECT_TRUE(std::filesystem::exists(architecture_test::source_folder() / name)) << name;
    }
}

TEST(Sources, HaveNoCatchAllFiles) {
    const std::set<std::string> forbidden = {"utils", "util", "helpers", "common", "misc"};
    for (const std::string part : {"firmware", "plant_models", "sim"}) {
        for (const SourceFile& file : architecture_test::sources_of(part)) {
            for (const auto& piece : std::filesystem::path(file.path)) {
                EXPECT_EQ(forbidden.count(piece.stem().string()), 0U) << file.path;
            }
        }
    }
}

TEST(Sources, AreShortInTheMedian) {
    std::vector<std::ptrdiff_t> lengths;
    for (const std::string part : {"firmware", "plant_models", "sim"}) {
        for (const SourceFile& file : architecture_test::sources_of(part)) {
            lengths.push_back(std::count(file.text.begin(), file.text.end(), '\n'));
        }
    }
    std::sort(lengths.begin(), lengths.end());
    EXPECT_LT(lengths[lengths.size() / 2], 200);
}

TEST(Sources, HaveNoNotesOfUnfinishedWork) {
    // Put together here so that this file does not find itself.
    const std::vector<std::string> notes = {std::string("TO") + "DO", std::string("FIX") + "ME",
                                            std::string("XX") + "X ", std::string("HA") + "CK"};
    for (const std::string part : {"firmware", "plant_models", "sim", "tests"}) {
        for (const SourceFile& file : architecture_test::sources_of(part)) {
            for (const std::string& note : notes) {
                EXPECT_EQ(file.text.find(note), std::string::npos) << file.path << ": " << note;
            }
        }
    }
}

TEST(Sources, NeverUseFastMath) {
    for (const std::string part : {"firmware", "plant_models", "sim"}) {
        for (const SourceFile& file : architecture_test::sources_of(part)) {
            EXPECT_EQ(file.text.find("fast-math"), std::string::npos) << file.path;
        }
    }
}

}  // namespace
