"""Writes the first ```cpp and the first ```python block of a README to example.cpp and example.py."""
import pathlib
import re
import sys

readme = pathlib.Path(sys.argv[1]).read_text(encoding="utf-8")
out = pathlib.Path(sys.argv[2])
for language, name in (("cpp", "example.cpp"), ("python", "example.py")):
    block = re.search(rf"^```{language}\n(.*?)^```$", readme, re.MULTILINE | re.DOTALL)
    if block is None:
        sys.exit(f"{sys.argv[1]}: no ```{language} block")
    target = out / name
    if not target.exists() or target.read_text(encoding="utf-8") != block[1]:
        target.write_text(block[1], encoding="utf-8")
