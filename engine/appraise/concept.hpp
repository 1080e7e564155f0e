#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <string_view>

/// What words mean to a list and its method. The lexicons of engine/appraise/data say which words
/// of a language carry which concept; patterns speak of concepts only. For this room only.
namespace jarful::appraise {

// Those of the lexicons first, in the order of their files; then those that a reader gives to
// amounts and to names of the larder; then more of the lexicons, and those that the rows of
// patterns.json give themselves, to a piece or to what is said.
#define JARFUL_CONCEPTS(X)                                                                         \
    X(salt)                                                                                        \
    X(salty)                                                                                       \
    X(brine)                                                                                       \
    X(liquid)                                                                                      \
    X(water)                                                                                       \
    X(acid)                                                                                        \
    X(whey)                                                                                        \
    X(starter)                                                                                     \
    X(pronoun)                                                                                     \
    X(vegetable)                                                                                   \
    X(vessel)                                                                                      \
    X(kitchen)                                                                                     \
    X(leaf)                                                                                        \
    X(covering)                                                                                    \
    X(part_of_piece)                                                                               \
    X(add)                                                                                         \
    X(pour)                                                                                        \
    X(cover)                                                                                       \
    X(fill)                                                                                        \
    X(top)                                                                                         \
    X(dissolve)                                                                                    \
    X(mix)                                                                                         \
    X(heat)                                                                                        \
    X(make)                                                                                        \
    X(put)                                                                                         \
    X(soak)                                                                                        \
    X(rinse)                                                                                       \
    X(wash)                                                                                        \
    X(drain)                                                                                       \
    X(discard)                                                                                     \
    X(off)                                                                                         \
    X(squeeze)                                                                                     \
    X(dry)                                                                                         \
    X(remove)                                                                                      \
    X(keep)                                                                                        \
    X(use)                                                                                         \
    X(serve)                                                                                       \
    X(cut)                                                                                         \
    X(measure)                                                                                     \
    X(mold)                                                                                        \
    X(airlock)                                                                                     \
    X(negation)                                                                                    \
    X(without)                                                                                     \
    X(condition)                                                                                   \
    X(needed)                                                                                      \
    X(optional)                                                                                    \
    X(before)                                                                                      \
    X(after)                                                                                       \
    X(until)                                                                                       \
    X(when)                                                                                        \
    X(also)                                                                                        \
    X(either)                                                                                      \
    X(per)                                                                                         \
    X(each)                                                                                        \
    X(purpose)                                                                                     \
    X(within)                                                                                      \
    X(of)                                                                                          \
    X(the)                                                                                         \
    X(than)                                                                                        \
    X(more)                                                                                        \
    X(extra)                                                                                       \
    X(again)                                                                                       \
    X(as_much)                                                                                     \
    X(half)                                                                                        \
    X(part)                                                                                        \
    X(rest)                                                                                        \
    X(all)                                                                                         \
    X(other)                                                                                       \
    X(only)                                                                                        \
    X(less)                                                                                        \
    X(enough)                                                                                      \
    X(layer)                                                                                       \
    X(batch)                                                                                       \
    X(fresh)                                                                                       \
    X(old)                                                                                         \
    X(taste)                                                                                       \
    X(much_later)                                                                                  \
    X(time)                                                                                        \
    X(small)                                                                                       \
    X(medium)                                                                                      \
    X(large)                                                                                       \
    X(about)                                                                                       \
    X(ratio)                                                                                       \
    X(weight)                                                                                      \
    X(times)                                                                                       \
    X(other_verb)                                                                                  \
    X(whither)                                                                                     \
    X(spice)                                                                                       \
    X(seasoning_word)                                                                              \
    X(not_plain_salt)                                                                              \
    X(oil)                                                                                         \
    X(function)                                                                                    \
    X(remark)                                                                                      \
    X(heading)                                                                                     \
    X(yield)                                                                                       \
    X(person)                                                                                      \
    X(oven)                                                                                        \
    X(article)                                                                                     \
    X(dozen)                                                                                       \
    X(couple)                                                                                      \
    X(few)                                                                                         \
    X(by_twenties)                                                                                 \
    X(sum)                                                                                         \
    X(range)                                                                                       \
    X(between)                                                                                     \
    X(at_least)                                                                                    \
    X(at_most)                                                                                     \
    X(percent_word)                                                                                \
    X(about_stop)                                                                                  \
    X(size_small)                                                                                  \
    X(size_medium)                                                                                 \
    X(size_large)                                                                                  \
    X(size_word)                                                                                   \
    X(heaped)                                                                                      \
    X(rounded)                                                                                     \
    X(generous)                                                                                    \
    X(scant)                                                                                       \
    X(level)                                                                                       \
    X(packed)                                                                                      \
    X(loosely)                                                                                     \
    X(some_more)                                                                                   \
    X(some_other)                                                                                  \
    X(more_word)                                                                                   \
    X(to_taste)                                                                                    \
    X(as_needed)                                                                                   \
    X(amounting)                                                                                   \
    X(in_all)                                                                                      \
    X(together)                                                                                    \
    X(cloves)                                                                                      \
    X(leaves)                                                                                      \
    X(heads)                                                                                       \
    X(upon)                                                                                        \
    X(cut_into)                                                                                    \
    X(ratio_word)                                                                                  \
    X(per_plain)                                                                                   \
    X(per_the)                                                                                     \
    X(per_each)                                                                                    \
    X(each_thing)                                                                                  \
    X(each_of_them)                                                                                \
    X(by)                                                                                          \
    X(juice)                                                                                       \
    X(salty_word)                                                                                  \
    X(preparation)                                                                                 \
    X(tail_begins)                                                                                 \
    X(another_food)                                                                                \
    X(grain)                                                                                       \
    X(alone_only)                                                                                  \
    X(trimmed)                                                                                     \
    X(untrimmed)                                                                                   \
    X(opens_method)                                                                                \
    X(head_equipment)                                                                              \
    X(head_method)                                                                                 \
    X(head_notes)                                                                                  \
    X(head_top_up)                                                                                 \
    X(head_serving)                                                                                \
    X(head_soak)                                                                                   \
    X(head_brine)                                                                                  \
    X(head_main)                                                                                   \
    X(head_for)                                                                                    \
    X(burden)                                                                                      \
    X(of_vessel)                                                                                   \
    X(label)                                                                                       \
    X(label_with_amount)                                                                           \
    X(counted)                                                                                     \
    X(count_joint)                                                                                 \
    X(something)                                                                                   \
    X(dish)                                                                                        \
    X(use_serving)                                                                                 \
    X(use_bath)                                                                                    \
    X(topping_up)                                                                                  \
    X(if_needed)                                                                                   \
    X(bath)                                                                                        \
    X(any_vegetable)                                                                               \
    X(choice)                                                                                      \
    X(no_salt)                                                                                     \
    X(kimchi)                                                                                      \
    X(kvass)                                                                                       \
    X(shalgam)                                                                                     \
    X(kraut)                                                                                       \
    X(ferment)                                                                                     \
    X(salad)                                                                                       \
    X(dressing)                                                                                    \
    X(quick_pickle)                                                                                \
    X(whole_heads)                                                                                 \
    X(whole)                                                                                       \
    X(mash)                                                                                        \
    X(hot_sauce)                                                                                   \
    X(under_brine)                                                                                 \
    X(shelf)                                                                                       \
    X(canning)                                                                                     \
    X(canning_salt)                                                                                \
    X(mass)                                                                                        \
    X(volume)                                                                                      \
    X(percent)                                                                                     \
    X(count)                                                                                       \
    X(number)                                                                                      \
    X(loose)                                                                                       \
    X(bare_measure)                                                                                \
    X(food)                                                                                        \
    X(comma)                                                                                       \
    X(stop)                                                                                        \
    X(open_aside)                                                                                  \
    X(close_aside)                                                                                 \
    X(not_after)                                                                                   \
    X(from)                                                                                        \
    X(put_on)                                                                                      \
    X(in_case)                                                                                     \
    X(days)                                                                                        \
    X(over)                                                                                        \
    X(sieve)                                                                                       \
    X(store)                                                                                       \
    X(some_few)                                                                                    \
    X(as_liked)                                                                                    \
    X(jars)                                                                                        \
    X(amounts)                                                                                     \
    X(bathe)                                                                                       \
    X(given)                                                                                       \
    X(once)                                                                                        \
    X(doubled)                                                                                     \
    X(another)                                                                                     \
    X(curing)                                                                                      \
    X(pink)                                                                                        \
    X(rock)                                                                                        \
    X(reduced_salt)                                                                                \
    X(sodium)                                                                                      \
    X(lowered)                                                                                     \
    X(no_food)                                                                                     \
    X(imperial)                                                                                    \
    X(american)                                                                                    \
    X(as_bought)                                                                                   \
    X(gross)                                                                                       \
    X(including)                                                                                   \
    X(core)                                                                                        \
    X(unknown_measure)                                                                             \
    X(which)                                                                                       \
    X(ready)                                                                                       \
    X(done)                                                                                        \
    X(passive)                                                                                     \
    X(under)                                                                                       \
    X(running)                                                                                     \
    X(edge)                                                                                        \
    X(wipe)                                                                                        \
    X(lose)                                                                                        \
    X(behind)                                                                                      \
    X(leave)                                                                                       \
    X(wring)                                                                                       \
    X(pat)                                                                                         \
    X(air)                                                                                         \
    X(down)                                                                                        \
    X(leftover)                                                                                    \
    X(left)                                                                                        \
    X(older_batch)                                                                                 \
    X(fruit)                                                                                       \
    X(aside)                                                                                       \
    X(spill)                                                                                       \
    X(portion)                                                                                     \
    X(next)                                                                                        \
    X(little)                                                                                      \
    X(on_top)                                                                                      \
    X(one)                                                                                         \
    X(dilute)                                                                                      \
    X(uncured)                                                                                     \
    X(several)                                                                                     \
    X(start)                                                                                       \
    X(end)                                                                                         \
    X(denied)                                                                                      \
    X(table)                                                                                       \
    X(goal)                                                                                        \
    X(gear)                                                                                        \
    X(thing)                                                                                       \
    X(of_gear)                                                                                     \
    X(now)                                                                                         \
    X(fruit_juice)                                                                                 \
    X(old_brine)                                                                                   \
    X(raw)                                                                                         \
    X(brined)                                                                                      \
    X(salted)                                                                                      \
    X(in_water)                                                                                    \
    X(spoke_of_salt)                                                                               \
    X(whole_salt)                                                                                  \
    X(part_salted)                                                                                 \
    X(many_vessels)                                                                                \
    X(before_salting)                                                                              \
    X(after_salting)                                                                               \
    X(conditional)                                                                                 \
    X(making_brine)                                                                                \
    X(measuring)                                                                                   \
    X(keeping)                                                                                     \
    X(salt_parted)                                                                                 \
    X(used_up)                                                                                     \
    X(for_one)                                                                                     \
    X(packing_liquid)                                                                              \
    X(drink)                                                                                       \
    X(omit)                                                                                        \
    X(replace)                                                                                     \
    X(plain)                                                                                       \
    X(process)                                                                                     \
    X(erratum)                                                                                     \
    X(fermented)                                                                                   \
    X(occasion)                                                                                    \
    X(helping)                                                                                     \
    X(measure_noun)                                                                                \
    X(brim)                                                                                        \
    X(already)                                                                                     \
    X(mention)                                                                                     \
    X(doubtful)                                                                                    \
    X(explained)                                                                                   \
    X(ice)                                                                                         \
    X(elsewhere)                                                                                   \
    X(rise)                                                                                        \
    X(stand)                                                                                       \
    X(come)                                                                                        \
    X(draw)                                                                                        \
    X(goes)                                                                                        \
    X(cloudy)                                                                                      \
    X(kind_of_salt)                                                                                \
    X(close)                                                                                       \
    X(full)                                                                                        \
    X(bring)                                                                                       \
    X(wait)                                                                                        \
    X(known)                                                                                       \
    X(adjust)                                                                                      \
    X(asking)                                                                                      \
    X(putting_up)                                                                                  \
    X(put_up)                                                                                      \
    X(waited)                                                                                      \
    X(strange)
enum class Concept : std::uint16_t {
#define JARFUL_CONCEPT(name) name,
    JARFUL_CONCEPTS(JARFUL_CONCEPT)
#undef JARFUL_CONCEPT
        last
};

/// A set of concepts.
class Concepts {
  public:
    constexpr Concepts() = default;
    constexpr Concepts(Concept one) { add(one); } // NOLINT(google-explicit-constructor)
    constexpr Concepts(std::initializer_list<Concept> some) {
        for (const Concept c : some)
            add(c);
    }
    /// By their bits, 64 in each: what the tables are written with.
    constexpr Concepts(std::uint64_t a, std::uint64_t b, std::uint64_t c, std::uint64_t d,
                       std::uint64_t e, std::uint64_t f)
        : bits_{a, b, c, d, e, f} {}
    /// All up to one, this too.
    [[nodiscard]] static constexpr Concepts up_to(Concept last) {
        Concepts out;
        for (unsigned i = 0; i <= static_cast<unsigned>(last); ++i)
            out.add(static_cast<Concept>(i));
        return out;
    }
    constexpr void add(Concept c) {
        const auto bit = static_cast<unsigned>(c);
        bits_[bit / 64] |= std::uint64_t{1} << (bit % 64);
    }
    constexpr void remove(Concepts other) {
        for (std::size_t i = 0; i < parts; ++i)
            bits_[i] &= ~other.bits_[i];
    }
    /// Whether the two have a concept in common.
    [[nodiscard]] constexpr bool any(Concepts other) const {
        std::uint64_t common = 0;
        for (std::size_t i = 0; i < parts; ++i)
            common |= bits_[i] & other.bits_[i];
        return common != 0;
    }
    [[nodiscard]] constexpr bool empty() const { return *this == Concepts{}; }
    constexpr Concepts operator|(Concepts other) const {
        for (std::size_t i = 0; i < parts; ++i)
            other.bits_[i] |= bits_[i];
        return other;
    }
    constexpr bool operator==(const Concepts&) const = default;
    static constexpr std::size_t parts = 6;
    [[nodiscard]] constexpr std::uint64_t part(std::size_t i) const { return bits_[i]; }

  private:
    std::uint64_t bits_[parts] = {};
};
static_assert(static_cast<unsigned>(Concept::last) <= 64 * Concepts::parts);

/// The name of a concept, as in the data: "part_of_piece".
[[nodiscard]] constexpr std::string_view name_of(Concept c) {
    constexpr std::string_view names[] = {
#define JARFUL_CONCEPT(name) #name,
        JARFUL_CONCEPTS(JARFUL_CONCEPT)
#undef JARFUL_CONCEPT
    };
    return names[static_cast<std::size_t>(c)];
}

} // namespace jarful::appraise
