// Takes root's privileges away for the rest of a scope, so that a test of file permissions also
// tests something where everything runs as root.
#pragma once

#include <unistd.h>

#include <stdexcept>

namespace sim_test {

class WithoutPrivileges {
  public:
    WithoutPrivileges() {
        if (was_root_ && ::seteuid(nobody) != 0) {
            throw std::runtime_error("root's privileges cannot be taken away");
        }
    }
    ~WithoutPrivileges() {
        if (was_root_ && ::seteuid(0) != 0) {
            ::_exit(1);
        }
    }
    WithoutPrivileges(const WithoutPrivileges&) = delete;
    WithoutPrivileges& operator=(const WithoutPrivileges&) = delete;

  private:
    static constexpr uid_t nobody = 65534;
    bool was_root_ = ::geteuid() == 0;
};

}  // namespace sim_test
