/// What is typed beside a recipe's name, one a line, and lines of the conversation at the counter.

#include "engine/plan/counter.hpp"
#include "tests/fuzz/fuzz.hpp"

using namespace jarful;

namespace {

constexpr const char* text = "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1.8 kg\n"
                             "weigh apple = 8 % of cabbage optional counts as vegetable\n"
                             "weigh salt = 2.2 % of (cabbage + apple) as canning salt\n"
                             "measure drained about 70..80 % of cabbage replaces cabbage\n"
                             "fill (cabbage + apple) / 0.9 kg/L\nheadspace 10 %\n"
                             "hold salt / (cabbage + apple) between 2.0 % and 2.5 %\n";

} // namespace

void fuzz_one(const std::string& bytes) {
    static const auto recipe = fuzz::parse(text);
    static const kitchen::Kitchen kitchen = [] {
        kitchen::Kitchen k = kitchen::default_kitchen();
        k.vessels.push_back({});
        k.vessels.back().name = "tall";
        k.vessels.back().brimful_ml = 1500;
        k.vessels.back().have = 3;
        return k;
    }();
    plan::Counter counter(recipe->document, kitchen, {});
    static_cast<void>(counter.open());
    fuzz::demand(counter.now().has_value(), "the recipe can be weighed");
    std::size_t lines = 0;
    for (std::size_t at = 0; at <= bytes.size() && lines < 12; ++lines) {
        const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
        const std::string line = bytes.substr(at, end - at);
        const plan::CounterReply reply = counter.say(line);
        for (const plan::CounterReply::Refusal& refusal : reply.refusals)
            fuzz::explain_all(refusal.text.empty() ? recipe->document.source
                                                   : language::Source("the request", refusal.text),
                              refusal.findings);
        fuzz::demand(counter.now().has_value(), "what is refused changes nothing");
        at = end + 1;
    }
}
