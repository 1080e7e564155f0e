#include "engine/appraise/appraise.hpp"
#include "engine/larder/larder.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <random>
#include <string>
#include <vector>

/// Lists made up from known amounts, with headings, spices, jars and remarks between: what they
/// were made from lies inside what is read, and no verdict goes against it.
namespace {

using namespace jarful;
using appraise::Verdict;

std::mt19937& random_source() {
    static std::mt19937 source(20261130);
    return source;
}

double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_source());
}

template <typename List>
const auto& one_of(const List& list) {
    return list[std::uniform_int_distribution<std::size_t>(0,
                                                           std::size(list) - 1)(random_source())];
}

bool chance(double p) {
    return between(0, 1) < p;
}

/// Whole grams in the words of a language: the mark before decimals is never needed.
std::string whole(double x) {
    return std::to_string(static_cast<long>(x + 0.5));
}

/// A language by what a list needs of it. `{}` stands for a number.
struct Speech {
    std::vector<std::string> vegetables, titles, noise, headings, method;
    std::string salt, salts, water;
    std::vector<std::string> spoons; ///< of one, or of one, of two to four, of five and more
    std::string fine_salt;
    std::vector<std::string> rates; ///< g for each kg
    std::string dissolve;           ///< the salt in so many litres
    std::string more_salt;          ///< g that go in on another day
    std::string of = " ";           ///< between a measure and what it is of
    std::string of_water = " ";
    std::string salt_alone = {}, water_alone = {}; ///< without an amount, if in another form

    [[nodiscard]] const std::string& spoon(double many) const {
        const std::size_t form = many == 1 ? 0 : many < 5 ? 1 : 2;
        return spoons[std::min(form, spoons.size() - 1)];
    }
};

const std::array<Speech, 4> speeches{{
    {{"cabbage", "carrots", "green beans", "cauliflower", "radishes", "beets", "cucumbers"},
     {"Autumn jar", "Garden crock", "Cellar pickle"},
     {"1 tsp caraway seeds", "4-6 peppercorns", "2 bay leaves", "1 quart jar with a lid",
      "dill to taste", "a few juniper berries", "1 Oakhill preserving crock", "Serves 6",
      "3 to 4 weeks", "1 tbsp coriander seeds, crushed"},
     {"Ingredients", "For the jar:", "You need", "What goes in"},
     {"Shred everything finely.", "Pack it firmly into a clean jar.",
      "Leave it at room temperature for two weeks.", "Check it every day.",
      "Rinse the jars before you begin."},
     "salt",
     "sea salt",
     "water",
     {"tbsp"},
     "canning salt",
     {"Take {} g of salt for each kilo of vegetables.", "Use {} g salt per kg of vegetables.",
      "For every kilogram of vegetables weigh {} g of salt."},
     "Dissolve the salt in {} litres of water and pour it over.",
     "The next morning work in {} g more."},
    {{"Wei\u00dfkohl", "Karotten", "gr\u00fcne Bohnen", "Blumenkohl", "Radieschen", "Gurken"},
     {"Garten im Glas", "Herbstglas", "Topf aus dem Keller"},
     {"1 TL K\u00fcmmel", "5 Pfefferk\u00f6rner", "2 Lorbeerbl\u00e4tter", "1 Glas mit Deckel",
      "6 Wacholderbeeren", "1 EL Senfk\u00f6rner"},
     {"Zutaten", "Zutaten:"},
     {"Alles fein hobeln.", "Fest in ein sauberes Glas dr\u00fccken.",
      "Zwei Wochen bei Zimmertemperatur stehen lassen."},
     "Salz",
     "Meersalz",
     "Wasser",
     {"EL"},
     "feines Meersalz",
     {"Pro Kilo Gem\u00fcse {} g Salz nehmen.", "Auf 1 kg Gem\u00fcse kommen {} g Salz."},
     "Das Salz in {} Liter Wasser aufl\u00f6sen und dar\u00fcbergie\u00dfen.",
     "Am n\u00e4chsten Tag noch {} g Salz dazugeben."},
    {{"chou blanc", "carottes", "haricots verts", "chou-fleur", "radis", "concombres"},
     {"Bocal du jardin", "Bocal d'automne"},
     {"1 c. \u00e0 c. de cumin", "5 grains de poivre", "2 feuilles de laurier",
      "6 baies de geni\u00e8vre", "1 bocal avec couvercle"},
     {"Ingr\u00e9dients", "Ingr\u00e9dients :"},
     {"\u00c9mincer finement.", "Tasser dans un bocal propre.", "Laisser deux semaines."},
     "sel",
     "gros sel",
     "eau",
     {"c. \u00e0 s."},
     "sel fin",
     {"Compter {} g de sel par kilo de l\u00e9gumes.",
      "Mettre {} g de sel pour 1 kg de l\u00e9gumes."},
     "Dissoudre le sel dans {} litres d'eau et verser.",
     "Le lendemain ajouter encore {} g de sel.",
     " de ",
     " d'"},
    {{"białej kapusty", "marchewki", "fasolki szparagowej", "kalafiora", "rzodkiewek", "buraków",
      "ogórków gruntowych"},
     {"Kiszonka z działki", "Jesienny słoik", "Kamionka z piwnicy"},
     {"1 łyżeczka kminku", "5 ziaren pieprzu", "2 liście laurowe", "1 słoik z zakrętką",
      "kilka jagód jałowca", "1 łyżka gorczycy", "koper", "6 kulek ziela angielskiego",
      "kawałek chrzanu", "4 porcje"},
     {"Składniki", "Składniki:", "Potrzebne:"},
     {"Wszystko drobno poszatkować.", "Ubić mocno w czystym słoiku.",
      "Odstawić na dwa tygodnie w temperaturze pokojowej.", "Zaglądać codziennie.",
      "Słoiki umyć i wyparzyć."},
     "soli",
     "soli morskiej",
     "wody",
     {"łyżka", "łyżki", "łyżek"},
     "soli kamiennej",
     {"Na każdy kilogram warzyw {} g soli.", "Na 1 kg warzyw dać {} g soli.",
      "Soli {} g na każdy kilogram warzyw."},
     "Sól rozpuścić w {} litrach wody i zalać.",
     "Następnego dnia dosypać jeszcze {} g soli.",
     " ",
     " ",
     "sól",
     "woda"},
}};

std::string put(std::string text, const std::string& number) {
    const std::size_t at = text.find("{}");
    return at == std::string::npos ? text : text.replace(at, 2, number);
}

/// Lines as they come out of a copied page: two run together, or one broken at a blank.
std::string muddled(std::string lines) {
    const char from = chance(0.5) ? '\n' : ' ';
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        const auto digit = [](char c) { return c >= '0' && c <= '9'; };
        // Two things that run together each begin with an amount; "to taste 400 g beets" is not
        // read apart, and "Serves 6 400 g beets" is 6 400 g to anybody.
        const std::size_t begin = i == 0 ? 0 : lines.rfind('\n', i - 1) + 1;
        const bool amounts =
            digit(lines[begin]) && digit(lines[i + 1]) && i > 0 && !digit(lines[i - 1]);
        if (lines[i] == from && (from == ' ' || amounts)) places.push_back(i);
    }
    if (!places.empty()) lines[one_of(places)] = from == ' ' ? '\n' : ' ';
    return lines;
}

struct Made {
    std::string text;
    double salt = 0, vegetables = 0, water = 0;
};

void vegetables(Made& m, const Speech& s, std::string& lines) {
    const std::size_t many = chance(0.6) ? 1 : 2;
    for (std::size_t i = 0; i < many; ++i) {
        const double grams = 50 * static_cast<double>(static_cast<long>(between(8, 60)));
        m.vegetables += grams;
        lines +=
            whole(grams) + " g" + s.of +
            s.vegetables[(i * 3 + static_cast<std::size_t>(between(0, 3))) % s.vegetables.size()] +
            "\n";
        if (chance(0.3)) lines += one_of(s.noise) + "\n";
    }
}

Made made() {
    const Speech& s = one_of(speeches);
    Made m;
    std::string lines;
    std::string method;
    vegetables(m, s, lines);
    const bool wet = chance(0.5);
    if (wet) {
        const double litres = static_cast<double>(static_cast<long>(between(1, 5)));
        m.water = litres * 1000 * 0.998;
        if (chance(0.5)) {
            lines += whole(litres) + " l" + s.of_water + s.water + "\n";
        } else {
            lines += (s.water_alone.empty() ? s.water : s.water_alone) + "\n";
            method += put(s.dissolve, whole(litres)) + "\n";
        }
    }
    const double percent = between(0.8, 5.5);
    if (!wet && chance(0.35)) {
        const double rate = static_cast<double>(static_cast<long>(percent * 10 + 0.5));
        m.salt = rate * m.vegetables / 1000;
        lines += (s.salt_alone.empty() ? s.salt : s.salt_alone) + "\n";
        method += put(one_of(s.rates), whole(rate)) + "\n";
    } else if (chance(0.3)) {
        const auto* salt = larder::find_exact("canning salt");
        const double spoons = static_cast<double>(static_cast<long>(between(1, 8)));
        m.salt = spoons * 14.9 * between(salt->bulk_density->low, salt->bulk_density->high);
        lines += whole(spoons) + " " + s.spoon(spoons) + s.of + s.salt + "\n";
    } else {
        m.salt =
            static_cast<double>(static_cast<long>(percent * (m.vegetables + m.water) / 100 + 0.5));
        lines += whole(m.salt) + " g" + s.of + (chance(0.5) ? s.salt : s.salts) + "\n";
        if (chance(0.1)) {
            const double more = static_cast<double>(static_cast<long>(between(5, 40)));
            m.salt += more;
            method += put(s.more_salt, whole(more)) + "\n";
        }
    }
    if (chance(0.15)) lines = muddled(lines);
    if (chance(0.4)) lines = one_of(s.headings) + "\n" + lines;
    if (chance(0.6)) lines += one_of(s.noise) + "\n";
    if (chance(0.5)) method = one_of(s.method) + " " + method;
    if (chance(0.5)) method += one_of(s.method) + "\n";
    m.text = one_of(s.titles) + "\n\n" + lines + "\n" + method;
    return m;
}

TEST(AppraiseProperty, TheTruthThatAListWasMadeFromLiesInside) {
    int decided = 0;
    int bounded = 0;
    constexpr int lists = 20000;
    for (int i = 0; i < lists; ++i) {
        const Made m = made();
        appraise::Refusal refusal;
        const auto a = appraise::appraise(m.text, {}, refusal);
        ASSERT_TRUE(a) << m.text;
        const double of_vegetables = 100 * m.salt / m.vegetables;
        const double of_both = 100 * m.salt / (m.vegetables + m.water);
        const auto holds = [&](const appraise::Percent& p, double truth) {
            return !p || (p->low <= truth * 1.002 && p->high >= truth * 0.998);
        };
        ASSERT_TRUE(holds(a->of_vegetables, of_vegetables)) << of_vegetables << "\n" << m.text;
        ASSERT_TRUE(holds(a->of_vegetables_and_water, of_both)) << of_both << "\n" << m.text;
        bounded += a->of_vegetables || a->of_vegetables_and_water ? 1 : 0;
        if (!a->basis || !a->low || !a->high) continue;
        double truth = 0;
        if (*a->basis == larder::Basis::of_vegetables)
            truth = of_vegetables;
        else if (*a->basis == larder::Basis::of_vegetables_and_water)
            truth = of_both;
        else
            continue;
        if (a->verdict == Verdict::inside) {
            ASSERT_GE(truth, a->low->percent * 0.998) << m.text;
            ASSERT_LE(truth, a->high->percent * 1.002) << m.text;
        } else if (a->verdict == Verdict::below) {
            ASSERT_LT(truth, a->low->percent * 1.002) << m.text;
        } else if (a->verdict == Verdict::above) {
            ASSERT_GT(truth, a->high->percent * 0.998) << m.text;
        }
        decided += a->verdict != Verdict::undecided ? 1 : 0;
    }
    std::printf("  of %d lists %d bounded, %d decided\n", lists, bounded, decided);
    EXPECT_GT(bounded, lists * 8 / 10);
    EXPECT_GT(decided, lists * 4 / 10);
}

} // namespace
