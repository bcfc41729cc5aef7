// A program started beside this one, with a pipe to its standard input and one from its standard
// output. It ends with this object, and if this program is killed: then the system kills it.
//
// To be used, and ended, by the thread that started it (or by one that lives no longer): the system
// takes that thread's end for ours.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <cstddef>
#include <string>
#include <vector>

namespace sim {

/// True if the program can be started: found in PATH, or under its path.
bool can_be_started(const std::string& program);

class EmulatorProcess {
  public:
    /// `image` is laid into a file that only exists for the program, as `image_path()`.
    /// Throws std::system_error where the machine has no more processes or files to give; a program
    /// that cannot be started looks like one that ended at once.
    EmulatorProcess(const std::vector<std::string>& command, const std::string& image);
    ~EmulatorProcess();
    EmulatorProcess(const EmulatorProcess&) = delete;
    EmulatorProcess& operator=(const EmulatorProcess&) = delete;

    /// For the command: where the program finds the image.
    static std::string image_path();

    enum class Delivery { whole, ended, silent };
    /// What fits into a pipe at once. `ended`: nobody is there to read it.
    Delivery send(const void* bytes, std::size_t count);
    /// All of it. `silent`: nothing came for so long; a negative patience is endless.
    Delivery receive(void* bytes, std::size_t count, std::chrono::milliseconds patience);

    /// Ends it, if it has not ended itself, and says in a few words how it ended and what it last
    /// complained of, such as "ended with code 1: no such machine".
    std::string end();

  private:
    std::string last_words() const;

    pid_t process_ = -1;
    int to_process_ = -1;
    int requests_ = -1;  ///< its reading end: while we hold it, a write never breaks
    int from_process_ = -1;
    int complaints_ = -1;
    bool hung_up_ = false;
    std::string how_ended_;
};

}  // namespace sim
