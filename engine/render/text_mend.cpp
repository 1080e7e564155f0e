#include "engine/render/mend_report.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

class MendPage {
  public:
    MendPage(const plan::MendOut& out, const TextStyle& style)
        : out_(out)
        , units_(style.units)
        , page_(style) {}

    std::string run() {
        page_.paragraph("To mend: " + out_.title, 0, 0, true);
        as_it_is();
        if (out_.nothing_to_mend) {
            page_.gap();
            page_.paragraph("Nothing needs mending: every bound is kept.", 0, 0);
            next("go on with the recipe.");
            return page_.text();
        }
        int number = 0;
        for (const plan::Way& w : out_.ways)
            way(++number, w);
        if (out_.ways.empty()) {
            page_.heading("NO WAY BACK");
            page_.paragraph(unsure()
                                ? "Nothing that can be added is sure to bring this inside, with "
                                  "what is known of it and as these scales weigh."
                                : "Nothing that can be added brings this inside again.");
        }
        instead();
        next(advice());
        return page_.text();
    }

  private:
    void as_it_is() {
        page_.heading("AS IT IS");
        if (out_.before)
            page_.paragraph(out_.before->reason);
        else
            page_.paragraph(out_.no_salt_reason);
        for (const plan::HoldCheck& c : out_.checks)
            if (c.verdict != plan::Verdict::inside) page_.paragraph(hold_judged(c));
    }

    void way(int number, const plan::Way& w) {
        page_.heading("WAY " + std::to_string(number) + ": " + w.text);
        for (const plan::Addition& a : w.add) {
            const bool shown = a.reading_g > 0;
            std::string what =
                "add " +
                (shown ? weighed_mass(a.reading_g, a.step_g, units_) : mass(a.exact_g, units_)) +
                " of " + visible(a.name);
            if (!a.material.empty() && a.material != a.name) what += " (" + a.material + ")";
            what += shown ? ", on " + visible(a.scale) : ": too little for the scale";
            if (a.goes > 1) what += ", in " + std::to_string(a.goes) + " goes";
            page_.paragraph(what, 4, 6);
        }
        if (w.salt)
            page_.paragraph("Then the salt is " + percents(w.salt->bounds) + " " +
                            std::string(larder::describe(w.salt->basis)) + ": " +
                            (w.holds ? "every bound is kept." : "NOT all bounds are kept."));
        if (w.fill_ml) {
            std::string room = "It fills " + volume(*w.fill_ml, units_) + " then.";
            if (!w.fits && out_.usable_ml)
                room += " That is " + volume(*w.fill_ml - *out_.usable_ml, units_) +
                        " more than the jars take: put the rest into another jar, under brine "
                        "like the rest.";
            page_.paragraph(room);
        }
    }

    void instead() {
        if (out_.instead.empty()) return;
        page_.heading("WHEN TO GIVE IT UP");
        page_.paragraph(
            "Mending is for a batch that you have just made. If it has stood for days with too "
            "little salt, throw it out; do not taste it.");
        for (const plan::Warning& w : out_.instead)
            page_.titled(w.title, w.text);
    }

    /// Whether it may be inside as it is.
    [[nodiscard]] bool unsure() const {
        return out_.before && out_.before->verdict == plan::Verdict::undecided;
    }

    [[nodiscard]] std::string advice() const {
        const bool good = std::any_of(out_.ways.begin(), out_.ways.end(),
                                      [](const plan::Way& w) { return w.holds; });
        if (!good && unsure())
            return "weigh on a finer scale what is in doubt, and ask again; or start a new batch.";
        if (!good) return "start a new batch; what is in the jar is not brought back by adding.";
        const bool all = std::all_of(out_.ways.begin(), out_.ways.end(),
                                     [](const plan::Way& w) { return w.holds; });
        return std::string("choose one way") + (all ? "" : " that keeps every bound") +
               ", weigh it in, mix everything through, and press it under again.";
    }

    void next(const std::string& what) {
        page_.gap();
        page_.item("Next:", what, 0, 6);
    }

    const plan::MendOut& out_;
    Units units_;
    Page page_;
};

} // namespace

std::string mend_text(const plan::MendOut& out, const TextStyle& style) {
    return MendPage(out, style).run();
}

} // namespace jarful::render
