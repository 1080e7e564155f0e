#!/usr/bin/env python3
"""The shared library's doors: what is seen of it, that Python and a program in C99 get the bytes of the pages' engine
for every recipe of the demo book, and what happens on bad input, in threads, over a thousand questions and when
memory is short. Exit status 1 and a sentence for what is not as it should be."""

import argparse
import ctypes
import json
import pathlib
import resource
import subprocess
import sys
import tempfile
import threading

SOURCE = pathlib.Path(__file__).resolve().parents[2]
DOORS = {"jarful_open", "jarful_close", "jarful_load", "jarful_answer", "jarful_version"}


class Doors:
    def __init__(self, path):
        self.library = library = ctypes.CDLL(str(path))
        library.jarful_open.restype = ctypes.c_void_p
        library.jarful_close.argtypes = [ctypes.c_void_p]
        library.jarful_close.restype = None
        for door in (library.jarful_load, library.jarful_answer):
            door.argtypes = [ctypes.c_void_p, ctypes.c_char_p]
            door.restype = ctypes.c_char_p
        library.jarful_version.restype = ctypes.c_char_p

    def open(self):
        return self.library.jarful_open()

    def ask(self, session, question):
        word, _, text = question.partition(b" ")
        return (self.library.jarful_load if word == b"load" else self.library.jarful_answer)(session, text)


def need(good, sentence):
    if not good:
        raise SystemExit(f"FAILED  {sentence}")


def question(word, what):
    return word.encode() + b" " + json.dumps(what, ensure_ascii=False).encode()


def of_the_book():
    """A page's questions about every recipe, and lists to appraise."""
    book = SOURCE / "recipes"
    texts = {path.stem: path.read_text("utf-8") for path in sorted(book.glob("*.jarful"))}
    kitchen = texts.pop("kitchen")
    bases = [{"name": name, "text": text} for name, text in texts.items()]
    out = []
    for text in texts.values():
        out.append(question("load", {"recipe": text, "kitchen": kitchen, "bases": bases}))
        for more in ({}, {"words": ["cabbage=1.84kg"]}, {"words": ["salt=24g"], "units": "us"},
                     {"reader": {"step_g": None}, "start": "2026-11-25"}, {"words": ["cabbage=some"]}):
            out.append(question("answer", {"do": "weigh", **more}))
    for path in sorted((book / "found").glob("*.txt")):
        out.append(question("answer", {"do": "appraise", "text": path.read_text("utf-8")}))
    need(len(out) > 100, f"only {len(out)} questions about the demo book")
    return out


BAD = [b"", b"{", b"[]", b"null", b"7", b"\xff\xfe", b'{"recipe": "\xff"}', b'{"do": "weigh", "words": ["\xc3"]}',
       b'{"do": "sing"}', b'{"recipe": 1}', b'{"bases": [1]}', b"[" * 100000, b'{"do": "appraise", "text": 1}',
       b'{"do": "weigh", "words": "x"}']


def seen(options):
    """The exported symbols, and the name that programs are linked to."""
    lines = subprocess.run([options.nm, "-D", "--defined-only", options.library], capture_output=True, text=True,
                           check=True).stdout.split("\n")
    names = {line.split()[-1] for line in lines if line.strip()}
    need(names == DOORS, f"the library exports {sorted(names)}")
    need(options.soname == "libjarful.so.0", f"its SONAME is {options.soname}")
    need((pathlib.Path(options.library).parent / options.soname).exists(), f"there is no {options.soname}")


def answers_of(program, questions, **more):
    """What a program of the protocol by lines says to each."""
    said = subprocess.run([program], input=b"\n".join(questions) + b"\n", capture_output=True, check=True, **more).stdout
    out = []
    while said:
        size, _, rest = said.partition(b"\n")
        out.append(rest[:int(size)])
        said = rest[int(size):]
    return out


def compiled(options, place):
    folder = pathlib.Path(options.library).parent
    program = pathlib.Path(place) / "doors"
    done = subprocess.run([options.cc, "-std=c99", "-pedantic", "-Wall", "-Wextra", "-Werror", f"-I{SOURCE}/engine",
                           str(pathlib.Path(__file__).with_name("doors.c")), "-o", program, options.library,
                           f"-Wl,-rpath,{folder}"], capture_output=True, text=True, check=False)
    need(done.returncode == 0, done.stderr)
    return program


def same_bytes(options, doors):
    questions = of_the_book()
    questions += [word + b" " + text for word in (b"load", b"answer") for text in BAD]
    native = answers_of(options.page_answers, questions)
    need(len(native) == len(questions), "the pages' engine did not answer everything")
    session = doors.open()
    for asked, wanted in zip(questions, native):
        need(doors.ask(session, asked) == wanted, f"another answer in Python: {asked[-200:]!r}")
    doors.library.jarful_close(session)
    with tempfile.TemporaryDirectory() as place:
        in_c = answers_of(compiled(options, place), questions)
    for asked, got, wanted in zip(questions, in_c, native, strict=True):
        need(got == wanted, f"another answer in C: {asked[-200:]!r}")
    print(f"{len(questions)} questions have the same bytes from C, from Python and in a page")


def bad_input(doors):
    library, session = doors.library, doors.open()
    need(library.jarful_load(None, b"{}") is None, "no session is answered")
    need(library.jarful_answer(None, None) is None, "no session is answered")
    library.jarful_close(None)
    early = json.loads(library.jarful_answer(session, b'{"do": "weigh"}'))
    need(early["status"] == 2 and early["problems"][0]["code"] == "bad-question", "a question before load is let pass")
    for text in [*BAD, None]:
        for door, ok in ((library.jarful_load, lambda said: said["ok"]),
                         (library.jarful_answer, lambda said: said["status"] != 2)):
            said = json.loads(door(session, text).decode("utf-8"))
            need(not ok(said) and said["problems"], f"{text!r} has no problem")
            need(all(one["code"] == "bad-question" for one in said["problems"]), f"{text!r}: {said['problems']}")
    library.jarful_close(session)


class MallocInfo(ctypes.Structure):
    """glibc's struct mallinfo2."""
    _fields_ = [(name, ctypes.c_size_t) for name in ("arena", "ordblks", "smblks", "hblks", "hblkhd", "usmblks",
                                                     "fsmblks", "uordblks", "fordblks", "keepcost")]


def allocated():
    """Bytes that are allocated and not freed, by the C library's own count; 0 where it does not count."""
    count = getattr(ctypes.CDLL(None), "mallinfo2", None)
    if count is None:
        return 0
    count.restype = MallocInfo
    said = count()
    return said.uordblks + said.hblkhd


def no_growth(doors):
    """A thousand questions, bad ones and new sessions among them, leave memory as it was."""
    load, *asks = of_the_book()[:6]
    asks += [b"answer " + text for text in BAD if len(text) < 100]

    def ask(times):
        for i in range(times):
            if i % 100 == 0:
                session = doors.open()
                doors.ask(session, load)
            doors.ask(session, asks[i % len(asks)])
            if i % 100 == 99:
                doors.library.jarful_close(session)

    ask(300)
    before = allocated()
    ask(1000)
    grown = allocated() - before
    need(grown < 20000, f"a thousand questions left {grown} bytes behind")
    print(f"a thousand questions left {grown} bytes behind, of {before}")


def in_threads(doors):
    questions = of_the_book()[:18]
    session = doors.open()
    wanted = [doors.ask(session, one) for one in questions]
    doors.library.jarful_close(session)
    wrong = []

    def work():
        own = doors.open()
        wrong.extend(one for one, said in zip(questions, wanted) if doors.ask(own, one) != said)
        doors.library.jarful_close(own)

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    need(not wrong, "sessions in threads disturb each other")


def short_of_memory(doors):
    """With little memory to be had there is an answer or NULL, and afterwards the answer. For a process of its own, in
    which no freed memory lies about."""
    load, ask = of_the_book()[:2]
    session = doors.open()
    doors.ask(session, load)
    wanted = doors.ask(session, ask)
    large = b'{"recipe": "' + b"x" * (7 << 20) + b'"}'
    used = int(pathlib.Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    _, most = resource.getrlimit(resource.RLIMIT_AS)
    nothing = 0
    for room in range(1 << 20, 40 << 20, 3 << 20):
        resource.setrlimit(resource.RLIMIT_AS, (used + room, most))
        nothing += doors.library.jarful_load(session, large) is None
        resource.setrlimit(resource.RLIMIT_AS, (most, most))
    need(nothing > 0, "memory was never short")
    need(doors.library.jarful_load(session, large) is not None, "there is no answer with memory enough")
    doors.ask(session, load)
    need(doors.ask(session, ask) == wanted, "a session cannot be used on when memory was short")
    doors.library.jarful_close(session)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    for name in ("library", "soname", "page-answers", "cc", "nm", "version"):
        parser.add_argument("--" + name, required=True)
    parser.add_argument("--short-of-memory", action="store_true", help="this alone")
    options = parser.parse_args()
    doors = Doors(options.library)
    if options.short_of_memory:
        short_of_memory(doors)
        return 0
    seen(options)
    need(doors.library.jarful_version() == options.version.encode(), "it says another version")
    same_bytes(options, doors)
    bad_input(doors)
    in_threads(doors)
    no_growth(doors)
    done = subprocess.run([sys.executable, "-B", *sys.argv, "--short-of-memory"], check=False)
    need(done.returncode == 0, f"short of memory: ended with {done.returncode}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
