#include "engine/tend/identity.hpp"

#include <boost/uuid/detail/sha1.hpp>
#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/string_generator.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <fmt/core.h>

namespace jarful::tend {

namespace {

/// Our own namespace of names, drawn at random once.
constexpr const char* name_space = "6f2d1c1e-5b0a-4c57-9a8e-2f41d7c9b3a6";

} // namespace

std::string blob_id(std::string_view bytes) {
    boost::uuids::detail::sha1 hash;
    const std::string head = fmt::format("blob {}", bytes.size());
    hash.process_bytes(head.c_str(), head.size() + 1); // with its zero byte
    hash.process_bytes(bytes.data(), bytes.size());
    boost::uuids::detail::sha1::digest_type digest;
    hash.get_digest(digest);
    std::string out;
    for (const unsigned int word : digest)
        out += fmt::format("{:08x}", word);
    return out;
}

std::string named_uuid(std::string_view text) {
    static const boost::uuids::name_generator_sha1 generate(
        boost::uuids::string_generator{}(name_space));
    return boost::uuids::to_string(generate(std::string(text)));
}

} // namespace jarful::tend
