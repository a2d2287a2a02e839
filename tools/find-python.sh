#!/bin/sh
# Print the path of a Python this project runs on (3.12 or newer), the newest found of the usual places:
# python3.x and python3 on PATH, versions that pyenv has installed (whatever its default is), versions of uv.
# EVENFACE_PYTHON=/path/to/python overrides the search.
set -u

fits() {
    [ -x "$1" ] || return 1
    "$1" -c 'import sys, venv, ensurepip; raise SystemExit(sys.version_info[:2] < (3, 12))' >/dev/null 2>&1
}

candidates() {
    [ -n "${EVENFACE_PYTHON:-}" ] && echo "$EVENFACE_PYTHON"
    for minor in 14 13 12; do
        command -v "python3.$minor" 2>/dev/null
        # a shim of pyenv stands on PATH but answers only for the version chosen: look behind it
        for root in "${PYENV_ROOT:-}" "$HOME/.pyenv"; do
            [ -n "$root" ] && ls -d "$root/versions/3.$minor".*/bin/python3 2>/dev/null | sort -rV
        done
        for root in "${UV_PYTHON_INSTALL_DIR:-}" "${XDG_DATA_HOME:-$HOME/.local/share}/uv/python"; do
            [ -n "$root" ] && ls -d "$root/cpython-3.$minor".*/bin/python3 2>/dev/null | sort -rV
        done
    done
    command -v python3 2>/dev/null
    command -v python 2>/dev/null
    true
}

found=$(candidates | while read -r python; do
    if fits "$python"; then
        echo "$python"
        break
    fi
done)

if [ -z "$found" ]; then
    echo "evenface needs Python 3.12 or newer with its venv module: install it (for example from python.org, or with your package manager: python3.12 and python3.12-venv), or set EVENFACE_PYTHON to one." >&2
    exit 1
fi
echo "$found"
