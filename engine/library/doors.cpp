#include "engine/jarful.h"
#include "engine/page/answer.hpp"

#include <string>

/// The doors of the shared library. Whatever is thrown behind them ends here.

struct jarful_session {
    jarful::page::Session engine;
    std::string said; ///< the last answer
};

namespace {

/// @param ask one of the session's questions.
template <class Ask>
const char* answered(jarful_session* session, const char* json, const Ask& ask) noexcept {
    if (session == nullptr) return nullptr;
    try {
        session->said = ask(session->engine, json == nullptr ? "" : json);
        return session->said.c_str();
    } catch (...) { // memory is short, or the engine has a fault
        return nullptr;
    }
}

} // namespace

jarful_session* jarful_open() {
    try {
        return new jarful_session;
    } catch (...) {
        return nullptr;
    }
}

void jarful_close(jarful_session* session) {
    delete session;
}

const char* jarful_load(jarful_session* session, const char* json) {
    return answered(session, json,
                    [](auto& engine, const char* text) { return engine.load(text); });
}

const char* jarful_answer(jarful_session* session, const char* json) {
    return answered(session, json,
                    [](auto& engine, const char* text) { return engine.answer(text); });
}

const char* jarful_version() {
    return JARFUL_VERSION;
}
