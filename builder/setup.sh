#!/bin/sh
# From a fresh checkout to a ready .venv: finds a Python, makes the environment, installs Seambook in it.
# Does nothing but look when nothing changed. Nothing is ever installed outside .venv, except python3-venv through apt-get
# where that is allowed and nothing else brings pip. PYTHON=... names the Python to use.
set -eu
cd "$(dirname "$0")/.."
unset PYTHONHOME PYTHONPATH

environment=.venv
stamp=$environment/seambook.stamp

stop() {
    printf 'seambook: %s\n' "$*" >&2
    exit 1
}

is_new_enough() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1
}

# A word that is the same for two names of one Python.
identity() {
    "$1" -c 'import sys; print(sys.base_prefix, sys.version.split()[0])'
}

# The Python itself: not a shim that picks one, and not the interpreter of an environment that we may be about to renew.
base_of() {
    "$1" -c 'import sys; print(getattr(sys, "_base_executable", "") or sys.executable)'
}

choose_python() {
    if [ -n "${PYTHON:-}" ]; then
        is_new_enough "$PYTHON" ||
            stop "PYTHON=$PYTHON is not a Python 3.11 or newer; type: make PYTHON=/path/to/python3.11 (or newer)"
        base_of "$PYTHON"
        return
    fi
    for name in python3 python3.14 python3.13 python3.12 python3.11; do
        if is_new_enough "$name"; then
            base_of "$name"
            return
        fi
    done
    found=$(python3 --version 2>/dev/null) || found="no python3"
    stop "Python 3.11 or newer is missing ($found here); type: sudo apt-get install python3.11 (or newer)"
}

# An environment is kept as long as its Python runs, is new enough, and is the one asked for, if one was.
environment_fits() {
    is_new_enough $environment/bin/python || return 1
    [ -z "${PYTHON:-}" ] && return 0
    is_new_enough "$PYTHON" && [ "$(identity $environment/bin/python)" = "$(identity "$PYTHON")" ]
}

# Debian keeps venv's other half, ensurepip, in a package of its own; the environment is made without it, and pip follows.
make_environment() {
    "$python" -m venv --clear --without-pip $environment && return
    add_venv_package && "$python" -m venv --clear --without-pip $environment && return
    stop "$python cannot make an environment; type: sudo apt-get install $(venv_package)"
}

give_pip() {
    has_pip || ensure_pip || borrow_pip || { add_venv_package && ensure_pip; } ||
        stop "$python has neither ensurepip nor pip; type: sudo apt-get install $(venv_package)"
}

has_pip() {
    $environment/bin/python -c 'import pip' 2>/dev/null
}

ensure_pip() {
    $environment/bin/python -m ensurepip --default-pip >/dev/null 2>&1 && has_pip
}

# The pip of the system installs a pip into the environment; what it finds beside itself must not count as installed.
borrow_pip() {
    lender=$("$python" -c 'import os, pip; print(os.path.dirname(os.path.dirname(pip.__file__)))' 2>/dev/null) || return 1
    PYTHONPATH=$lender $environment/bin/python -m pip install --quiet --ignore-installed pip && has_pip
}

venv_package() {
    "$python" -c 'import sys; print("python%d.%d-venv" % sys.version_info[:2])'
}

# Only for the system's own Python, only through apt-get, only as root or where sudo asks for no password.
add_venv_package() {
    case $python in /usr/bin/*) ;; *) return 1 ;; esac
    command -v apt-get >/dev/null 2>&1 || return 1
    if [ "$(id -u)" -eq 0 ]; then
        as_root=
    elif sudo -n true 2>/dev/null; then
        as_root='sudo -n'
    else
        return 1
    fi
    printf 'installing %s\n' "$(venv_package)"
    $as_root apt-get -q update >/dev/null 2>&1 || true # an old list may still do; the next line tells
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends "$(venv_package)" \
        </dev/null >/dev/null
}

# The checkout's place is in the key: a folder that was moved is installed anew.
key() {
    { pwd && identity $environment/bin/python && cat pyproject.toml builder/setup.sh; } | cksum
}

if ! environment_fits; then
    python=$(choose_python)
    printf 'making %s with %s\n' $environment "$python"
    make_environment
fi
if [ "$(cat $stamp 2>/dev/null)" != "$(key)" ]; then
    python=$(base_of $environment/bin/python)
    give_pip
    printf 'installing Seambook and its libraries into %s\n' $environment
    export PIP_USER=0 PIP_DISABLE_PIP_VERSION_CHECK=1
    # setuptools warns at length about every editable install
    PYTHONWARNINGS=ignore $environment/bin/python -m pip install --quiet --editable . ||
        stop "the libraries could not be installed (pip says why above); with the network there, type the command again"
    key >$stamp
fi
# What is installed is compiled at installation; a checkout is not, and where Python is told to keep no bytecode each
# command would compile all of it again.
$environment/bin/python -m compileall -q builder
