#!/usr/bin/env python3
"""Writes a C++ source that holds files as bytes. Called by embed.cmake; see there.

usage: embed.py OUTPUT NAMESPACE FUNCTION NAME=PATH...

String literals in pieces of a line: a compiler reads them an order of magnitude faster than lists of numbers.
"""

import sys

BYTES_PER_LINE = 96  # chosen: keeps the lines readable in a debugger


def escapes():
    """One spelling for each byte. Octal has a fixed width, so the next character cannot run into it."""
    table = []
    for byte in range(256):
        char = chr(byte)
        plain = 32 <= byte < 127 and char not in '"\\?'
        table.append(char if plain else f"\\{byte:03o}")
    return table


def main():
    output, namespace, function, *assets = sys.argv[1:]
    table = escapes()
    arrays, rows = [], []
    for index, asset in enumerate(assets):
        name, path = asset.split("=", 1)
        with open(path, "rb") as file:
            data = file.read()
        pieces = [data[i : i + BYTES_PER_LINE] for i in range(0, len(data), BYTES_PER_LINE)]
        lines = "\n".join('    "' + "".join(table[b] for b in piece) + '"' for piece in pieces or [b""])
        arrays.append(f"alignas(16) const char kBytes{index}[] =\n{lines};\n")
        quoted = "".join(table[b] for b in name.encode())
        rows.append(f'    if (name == "{quoted}") return std::string_view(kBytes{index}, {len(data)});\n')
    text = (
        "// Made by third_party/embed.py; do not edit.\n"
        "#include <optional>\n#include <string_view>\n\n"
        f"namespace {namespace} {{\nnamespace {{\n" + "".join(arrays) + "}  // namespace\n\n"
        f"std::optional<std::string_view> {function}(std::string_view name);\n\n"
        f"std::optional<std::string_view> {function}(std::string_view name) {{\n"
        + "".join(rows)
        + f"    return std::nullopt;\n}}\n}}  // namespace {namespace}\n"
    )
    with open(output, "w", encoding="ascii", newline="\n") as file:
        file.write(text)


if __name__ == "__main__":
    main()
