"""The build with the faults in it: the files that hold one are compiled anew, everything else is what the usual
build made. Programs are linked once more, beside the usual ones, with the planted engine."""

import concurrent.futures
import hashlib
import json
import os
import pathlib
import shlex
import subprocess

import planted_source
import planting

TABLES = "engine/larder/larder_tables.cpp"
MOST_ATTEMPTS = 25


class BuildFailed(Exception):
    """Says what could not be built."""


def newer(made, inputs):
    """Whether a file is there and newer than all that it is made of."""
    made = pathlib.Path(made)
    return made.exists() and all(made.stat().st_mtime > pathlib.Path(i).stat().st_mtime for i in inputs)


class PlantedBuild:
    """`root` the tree, `build` its usual build folder (finished), `out` where the planted one goes."""

    def __init__(self, root, build, out, workers):
        self.root, self.build, self.out = pathlib.Path(root), pathlib.Path(build), pathlib.Path(out)
        self.workers = workers
        commands = json.loads((self.build / "compile_commands.json").read_text(encoding="utf-8"))
        self.by_source, self.by_object = {}, {}
        for entry in commands:
            words = shlex.split(entry["command"])
            made = words[words.index("-o") + 1]
            self.by_object[made] = (entry, words)
            # A source that several targets compile counts for the engine's, which comes first.
            self.by_source.setdefault(os.path.realpath(entry["file"]), (entry, words, made))
        self.objects = {}
        self.refused = []

    # -- sources

    def compile(self, words, entry, source, made, extra=()):
        """Runs a compiler's usual words for another source and another object; what it said, or None if all is well."""
        words = list(words)
        words[words.index("-o") + 1] = str(made)
        words[words.index(entry["file"])] = str(source)
        pathlib.Path(made).parent.mkdir(parents=True, exist_ok=True)
        said = subprocess.run(words + list(extra), cwd=entry["directory"], capture_output=True, text=True,
                              env={**os.environ, "LC_ALL": "C.UTF-8"}, check=False)
        return None if said.returncode == 0 else said.stderr

    def compile_once(self, words, entry, planted, made, original):
        """Compiles a planted source, unless the same was compiled before, after the usual object was made."""
        out = self.out / "object" / (made + ".planted.o")
        content = hashlib.sha256(" ".join(words).encode() + planted.read_bytes()).hexdigest()
        written = out.with_suffix(".key")
        if (out.exists() and written.exists() and written.read_text(encoding="utf-8") == content and
                out.stat().st_mtime > (self.build / made).stat().st_mtime):
            return None
        said = self.compile(words, entry, planted, out,
                            ["-w", "-Wno-narrowing", "-iquote", str(original.parent)])
        if said is None:
            written.write_text(content, encoding="utf-8")
        return said

    def plant(self, numbered):
        """Compiles all files of these (number, site) pairs; the numbers that are in the build."""
        by_file = {}
        for number, site in numbered:
            by_file.setdefault(site.file, []).append((number, site))
        jobs = []
        data = {file: sites for file, sites in by_file.items() if file.endswith(".json")}
        if data:
            jobs.append(lambda: self.plant_tables(data))
        for file, sites in sorted(by_file.items()):
            if file not in data:
                jobs.append(lambda file=file, sites=sites: self.plant_file(
                    file, (self.root / file).read_text(encoding="utf-8"), self.root / file, sites))
        placed = []
        with concurrent.futures.ThreadPoolExecutor(self.workers) as pool:
            for numbers in pool.map(lambda job: job(), jobs):
                placed += numbers
        return sorted(set(placed))

    def plant_file(self, file, text, original, sites):
        source = planting.Source(file, text)
        entry, words, made = self.by_source[os.path.realpath(original)]
        kept = planted_source.kept_by_rule(source)
        planted = self.out / "source" / file
        planted.parent.mkdir(parents=True, exist_ok=True)
        alive, said = list(sites), ""
        for _ in range(MOST_ATTEMPTS):
            body, placed = planted_source.Planting(source, alive, kept).text()
            planted.write_text(body, encoding="utf-8")
            said = self.compile_once(words, entry, planted, made, original)
            if said is None:
                self.objects[made] = self.out / "object" / (made + ".planted.o")
                placed = set(placed)
                self.refused += [s for n, s in sites if n not in placed]
                return placed
            alive, kept = self.without_blamed(source, alive, kept, said)
            if not alive:
                break
        self.refused += [s for _, s in sites]
        if alive:
            raise BuildFailed(f"{file} does not compile with faults in it:\n{said[:2000]}")
        return []

    @staticmethod
    def without_blamed(source, alive, kept, said):
        """Leaves out what the compiler's errors are about: the sites of those lines, or those of a function whose value
        it has to know."""
        lines, names = planted_source.error_lines(source.file, said)
        functions = {c.name for c in planted_source.constants_of(source) if not c.variable} - kept
        if functions & names:
            return alive, kept | names
        blamed = [(n, s) for n, s in alive if s.line in lines]
        if blamed:
            return [pair for pair in alive if pair not in blamed], kept
        if functions:
            return alive, kept | functions
        return alive[:len(alive) // 2], kept

    def plant_tables(self, data):
        """Faults in the larder's data: its compiler writes the tables anew for each, and what differs is planted."""
        generated = self.build / TABLES
        usual = generated.read_text(encoding="utf-8")
        compiler = self.build / "engine/larder/jarful_larder_compile"
        folder = self.out / "data"
        sites = []
        for file, pairs in data.items():
            right = (self.root / file).read_text(encoding="utf-8")
            for number, site in pairs:
                folder.mkdir(parents=True, exist_ok=True)
                for other in (self.root / file).parent.glob("*.json"):
                    (folder / other.name).write_bytes(other.read_bytes())
                (folder / pathlib.Path(file).name).write_text(
                    right[:site.begin] + site.wrong + right[site.end:], encoding="utf-8")
                made = folder / "tables.cpp"
                made.unlink(missing_ok=True)
                ran = subprocess.run([compiler, folder, made], capture_output=True, check=False)
                wrong = made.read_text(encoding="utf-8") if ran.returncode == 0 and made.exists() else None
                found = planted_source.differing(TABLES, usual, wrong, number) if wrong else None
                if found is None:
                    self.refused.append(site)
                else:
                    sites += found
        return self.plant_file(TABLES, usual, generated, sites) if sites else []

    # -- programs

    def final_command(self, target):
        said = subprocess.run(["ninja", "-C", str(self.build), "-t", "commands", "-s", target], capture_output=True,
                              text=True, check=False)
        if said.returncode != 0:
            raise BuildFailed(f"{target}: {said.stderr.strip()}")
        return [line for line in said.stdout.splitlines() if line.strip()][-1]

    def make_switch(self):
        """The object of the switch, compiled as the engine's files are."""
        made = self.out / "object/planted_switch.o"
        made.parent.mkdir(parents=True, exist_ok=True)
        source = pathlib.Path(__file__).with_name("planted_switch.cpp")
        if newer(made, [source]):
            return made
        compiler = next(words[0] for _, words in self.by_object.values() if "ccache" not in words[0])
        subprocess.run([compiler, "-std=c++20", "-O2", "-fPIC", "-c", source, "-o", made], check=True)
        return made

    def make_archive(self, archive):
        """The engine's archive with the planted objects in place of theirs."""
        objects = [w for w in shlex.split(self.final_command(archive)) if w.endswith(".o")]
        chosen = [str(self.objects.get(o, self.build / o)) for o in dict.fromkeys(objects)]
        made, listed = self.out / "libjarful_planted.a", self.out / "libjarful_planted.txt"
        chosen.append(str(self.make_switch()))
        if listed.exists() and listed.read_text(encoding="utf-8") == "\n".join(chosen) and newer(made, chosen):
            return made
        made.unlink(missing_ok=True)
        subprocess.run(["ar", "qcT", made, *chosen], check=True)
        listed.write_text("\n".join(chosen), encoding="utf-8")
        return made

    def link(self, program, archive_name, archive, programs):
        """Links one program anew. What has the path of a program compiled into it is compiled anew, too."""
        command = self.final_command(program)
        command = command.removeprefix(": && ").removesuffix(" && :")
        out = self.out / program
        out.parent.mkdir(parents=True, exist_ok=True)
        words = []
        for word in shlex.split(command):
            if word == archive_name:
                word = str(archive)
            elif word.endswith(".o") and word in self.by_object:
                word = str(self.objects.get(word) or self.with_paths(word, programs))
            words.append(word)
        words[words.index("-o") + 1] = str(out)
        if newer(out, [self.build / w for w in words if w.endswith((".o", ".a"))]):
            return
        ran = subprocess.run(words, cwd=self.build, capture_output=True, text=True, check=False)
        if ran.returncode != 0:
            raise BuildFailed(f"{program} does not link:\n{ran.stderr[:2000]}")

    def with_paths(self, made, programs):
        entry, words = self.by_object[made]
        changed = [self.moved(word, programs) if word.startswith("-D") else word for word in words]
        if changed == words:
            return self.build / made
        out = self.out / "object" / made
        if newer(out, [self.build / made]):
            return out
        said = self.compile(changed, entry, entry["file"], out, ["-w"])
        if said is not None:
            raise BuildFailed(f"{entry['file']} does not compile:\n{said[:2000]}")
        return out

    def moved(self, word, programs):
        """A word of a command with paths of the usual programs made those of the planted ones."""
        for program in programs:
            word = word.replace(str(self.build / program), str(self.out / program))
        return word

    def link_all(self, programs, archive_name="engine/libjarful.a"):
        archive = self.make_archive(archive_name)
        with concurrent.futures.ThreadPoolExecutor(self.workers) as pool:
            list(pool.map(lambda p: self.link(p, archive_name, archive, programs), programs))
