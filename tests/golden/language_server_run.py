#!/usr/bin/env python3
"""The language server as an editor starts it: the real program, over pipes, in a book of its own on the disk. What it
says of a file is compared with what `jarful check` says of it; it ends as the protocol says; and it stays alive whatever
it is sent."""

import argparse
import json
import os
import pathlib
import subprocess
import sys
import tempfile

KITCHEN = 'kitchen "Ours"\nscale bench reads 1 g up to 5 kg within 1 g\n'
RECIPE = 'recipe "Kraut"\nkind kraut\ngiven cabbage = 1.8 kg\nweigh salt = 2.2 % of cabbage as fine sea salt\n'
TOP = 'recipe "Top"\nbased on "kraut"\nweigh dill = 1 % of cabage as fresh dill\nlet x = 1,5 kg\n'

faults = []


def expect(is_so, what):
    if not is_so:
        faults.append(what)


class Editor:
    def __init__(self, program, folder):
        self.process = subprocess.Popen([program, "language-server"], cwd=folder, stdin=subprocess.PIPE,
                                        stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        self.ids = 0
        self.published = {}

    def write(self, body):
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self.process.stdin.flush()

    def send(self, method, params, **more):
        self.write(json.dumps({"jsonrpc": "2.0", "method": method, "params": params, **more}).encode())

    def read(self):
        length = None
        while True:
            line = self.process.stdout.readline()
            if not line:
                return None
            if line == b"\r\n":
                return json.loads(self.process.stdout.read(length))
            name, _, value = line.partition(b":")
            if name.lower() == b"content-length":
                length = int(value)

    def ask(self, method, params):
        self.ids += 1
        self.send(method, params, id=self.ids)
        while True:
            message = self.read()
            if message is None:
                raise SystemExit(f"The server went away after {method}: {self.process.stderr.read().decode()}")
            if message.get("method") == "textDocument/publishDiagnostics":
                self.published[message["params"]["uri"]] = message["params"]["diagnostics"]
            if message.get("id") == self.ids:
                return message.get("result", message)

    def settle(self):
        """What was changed is looked at when nothing else waits; a question asked now comes after that."""
        while not (message := self.read()).get("method") == "textDocument/publishDiagnostics":
            pass
        self.published[message["params"]["uri"]] = message["params"]["diagnostics"]


def checked(program, folder, name):
    done = subprocess.run([program, "check", "--json", name], cwd=folder, capture_output=True, check=False,
                          stdin=subprocess.DEVNULL)
    return json.loads(done.stdout)["files"][0]["diagnostics"]


def in_words(finding):
    return finding["message"] + ("\n" + finding["advice"] if finding["advice"] else "")


def whole_life(program, folder):
    editor = Editor(program, folder)
    said = editor.ask("initialize", {"processId": os.getpid(), "rootUri": folder.as_uri(),
                                     "capabilities": {"general": {"positionEncodings": ["utf-8"]}}})
    expect(said["capabilities"]["positionEncoding"] == "utf-8", "UTF-8 is agreed on")
    editor.send("initialized", {})
    uri = (folder / "top.jarful").as_uri()
    editor.send("textDocument/didOpen", {"textDocument": {"uri": uri, "languageId": "jarful", "version": 1,
                                                          "text": TOP}})
    editor.settle()
    asked = checked(program, folder, "top.jarful")
    expect([(f["code"], in_words(f), f["line"], f["column"]) for f in asked] ==
           [(d["code"], d["message"], d["range"]["start"]["line"] + 1, d["range"]["start"]["character"] + 1)
            for d in editor.published[uri]], f"the findings of check: {asked} and {editor.published[uri]}")
    expect(len(asked) == 1, "a fault of the grammar first")
    editor.send("textDocument/didChange", {"textDocument": {"uri": uri, "version": 2},
                                           "contentChanges": [{"text": TOP.replace("1,5", "1.5")}]})
    editor.settle()
    expect([d["code"] for d in editor.published[uri]] == ["unknown-name"], "then the misspelt name")
    actions = editor.ask("textDocument/codeAction",
                         {"textDocument": {"uri": uri}, "range": editor.published[uri][0]["range"],
                          "context": {"diagnostics": []}})
    expect([a["edit"]["changes"][uri][0]["newText"] for a in actions] == ["cabbage"], "and what mends it")
    editor.send("textDocument/didChange", {"textDocument": {"uri": uri, "version": 3}, "contentChanges": [
        {"text": TOP.replace("1,5", "1.5").replace("cabage", "cabbage")}]})
    editor.settle()
    expect(editor.published[uri] == [], "then nothing")
    hints = editor.ask("textDocument/inlayHint", {"textDocument": {"uri": uri}, "range": {
        "start": {"line": 0, "character": 0}, "end": {"line": 9, "character": 0}}})
    expect([h["label"] for h in hints] == ["18 g", "1.5 kg"], f"the amounts of its own lines: {hints}")
    expect((folder / "top.jarful").read_text() == TOP, "no file was changed")
    expect(editor.ask("shutdown", None) is None, "shutdown is answered")
    editor.send("exit", None)
    editor.process.stdin.close()
    expect(editor.process.wait(timeout=20) == 0, "exit after shutdown is 0")
    expect(editor.process.stderr.read() == b"", "nothing on standard error")


def rubbish(program, folder):
    editor = Editor(program, folder)
    editor.ask("initialize", {"capabilities": {}})
    for body in (b"", b"{", b"\xff\xfe\x00", b"[" * 5000, b'{"id": 1}', b'{"jsonrpc": "2.0", "id": 7, "method": 3}'):
        editor.write(body)
        message = editor.read()
        expect(message is not None and "error" in message, f"{body[:20]} is answered by an error")
    for method in ("textDocument/hover", "textDocument/rename", "nothing"):
        expect("error" in editor.ask(method, {"textDocument": 1}), f"{method} with rubbish is refused")
    editor.process.stdin.write(b"no header at all\r\n\r\n")
    editor.process.stdin.close()
    expect("error" in (editor.read() or {}), "what is no message is answered once")
    expect(editor.read() is None, "and then the stream ends")
    expect(editor.process.wait(timeout=20) == 2, "with 2, for nobody said exit")


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jarful", required=True)
    program = str(pathlib.Path(parser.parse_args().jarful).resolve())
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name).resolve() / "a book, ü"
        folder.mkdir()
        (folder / "kitchen.jarful").write_text(KITCHEN)
        (folder / "kraut.jarful").write_text(RECIPE)
        (folder / "top.jarful").write_text(TOP)
        whole_life(program, folder)
        rubbish(program, folder)
    for fault in faults:
        print("Not so:", fault, file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
