// Where the files that a suite includes come from: texts that its own text carries along, files in
// its folder, and what is bundled with the program.
#pragma once

#include <string>
#include <vector>

#include "sim/scenario/table_reading.hpp"
#include "sim/suites/suite_parts.hpp"

namespace sim {

class SuiteSources {
  public:
    enum class Kind { suite, scenario };

    struct Source {
        std::string id;    ///< what it is called among the enclosed texts
        std::string name;  ///< in messages
        std::string text;
    };

    /// `folder`: of the suite's file, ending in a slash or empty; files are not looked at unless
    /// `reads_files`.
    SuiteSources(std::string folder, bool reads_files)
        : folder_(std::move(folder)), reads_files_(reads_files) {}

    /// What a suite's text carries along. `in_own_text`: of the outermost suite.
    void add(const std::vector<Enclosed>& enclosed, bool in_own_text);

    /// What `reference` means in the suite of this id (empty: the outermost). Throws InputError
    /// with `place` and `key`.
    Source find(Kind kind, const std::string& reference, const std::string& in_suite,
                const TablePlace& place, const std::string& key);

    /// `text` with everything found so far that it does not carry yet.
    std::string with_enclosed(const std::string& text) const;

  private:
    struct Known {
        Enclosed enclosed;
        bool in_own_text = false;
    };

    std::string folder_;
    bool reads_files_;
    std::vector<Known> known_;  ///< in the order in which they were met
};

}  // namespace sim
