#include "engine/appraise/measures.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace jarful::appraise {

namespace {

using Sort = Measure::Sort;

struct Row {
    Measure measure;
    /// Spellings apart by `|`, folded; one of several words has blanks. `.` between letters is left
    /// out before they are compared.
    std::string_view spellings;
};

// Factors are those of engine/units (NIST SP 811 and HB 44); a bare spoon or cup reaches from the
// US one to the metric one. EL and TL, cuillère à soupe and à café are 15 and 5 mL. What has no
// rule (pinch, handful, tasse) is wide on purpose: common practice, no source.
const Row rows[] = {
    {{"mg", Sort::mass, {0.001}, {}, false}, "mg|milligram|milligrams|milligramm|milligramme"},
    {{"g", Sort::mass, {1.0}, {}, false}, "g|gr|gm|gms|grs|grm|gram|grams|gramme|grammes"},
    {{"g", Sort::mass, {1.0}, Tongue::german, false}, "gramm|gramms"},
    {{"kg", Sort::mass, {1000.0}, {}, false},
     "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"},
    {{"kg", Sort::mass, {1000.0}, Tongue::german, false}, "kilogramm|kilogramms"},
    {{"dag", Sort::mass, {10.0}, Tongue::german, false}, "dag|dkg|deka"},
    {{"oz", Sort::mass, {28.349523125}, {}, false}, "oz|ozs|ounce|ounces"},
    {{"lb", Sort::mass, {453.59237}, {}, false}, "lb|lbs|pound|pounds|lbm|#"},
    {{"pfund", Sort::mass, {500.0}, Tongue::german, false}, "pfund|pfunde|pfunden|pfd"},
    {{"livre", Sort::mass, {500.0}, Tongue::french, false}, "livre|livres"},
    {{"mL", Sort::volume, {1.0}, {}, false},
     "ml|mls|cc|ccm|millilitre|millilitres|milliliter|milliliters"},
    {{"cL", Sort::volume, {10.0}, {}, false}, "cl|centilitre|centilitres|centiliter|centiliters"},
    {{"dL", Sort::volume, {100.0}, {}, false}, "dl|decilitre|decilitres|deciliter|deciliters"},
    {{"L", Sort::volume, {1000.0}, {}, false}, "l|lt|ltr|ltrs|lts|litre|litres|liter|liters"},
    {{"L", Sort::volume, {1000.0}, Tongue::german, false}, "litern"},
    {{"tsp", Sort::volume, {4.92892159375, 5.0}, {}, false},
     "tsp|tsps|ts|tspn|tspns|teasp|teaspoon|teaspoons|teaspoonful|teaspoonfuls|teaspoonsful"},
    {{"dessertspoon", Sort::volume, {9.8, 11.9}, {}, false},
     "dessertspoon|dessertspoons|dsp|dstspn|dessert spoon|dessert spoons"},
    {{"tbsp", Sort::volume, {14.78676478125, 15.0}, {}, false},
     "tbsp|tbsps|tbs|tb|tbl|tbls|tblsp|tblsps|tblspn|tbspn|tbspns|tbsn|tblspoon|tablespoon|"
     "tablespoons|tablespoonful|tablespoonfuls|tablespoonsful|table spoon|table spoons"},
    {{"tsp", Sort::volume, {4.92892159375, 5.0}, {}, false}, "tea spoon|tea spoons"},
    {{"cup", Sort::volume, {236.5882365, 250.0}, {}, false}, "cup|cups|cupful|cupfuls|cupsful"},
    {{"tsp", Sort::volume, {5.0}, {}, true}, "metric tsp|metric teaspoon|metric teaspoons"},
    {{"tbsp", Sort::volume, {15.0}, {}, true}, "metric tbsp|metric tablespoon|metric tablespoons"},
    {{"cup", Sort::volume, {250.0}, {}, true}, "metric cup|metric cups"},
    {{"tsp", Sort::volume, {4.92892159375}, {}, false}, "us tsp|us teaspoon|us teaspoons"},
    {{"tbsp", Sort::volume, {14.78676478125}, {}, false}, "us tbsp|us tablespoon|us tablespoons"},
    {{"cup", Sort::volume, {236.5882365}, {}, false}, "us cup|us cups"},
    {{"floz", Sort::volume, {29.5735295625}, {}, false},
     "fl oz|floz|fluid ounce|fluid ounces|fluid oz|us fl oz"},
    {{"imperial floz", Sort::volume, {28.4130625}, {}, false},
     "imperial fl oz|imperial fluid ounce|imperial fluid ounces|uk fl oz"},
    {{"gill", Sort::volume, {118.29411825, 142.0653125}, {}, false}, "gill|gills"},
    {{"pint", Sort::volume, {473.176473}, {}, false}, "pt|pts|pint|pints|us pint|us pints"},
    {{"imperial pint", Sort::volume, {568.26125}, {}, false},
     "imperial pint|imperial pints|uk pint|uk pints|british pint"},
    {{"quart", Sort::volume, {946.352946}, {}, false}, "qt|qts|quart|quarts|us quart|us quarts"},
    {{"imperial quart", Sort::volume, {1136.5225}, {}, false}, "imperial quart|imperial quarts"},
    {{"gallon", Sort::volume, {3785.411784}, {}, false},
     "gal|gals|gallon|gallons|us gallon|us gallons"},
    {{"imperial gallon", Sort::volume, {4546.09}, {}, false},
     "imperial gallon|imperial gallons|uk gallon|uk gallons"},
    {{"tbsp", Sort::volume, {15.0}, Tongue::german, true},
     "el|essl|essloffel|essloeffel|e\xc3\x9fl|e\xc3\x9fl\xc3\xb6"
     "ffel|e\xc3\x9floffel"},
    {{"tsp", Sort::volume, {5.0}, Tongue::german, true},
     "tl|teel|teeloffel|teeloeffel|kaffeeloffel|kl"},
    {{"tasse", Sort::volume, {125.0, 250.0}, Tongue::german, false}, "tassen"},
    {{"tasse", Sort::volume, {125.0, 250.0}, {}, false}, "tasse|tasses"},
    {{"verre", Sort::volume, {100.0, 250.0}, Tongue::french, false}, "verre|verres"},
    {{"tbsp", Sort::volume, {15.0}, Tongue::french, true},
     "c a s|c a soupe|cas|cs|cuillere a soupe|cuilleres a soupe|cuilleree a soupe|"
     "cuillerees a soupe|cuil a soupe|cuill a soupe|cuil a s|c soupe"},
    {{"tsp", Sort::volume, {5.0}, Tongue::french, true},
     "c a c|c a cafe|c a the|cac|cuillere a cafe|cuilleres a cafe|cuilleree a cafe|"
     "cuillerees a cafe|cuil a cafe|cuill a cafe|cuil a c|cuillere a the|cuilleres a the|c cafe"},
    {{"pinch", Sort::loose, {0.2, 1.0}, {}, false}, "pinch|pinches|smidgen"},
    {{"pinch", Sort::loose, {0.2, 1.0}, Tongue::german, false},
     "prise|prisen|messerspitze|messerspitzen|msp"},
    {{"pinch", Sort::loose, {0.2, 1.0}, Tongue::french, false}, "pincee|pincees"},
    {{"dash", Sort::loose, {0.3, 3.0}, {}, false}, "dash|dashes|splash|drizzle|glug|schuss"},
    {{"drop", Sort::loose, {0.03, 0.1}, {}, false}, "drop|drops|tropfen|goutte|gouttes"},
    {{"handful", Sort::loose, {30.0, 200.0}, {}, false}, "handful|handfuls|handsful"},
    {{"handful", Sort::loose, {30.0, 200.0}, Tongue::german, false}, "handvoll"},
    {{"handful", Sort::loose, {30.0, 200.0}, Tongue::french, false}, "poignee|poignees"},
    {{"bunch", Sort::count, {}, {}, false}, "bunch|bunches"},
    {{"bunch", Sort::count, {}, Tongue::german, false}, "bund|bunde|bd"},
    {{"bunch", Sort::count, {}, Tongue::french, false}, "botte|bottes|bouquet|bouquets"},
    {{"head", Sort::count, {}, {}, false}, "head|heads|hd"},
    {{"head", Sort::count, {}, Tongue::german, false}, "kopf|kopfe|koepfe|knolle|knollen"},
    {{"head", Sort::count, {}, Tongue::french, false}, "tete|tetes"},
    {{"clove", Sort::count, {}, {}, false}, "clove|cloves"},
    {{"clove", Sort::count, {}, Tongue::german, false}, "zehe|zehen"},
    {{"clove", Sort::count, {}, Tongue::french, false}, "gousse|gousses"},
    {{"piece", Sort::count, {}, {}, false}, "piece|pieces|pc|pcs|whole"},
    {{"piece", Sort::count, {}, Tongue::german, false}, "stuck|stk|st|stueck"},
    {{"bulb", Sort::count, {}, {}, false}, "bulb|bulbs"},
    {{"root", Sort::count, {}, {}, false}, "root|roots"},
    {{"stalk", Sort::count, {}, {}, false}, "stalk|stalks|rib|ribs|stem|stems"},
    {{"stalk", Sort::count, {}, Tongue::german, false}, "stange|stangen"},
    {{"stick", Sort::count, {}, {}, false}, "stick|sticks"},
    {{"sprig", Sort::count, {}, {}, false}, "sprig|sprigs|frond|fronds"},
    {{"sprig", Sort::count, {}, Tongue::german, false}, "zweig|zweige|stiel|stiele"},
    {{"sprig", Sort::count, {}, Tongue::french, false},
     "brin|brins|branche|branches|brindille|brindilles"},
    {{"leaf", Sort::count, {}, {}, false}, "leaf|leaves"},
    {{"leaf", Sort::count, {}, Tongue::german, false}, "blatt|blatter|blaetter"},
    {{"leaf", Sort::count, {}, Tongue::french, false}, "feuille|feuilles"},
    {{"slice", Sort::count, {}, {}, false},
     "slice|slices|coin|coins|scheibe|scheiben|rondelle|rondelles|strip|strips|ribbon|ribbons|"
     "streifen|tranche|tranches|lamelle|lamelles"},
    {{"peel", Sort::count, {}, {}, false},
     "peel|peels|skin|skins|rind|rinds|schale|schalen|pelure|pelures|epluchure|epluchures"},
    {{"core", Sort::count, {}, {}, false}, "core|cores|strunk|strunke|trognon|trognons"},
    {{"pod", Sort::count, {}, {}, false}, "pod|pods|schote|schoten"},
    {{"spear", Sort::count, {}, {}, false}, "spear|spears"},
    {{"inch", Sort::length, {2.54}, {}, false}, "inch|inches"},
    {{"cm", Sort::length, {1.0}, {}, false}, "cm|centimetre|centimetres|centimeter|centimeters"},
    {{"thumb", Sort::length, {5.0}, {}, false}, "thumb|thumbs|knob|knobs"},
    {{"can", Sort::package, {}, {}, false}, "can|cans|tin|tins|dose|dosen|boite|boites"},
    {{"package", Sort::package, {}, {}, false},
     "package|packages|pkg|pkgs|packet|packets|bag|bags|box|boxes|sachet|sachets|packung|packchen|"
     "paquet|paquets|container|containers"},
    {{"jar", Sort::package, {}, {}, false},
     "jar|jars|bottle|bottles|glas|bocal|bocaux|crock|crocks"},
};

const Row tablespoon{{"tbsp", Sort::volume, {14.78676478125, 15.0}, {}, false}, ""};
const Row teaspoon{{"tsp", Sort::volume, {4.92892159375, 5.0}, {}, false}, ""};
const Row cup{{"cup", Sort::volume, {236.5882365, 250.0}, {}, false}, ""};
const Measure percent_row{"%", Sort::percent, {0.01}, {}, false};

const std::map<std::string_view, const Measure*>& table() {
    static const std::map<std::string_view, const Measure*> all = [] {
        std::map<std::string_view, const Measure*> map;
        for (const Row& row : rows) {
            std::string_view rest = row.spellings;
            while (!rest.empty()) {
                const std::size_t end = rest.find('|');
                map.emplace(rest.substr(0, end), &row.measure);
                if (end == std::string_view::npos) break;
                rest.remove_prefix(end + 1);
            }
        }
        return map;
    }();
    return all;
}

bool stop(const Token& token) {
    return token.sort == Token::Sort::mark && token.text == ".";
}

} // namespace

const Measure& percent_measure() {
    return percent_row;
}

const Measure* imperial_measure(const Measure& measure) {
    const std::string_view unit = measure.unit == "floz" ? "fl oz" : measure.unit;
    const auto place = table().find("imperial " + std::string(unit));
    return place == table().end() ? nullptr : place->second;
}

bool part_of_piece(const Measure& measure) {
    return measure.unit == "slice" || measure.unit == "leaf" || measure.unit == "peel" ||
           measure.unit == "core";
}

std::optional<FoundMeasure> measure_at(std::span<const Token> tokens, std::size_t at,
                                       bool after_number) {
    if (at >= tokens.size()) return std::nullopt;
    const Token& first = tokens[at];
    if (first.sort == Token::Sort::mark) {
        if (first.text == "#" && after_number) return FoundMeasure{table().at("#"), 1};
        return std::nullopt;
    }
    if (first.sort != Token::Sort::word) return std::nullopt;
    // Words up to four, the full stops between and behind them passed over.
    std::string joined;
    std::optional<FoundMeasure> found;
    std::size_t words = 0;
    for (std::size_t i = at; i < tokens.size() && words < 4; ++i) {
        const Token& token = tokens[i];
        if (stop(token)) continue;
        if (token.sort != Token::Sort::word) break;
        if (!joined.empty()) joined += ' ';
        joined += token.folded;
        ++words;
        if (joined.size() > 24) break;
        const auto place = table().find(joined);
        if (place == table().end()) continue;
        std::size_t end = i + 1;
        if (end < tokens.size() && stop(tokens[end]) && tokens[end].glued) ++end;
        found = FoundMeasure{place->second, end - at};
    }
    if (first.text == "T" || first.text == "t" || first.text == "C" || first.text == "c") {
        if (found && found->tokens > 2) return found; // "c. à s."
        if (!after_number) return std::nullopt;
        std::size_t end = 1;
        if (at + 1 < tokens.size() && stop(tokens[at + 1]) && tokens[at + 1].glued) ++end;
        const Row& row = first.text == "T" ? tablespoon : first.text == "t" ? teaspoon : cup;
        return FoundMeasure{&row.measure, end};
    }
    // A single letter, or what is also a plain word, is a measure only behind a number.
    static constexpr std::string_view only_behind_numbers[] = {
        "g",  "l",  "kl", "st", "ts", "cs",   "cas",   "tb",  "can",  "lt",    "tl",     "el",
        "cm", "gr", "gm", "bd", "pt", "root", "roots", "pod", "pods", "stick", "sticks", "whole"};
    if (found && !after_number &&
        std::find(std::begin(only_behind_numbers), std::end(only_behind_numbers),
                  std::string_view(first.folded)) != std::end(only_behind_numbers)) {
        return std::nullopt;
    }
    return found;
}

} // namespace jarful::appraise
