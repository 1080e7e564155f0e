#include "engine/page/publish.hpp"

#include "engine/page/web_files.hpp"
#include "engine/render/card_drawing.hpp"
#include "engine/render/card_pages.hpp"
#include "engine/render/html_style.hpp"
#include "engine/render/mark.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <cstdint>

namespace jarful::page {

using Json = nlohmann::ordered_json;
using render::Markup;

namespace {

/// Four bytes as five letters, by the digits of the number that they make to the base of 85, the
/// highest first; of the last group as many letters as it takes. A fifteenth shorter than base64.
/// The letters are those of ASCII that mean nothing in HTML; page.mjs has them too.
std::string letters_of(std::string_view bytes) {
    static constexpr std::string_view digits =
        "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz!#%()*+,-./:;=?@[]^_{|}";
    constexpr std::uint32_t base = 85;
    static_assert(digits.size() == base);
    std::string out;
    out.reserve((bytes.size() + 3) / 4 * 5);
    for (std::size_t i = 0; i < bytes.size(); i += 4) {
        const std::size_t some = std::min<std::size_t>(4, bytes.size() - i);
        std::uint32_t group = 0;
        for (std::size_t k = 0; k < 4; ++k)
            group = group << 8U | (k < some ? static_cast<unsigned char>(bytes[i + k]) : 0U);
        std::array<char, 5> letters{};
        for (std::size_t k = letters.size(); k-- > 0; group /= base)
            letters[k] = digits[group % base];
        out.append(letters.data(), some + 1);
    }
    return out;
}

std::string dumped(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string load_data(const load::Texts& texts) {
    Json bases = Json::array();
    for (const load::NamedText& base : texts.bases)
        bases.push_back(Json{{"name", base.name}, {"text", base.text}});
    return dumped(Json{{"recipe", texts.recipe},
                       {"kitchen", texts.kitchen ? Json(*texts.kitchen) : Json(nullptr)},
                       {"house", texts.house ? Json(*texts.house) : Json(nullptr)},
                       {"bases", std::move(bases)}});
}

/// The policy of a page that has all in it: its own script and style, and no network at all.
std::string single_policy() {
    return "default-src 'none'; script-src 'sha256-" + std::string(page_script().sha256) +
           "' 'wasm-unsafe-eval'; style-src 'sha256-" + std::string(page_style().sha256) +
           "'; base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; "
           "trusted-types jarful";
}

/// The policy of a page in a folder: what lies in the folder's host, and nothing else.
std::string folder_policy() {
    return "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
           "connect-src 'self'; manifest-src 'self'; img-src 'self'; worker-src 'self'; "
           "base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; "
           "trusted-types jarful";
}

void meta(Markup& page, const char* name, const std::string& content) {
    page.empty("meta", {{"name", name}, {"content", content}});
}

template <class More>
void put_head(Markup& page, const std::string& title, const std::string& policy, More&& more) {
    page.element("head", {}, [&] {
        page.empty("meta", {{"charset", "utf-8"}});
        page.empty("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", policy}});
        meta(page, "viewport", "width=device-width, initial-scale=1");
        meta(page, "color-scheme", "light dark");
        meta(page, "referrer", "no-referrer");
        page.element("title", {}, title);
        more();
    });
}

void put_body(Markup& page, const Published& recipe) {
    page.fixed(page_controls());
    page.element("main", {{"class", "card"}, {"id", "card"}},
                 [&] { page.append(render::card_body(recipe.card)); });
    render::put_address(page, recipe.address);
    page.fixed(page_after());
    page.data({{"type", "application/json"}, {"id", "page-load"}}, load_data(recipe.texts));
}

template <class Inside>
std::string document(const std::string& html_class, Inside&& inside) {
    Markup page;
    page.declaration();
    page.element("html", {{"lang", "en"}, {"class", html_class}}, [&] { inside(page); });
    page.text("\n");
    return render::with_mark(page.written(), render::made::page, render::MarkForm::markup);
}

std::string html_class(const Published& recipe) {
    return render::card_sheets(recipe.card, recipe.address).html_class();
}

// ---- A folder ----

struct Names {
    std::string script = "page.js", style = "page.css", worker = "worker.js",
                manifest = "manifest.webmanifest", icon = "icon.svg", engine;
};

void put_links(Markup& page, const Names& names) {
    page.empty("link", {{"rel", "stylesheet"}, {"href", names.style}});
    page.empty("link", {{"rel", "manifest"}, {"href", names.manifest}});
    page.empty("link", {{"rel", "icon"}, {"href", names.icon}, {"type", "image/svg+xml"}});
    meta(page, "jarful-engine", names.engine);
    meta(page, "jarful-worker", names.worker);
}

void put_script(Markup& page, const Names& names) {
    page.element("script", {{"type", "module"}, {"src", names.script}}, "");
}

std::string recipe_page(const Published& recipe, const Names& names) {
    return document(html_class(recipe), [&](Markup& page) {
        put_head(page, recipe.card.title, folder_policy(), [&] {
            put_links(page, names);
            page.data({{"type", "application/ld+json"}}, recipe_data(recipe.weighed));
        });
        page.element("body", {}, [&] {
            page.element("nav", {{"class", "up"}}, [&] {
                page.element("a", {{"href", "./"}}, "All recipes");
            });
            put_body(page, recipe);
            put_script(page, names);
        });
    });
}

std::string index_page(const std::vector<Published>& recipes, const std::string& title,
                       const Names& names) {
    return document("shelf-page", [&](Markup& page) {
        put_head(page, render::shown(title), folder_policy(), [&] { put_links(page, names); });
        page.element("body", {}, [&] {
            page.element("main", {{"class", "shelf"}}, [&] {
                page.element("header", {}, [&] {
                    page.element("h1", {{"dir", "auto"}}, render::shown(title));
                });
                page.element("ul", {}, [&] {
                    for (const Published& recipe : recipes) {
                        page.element("li", {}, [&] {
                            page.element("a", {{"href", in_address(recipe.name) + ".html"}}, [&] {
                                page.element("span", {{"class", "name"}, {"dir", "auto"}},
                                             recipe.card.title);
                                page.text(" ");
                                page.element("span", {{"class", "note"}}, recipe.card.kind);
                            });
                        });
                    }
                });
            });
            put_script(page, names);
        });
    });
}

/// A part that pages share, with its mark.
PageFile part(const std::string& name, std::string content, render::MarkForm form) {
    return {name, render::with_mark(std::move(content), render::made::page_part, form),
            std::string(render::made::page_part)};
}

std::string manifest(const std::string& title, const Names& names) {
    Json icon{{"src", names.icon}, {"sizes", "any"}, {"type", "image/svg+xml"}};
    return dumped(Json{{"name", title},
                       {"short_name", title.size() > 24 ? "Recipes" : title},
                       {"start_url", "./"},
                       {"scope", "./"},
                       {"display", "standalone"},
                       {"background_color", "#fdfcf9"},
                       {"theme_color", "#fdfcf9"},
                       {"icons", Json::array({std::move(icon)})}}) +
           "\n";
}

/// The worker keeps all files but itself; what changes in any of them makes it another worker.
std::string worker(const std::vector<PageFile>& files) {
    Json names = Json::array({"./"});
    std::string all;
    for (const PageFile& file : files) {
        if (file.name != "index.html") names.push_back(in_address(file.name));
        all += render::content_hash(file.content);
    }
    return "const files = " + dumped(names) + ";\nconst version = \"" + render::content_hash(all) +
           "\";\n" + std::string(page_worker());
}

} // namespace

std::string in_address(std::string_view name) {
    std::string out;
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_' || c == '~';
        if (plain) {
            out += c;
            continue;
        }
        const auto byte = static_cast<unsigned char>(c);
        out += '%';
        out += "0123456789ABCDEF"[byte >> 4U];
        out += "0123456789ABCDEF"[byte & 15U];
    }
    return out;
}

std::string single_page(const Published& recipe, std::string_view engine) {
    return document(html_class(recipe), [&](Markup& page) {
        put_head(page, recipe.card.title, single_policy(), [&] {
            page.style(page_style());
            page.data({{"type", "application/ld+json"}}, recipe_data(recipe.weighed));
        });
        page.element("body", {}, [&] {
            put_body(page, recipe);
            page.data({{"type", "text/plain"}, {"id", "page-engine"}}, letters_of(engine));
            page.script(page_script());
        });
    });
}

std::vector<PageFile> book_pages(const std::vector<Published>& recipes, const std::string& title,
                                 std::string_view engine) {
    Names names;
    names.engine = "engine-" + render::content_hash(engine) + ".bin";
    std::vector<PageFile> out;
    const auto page = [&](const std::string& name, std::string content) {
        out.push_back({name, std::move(content), std::string(render::made::page)});
    };
    page("index.html", index_page(recipes, title, names));
    for (const Published& recipe : recipes)
        page(recipe.name + ".html", recipe_page(recipe, names));
    using render::MarkForm;
    out.push_back(part(names.script, std::string(page_script().js), MarkForm::script));
    out.push_back(part(names.style, std::string(page_style().css), MarkForm::style));
    out.push_back(part(names.icon, std::string(page_icon()), MarkForm::markup));
    out.push_back(part(names.manifest, manifest(title, names), MarkForm::manifest));
    // Its name says what is in it: one of that name and another content is not ours.
    out.push_back({names.engine, std::string(engine), std::string(render::made::page_part)});
    out.push_back(part(names.worker, worker(out), MarkForm::script));
    return out;
}

} // namespace jarful::page
