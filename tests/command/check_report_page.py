"""Reads report.html as a browser, an XML reader and a maker would.

Usage: check_report_page.py SOURCE_FOLDER SWINGROOM
Checks for two samples and for odd assemblies: HTML Tidy finds nothing to say;
each drawing is well-formed XML; ids are unique; nothing is loaded from elsewhere; no path of this computer is
in it; the figures of cards and tables are those of report.json; the same input gives the same bytes.
"""
import html
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

source, program = pathlib.Path(sys.argv[1]), sys.argv[2]
NAMES = ["<b>&\"'", "long " + "name " * 60, "Ö 漏斗 🚢"]
PLAIN = {"swingroom": 1, "parts": []}


def run_report(file, folder, words=()):
    # No printers that the user has measured, no log of theirs.
    environment = dict(os.environ, SOURCE_DATE_EPOCH="1700000000", XDG_CONFIG_HOME=str(folder / "config"),
                       XDG_DATA_HOME=str(folder / "data"))
    done = subprocess.run([program, "check", str(file), "--no-cache", "--report", str(folder), *words],
                          env=environment, capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr
    return (folder / "report.html").read_text(), json.loads((folder / "report.json").read_text())


def check_form(page):
    # Tidy 5.6 is older than <data>.
    tidy = subprocess.run(["tidy", "-errors", "-quiet", "-utf8", "--new-inline-tags", "data"], input=page,
                          capture_output=True, text=True, check=False)
    wrong = [line for line in tidy.stderr.splitlines() if line.strip() and "<data> is not approved" not in line]
    assert not wrong, "\n".join(wrong[:20])
    drawings = re.findall(r"<svg.*?</svg>", page, re.S)
    assert drawings
    for drawing in drawings:
        ElementTree.fromstring(drawing)
    ids = re.findall(r'\sid="([^"]*)"', page)
    assert len(ids) == len(set(ids)), sorted(i for i in ids if ids.count(i) > 1)[:5]
    for link in re.findall(r'href="([^"]*)"|url\(([^)]*)\)', page):
        target = "".join(link)
        assert target.startswith(("#", "data:image/png")) and (target[0] != "#" or target[1:] in ids), target
    loaded = re.sub(r'xmlns(:\w+)?="http://www\.w3\.org/[^"]*"', "", page)
    loaded = re.sub(r'data:image/png;base64,[^"]*"', "", loaded)  # Its letters may spell anything.
    assert "http" not in loaded and "<script" not in loaded and "@import" not in loaded
    assert "2023-11-14" in page, "the date of SOURCE_DATE_EPOCH"


def shown_numbers(page):
    """Each <data>: its exact value and what is shown of it."""
    for value, shown in re.findall(r'<data value="([^"]*)">([^<]*)</data>', page):
        yield float(value), shown


def check_figures(page, report):
    known = set()

    def collect(value):
        if isinstance(value, dict):
            for member in value.values():
                collect(member)
        elif isinstance(value, list):
            for member in value:
                collect(member)
        elif isinstance(value, (int, float)):
            known.add(float(value))

    collect(report)
    outside = re.sub(r'<section id="contacts">.*?</section>', "", page, flags=re.S)  # Measured for the page alone.
    for value, shown in shown_numbers(outside):
        assert value in known, f"{value} ({shown}) is not in report.json"
    for value, shown in shown_numbers(page):
        text = re.match(r"[-0-9.]+", shown).group()
        half = 0.5 * 10.0 ** -len(text.partition(".")[2])
        assert abs(float(text) - value) <= half * (1 + 1e-9), (value, shown)
    # Every finding's card leads with the figure of one of its pairs.
    for card in re.findall(r'<article class="card.*?</article>', page, re.S):
        names = [html.unescape(name) for name in re.findall(r"<b>([^<]*)</b>", card)[:2]]
        value = re.search(r'<p class="big">(?:at least )?<data value="([^"]*)">', card)
        of_pair = [pair for way in report["sequences"] for pair in way["pairs"] if pair["parts"] == names]
        assert of_pair, names
        if value:
            figures = [pair["gap"]["upper"] for pair in of_pair] + [pair["gap"]["lower"] for pair in of_pair]
            figures += [s["depth"] for pair in of_pair for s in pair["stretches"] if "depth" in s]
            figures += [pair["joint"]["gap"][end] for pair in of_pair if "joint" in pair for end in ("lower", "upper")]
            assert float(value.group(1)) in figures, (names, value.group(1))


def section(page, name):
    found = re.search(r'<section id="' + name + r'">.*?</section>', page, re.S)
    return found.group() if found else ""


def check_print(page, print_report):
    """What the print checks found is on the page, and the caution where safety is spoken of."""
    told = section(page, "print")
    for finding in print_report["findings"]:
        assert html.escape(finding["sentence"], quote=True).replace("&#x27;", "&#39;") in told, finding["sentence"]
        for name in ([finding["joint"]] if finding["joint"] else finding["parts"]):
            assert html.escape(name) in told or html.escape(name.replace("'", "&#39;"), quote=False) in told, name
    counts = {}
    for finding in print_report["findings"]:
        if finding["grade"] == "hint":
            counts[finding["word"]] = counts.get(finding["word"], 0) + 1
    for word, count in counts.items():
        assert f"<b>{word}</b> {count}<" in told, (word, count)
    speaks = [name for name in ("print", "print-hold", "print-stand", "print-cautions") if section(page, name)]
    if not any(word in counts for word in ("small part", "small ball", "finger gap", "sharp edge")):
        speaks.remove("print")
    for name in speaks:
        for note in print_report["cautions"]["notes"]:
            assert html.escape(note) in section(page, name), (name, note)
    for joint in print_report["joints"]:
        assert joint["fit"] == "not found" or html.escape(joint["name"]) in section(page, "print-fits"), joint["name"]
    for item in print_report["set"]["items"]:
        assert html.escape(item["name"], quote=True).replace("&#x27;", "&#39;") in section(page, "print-set"), item["name"]
    stands = [mode for mode in print_report["weight"]["modes"] if mode["stand"]["kind"] != "unknown"]
    assert section(page, "print-stand").count("<figure") == len(stands)
    assert section(page, "print-seams").count('class="gapline"') == sum(bool(s["lines"]) for s in print_report["seams"])
    assert "prints do not reach" in page or not print_report["joints"]
    assert "real print decides" in page


def check(file, expect=(), words=()):
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        page, report = run_report(file, folder / "one", words)
        again, _ = run_report(file, folder / "two", words)
        assert page == again, "not the same bytes"
        assert str(source) not in page and name not in page and str(file.parent) not in page, "a path of this computer"
        check_form(page)
        check_figures(page, report)
        if "print" in report:
            check_print(page, report["print"])
        for told in expect:
            assert told in page, told
    print("read:", file.name)


def odd_assemblies(folder):
    """Files with the meshes of a sample, and what their pages must say."""
    shutil.copy(source / "sample_assemblies/hatch_box/box.stl", folder / "box.stl")
    (folder / "open.obj").write_text("v 0 0 0\nv 9 0 0\nv 0 9 0\nv 0 0 9\nf 1 3 2\nf 1 2 4\nf 2 3 4\n")

    def part(name, at, file="box.stl"):
        return {"name": name, "colour": "#D55E00", "stages": {"block": file}, "placement": {"at": at}}

    def write(stem, **members):
        file = folder / (stem + ".swing.json")
        file.write_text(json.dumps({**PLAIN, **members}))
        return file

    mode = [{"name": "as it is", "values": {}}]
    one = NAMES[0]
    yield write("one_part", parts=[part(one, [0, 0, 0])], modes=mode), ["nothing was checked", "&lt;b&gt;&amp;&quot;&#39;"]
    yield write("no_mesh", parts=[{"name": "rope"}, {"name": "knot"}], modes=mode), ["Parts without a mesh"]
    yield write("far", parts=[part("a", [0, 0, 0]), part("b", [500, 0, 0])], modes=mode), ["proven clear", "<p class=\"lead\">None.</p>"]
    yield write("open", parts=[part("a", [0, 0, 0], "open.obj"), part("b", [90, 0, 0])], modes=mode), ["Inside not judged"]
    clashing = [part(name, [7.0 * i, 0, 0]) for i, name in enumerate(NAMES + ["d", "e"])]
    slide = {"name": "a <slide>", "type": "slide", "child": NAMES[0], "along": [1, 0, 0]}
    yield write("names", name=NAMES[0], parts=clashing, joints=[slide],
                modes=[{"name": "<in>", "values": {"a <slide>": 0}}, {"name": "out & away", "values": {"a <slide>": -90}}],
                sequences=[{"name": "<way>", "from": "<in>", "to": "out & away"}],
                pairs=[{"parts": ["d", "e"], "allow": "<glued>"},
                       {"parts": [NAMES[1], "d"], "contacts": [{"kind": "grip", "modes": ["<in>"], "gap": [0, 0.1], "reason": "<must>"}]}]), [
        "&lt;glued&gt;", "&lt;must&gt;", "mm</b> off either part", "likely"]


def printed_assemblies(folder):
    """Few and many parts, a seam, a part that is bought, one without a mesh."""
    shutil.copy(source / "sample_assemblies/hatch_box/box.stl", folder / "box.stl")

    def part(name, at, **members):
        return {"name": name, "colour": "#D55E00", "stages": {"block": "box.stl"}, "placement": {"at": at}, **members}

    def write(stem, **members):
        file = folder / (stem + ".swing.json")
        file.write_text(json.dumps({**PLAIN, **members}))
        return file

    mode = [{"name": "as <it> is", "values": {}}]
    yield write("print_one", parts=[part(NAMES[0], [0, 0, 0])], modes=mode), ["as &lt;it&gt; is", "print-set"]
    many = [part(f"part {i}", [70.0 * (i % 8), 70.0 * (i // 8), 0]) for i in range(60)]
    yield write("print_many", parts=many + [{"name": "rope", "kind": "bought"}], modes=mode), ["60 printed pieces"]
    seam = [{"parts": ["a", "b"], "contacts": [{"kind": "seam", "modes": ["as <it> is"], "gap": [0, 0.5]}]}]
    yield write("print_seam", parts=[part("a", [0, 0, 0]), part("b", [59.0, 0, 0], kind="bought")], modes=mode,
                pairs=seam), ["print-seams", "bought"]


for sample in sorted((source / "sample_assemblies").glob("*/*.swing.json")):
    if sample.parent.name in ("folding_lamp", "hatch_box"):
        check(sample)
    if sample.parent.name in ("folding_lamp", "harbour_tug"):
        check(sample, words=["--print"])
with tempfile.TemporaryDirectory() as name:
    for file, expect in odd_assemblies(pathlib.Path(name)):
        check(file, expect)
with tempfile.TemporaryDirectory() as name:
    for file, expect in printed_assemblies(pathlib.Path(name)):
        check(file, expect, ["--print"])
