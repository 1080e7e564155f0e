#include "engine/render/appraise_report.hpp"
#include "engine/render/appraise_words.hpp"
#include "engine/render/card.hpp"
#include "engine/render/card_drawing.hpp"
#include "engine/render/words.hpp"

#include <cmath>

namespace jarful::render {

namespace {

using appraise::Appraisal;

/// What would settle it, for somebody who has the lines before them and no command line: an option
/// at the end is said as what to do with the line.
std::string without_option(const std::string& decides) {
    const std::size_t option = decides.find(": --");
    if (option == std::string::npos) return decides;
    std::string out = decides.substr(0, option);
    if (out.find("say") == std::string::npos) out += ", and say it";
    return out + " in its line";
}

class AppraiseBody {
  public:
    AppraiseBody(const Appraisal& appraisal, Units units)
        : a_(appraisal)
        , units_(units) {}

    Markup written() {
        verdict();
        lines();
        sums();
        list("advice", "Advice", a_.advice);
        list("assumptions", "Taken for granted", a_.assumptions);
        cautions();
        return out_;
    }

  private:
    template <class Inside>
    void section(const char* id, const std::string& heading, Inside&& inside) {
        const std::string name = "appraise-" + std::string(id);
        out_.element("section", {{"class", id}, {"aria-labelledby", name}}, [&] {
            out_.element("h3", {{"id", name}}, heading);
            inside();
        });
    }
    void paragraph(const std::string& text) {
        if (!text.empty()) out_.element("p", {{"dir", "auto"}}, shown(text));
    }
    void list(const char* id, const std::string& heading, const std::vector<std::string>& texts) {
        if (texts.empty()) return;
        section(id, heading, [&] {
            out_.element("ul", {}, [&] {
                for (const std::string& text : texts)
                    out_.element("li", {{"dir", "auto"}}, shown(stopped(text)));
            });
        });
    }

    void verdict() {
        section("verdict", "Verdict: " + verdict_words(a_), [&] {
            if (!a_.title.empty()) paragraph(a_.title);
            paragraph(judged_as(a_));
            gauge();
            paragraph(stopped(a_.reason));
            if (const std::string lean = lean_words(a_); !lean.empty()) paragraph(lean);
            if (!a_.decides.empty())
                paragraph("What would settle it: " + stopped(without_option(a_.decides)));
            for (const std::string& words : appraised_range(a_))
                paragraph(words);
            paragraph(right_words(a_));
        });
    }

    void gauge() {
        if (!a_.percent || !std::isfinite(a_.percent->high) || (!a_.low && !a_.high)) return;
        GaugeFigure figure;
        figure.batch = *a_.percent;
        if (a_.low) figure.low = a_.low->percent;
        if (a_.high) figure.high = a_.high->percent;
        put_drawing(out_, draw_gauge(figure), "appraise-gauge");
    }

    void lines() {
        section("lines", "What was read", [&] {
            out_.element("table", {{"aria-labelledby", "appraise-lines"}}, [&] {
                out_.element("thead", {}, [&] {
                    out_.element("tr", {}, [&] {
                        out_.element("th", {{"scope", "col"}}, "as written");
                        out_.element("th", {{"scope", "col"}}, "as understood");
                    });
                });
                out_.element("tbody", {}, [&] {
                    for (const appraise::Line& line : a_.lines)
                        if (is_shown(line)) put_line(line);
                });
            });
            paragraph(other_lines(a_));
        });
    }

    void put_line(const appraise::Line& line) {
        const char* sort = !line.understood ? "unclear" : line.left_out ? "left-out" : "understood";
        out_.element("tr", {{"class", sort}}, [&] {
            out_.element("th", {{"scope", "row"}, {"dir", "auto"}}, shown(line.text));
            out_.element("td", {}, [&] {
                out_.text(shown(reading_words(line, units_)));
                if (line.left_out) out_.element("span", {{"class", "note"}}, "Not in the jar.");
                for (const std::string& note : line.notes)
                    out_.element("span", {{"class", "note"}}, shown(note));
            });
        });
    }

    void sums() {
        section("sums", "What that comes to", [&] {
            out_.element("dl", {}, [&] {
                for (const AppraisedSum& sum : appraised_sums(a_, units_)) {
                    out_.element("dt", {}, sum.what);
                    out_.element("dd", {}, shown(sum.figure));
                }
            });
        });
    }

    void cautions() {
        if (a_.cautions.empty()) return;
        section("cautions", "Take care", [&] {
            for (const plan::Warning& caution : a_.cautions) {
                out_.element("p", {}, [&] {
                    out_.element("strong", {}, shown(caution.title) + ".");
                    out_.text(" " + shown(stopped(caution.text)));
                });
            }
        });
    }

    const Appraisal& a_;
    Units units_;
    Markup out_;
};

} // namespace

Markup appraise_body(const Appraisal& appraisal, Units units) {
    return AppraiseBody(appraisal, units).written();
}

} // namespace jarful::render
