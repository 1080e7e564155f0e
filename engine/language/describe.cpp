#include "engine/language/describe.hpp"

namespace jarful::language {

std::string_view describe(QuantityWord word) {
    switch (word) {
    case QuantityWord::given:
        return "given";
    case QuantityWord::total:
        return "total";
    case QuantityWord::share:
        return "share";
    case QuantityWord::weigh:
        return "weigh";
    case QuantityWord::count:
        return "count";
    case QuantityWord::let:
        return "let";
    case QuantityWord::measure:
        return "measure";
    case QuantityWord::cap:
        return "cap";
    }
    return {};
}

} // namespace jarful::language
