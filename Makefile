# Two commands: `make run` plans the example job and writes its packet, `make test` runs every test.
# Both first make the environment in .venv from the one lock file, requirements.txt.

SHELL := /bin/sh
VENV := .venv
PYTHON := $(VENV)/bin/python
READY := $(VENV)/.ready
OUT ?= out/glaze-room

.PHONY: run test lint types bench lock wheel clean

run: $(READY)
	$(VENV)/bin/evenface plan examples/glaze-room.toml --out $(OUT)

test: $(READY) lint types
	@$(PYTHON) tools/bring_browser.py
	$(PYTHON) -m pytest

lint: $(READY)
	$(VENV)/bin/ruff check .
	$(VENV)/bin/ruff format --check .

types: $(READY)
	$(VENV)/bin/mypy

bench: $(READY)
	for script in benchmarks/bench_*.py; do echo "== $$script"; $(PYTHON) $$script || exit 1; done

$(READY): requirements.txt pyproject.toml
	@python=$$(tools/find-python.sh) || exit 1; \
	if [ -x $(PYTHON) ] && ! $(PYTHON) -c 'import sys; raise SystemExit(sys.version_info[:2] < (3, 12))'; then rm -rf $(VENV); fi; \
	[ -x $(PYTHON) ] || { echo "making $(VENV) with $$python"; "$$python" -m venv $(VENV); }
	$(PYTHON) -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.txt
	$(PYTHON) -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
	@touch $(READY)

# Writes the lock anew; needs uv (pip install uv).
lock:
	uv pip compile --universal --generate-hashes --python-version 3.12 --all-extras --group dev \
	  --upgrade pyproject.toml -o requirements.txt

wheel: $(READY)
	$(PYTHON) -m build --no-isolation --wheel

clean:
	rm -rf $(VENV) build dist out
