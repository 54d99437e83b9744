"""Runs an example and compares what it prints with the lines its source announces after `// ->` or `# ->`."""
import re
import subprocess
import sys

source, command = sys.argv[1], sys.argv[2:]
with open(source, encoding="utf-8") as file:
    expected = [match[1].strip() for match in re.finditer(r"(?://|#) -> (.*)", file.read())]
printed = subprocess.run(command, check=True, capture_output=True, text=True).stdout.splitlines()
if not expected or printed != expected:
    sys.exit(f"the README announces {expected}, the example prints {printed}")
print("\n".join(printed))
