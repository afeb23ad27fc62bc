# Everything a newcomer or a machine needs: `make demo`, `make test`. A bare `make` lists the targets.
# PY is the Python that makes the virtual environment (3.11 or newer); nothing outside the checkout is changed.

PY ?= python3
V := .venv
B := $(V)/bin
UV := VIRTUAL_ENV=$(V) $(B)/uv
COMPILE := $(B)/uv pip compile -q --generate-hashes --no-header --universal --python-version 3.11
UPGRADE ?=

.DEFAULT_GOAL := help
.DELETE_ON_ERROR:
.PHONY: help setup warm demo test check lock docs browser all clean

help:  ## list the targets
	@sed -n 's/^\([a-z]*\):.*##  *\(.*\)/  make \1@\2/p' Makefile | awk -F@ '{printf "%-16s%s\n", $$1, $$2}'

setup: $(V)/.installed  ## make or refresh the virtual environment in .venv

# Three stamps: the environment with uv in it, the locked packages, athwart itself. Each is redone only when its inputs change.
$(V)/.made: boot.lock tools/preflight.py
	@command -v $(PY) >/dev/null || { echo "$(PY) is missing; on Debian type: apt-get install python3 python3-venv" >&2; exit 1; }
	@$(PY) tools/preflight.py before
	@test -x $(B)/python && $(B)/python -c 'import sys; sys.exit(sys.version_info < (3, 11))' || $(PY) -m venv --clear $(V)
	$(B)/python -m pip install -q --disable-pip-version-check --require-hashes --only-binary :all: -r boot.lock
	@touch $@

$(V)/.locked: $(V)/.made dev.lock
	$(UV) pip sync -q --require-hashes boot.lock dev.lock
	@$(B)/python tools/preflight.py after
	@touch $@

$(V)/.installed: $(V)/.locked pyproject.toml
	$(UV) pip install -q --no-deps --no-build-isolation --reinstall-package athwart -e .
	@touch $@

warm: setup  ## compile the simulation ahead of the first rehearsal (some 7 seconds, once)
	$(B)/python -m athwart.plant.warm

demo: setup  ## set up, propose a thruster system for example 1 and write its papers to build/demo
	$(B)/athwart propose examples/1-*.yaml --papers build/demo

test: setup  ## set up and run the whole test suite
	$(B)/python -m pytest

check: setup  ## formatter, linter, strict types, import layers, dependencies, documentation
	$(B)/ruff format --check --output-format concise .
	$(B)/ruff check --output-format concise .
	$(B)/mypy --strict src tests docs/_ext/athwart_docs
	$(B)/lint-imports --no-logo
	$(B)/deptry src
	@$(MAKE) --no-print-directory docs

docs: setup  ## build the documentation into docs/_build/html, warnings are errors
	$(B)/sphinx-build -q -W --keep-going -b html docs docs/_build/html

lock: $(V)/.made  ## resolve the lock files again (UPGRADE=--upgrade takes newer versions)
	$(COMPILE) $(UPGRADE) --group boot -o boot.lock
	$(COMPILE) $(UPGRADE) pyproject.toml -o run.lock
	$(COMPILE) $(UPGRADE) pyproject.toml --group dev -c run.lock -o dev.lock

browser:  ## tests in a web browser
	@echo "No browser tests yet: athwart has no web pages so far, nothing to install."

all: check test  ## everything that must be green before a change lands

clean:  ## remove what was built (the virtual environment stays; rm -r .venv removes it)
	rm -rf build dist docs/_build docs/_generated .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
