#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

/// How the constant tables refer to each other and to their texts: by places and not by pointers. A
/// pointer in a table is one that the loader has to adjust at every start, and a page of memory
/// that is copied for it; a table without any stays in the program's file until it is read.
///
/// Each of these can also stand for something that is no part of the tables (a house's own row, a
/// recipe's own material). That has to live as long as what refers to it.
namespace jarful::larder {

/// Some elements of the array `all` that stand together, told by the place of the first, or of an
/// array elsewhere. At most 2^31 of them.
template <typename T, const T* all>
class Slice {
  public:
    constexpr Slice() = default;
    constexpr Slice(std::uint32_t first, std::uint32_t count)
        : where_{.first = first}
        , count_(count & most) {}
    constexpr Slice(std::span<const T> elsewhere)
        : where_{.elsewhere = elsewhere.data()}
        , count_(static_cast<std::uint32_t>(elsewhere.size()) & most)
        , is_elsewhere_(1) {}

    [[nodiscard]] constexpr const T* data() const {
        return is_elsewhere_ != 0 ? where_.elsewhere : all + where_.first;
    }
    [[nodiscard]] constexpr std::size_t size() const { return count_; }
    [[nodiscard]] constexpr bool empty() const { return count_ == 0; }
    [[nodiscard]] constexpr const T* begin() const { return data(); }
    [[nodiscard]] constexpr const T* end() const { return data() + count_; }
    [[nodiscard]] constexpr const T& operator[](std::size_t i) const { return data()[i]; }
    [[nodiscard]] constexpr const T& front() const { return *data(); }
    [[nodiscard]] constexpr const T& back() const { return *(end() - 1); }

  private:
    static constexpr std::uint32_t most = 0x7FFFFFFF;
    /// Which of them it is, `is_elsewhere_` says.
    union Where {
        std::uintptr_t first;
        const T* elsewhere;
    };
    Where where_{.first = 0};
    std::uint32_t count_ : 31 = 0;
    std::uint32_t is_elsewhere_ : 1 = 0;
};

/// A text of the characters `all`, or one that lies elsewhere. To read it, it is a
/// std::string_view; no zero stands behind it.
template <const char* all>
class ConstantText {
  public:
    constexpr ConstantText() = default;
    /// @param place of its first byte in `all`
    constexpr ConstantText(std::uint32_t place, std::uint32_t size)
        : letters_(place, size) {}
    constexpr ConstantText(std::string_view elsewhere)
        : letters_(std::span<const char>(elsewhere)) {}
    constexpr ConstantText(const char* elsewhere)
        : ConstantText(std::string_view(elsewhere)) {}

    [[nodiscard]] constexpr std::string_view view() const {
        return {letters_.data(), letters_.size()};
    }
    constexpr operator std::string_view() const { return view(); }
    [[nodiscard]] constexpr bool empty() const { return letters_.empty(); }
    [[nodiscard]] constexpr std::size_t size() const { return letters_.size(); }

    friend constexpr bool operator==(const ConstantText& a, const ConstantText& b) {
        return a.view() == b.view();
    }
    friend constexpr bool operator==(const ConstantText& a, std::string_view b) {
        return a.view() == b;
    }
    friend constexpr bool operator==(const ConstantText& a, const char* b) { return a.view() == b; }
    friend constexpr std::string_view format_as(const ConstantText& text) { return text.view(); }

  private:
    Slice<char, all> letters_;
};

/// Whatever a std::string_view is written to.
template <class Stream, const char* all>
auto operator<<(Stream& out, const ConstantText<all>& text) -> decltype(out << text.view()) {
    return out << text.view();
}

/// One element of the array `all`, told by its place, one elsewhere, or none. To use it, it is a
/// pointer.
template <typename T, const T* all>
class Entry {
  public:
    constexpr Entry() = default;
    constexpr Entry(const T* elsewhere)
        : elsewhere_(elsewhere) {}
    [[nodiscard]] static constexpr Entry at(std::uint32_t place) {
        Entry out;
        out.place_ = place + 1;
        return out;
    }

    constexpr operator const T*() const {
        return elsewhere_ != nullptr || place_ == 0 ? elsewhere_ : all + (place_ - 1);
    }
    constexpr const T* operator->() const { return *this; }

  private:
    const T* elsewhere_ = nullptr;
    std::uint32_t place_ = 0; ///< from 1
};

} // namespace jarful::larder
