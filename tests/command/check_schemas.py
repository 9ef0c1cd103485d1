"""Validates the sample assembly files and the reports made from them against resources/*.schema.json.

Usage: check_schemas.py SOURCE_FOLDER SWINGROOM
"""
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

source, program = pathlib.Path(sys.argv[1]), sys.argv[2]
load = lambda path: json.loads(pathlib.Path(path).read_text())
assembly_schema = load(source / "resources/assembly.schema.json")
report_schema = load(source / "resources/report.schema.json")
comparison_schema = load(source / "resources/comparison.schema.json")
for schema in (assembly_schema, report_schema, comparison_schema):
    jsonschema.Draft202012Validator.check_schema(schema)

samples = sorted((source / "sample_assemblies").glob("*/*.swing.json"))
assert samples, "no sample found"
for sample in samples:
    jsonschema.Draft202012Validator(assembly_schema).validate(load(sample))
    if sample.parent.name in ("harbour_tug", "harbour_tug_detailed"):
        continue  # Their reports have nothing that the draft's has not, and take long.
    with tempfile.TemporaryDirectory() as folder:
        report = pathlib.Path(folder) / "report.json"
        printed = ["--print"] if sample.parent.name == "harbour_tug_weak" else []
        subprocess.run([program, "check", str(sample), "--no-cache", "--json", str(report), *printed], check=False,
                       stdout=subprocess.DEVNULL)
        jsonschema.Draft202012Validator(report_schema).validate(load(report))
        compared = load(report)
        for sequence in compared["sequences"]:  # As if every gap had been twice what it is.
            for pair in sequence["pairs"]:
                pair["gap"]["lower"] *= 2
                pair["gap"]["upper"] = pair["gap"]["upper"] and pair["gap"]["upper"] * 2
        older = pathlib.Path(folder) / "older.json"
        older.write_text(json.dumps(compared))
        said = subprocess.run([program, "compare", str(older), str(report), "--json"], check=False,
                              capture_output=True, text=True).stdout
        jsonschema.Draft202012Validator(comparison_schema).validate(json.loads(said))
    print("kept to:", sample.name)

# Figures of the print checks, of the sample that has most of them.
tug = source / "sample_assemblies/harbour_tug/harbour_tug.swing.json"
with tempfile.TemporaryDirectory() as folder:
    written = pathlib.Path(folder) / "report.json"
    subprocess.run([program, "check", str(tug), "--print", "--no-history", "--json", str(written)], check=False,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    report = load(written)
reports = jsonschema.Draft202012Validator(report_schema)
reports.validate(report)
for member in ("walls", "weight", "set", "cautions", "joints", "grips", "asPrinted"):
    assert report["print"][member], member
print("kept to with --print:", tug.name)
for member in ("", "cautions", "printers", "weight", "set"):
    spoilt = json.loads(json.dumps(report))
    (spoilt["print"][member] if member else spoilt["print"])["guess"] = 1
    assert not reports.is_valid(spoilt), f"the report's schema takes any member of print {member}"
del report["print"]["cautions"]["notes"]
assert not reports.is_valid(report), "the report's schema takes figures of cautions without their notes"

# A schema that takes anything would prove nothing.
for broken in ({"swingroom": 2, "parts": []}, {"parts": []}, {"swingroom": 1, "parts": [{"colour": "#000000"}]}):
    if jsonschema.Draft202012Validator(assembly_schema).is_valid(broken):
        sys.exit(f"the assembly schema takes {broken}")
