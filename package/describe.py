#!/usr/bin/env python3
"""Manual page and shell completion, made from what the program says with --help: so they cannot differ from it.

usage: describe.py PROGRAM VERSION FOLDER     writes plumbline.1, plumbline.bash, plumbline.fish, _plumbline
"""
import os
import re
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path


@dataclass
class Option:
    names: list      # "-o", "--output"
    value: str       # "FILE"; empty: takes none
    words: str
    choices: list = field(default_factory=list)


@dataclass
class Command:
    words: list      # ["season", "add"]
    summary: str     # its line in the program's help
    about: str = ""
    usage: str = ""
    positionals: list = field(default_factory=list)
    options: list = field(default_factory=list)
    example: list = field(default_factory=list)


def said(program, *words):
    """What `PROGRAM WORDS... --help` prints, as for a person whose home folder is ~."""
    person = {"PATH": os.environ["PATH"], "HOME": "~", "LC_ALL": "C.UTF-8"}
    if "ASAN_OPTIONS" in os.environ:
        person["ASAN_OPTIONS"] = os.environ["ASAN_OPTIONS"]
    done = subprocess.run([program, *words, "--help"], env=person, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"describe.py: {program} {' '.join(words)} --help: exit {done.returncode}\n{done.stderr}")
    return done.stdout


def listed(help_text):
    """The "  name  what it does" lines of a help that lists commands."""
    return re.findall(r"^  ([a-z]+) {2,}(\S.*)$", help_text, re.M)


def entries(block):
    """(head, words) of each entry of a block of CLI11's help; long heads have their words on the next line."""
    found = []
    for line in block:
        entry = re.match(r"^ {1,3}(\S.*?)(?: {2,}(\S.*))?$", line)
        if entry and not line.startswith("    "):
            found.append([entry[1], entry[2] or ""])
        elif line.strip() and found:
            found[-1][1] = (found[-1][1] + " " + line.strip()).strip()
    return found


def read_command(words, summary, help_text):
    command = Command(words, summary)
    part, about = "about", []
    blocks = {"Positionals:": [], "POSITIONALS:": [], "Options:": [], "OPTIONS:": [], "Example:": []}
    for line in help_text.splitlines():
        if line.startswith("Usage: "):
            command.usage = line[len("Usage: "):].strip()
        elif line.strip() in blocks:
            part = line.strip()
        elif part == "about":
            about.append(line.strip())
        else:
            blocks[part].append(line)
    command.about = " ".join(about).strip()
    for head, text in entries(blocks["Positionals:"] + blocks["POSITIONALS:"]):
        command.positionals.append((head.split()[0], text))
    for head, text in entries(blocks["Options:"] + blocks["OPTIONS:"]):
        names, _, value = head.partition(" ")
        choices = re.search(r"\{(.*?)\}", value)
        value = re.sub(r"(:\{.*?\}|REQUIRED|\.\.\.|TEXT|\bFLOAT\b|\bINT\b|\bUINT\b)", "", value).strip()
        command.options.append(Option(re.split(r",\s*", names), value or ("WORDS" if "TEXT" in head else ""), text,
                                      choices[1].split(",") if choices else []))
    command.example = [line.strip() for line in blocks["Example:"] if line.strip()]
    if not command.options or not command.example:
        sys.exit(f"describe.py: the help of {' '.join(words)} has no options or no example:\n{help_text}")
    return command


def read_program(program):
    overall = said(program)
    commands = []
    for name, summary in listed(overall):
        help_text = said(program, name)
        if "WORD ..." in help_text:  # words of its own below it
            for word, what in listed(help_text):
                commands.append(read_command([name, word], what, said(program, name, word)))
        else:
            commands.append(read_command([name], summary, help_text))
    return overall, commands


def roff(text):
    text = text.replace("\\", "\\e").replace("-", "\\-").replace("'", "\\(aq")
    return "\\&" + text if text.startswith(".") else text


def manual(overall, commands, version):
    out = [f'.TH PLUMBLINE 1 "" "Plumbline {version}" "User Commands"', ".SH NAME"]
    title = overall.splitlines()[0].partition(": ")[2]
    out += [f"plumbline \\- {roff(title)}", ".SH SYNOPSIS", ".B plumbline", ".I COMMAND", "\\&..."]
    ending = overall[overall.index("Each has --help"):].split("\n\n")
    out += [".SH DESCRIPTION", "Opens a window where a routine of figures, written as text, is seen in 3\\-D and in numbers, or does one of its tasks",
            "without a window.", *[".PP\n" + roff(" ".join(text.split())) for text in ending], ".SH COMMANDS"]
    for command in commands:
        out += [f".SS plumbline {' '.join(command.words)}", roff(command.about or command.summary), ".PP",
                f".B {roff(command.usage or 'plumbline ' + ' '.join(command.words))}"]
        for name, text in command.positionals:
            out += [".TP", f".I {roff(name)}", roff(text)]
        for option in command.options:
            names = ", ".join(f"\\fB{roff(name)}\\fR" for name in option.names)
            value = roff("|".join(option.choices) or option.value)
            out += [".TP", names + (f" \\fI{value}\\fR" if value else ""), roff(option.words)]
        out += [".PP", "Example:", ".PP", ".nf", ".RS", *[roff(line) for line in command.example], ".RE", ".fi"]
    out += [".SH FILES", ".TP", ".I ~/.local/share/plumbline/season.book",
            "The season's book; the folder is that of XDG_DATA_HOME where it is set.",
            ".TP", ".I /usr/share/plumbline/demo", "The demo's routine, aircraft, site and weather, to copy and change.",
            ".SH SEE ALSO", ".BR ffmpeg (1)", "writes films,", ".BR espeak\\-ng (1)", "speaks what is called out."]
    return "\n".join(out) + "\n"


FILES = re.compile(r"FILE|METAR|ROUTINE|LOG|FOLDER|DIR")


def by_first_word(commands):
    groups = {}
    for command in commands:
        groups.setdefault(command.words[0], []).append(command)
    return groups


def bash(commands):
    first = " ".join(by_first_word(commands))
    nested = {name: some for name, some in by_first_word(commands).items() if len(some[0].words) > 1}
    chosen = {f"{name}": option.choices for command in commands for option in command.options for name in option.names
              if option.choices}
    out = ["# bash completion of plumbline, made from its --help; an empty answer lets bash offer files", "_plumbline() {",
           "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]} options=",
           "    COMPREPLY=()", "    if [ \"$COMP_CWORD\" = 1 ]; then",
           f"        mapfile -t COMPREPLY < <(compgen -W '{first} --help --version' -- \"$word\")", "        return", "    fi"]
    for name, some in nested.items():
        words = " ".join(command.words[1] for command in some)
        out += [f"    if [ \"$command\" = {name} ]; then", "        if [ \"$COMP_CWORD\" = 2 ]; then",
                f"            mapfile -t COMPREPLY < <(compgen -W '{words} --help' -- \"$word\")", "            return", "        fi",
                f"        command='{name} '${{COMP_WORDS[2]}}", "    fi"]
    out += ["    case $before in"]
    for name, choices in chosen.items():
        out += [f"    {name})", f"        mapfile -t COMPREPLY < <(compgen -W '{' '.join(choices)}' -- \"$word\")", "        return", "        ;;"]
    out += ["    esac", "    case $command in"]
    for command in commands:
        names = " ".join(name for option in command.options for name in option.names if name.startswith("--"))
        out += [f"    '{' '.join(command.words)}') options='{names}' ;;"]
    out += ["    esac", "    case $word in", "    -*) mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\") ;;", "    esac", "}",
            "complete -o default -F _plumbline plumbline"]
    return "\n".join(out) + "\n"


def quoted(text):
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"


def fish(commands):
    out = ["# fish completion of plumbline, made from its --help"]
    for name, some in by_first_word(commands).items():
        nested = len(some[0].words) > 1
        summary = f"{', '.join(command.words[1] for command in some)}" if nested else some[0].summary
        out.append(f"complete -c plumbline -n __fish_use_subcommand -f -a {name} -d {quoted(summary)}")
        for command in some:
            when = f"__fish_seen_subcommand_from {name}"
            if nested:
                words = " ".join(c.words[1] for c in some)
                out.append(f"complete -c plumbline -n {quoted(when + '; and not __fish_seen_subcommand_from ' + words)} -f "
                           f"-a {command.words[1]} -d {quoted(command.summary)}")
                when += f"; and __fish_seen_subcommand_from {command.words[1]}"
            for option in command.options:
                line = f"complete -c plumbline -n {quoted(when)}"
                for option_name in option.names:
                    line += f" -l {option_name[2:]}" if option_name.startswith("--") else f" -s {option_name[1:]}"
                if option.choices:
                    line += f" -x -a {quoted(' '.join(option.choices))}"
                elif option.value:
                    line += " -r" if FILES.search(option.value) else " -x"
                out.append(line + f" -d {quoted(option.words)}")
    return "\n".join(out) + "\n"


def zsh(commands):
    def bare(text):
        return re.sub(r"([\[\]:'\\])", lambda found: "'\\''" if found[1] == "'" else "\\" + found[1], text)

    groups = by_first_word(commands)
    out = ["#compdef plumbline", "# made from plumbline's --help", "local context state state_descr line", "typeset -A opt_args",
           "_arguments -C '1: :->command' '*:: :->rest'", "case $state in", "command)",
           "  local -a commands=(" + " ".join(f"'{name}:{bare(some[0].summary if len(some[0].words) == 1 else 'the book of sorties')}'" for name, some in groups.items()) + ")",
           "  _describe command commands", "  ;;", "rest)", "  local which=$line[1]"]
    for name, some in groups.items():
        if len(some[0].words) > 1:
            pairs = " ".join(f"'{command.words[1]}:{bare(command.summary)}'" for command in some)
            out += [f"  if [[ $which == {name} ]]; then", "    if (( CURRENT == 2 )); then", f"      local -a words_below=({pairs})",
                    "      _describe word words_below", "      return", "    fi", f"    which=\"{name} $words[2]\"", "    shift words",
                    "    (( CURRENT-- ))", "  fi"]
    out += ["  case $which in"]
    for command in commands:
        specs = []
        for option in command.options:
            action = ""
            if option.choices:
                action = f":{bare(option.value or 'which')}:({' '.join(option.choices)})"
            elif option.value:
                action = f":{bare(option.value)}:" + ("_files" if FILES.search(option.value) else " ")
            specs += [f"'{name}[{bare(option.words)}]{action}'" for name in option.names]
        out.append(f"  '{' '.join(command.words)}') _arguments {' '.join(specs)} '*:file:_files' ;;")
    out += ["  esac", "  ;;", "esac"]
    return "\n".join(out) + "\n"


def main():
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    program, version, folder = sys.argv[1:]
    overall, commands = read_program(program)
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in (("plumbline.1", manual(overall, commands, version)), ("plumbline.bash", bash(commands)),
                       ("plumbline.fish", fish(commands)), ("_plumbline", zsh(commands))):
        (folder / name).write_text(text, encoding="utf-8")


main()
