#include "recorder/vcd_reader.hpp"

#include <algorithm>
#include <sstream>
#include <stdexcept>

namespace sim_test {

namespace {

void hold(bool is_held, const std::string& rule) {
    if (!is_held) {
        throw std::runtime_error("VCD: " + rule);
    }
}

std::vector<std::string> until_end(std::istream& text) {
    std::vector<std::string> words;
    for (std::string word; text >> word;) {
        if (word == "$end") {
            return words;
        }
        words.push_back(word);
    }
    throw std::runtime_error("VCD: a section without $end");
}

/// What is left off in front of a vector reads as 0, or as its first digit if that is x or z.
std::string extended(const std::string& digits, int bits) {
    hold(!digits.empty() && digits.size() <= static_cast<std::size_t>(bits),
         "as many bits as declared");
    const char fill = digits.front() == '1' ? '0' : digits.front();
    return std::string(static_cast<std::size_t>(bits) - digits.size(), fill) + digits;
}

class Reader {
  public:
    explicit Reader(const std::string& text) : text_(text) {}

    VcdDump read() {
        read_declarations();
        read_changes();
        return std::move(dump_);
    }

  private:
    void read_declarations() {
        std::vector<std::string> scopes;
        for (std::string word; text_ >> word;) {
            const std::vector<std::string> words = until_end(text_);
            if (word == "$enddefinitions") {
                hold(scopes.empty(), "every scope is left");
                hold(!dump_.timescale.empty(), "a time scale");
                return;
            }
            if (word == "$timescale") {
                for (const std::string& part : words) {
                    dump_.timescale += part;
                }
            } else if (word == "$scope") {
                hold(words.size() == 2, "kind and name of a scope");
                scopes.push_back(words[1]);
            } else if (word == "$upscope") {
                hold(!scopes.empty() && words.empty(), "a scope to leave");
                scopes.pop_back();
            } else if (word == "$var") {
                declare(scopes, words);
            } else {
                hold(word == "$date" || word == "$version" || word == "$comment",
                     "a known section: " + word);
            }
        }
        throw std::runtime_error("VCD: no $enddefinitions");
    }

    void declare(const std::vector<std::string>& scopes, const std::vector<std::string>& words) {
        hold(words.size() == 4 || words.size() == 5, "type, size, code, name, range");
        std::string path;
        for (const std::string& scope : scopes) {
            path += scope + ".";
        }
        path += words[3].substr(0, words[3].find('['));
        VcdSignal signal;
        signal.type = words[0];
        signal.bits = std::stoi(words[1]);
        hold(signal.bits >= 1 && signal.bits <= 64, "1 to 64 bits");
        hold(dump_.signals.emplace(path, signal).second, "each name once: " + path);
        paths_[words[2]].push_back(path);
    }

    void read_changes() {
        std::int64_t time = -1;
        for (std::string word; text_ >> word;) {
            if (word.front() == '#') {
                const std::int64_t next = std::stoll(word.substr(1));
                hold(next > time, "time goes on: " + word);
                time = next;
            } else if (word == "$dumpvars" || word == "$end") {
                continue;
            } else {
                hold(time >= 0, "a time before the first change");
                change(word, time);
            }
        }
        dump_.end = time;
    }

    void change(const std::string& word, std::int64_t time) {
        const char first = word.front();
        if (first == 'b' || first == 'B' || first == 'r' || first == 'R') {
            std::string code;
            hold(static_cast<bool>(text_ >> code), "a code behind a value");
            set(code, first, word.substr(1), time);
            return;
        }
        hold(std::string("01xXzZ").find(first) != std::string::npos, "a value: " + word);
        set(word.substr(1), '1', word.substr(0, 1), time);
    }

    void set(const std::string& code, char kind, const std::string& value, std::int64_t time) {
        const auto paths = paths_.find(code);
        hold(paths != paths_.end(), "a code that was declared: " + code);
        for (const std::string& path : paths->second) {
            VcdSignal& signal = dump_.signals.at(path);
            const bool is_real = kind == 'r' || kind == 'R';
            hold(is_real == (signal.type == "real"), "the type that was declared: " + path);
            const std::string whole = is_real ? value : extended(value, signal.bits);
            if (signal.changes.empty() || signal.changes.back().second != whole) {
                signal.changes.emplace_back(time, whole);
            }
        }
    }

    std::istringstream text_;
    VcdDump dump_;
    std::map<std::string, std::vector<std::string>> paths_;
};

}  // namespace

const std::string& VcdSignal::at(std::int64_t time) const {
    const auto behind = std::upper_bound(
        changes.begin(), changes.end(), time,
        [](std::int64_t wanted, const auto& change) { return wanted < change.first; });
    hold(behind != changes.begin(), "a value from the beginning on");
    return std::prev(behind)->second;
}

VcdDump read_vcd(const std::string& text) {
    return Reader(text).read();
}

}  // namespace sim_test
