#include "engine/book/first_kinds.hpp"

#include <array>

namespace jarful::book {

namespace {

constexpr std::array starts{
    Start{"kraut", "", "cabbage", "", "1 kg", "0.90 kg/L", ""},
    Start{"whole-head", "", "heads", "as white cabbage", "2.5 kg", "0.52 kg/L", "90 % of NAME"},
    Start{"kimchi", "", "napa", "as napa cabbage", "1 kg", "0.92 kg/L", ""},
    Start{"cucumbers", "salt-stock", "cucumbers", "as pickling cucumber", "1 kg", "0.58 kg/L",
          "80 % of NAME"},
    Start{"cucumbers", "", "cucumbers", "as pickling cucumber", "600 g", "0.58 kg/L",
          "cover(NAME, packed)"},
    Start{"roots", "", "carrots", "as carrot", "900 g", "0.60 kg/L", "cover(NAME, packed)"},
    Start{"radish", "", "daikon", "", "1 kg", "0.90 kg/L", ""},
    Start{"pepper-mash", "", "chillies", "as fresh chilli", "700 g", "1.00 kg/L", ""},
    Start{"peppers", "", "peppers", "as fresh pepper", "600 g", "0.50 kg/L", "80 % of NAME"},
    Start{"beets", "", "beets", "as beetroot", "1 kg", "0.60 kg/L", "75 % of NAME"},
    Start{"beet-kvass", "", "beets", "as beetroot", "500 g", "0.30 kg/L", "250 % of NAME"},
    Start{"garlic", "", "garlic", "counts as vegetable", "400 g", "0.60 kg/L", "60 % of NAME"},
    Start{"green-beans", "dry-salted", "beans", "as green bean", "1 kg", "0.75 kg/L", ""},
    Start{"green-beans", "", "beans", "as green bean", "700 g", "0.55 kg/L", "85 % of NAME"},
    Start{"cauliflower", "", "cauliflower", "", "1 kg", "0.55 kg/L", "70 % of NAME"},
    Start{"mustard-greens", "dry-salted", "greens", "as mustard greens", "1 kg", "0.80 kg/L", ""},
    Start{"mustard-greens", "", "greens", "as mustard greens", "1 kg", "0.50 kg/L",
          "100 % of NAME"},
    Start{"onions", "", "onions", "as onion", "800 g", "0.60 kg/L", "cover(NAME, packed)"},
    Start{"green-tomatoes", "", "tomatoes", "as green tomato", "1 kg", "0.60 kg/L", "80 % of NAME"},
    Start{"shalgam", "", "black_carrot", "", "500 g", "0.30 kg/L", "250 % of NAME"},
    Start{"mushrooms", "", "mushrooms", "as white mushroom", "600 g", "0.50 kg/L", "90 % of NAME"},
    Start{"olives", "", "olives", "as raw olive", "1 kg", "0.60 kg/L", "80 % of NAME"},
    Start{"lemons", "", "lemons", "as lemon", "1 kg", "0.95 kg/L", ""},
    Start{"mixed", "", "vegetables", "as mixed vegetables", "1 kg", "0.60 kg/L", "65 % of NAME"},
};

} // namespace

const Start& start_of(std::string_view kind, std::string_view method) {
    for (const Start& start : starts)
        if (start.kind == kind && (start.method.empty() || start.method == method)) return start;
    return starts.back();
}

} // namespace jarful::book
