#ifndef JARFUL_H
#define JARFUL_H

/*
 * The engine for any language that can call C: JSON in, JSON out, as a page in a browser asks it.
 * What goes in and what comes out is described in docs/page.md, "How the engine is asked"; how it
 * is called from C and Python in docs/how-to/other-programs.md. No file, clock or environment is
 * read.
 *
 * Texts are UTF-8 and end with a NUL. A text that is NULL, no JSON or no UTF-8 gets an answer
 * that says so, with the code "bad-question". A session that is NULL gets NULL.
 *
 * What is returned belongs to the session: it stays until the next call with the same session, and
 * is not to be freed. NULL is returned where memory is short, or the engine has a fault of its own;
 * the session can be used on, after NULL from jarful_load with another jarful_load.
 *
 * A session is used by one thread at a time. Different sessions share nothing. No exception leaves
 * these functions, and no signal, locale or global state is touched.
 */

#if defined(__GNUC__)
#define JARFUL_EXPORT __attribute__((visibility("default")))
#else
#define JARFUL_EXPORT
#endif

#ifdef __cplusplus
extern "C" {
#endif

typedef struct jarful_session jarful_session;

/* A session in which nothing is loaded. NULL if memory is short. */
JARFUL_EXPORT jarful_session* jarful_open(void);

/* Ends a session and frees what was returned from it. NULL is passed over. */
JARFUL_EXPORT void jarful_close(jarful_session* session);

/*
 * Takes the texts of a recipe, of what it is based on, of its kitchen and house file, in place of
 * those before. Returns "jarful.page-load/1": what can be asked of it, or what is wrong with it.
 */
JARFUL_EXPORT const char* jarful_load(jarful_session* session, const char* json);

/*
 * Answers a question: to weigh out what is loaded, or to appraise a list, for which nothing need
 * be loaded. Returns "jarful.page/1".
 */
JARFUL_EXPORT const char* jarful_answer(jarful_session* session, const char* json);

/* The version of the library, as in "0.1.0"; never NULL. */
JARFUL_EXPORT const char* jarful_version(void);

#ifdef __cplusplus
}
#endif

#endif
