#include "engine/page/described.hpp"

#include "engine/page/results.hpp"
#include "engine/render/fields/schema.hpp"

#include <algorithm>
#include <string>

namespace jarful::page {

std::vector<const fields::Result*> described_results() {
    const auto of_commands = fields::results();
    std::vector<const fields::Result*> out(of_commands.begin(), of_commands.end());
    out.push_back(&page_result);
    out.push_back(&page_load_result);
    return out;
}

const fields::Result* described_result(std::string_view name) {
    std::string sought(name);
    std::replace_if(
        sought.begin(), sought.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
    for (const fields::Result* result : described_results())
        if (result->notes.name == sought) return result;
    return nullptr;
}

} // namespace jarful::page
