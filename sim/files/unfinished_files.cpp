#include "sim/files/unfinished_files.hpp"

#include <signal.h>  // NOLINT(modernize-deprecated-headers): sigaction is POSIX
#include <unistd.h>

#include <array>
#include <atomic>
#include <cstring>

namespace sim {

namespace {

// `filling` keeps the handler off a path that is half copied.
enum PlaceState : int { vacant, filling, listed };

struct Place {
    std::atomic<int> state{vacant};
    std::array<char, 4096> path{};
};

// More files than one command ever writes at a time.
std::array<Place, 64> places;

static_assert(std::atomic<int>::is_always_lock_free, "read in a signal handler");

extern "C" void delete_and_die(int signal_number) {
    for (const Place& place : places) {
        if (place.state.load() == listed) {
            ::unlink(place.path.data());
        }
    }
    // The handler was installed to run once, so this is the default action.
    ::raise(signal_number);
}

}  // namespace

void delete_unfinished_files_on_interrupt() {
    for (const int signal_number : {SIGINT, SIGTERM, SIGHUP}) {
        struct sigaction present = {};
        ::sigaction(signal_number, nullptr, &present);
        // Someone who runs this in the background with signals ignored wants it to go on.
        if (present.sa_handler == SIG_IGN) {
            continue;
        }
        struct sigaction action = {};
        action.sa_handler = delete_and_die;
        ::sigemptyset(&action.sa_mask);
        action.sa_flags = static_cast<int>(SA_RESETHAND);
        ::sigaction(signal_number, &action, nullptr);
    }
}

UnfinishedFile::UnfinishedFile(const std::string& path) {
    // An unlisted file is only less tidy after an interrupt; it is no reason to refuse the output.
    if (path.size() >= places[0].path.size()) {
        return;
    }
    for (std::size_t i = 0; i < places.size(); ++i) {
        int expected = vacant;
        if (places[i].state.compare_exchange_strong(expected, filling)) {
            std::memcpy(places[i].path.data(), path.c_str(), path.size() + 1);
            places[i].state.store(listed);
            place_ = static_cast<int>(i);
            return;
        }
    }
}

UnfinishedFile::~UnfinishedFile() {
    if (place_ >= 0) {
        places[static_cast<std::size_t>(place_)].state.store(vacant);
    }
}

}  // namespace sim
