/* The protocol of tests/page/native_answers.cpp, in C99: a line in is `load` or `answer`, a blank, and a question;
   out comes the number of bytes of the answer on a line, and the answer. */
#include <jarful.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The next line of standard input without its end; NULL behind the last. */
static char* next_line(void) {
    size_t used = 0, room = 1 << 16;
    char* line = malloc(room);
    while (line != NULL && fgets(line + used, (int)(room - used), stdin) != NULL) {
        used += strlen(line + used);
        if (used > 0 && line[used - 1] == '\n') {
            line[used - 1] = '\0';
            return line;
        }
        room *= 2;
        line = realloc(line, room);
    }
    free(line);
    return NULL;
}

int main(void) {
    jarful_session* session = jarful_open();
    char* line;
    if (session == NULL) return 2;
    while ((line = next_line()) != NULL) {
        const char* json = strchr(line, ' ') + 1;
        const char* said =
            strncmp(line, "load ", 5) == 0 ? jarful_load(session, json) : jarful_answer(session, json);
        if (said == NULL) return 2;
        printf("%lu\n%s", (unsigned long)strlen(said), said);
        free(line);
    }
    jarful_close(session);
    jarful_close(NULL);
    return 0;
}
