#include "sim/regression/case_message.hpp"

#include <cstring>
#include <type_traits>

namespace sim {

namespace {

/// Far beyond what a case of a thousand starts takes.
constexpr std::uint32_t most_bytes = 64U * 1024U * 1024U;

/// Both directions walk over the same fields, so that they cannot disagree about their order.
class Packing {
  public:
    template <class Number>
    std::enable_if_t<std::is_arithmetic_v<Number>> field(const Number& value) {
        bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
    }
    void field(const std::string& text) {
        field(static_cast<std::uint32_t>(text.size()));
        bytes_ += text;
    }
    template <class Value>
    void field(const std::optional<Value>& value) {
        field(value.has_value());
        field(value.value_or(Value{}));
    }
    template <class Row, class EachField>
    void list(const std::vector<Row>& rows, EachField each_field) {
        field(static_cast<std::uint32_t>(rows.size()));
        for (const Row& row : rows) {
            each_field(*this, row);
        }
    }
    const std::string& bytes() const { return bytes_; }

  private:
    std::string bytes_;
};

class Unpacking {
  public:
    Unpacking(const char* bytes, std::size_t count) : next_(bytes), left_(count) {}

    template <class Number>
    std::enable_if_t<std::is_arithmetic_v<Number>> field(Number& value) {
        std::memcpy(&value, take(sizeof value), sizeof value);
    }
    void field(bool& value) {
        unsigned char byte = 0;
        field(byte);
        value = byte != 0;
    }
    void field(std::string& text) {
        std::uint32_t size = 0;
        field(size);
        const char* letters = take(size);
        text.assign(letters, size);
    }
    template <class Value>
    void field(std::optional<Value>& value) {
        bool is_there = false;
        Value content{};
        field(is_there);
        field(content);
        value = is_there ? std::optional<Value>(content) : std::nullopt;
    }
    template <class Row, class EachField>
    void list(std::vector<Row>& rows, EachField each_field) {
        std::uint32_t size = 0;
        field(size);
        // Each takes at least a byte, so a damaged size is found out before it costs memory.
        if (size > left_) {
            damaged();
        }
        rows.resize(size);
        for (Row& row : rows) {
            each_field(*this, row);
        }
    }
    void end() const {
        if (left_ != 0) {
            damaged();
        }
    }

  private:
    [[noreturn]] static void damaged() { throw DamagedAnswer(); }
    const char* take(std::size_t count) {
        if (count > left_) {
            damaged();
        }
        const char* here = next_;
        next_ += count;
        left_ -= count;
        return here;
    }

    const char* next_;
    std::size_t left_;
};

/// `Message` is const for packing.
template <class Bytes, class Message>
void all_fields(Bytes& bytes, Message& message) {
    bytes.field(message.has_ended);
    auto& begun = message.begun;
    bytes.field(begun.expected);
    bytes.field(begun.simulated_s);
    bytes.field(begun.holds_foreign_code);
    auto& record = begun.record;
    bytes.field(record.id);
    bytes.field(record.place.block);
    bytes.field(record.place.compressor);
    bytes.field(record.place.supply);
    bytes.field(record.place.condition);
    bytes.field(record.place.fault);
    bytes.field(record.place.setting);
    bytes.field(record.seed);
    bytes.field(record.scenario_hash);
    bytes.field(record.settings_hash);
    bytes.list(record.inputs, [](auto& to, auto& input) {
        to.field(input.name);
        to.field(input.value);
    });
    bytes.list(record.starts, [](auto& to, auto& row) {
        to.field(row.start);
        to.field(row.outcome);
        to.field(row.cause);
        to.field(row.expected);
        to.field(row.passed);
        to.list(row.figures, [](auto& into, auto& figure) { into.field(figure); });
        to.list(row.broken, [](auto& into, auto& broken) {
            into.field(broken.requirement);
            into.field(broken.words);
        });
    });
}

}  // namespace

std::string packed(const CaseMessage& message) {
    Packing packing;
    all_fields(packing, message);
    Packing length;
    length.field(static_cast<std::uint32_t>(packing.bytes().size()));
    return length.bytes() + packing.bytes();
}

std::optional<CaseMessage> MessageStream::next() {
    std::uint32_t length = 0;
    if (bytes_.size() < sizeof length) {
        return std::nullopt;
    }
    std::memcpy(&length, bytes_.data(), sizeof length);
    if (length > most_bytes) {
        throw DamagedAnswer();
    }
    if (bytes_.size() < sizeof length + length) {
        return std::nullopt;
    }
    CaseMessage message;
    Unpacking unpacking(bytes_.data() + sizeof length, length);
    all_fields(unpacking, message);
    unpacking.end();
    bytes_.erase(0, sizeof length + length);
    return message;
}

}  // namespace sim
