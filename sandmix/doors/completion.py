r"""Scripts by which a shell completes a command: the commands, the options that are not given yet, choices, and names of files.

Each script holds all of that, so that pressing Tab does not start Python. An option is offered in its shortest spelling; what it takes
is known for every spelling.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from sandmix.doors.commands import FILE, OTHER_COMMANDS, SHELLS, Option, options_for
from sandmix.jobs import JOBS

_HELP = Option(spellings=("--help", "-h"), name="help", given="", label="show the options", help="")
_BASH = """\
# Completes sandmix in bash. Written by: sandmix completion bash
_sandmix() {
    local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} options='' values='' files='' option offered=()
    COMPREPLY=()
    if [[ $current == '=' ]]; then
        current=''
    elif [[ $before == '=' ]]; then
        before=${COMP_WORDS[COMP_CWORD-2]}
    fi
    if ((COMP_CWORD == 1)); then
        COMPREPLY=($(compgen -W '@COMMANDS@ --help --version' -- "$current"))
        return
    fi
    case ${COMP_WORDS[1]} in
@CASES@
    esac
    case "${COMP_WORDS[1]} $before" in
@VALUES@
    esac
    if [[ -n $files ]]; then
        compopt -o default 2>/dev/null
    elif [[ -n $values ]]; then
        COMPREPLY=($(compgen -W "$values" -- "$current"))
    elif [[ -z $current || $current == -* ]]; then
        for option in $options; do
            [[ " ${COMP_WORDS[*]} " == *" $option "* && $option != "$current" ]] || offered+=("$option")
        done
        COMPREPLY=($(compgen -W "${offered[*]}" -- "$current"))
    fi
}
complete -F _sandmix sandmix
"""
_ZSH = """\
#compdef sandmix
# Completes sandmix in zsh. Written by: sandmix completion zsh
_sandmix() {
    local -a commands
    if ((CURRENT == 2)); then
        commands=(
@COMMANDS@
        )
        _describe command commands
        return
    fi
    local command=$words[2]
    shift words
    ((CURRENT--))
    case $command in
@CASES@
    esac
}
if [[ ${funcstack[1]} == _sandmix ]]; then
    _sandmix "$@"
else
    compdef _sandmix sandmix
fi
"""
_FISH = """\
# Completes sandmix in fish. Written by: sandmix completion fish
function __sandmix_is
    set -l typed (commandline -opc)
    test (count $typed) -ge 2; and test "$typed[2]" = "$argv[1]"
end
complete -c sandmix -e
complete -c sandmix -f
@LINES@
"""


def script(shell: str) -> str:
    """Return the script for *shell*, one of `SHELLS`."""
    options = {name: [_HELP, *options_for(job)] for name, job in JOBS.items()}
    return _SCRIPTS[shell](options)


def _filled(template: str, **parts: Iterable[str]) -> str:
    """A template with lines in place of its marks."""
    for name, lines in parts.items():
        template = template.replace(f"@{name}@", "\n".join(lines))
    return template


def _bash(options: Mapping[str, list[Option]]) -> str:
    def cases() -> Iterator[str]:
        for command, listed in options.items():
            yield f"        {command}) options='{' '.join(option.spellings[0] for option in listed)}' ;;"
        yield f"        completion) ((COMP_CWORD == 2)) && values='{' '.join(SHELLS)}' ;;"

    def values() -> Iterator[str]:
        for command, listed in options.items():
            for option in listed:
                said = "|".join(f"'{command} {spelling}'" for spelling in option.spellings)
                if option.given == FILE:
                    yield f"        {said}) files=yes ;;"
                elif option.values:
                    yield f"        {said}) values='{' '.join(option.values)}' ;;"
                elif option.given:
                    yield f"        {said}) return ;;"

    return _filled(_BASH, COMMANDS=[" ".join((*options, *OTHER_COMMANDS))], CASES=cases(), VALUES=values())


def _zsh(options: Mapping[str, list[Option]]) -> str:
    titles = {name: JOBS[name].title for name in options} | {name: line for name, (line, _) in OTHER_COMMANDS.items()}

    def cases() -> Iterator[str]:
        for command, listed in options.items():
            yield f"        {command}) _arguments \\"
            yield from (f"            {_zsh_option(option)} \\" for option in listed)
            yield "            ;;"
        yield f"        completion) _arguments '1:shell:({' '.join(SHELLS)})' ;;"

    commands = [f"            {_single(_colons(name) + ':' + _colons(title))}" for name, title in titles.items()]
    return _filled(_ZSH, COMMANDS=commands, CASES=cases())


def _zsh_option(option: Option) -> str:
    """One option as `_arguments` reads it: its spelling, what it is for, and what can follow it."""
    label = _colons(option.label).replace("[", r"\[").replace("]", r"\]")
    after = "" if not option.given else f":{_colons(option.given.lower())}:"
    if option.given == FILE:
        after += "_files"
    elif option.values:
        after += f"({' '.join(option.values)})"
    equals = "=" if option.given else ""
    return _single(f"{option.spellings[0]}{equals}[{label}]{after}")


def _colons(text: str) -> str:
    return text.replace("\\", "\\\\").replace(":", r"\:")


def _fish(options: Mapping[str, list[Option]]) -> str:
    titles = {name: JOBS[name].title for name in options} | {name: line for name, (line, _) in OTHER_COMMANDS.items()}

    def lines() -> Iterator[str]:
        for name, title in titles.items():
            yield f"complete -c sandmix -n __fish_use_subcommand -a {name} -d {_single(title, fish=True)}"
        for command, listed in options.items():
            for option in listed:
                yield f"complete -c sandmix -n '__sandmix_is {command}' {_fish_option(option)}"
        yield f"complete -c sandmix -n '__sandmix_is completion' -a '{' '.join(SHELLS)}'"

    return _filled(_FISH, LINES=lines())


def _fish_option(option: Option) -> str:
    """One option as `complete` of fish reads it."""
    spelled = f"-l {option.spellings[0].removeprefix('--')} -d {_single(option.label, fish=True)}"
    if option.given == FILE:
        return f"{spelled} -r -F"
    if option.values:
        return f"{spelled} -x -a '{' '.join(option.values)}'"
    return f"{spelled} -x" if option.given else spelled


def _single(text: str, *, fish: bool = False) -> str:
    """A text in single quotes; inside them fish reads a backslash, other shells do not."""
    if fish:
        return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"
    return "'" + text.replace("'", "'\\''") + "'"


_SCRIPTS: Mapping[str, Callable[[Mapping[str, list[Option]]], str]] = {"bash": _bash, "zsh": _zsh, "fish": _fish}
