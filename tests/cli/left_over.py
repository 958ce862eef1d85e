"""What is lacking before demo beside the steps of the crew, 40 CFR 745.85(a): from the JSON of
"gate JOB demo" on standard input, a requirement a line."""
import json
import sys

for finding in json.load(sys.stdin)["findings"]:
    if finding["verdict"] == "lacking" and "745.85(a)" not in finding["citation"]:
        print(finding["requirement"], finding["subject"], finding["reason"])
